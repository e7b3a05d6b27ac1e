import { finding } from '../diagnostics/create.ts';
import { EXTENTS } from '../diagnostics/extents.ts';
import { shortfall } from './fit.ts';
import { ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';

/** Every stowed item with a stated size against the inner size of its locker. */
export const itemTooLarge: Rule = {
  keys: ['item-too-large'],
  *check(result) {
    const { rig } = result;
    for (const { item, locker, unit, location } of [...rig.stowed, ...rig.cases.flatMap(({ stowed }) => stowed)]) {
      if (item.size === undefined || locker === undefined) continue;
      const by = shortfall(item.size, locker);
      if (by === 0) continue;
      const place = ownPlace(result, location);
      const name = `${rig.units[unit]?.name}.${locker.name}`;
      const parameters = { item: item.name, size: item.size, locker: name, room: locker, by };
      yield finding('item-too-large', EXTENTS['item-too-large'], parameters, place, [
        ...pointAt(place, locker.location, name),
        ...pointAt(place, item.location, item.name),
      ]);
    }
  },
};
