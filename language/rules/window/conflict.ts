import { type Box, beyond, boxCorners, clipBox, leastBeyond } from '../../mechanics/half-planes.ts';
import type { Worst } from '../reach/breach.ts';
import type { ReachLimit } from '../reach/reach-limit.ts';
import type { Border, Cut, WorstAt } from './window.ts';

/** Why no amounts hold all limits. */
export interface Conflict {
  /** Limits that no amounts hold, each for itself. */
  readonly alone: readonly Broken[];
  /**
   * Two or three limits of which each can be held, but not all at once; none where one fails alone. They are told where the
   * last one is broken least of all that the others allow.
   */
  readonly together: readonly Broken[];
}

/** A limit, and the amounts that it is told at: where it is broken least. */
export interface Broken {
  readonly limit: ReachLimit;
  readonly u: number;
  readonly v: number;
  /** The worst state there. */
  readonly worst?: Worst;
}

/** Three convex sets of the plane that meet two by two need not meet, but of more some three do not (E. Helly, 1923, from memory). */
const MOST_TOGETHER = 3;

/** Why a box has no point in all half planes. */
export function conflictOf(box: Box, borders: readonly Border[], worstAt: WorstAt): Conflict {
  const byLimit = new Map<ReachLimit, Border[]>();
  for (const border of borders) {
    if (boxCorners(box).every((corner) => beyond(border, corner) <= 0)) continue;
    byLimit.set(border.label.limit, [...(byLimit.get(border.label.limit) ?? []), border]);
  }
  const limits = [...byLimit.keys()];
  const bordersOf = (some: readonly ReachLimit[]) => some.flatMap((limit) => byLimit.get(limit) ?? []);
  const alone = limits.filter((limit) => clipBox(box, bordersOf([limit])).length === 0);
  if (alone.length > 0) {
    return { alone: alone.map((limit) => brokenLeast(box, bordersOf([limit]), limit, [], worstAt)), together: [] };
  }
  const together = subsets(limits, 2, MOST_TOGETHER).find((some) => clipBox(box, bordersOf(some)).length === 0) ?? [];
  const last = together.at(-1);
  if (last === undefined) return { alone: [], together: [] };
  const others = together.slice(0, -1);
  const broken = brokenLeast(box, bordersOf([last]), last, bordersOf(others), worstAt);
  return { alone: [], together: [...others.map((limit) => toldAt(limit, broken, worstAt)), broken] };
}

function brokenLeast(
  box: Box,
  own: readonly Border[],
  limit: ReachLimit,
  others: readonly Border[],
  worstAt: WorstAt,
): Broken {
  const corners = clipBox<Cut>(box, others);
  let most = { u: box.u.least, v: box.v.least, by: Number.NEGATIVE_INFINITY };
  for (const border of own) {
    const least = leastBeyond(corners, border);
    if (least !== undefined && least.by > most.by) most = least;
  }
  return toldAt(limit, most, worstAt);
}

function toldAt(limit: ReachLimit, { u, v }: { readonly u: number; readonly v: number }, worstAt: WorstAt): Broken {
  const worst = worstAt(limit, [u, v]);
  return { limit, u, v, ...(worst === undefined ? {} : { worst }) };
}

function subsets<Each>(all: readonly Each[], least: number, most: number): Each[][] {
  const found: Each[][] = [];
  const grow = (some: Each[], from: number, size: number): void => {
    if (some.length === size) {
      found.push(some);
      return;
    }
    for (let index = from; index < all.length; index++) {
      const next = all[index];
      if (next !== undefined) grow([...some, next], index + 1, size);
    }
  };
  for (let size = least; size <= most; size++) grow([], 0, size);
  return found;
}
