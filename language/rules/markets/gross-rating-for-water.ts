import { bindingMarkets } from '../../catalogue/markets.ts';
import { CANADA } from '../../diagnostics/markets/canada.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { fullContent, isFreshWater } from './certified-weights.ts';
import { type Counted, grossRatingAtLeast } from './gross-rating-sum.ts';

/** A gross rating covers fresh and hot water and propane too, but no waste water: Canada. */
export const grossRatingForWater: LimitRule<'GVWR-below-water-and-cargo'> = {
  key: 'GVWR-below-water-and-cargo',
  definition: CANADA['GVWR-below-water-and-cargo'],
  markets: ['CA'],
  assess: ({ rig }) =>
    rig.units.flatMap((unit) =>
      grossRatingAtLeast(unit, waterBeside(unit, bindingMarkets(rig.markets).has('US')), systemOfRig(rig)),
    ),
};

/** A label that is read in the United States as well counts water in its carrying capacity. */
function waterBeside(unit: UnitModel, isCargo: boolean): Counted {
  const water = fullFreshWater(unit);
  const capacity = unit.limits.CCC?.value;
  if (!isCargo || capacity === undefined) return { text: 'its full fresh water', water };
  const beyond = Math.max(0, water - capacity);
  return { text: beyond > 0 ? 'the fresh water that its CCC does not cover' : '', water: beyond };
}

/** kg of fresh and hot water in full tanks. */
export function fullFreshWater({ tanks }: Pick<UnitModel, 'tanks'>): number {
  return tanks.filter(isFreshWater).reduce((sum, tank) => sum + fullContent(tank), 0);
}
