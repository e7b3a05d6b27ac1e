import { bindingMarkets } from '../../catalogue/markets.ts';
import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { addInfluences, evaluateLoadValue, type Influence, massWithout, TARE } from '../../mechanics/influence.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { Limit, RigModel, Tank, UnitModel } from '../../semantics/model.ts';
import { SEAT, tankSort } from '../../semantics/sources.ts';
import type { StateResult } from '../../semantics/state.ts';
import { MASS } from '../../units/dimension.ts';
import { formatMass } from '../../units/display.ts';
import { lessOf } from '../goal.ts';
import type { Limited, LimitRule } from '../limits/limit-rule.ts';
import { beyond, influenceOf } from '../states.ts';
import { carriesLoad } from '../subjects.ts';
import { addedWeight, isFreshWater, isOperating } from './certified-weights.ts';

/** What is on board against the carrying capacity on the label, in every case. */
export const overCargoCapacity: LimitRule<'over-cargo-capacity'> = {
  key: 'over-cargo-capacity',
  definition: UNITED_STATES['over-cargo-capacity'],
  markets: 'everywhere',
  assess: ({ rig }) => rig.units.flatMap((unit, index) => assessUnit(rig, unit, index)),
};

function assessUnit(rig: RigModel, unit: UnitModel, index: number): Limited[] {
  const { CCC, OCCC } = unit.limits;
  const withOccupants = OCCC && limitOf(rig, { unit, index, limit: OCCC, name: 'OCCC', occupants: true });
  const cargoAlone = CCC && limitOf(rig, { unit, index, limit: CCC, name: 'CCC', occupants: false });
  return [withOccupants, cargoAlone].flatMap((each) => each ?? []);
}

interface Label {
  readonly unit: UnitModel;
  readonly index: number;
  readonly limit: Limit;
  readonly name: 'CCC' | 'OCCC';
  /** Whether the people on board count. */
  readonly occupants: boolean;
}

function limitOf(rig: RigModel, label: Label): Limited {
  const { unit, index, limit, name, occupants } = label;
  const behind = rig.units[index + 1]?.coupling;
  const hitch =
    unit.kind === 'vehicle' && behind !== undefined && carriesLoad(behind) ? [`${unit.name}.hitch.load`] : [];
  const carried = carriedBy(rig, label);
  const load = (state: StateResult): Influence | undefined => {
    const onHitch = influenceOf(state, hitch);
    return onHitch && addInfluences(carried, onHitch);
  };
  const added = Math.max(0, addedWeight(unit) ?? 0);
  const less = added > 0 ? ` less the ${formatMass(added, systemOfRig(rig))} added to the unit since` : '';
  return {
    kind: 'limited',
    subject: unit.name,
    quantity: `${occupants ? 'what is on board' : 'the cargo'}${hitch.length === 0 ? '' : ' with the coupling load'}`,
    sense: 'at most',
    dimension: MASS,
    limitName: `its ${name}${less}`,
    location: limit.location,
    compare: (state) => {
      const counted = load(state);
      return counted && { value: evaluateLoadValue(counted, state.sources), limit: limit.value - added };
    },
    excess: (state) => beyond(load(state), limit.value - added),
    goal: (state, by) => {
      const counted = load(state);
      return counted && lessOf(counted, by);
    },
  };
}

/**
 * kg of cargo: items, and the content of tanks that are not part of the unloaded unit. Fresh water is cargo in the United
 * States and part of what the gross rating covers in Canada.
 */
function carriedBy(rig: RigModel, { unit, index, occupants }: Label): Influence {
  const markets = bindingMarkets(rig.markets);
  const waterIsCargo = !markets.has('CA') || markets.has('US');
  const isOfUnit = (tank: Tank) => isOperating(tank) || (!waterIsCargo && isFreshWater(tank));
  const notCounted = [TARE, ...unit.tanks.filter(isOfUnit).map(tankSort), ...(occupants ? [] : [SEAT])];
  const empty = unit.tanks.filter((tank) => !isOfUnit(tank)).reduce((sum, tank) => sum + tank.empty, 0);
  return { ...massWithout(rig.units.length, index, notCounted), constant: -empty };
}
