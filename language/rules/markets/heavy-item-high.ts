import { MARKETS } from '../../catalogue/markets.ts';
import { PRACTICE } from '../../diagnostics/markets/practice.ts';
import { LENGTH } from '../../units/dimension.ts';
import type { Limited, LimitRule } from '../limits/limit-rule.ts';
import { type HeavyItem, heavyItems, isOnBoard } from './heavy-items.ts';

/** Of the track of the trailer: higher above the road than that is high. A choice of this tool. */
const HIGH = 0.75;

/** Every market: heavy things stand low in a trailer. */
export const heavyItemHigh: LimitRule<'heavy-item-high'> = {
  key: 'heavy-item-high',
  definition: PRACTICE['heavy-item-high'],
  markets: MARKETS.map(({ name }) => name),
  assess: ({ rig }) => heavyItems(rig).flatMap(heightOf),
};

function heightOf(heavy: HeavyItem): Limited[] {
  const tracks = heavy.trailer.groups.flatMap(({ axles }) => axles.map(({ track }) => track));
  if (tracks.length === 0) return [];
  const value = heavy.stowed.centre.z;
  const limit = HIGH * Math.min(...tracks);
  return [
    {
      kind: 'limited',
      subject: heavy.subject,
      quantity: 'the height of its middle',
      sense: 'at most',
      dimension: LENGTH,
      limitName: 'three quarters of the track of the trailer',
      location: heavy.stowed.location,
      fixed: true,
      compare: (state) => (isOnBoard(state, heavy) ? { value, limit } : undefined),
    },
  ];
}
