import { CANADA } from '../../diagnostics/markets/canada.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { fullContent, isFreshWater } from './certified-weights.ts';
import { grossRatingAtLeast } from './gross-rating-sum.ts';

/** A gross rating covers fresh and hot water and propane too, but no waste water: Canada. */
export const grossRatingForWater: LimitRule<'GVWR-below-water-and-cargo'> = {
  key: 'GVWR-below-water-and-cargo',
  definition: CANADA['GVWR-below-water-and-cargo'],
  markets: ['CA'],
  assess: ({ rig }) =>
    rig.units.flatMap((unit) =>
      grossRatingAtLeast(unit, { text: 'its full fresh water', water: fullFreshWater(unit) }),
    ),
};

/** kg of fresh and hot water in full tanks. */
export function fullFreshWater({ tanks }: Pick<UnitModel, 'tanks'>): number {
  return tanks.filter(isFreshWater).reduce((sum, tank) => sum + fullContent(tank), 0);
}
