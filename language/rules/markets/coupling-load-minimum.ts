import { bindingMarkets } from '../../catalogue/markets.ts';
import { GERMANY } from '../../diagnostics/markets/germany.ts';
import { blendInfluences, type Influence, scaleInfluence } from '../../mechanics/influence.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { StateResult } from '../../semantics/state.ts';
import { MASS } from '../../units/dimension.ts';
import { lessOf } from '../goal.ts';
import type { Comparison, Limited, LimitRule } from '../limits/limit-rule.ts';
import { influenceOf, quantityOf } from '../states.ts';
import { carriesLoad, isSemiTrailer } from '../subjects.ts';

const SHARE = 0.04;
/** kg */
const HEAVY_TRAILER = 3500;
const MOST_ASKED = { light: 25, heavy: 500 };

/** Rigid drawbar and centre-axle trailers, in Germany: at least 4 % of the actual mass. */
export const couplingLoadMinimum: LimitRule<'coupling-load-minimum'> = {
  key: 'coupling-load-minimum',
  definition: GERMANY['coupling-load-minimum'],
  markets: ['DE'],
  assess: ({ rig }) => rig.units.flatMap(minimumOf),
};

/** kg asked for a trailer that weighs `mass` kg and may weigh `permissible` kg. */
export function leastCouplingLoad(mass: number, permissible: number): number {
  return Math.min(SHARE * mass, isHeavy(permissible) ? MOST_ASKED.heavy : MOST_ASKED.light);
}

/** Whether a trailer that may weigh `permissible` kg is one of those that the text treats as heavy. */
export const isHeavy = (permissible: number): boolean => permissible > HEAVY_TRAILER;

/** Whether the coupling of a trailer carries less than the text asks for where it binds. */
export function isLowByRule(state: StateResult, unit: UnitModel): boolean {
  if (!bindingMarkets(state.rig.markets).has('DE')) return false;
  const comparison = compare(state, unit);
  return comparison !== undefined && comparison.value < comparison.limit;
}

function compare(state: StateResult, { name, limits }: UnitModel): Comparison | undefined {
  const value = quantityOf(state, `${name}.coupling.load`);
  const mass = quantityOf(state, `${name}.mass`);
  if (value === undefined || mass === undefined) return undefined;
  return { value, limit: leastCouplingLoad(mass, limits.ATM?.value ?? mass) };
}

/**
 * What is missing to either of the two of which the lesser is asked for; undefined for a trailer that is heavy by what it weighs in
 * a state: what is asked for then leaps.
 */
function missingOf(
  state: StateResult,
  { name, limits: { ATM } }: UnitModel,
): readonly [Influence, Influence] | undefined {
  const load = influenceOf(state, [`${name}.coupling.load`]);
  const mass = influenceOf(state, [`${name}.mass`]);
  if (load === undefined || mass === undefined || ATM === undefined) return undefined;
  const most = isHeavy(ATM.value) ? MOST_ASKED.heavy : MOST_ASKED.light;
  return [blendInfluences(mass, SHARE, load, -1), { ...scaleInfluence(load, -1), constant: most - load.constant }];
}

function minimumOf(unit: UnitModel): Limited[] {
  const { name, coupling } = unit;
  if (coupling === undefined || !carriesLoad(coupling) || isSemiTrailer(coupling)) return [];
  return [
    {
      kind: 'limited',
      subject: `Coupling of ${name}`,
      quantity: 'the coupling load',
      sense: 'at least',
      dimension: MASS,
      limitName: 'the least that is asked for',
      location: coupling.location,
      compare: (state) => compare(state, unit),
      lesser: (state) => missingOf(state, unit),
      goal: (state, by) => {
        const load = influenceOf(state, [`${name}.coupling.load`]);
        const mass = influenceOf(state, [`${name}.mass`]);
        if (load === undefined || mass === undefined) return undefined;
        const asked = compare(state, unit)?.limit ?? 0;
        const isShare = asked !== MOST_ASKED.light && asked !== MOST_ASKED.heavy;
        return {
          ...lessOf(blendInfluences(load, -1, mass, isShare ? SHARE : 0), by, load),
          of: 'coupling load',
          wanted: 'more',
        };
      },
    },
  ];
}
