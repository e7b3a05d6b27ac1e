import { MARKETS } from '../../catalogue/markets.ts';
import { PRACTICE } from '../../diagnostics/markets/practice.ts';
import { LENGTH } from '../../units/dimension.ts';
import type { Limited, LimitRule } from '../limits/limit-rule.ts';
import { carriesLoad } from '../subjects.ts';
import { type HeavyItem, heavyItems, isOnBoard } from './heavy-items.ts';

/** Of the distance from the coupling to the axles: further from the axles than that is far. A choice of this tool. */
const FAR = 0.3;

/** Every market: heavy things stand near the axles of a trailer on one axle or group. */
export const heavyItemFar: LimitRule<'heavy-item-far'> = {
  key: 'heavy-item-far',
  definition: PRACTICE['heavy-item-far'],
  markets: MARKETS.map(({ name }) => name),
  assess: ({ rig }) => heavyItems(rig).flatMap(distanceOf),
};

function distanceOf(heavy: HeavyItem): Limited[] {
  const { coupling, groups } = heavy.trailer;
  const [group, another] = groups;
  if (coupling === undefined || !carriesLoad(coupling) || group === undefined || another !== undefined) return [];
  const value = Math.abs(heavy.stowed.centre.x - group.x);
  const limit = FAR * Math.abs(coupling.x - group.x);
  return [
    {
      kind: 'limited',
      subject: heavy.subject,
      quantity: 'the distance from the axles',
      sense: 'at most',
      dimension: LENGTH,
      limitName: 'three tenths of the distance from coupling to axles',
      location: heavy.stowed.location,
      fixed: true,
      compare: (state) => (isOnBoard(state, heavy) ? { value, limit } : undefined),
    },
  ];
}
