import { UNITED_KINGDOM } from '../../diagnostics/markets/united-kingdom.ts';
import { tareOf } from '../../semantics/running-order.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { quantityOf } from '../states.ts';
import { towedIn, towedLimit, towOf } from './towed.ts';

const SHARE = 0.85;

/** United Kingdom: what is towed is at most 85 % of the tow vehicle's kerb mass. */
export const kerbMassShare: LimitRule<'kerb-mass-share'> = {
  key: 'kerb-mass-share',
  definition: UNITED_KINGDOM['kerb-mass-share'],
  markets: ['UK'],
  assess: ({ rig }) => {
    const tow = towOf(rig);
    if (tow === undefined) return [];
    const { vehicle, trailers } = tow;
    return [
      towedLimit(trailers, usualMassTowed(tareOf(vehicle)), {
        limitName: `85 % of the kerb mass of ${vehicle.name}`,
        location: vehicle.location,
        // Heavier than the vehicle as loaded: that is told as such.
        toldElsewhere: (state) =>
          (towedIn(state, trailers) ?? 0) > (quantityOf(state, `${vehicle.name}.mass`) ?? Number.POSITIVE_INFINITY),
      }),
    ];
  },
};

/** kg that practice tows at most behind a vehicle of a kerb mass in kg. */
export function usualMassTowed(kerb: number): number {
  return SHARE * kerb;
}
