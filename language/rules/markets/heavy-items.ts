import type { RigModel, Stowed, UnitModel } from '../../semantics/model.ts';
import { tareOf } from '../../semantics/running-order.ts';
import type { StateResult } from '../../semantics/state.ts';

/** From this share of the empty trailer on, what is stowed as one thing is heavy: a choice of this tool. */
const HEAVY_SHARE = 0.05;

/** Things of one line of a rig that are heavy for the trailer they are in. */
export interface HeavyItem {
  readonly trailer: UnitModel;
  readonly stowed: Stowed;
  /** `Item generator in TourerB.boot`. */
  readonly subject: string;
}

/** What is heavy in the trailers of a rig, in all cases, as written. */
export function heavyItems({ units, stowed, cases }: RigModel): readonly HeavyItem[] {
  return [...stowed, ...cases.flatMap((each) => each.stowed)].flatMap((one) => {
    const trailer = units[one.unit];
    const { item, count, locker } = one;
    if (trailer?.kind !== 'trailer' || item.mass * count < HEAVY_SHARE * tareOf(trailer)) return [];
    const place = locker === undefined ? trailer.name : `${trailer.name}.${locker.name}`;
    return [{ trailer, stowed: one, subject: `Item ${item.name} in ${place}` }];
  });
}

/** Whether it is on board in a state. */
export function isOnBoard(state: StateResult, { stowed }: HeavyItem): boolean {
  return state.sources.some(({ id }) => id.stowed === stowed);
}
