import { bindingMarkets } from '../../catalogue/markets.ts';
import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { massInfluence, sumInfluences } from '../../mechanics/influence.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { Limit, RigModel, UnitModel } from '../../semantics/model.ts';
import type { Source, StateResult } from '../../semantics/state.ts';
import { MASS } from '../../units/dimension.ts';
import { formatMass } from '../../units/display.ts';
import { lessOf } from '../goal.ts';
import type { Limited, LimitRule } from '../limits/limit-rule.ts';
import { influenceOf, quantityOf } from '../states.ts';
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
  const hitch = unit.kind === 'vehicle' && behind !== undefined && carriesLoad(behind) ? `${unit.name}.hitch.load` : '';
  const carried = carriedBy(rig, label);
  const added = Math.max(0, addedWeight(unit) ?? 0);
  const less = added > 0 ? ` less the ${formatMass(added, systemOfRig(rig))} added to the unit since` : '';
  return {
    kind: 'limited',
    subject: unit.name,
    quantity: `${occupants ? 'what is on board' : 'the cargo'}${hitch === '' ? '' : ' with the coupling load'}`,
    sense: 'at most',
    dimension: MASS,
    limitName: `its ${name}${less}`,
    location: limit.location,
    compare: (state) => {
      const coupling = hitch === '' ? 0 : quantityOf(state, hitch);
      return coupling === undefined ? undefined : { value: carried(state) + coupling, limit: limit.value - added };
    },
    goal: (state, by) => {
      const mass = massInfluence(rig.units.length, [index]);
      const coupling = hitch === '' ? undefined : influenceOf(state, [hitch]);
      return lessOf(coupling === undefined ? mass : sumInfluences(rig.units.length, [mass, coupling]), by);
    },
  };
}

/**
 * kg of cargo in a state: items, and the content of tanks that are not part of the unloaded unit. Fresh water is cargo in the
 * United States and part of what the gross rating covers in Canada.
 */
function carriedBy(rig: RigModel, { unit, index, occupants }: Label): (state: StateResult) => number {
  const markets = bindingMarkets(rig.markets);
  const waterIsCargo = !markets.has('CA') || markets.has('US');
  const empties = new Map(
    unit.tanks
      .filter((tank) => !isOperating(tank) && (waterIsCargo || !isFreshWater(tank)))
      .map((tank) => [`${unit.name}.${tank.name}`, tank.empty]),
  );
  const cargoOf = ({ kind, name, body }: Source): number => {
    if (kind === 'item' || (kind === 'seat' && occupants)) return body.mass;
    const empty = kind === 'tank' ? empties.get(name) : undefined;
    return empty === undefined ? 0 : body.mass - empty;
  };
  return ({ sources }) =>
    sources.filter((source) => source.unit === index).reduce((sum, { id }) => sum + cargoOf(id), 0);
}
