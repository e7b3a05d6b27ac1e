import { GERMANY } from '../../diagnostics/markets/germany.ts';
import { blendInfluences } from '../../mechanics/influence.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import { lessOf } from '../goal.ts';
import type { Limited, LimitRule } from '../limits/limit-rule.ts';
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

/** kg asked for a trailer of `mass` kg. */
export function leastCouplingLoad(mass: number): number {
  return Math.min(SHARE * mass, mass > HEAVY_TRAILER ? MOST_ASKED.heavy : MOST_ASKED.light);
}

function minimumOf({ name, coupling }: UnitModel): Limited[] {
  if (coupling === undefined || !carriesLoad(coupling) || isSemiTrailer(coupling)) return [];
  const loadName = `${name}.coupling.load`;
  const massName = `${name}.mass`;
  return [
    {
      kind: 'limited',
      subject: `Coupling of ${name}`,
      quantity: 'the coupling load',
      sense: 'at least',
      dimension: MASS,
      limitName: 'the least that is asked for',
      location: coupling.location,
      compare: (state) => {
        const value = quantityOf(state, loadName);
        const mass = quantityOf(state, massName);
        return value === undefined || mass === undefined ? undefined : { value, limit: leastCouplingLoad(mass) };
      },
      goal: (state, by) => {
        const load = influenceOf(state, [loadName]);
        const mass = influenceOf(state, [massName]);
        if (load === undefined || mass === undefined) return undefined;
        const isShare = leastCouplingLoad(quantityOf(state, massName) ?? 0) < MOST_ASKED.light;
        return { ...lessOf(blendInfluences(load, -1, mass, isShare ? SHARE : 0), by, load), of: 'coupling load' };
      },
    },
  ];
}
