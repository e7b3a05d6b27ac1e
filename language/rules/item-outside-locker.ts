import { finding } from '../diagnostics/create.ts';
import { EXTENTS } from '../diagnostics/extents.ts';
import type { Locker, Stowed } from '../semantics/model.ts';
import { ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';

/** m; less is a matter of rounding. */
const SLACK = 1e-3;

/** Every item that is stowed in a locker but placed by its line: its middle against the extent of the locker. */
export const itemOutsideLocker: Rule = {
  keys: ['item-outside-locker'],
  *check(result) {
    const { rig } = result;
    for (const stowed of [...rig.stowed, ...rig.cases.flatMap((each) => each.stowed)]) {
      const { locker } = stowed;
      const beyond = locker && farthestBeyond(stowed, locker);
      if (locker === undefined || beyond === undefined) continue;
      const place = ownPlace(result, stowed.location);
      const name = `${rig.units[stowed.unit]?.name}.${locker.name}`;
      const parameters = { item: stowed.item.name, locker: name, ...beyond };
      yield finding('item-outside-locker', EXTENTS['item-outside-locker'], parameters, place, [
        ...pointAt(place, locker.location, name),
      ]);
    }
  },
};

/** By how much (m) and to which side the middle of the item lies outside, where it lies outside most. */
function farthestBeyond({ centre, item }: Stowed, locker: Locker): { by: number; side: string } | undefined {
  const half = (item.size?.height ?? 0) / 2;
  const bottom = locker.centre.z;
  const sides = [
    { by: centre.x - locker.centre.x - (locker.length ?? Infinity) / 2, side: 'ahead' },
    { by: locker.centre.x - centre.x - (locker.length ?? Infinity) / 2, side: 'behind the end' },
    { by: centre.y - locker.centre.y - (locker.width ?? Infinity) / 2, side: 'to the left' },
    { by: locker.centre.y - centre.y - (locker.width ?? Infinity) / 2, side: 'to the right' },
    { by: centre.z - bottom - (locker.height ?? Infinity), side: 'above the top' },
    { by: bottom - centre.z - half, side: 'below the floor' },
  ];
  const worst = sides.reduce((a, b) => (b.by > a.by ? b : a));
  return worst.by > SLACK ? worst : undefined;
}
