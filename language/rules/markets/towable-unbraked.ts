import { EUROPEAN_UNION } from '../../diagnostics/markets/european-union.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { towableUnbraked } from './towable-mass.ts';
import { towedLimit, towOf } from './towed.ts';

/** European Union: what may be towed without brakes. */
export const towableMassUnbraked: LimitRule<'towable-mass-unbraked'> = {
  key: 'towable-mass-unbraked',
  definition: EUROPEAN_UNION['towable-mass-unbraked'],
  markets: ['EU'],
  assess: ({ rig }) => {
    const tow = towOf(rig);
    const towable = tow && towableUnbraked(tow.vehicle);
    if (tow === undefined || tow.unbraked.length === 0 || towable === undefined) return [];
    const { limit, limitName, isMakers } = towable;
    return [
      towedLimit(tow.unbraked, limit, { limitName, location: tow.vehicle.location, toldElsewhere: () => isMakers }),
    ];
  },
};
