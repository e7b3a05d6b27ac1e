import { bindingMarkets } from '../../catalogue/markets.ts';
import { GERMANY } from '../../diagnostics/markets/germany.ts';
import { blendInfluences, type Influence } from '../../mechanics/influence.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { StateResult } from '../../semantics/state.ts';
import { MASS } from '../../units/dimension.ts';
import { lessOf } from '../goal.ts';
import type { Comparison, Limited, LimitRule } from '../limits/limit-rule.ts';
import { beyond, influenceOf, quantityOf } from '../states.ts';
import { carriesLoad, isSemiTrailer } from '../subjects.ts';
import { isHeavy } from './coupling-load-minimum.ts';

const SHARE = 0.15;
/** kg */
const MOST = 2000;

/** Rigid drawbar and centre-axle trailers above 3.5 t, in Germany: at most 15 % of the mass and 2.00 t. */
export const couplingLoadMaximum: LimitRule<'coupling-load-maximum'> = {
  key: 'coupling-load-maximum',
  definition: GERMANY['coupling-load-maximum'],
  markets: ['DE'],
  assess: ({ rig }) => rig.units.flatMap(maximumOf),
};

/**
 * kg that the coupling of a trailer may carry that weighs `mass` kg and may weigh `permissible` kg; undefined for one that
 * the text does not speak of.
 */
export function mostCouplingLoad(mass: number, permissible: number): number | undefined {
  return isHeavy(permissible) ? Math.min(SHARE * mass, MOST) : undefined;
}

function mostOf(state: StateResult, { name, limits }: UnitModel): number | undefined {
  const mass = quantityOf(state, `${name}.mass`) ?? 0;
  return mostCouplingLoad(mass, limits.ATM?.value ?? mass);
}

/** Whether the coupling of a trailer carries more than the text permits where it binds. */
export function isHighByRule(state: StateResult, unit: UnitModel): boolean {
  if (!bindingMarkets(state.rig.markets).has('DE') || !isBound(unit)) return false;
  const comparison = compare(state, unit);
  return comparison !== undefined && comparison.value > comparison.limit;
}

function isBound({ coupling }: UnitModel): boolean {
  return coupling !== undefined && carriesLoad(coupling) && !isSemiTrailer(coupling);
}

function compare(state: StateResult, unit: UnitModel): Comparison | undefined {
  const value = quantityOf(state, `${unit.name}.coupling.load`);
  const limit = mostOf(state, unit);
  return value === undefined || limit === undefined ? undefined : { value, limit };
}

/** Beyond the lesser of both where it is beyond either; undefined for a trailer that is heavy by what it weighs in a state. */
function excessOf(state: StateResult, { name, limits: { ATM } }: UnitModel): readonly Influence[] | undefined {
  const load = influenceOf(state, [`${name}.coupling.load`]);
  const mass = influenceOf(state, [`${name}.mass`]);
  if (load === undefined || mass === undefined || ATM === undefined) return undefined;
  return isHeavy(ATM.value) ? [blendInfluences(load, 1, mass, -SHARE), ...(beyond(load, MOST) ?? [])] : [];
}

function maximumOf(unit: UnitModel): Limited[] {
  const { name, coupling } = unit;
  if (coupling === undefined || !isBound(unit)) return [];
  return [
    {
      kind: 'limited',
      subject: `Coupling of ${name}`,
      quantity: 'the coupling load',
      sense: 'at most',
      dimension: MASS,
      limitName: 'the most that is permitted',
      location: coupling.location,
      compare: (state) => compare(state, unit),
      excess: (state) => excessOf(state, unit),
      goal: (state, by) => {
        const load = influenceOf(state, [`${name}.coupling.load`]);
        const mass = influenceOf(state, [`${name}.mass`]);
        const limit = mostOf(state, unit);
        if (load === undefined || mass === undefined || limit === undefined) return undefined;
        return {
          ...lessOf(blendInfluences(load, 1, mass, limit < MOST ? -SHARE : 0), by, load),
          of: 'coupling load',
          wanted: 'less',
        };
      },
    },
  ];
}
