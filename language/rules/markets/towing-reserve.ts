import { MARKETS } from '../../catalogue/markets.ts';
import { PRACTICE } from '../../diagnostics/markets/practice.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { limitToWrite } from '../limits/to-write.ts';
import { towedIn, towedLimit, towedUnstated, towOf } from './towed.ts';

/** "Half to six tenths" of the rating: what is beyond the upper end is told. */
const SHARE = 0.6;

/** Every market: a loaded trailer stays well under the towing rating. */
export const towingReserve: LimitRule<'towing-reserve'> = {
  key: 'towing-reserve',
  definition: PRACTICE['towing-reserve'],
  markets: MARKETS.map(({ name }) => name),
  assess: ({ rig }) => {
    const tow = towOf(rig);
    if (tow === undefined) return [];
    const { vehicle, trailers } = tow;
    const { towing } = vehicle.limits;
    if (towing === undefined) {
      return [towedUnstated(trailers, limitToWrite(vehicle, 'towing', systemOfRig(rig)))];
    }
    return [
      towedLimit(trailers, SHARE * towing.value, {
        limitName: `six tenths of the towing rating of ${vehicle.name}`,
        location: towing.location,
        // Over the rating itself: that is told as such.
        toldElsewhere: (state) => (towedIn(state, trailers) ?? 0) > towing.value,
      }),
    ];
  },
};
