import type { Size } from '../mechanics/vector.ts';
import type { Locker } from '../semantics/model.ts';

/**
 * How much (m) an item is too large for a locker in the way it fits best, 0 where it fits. Its edges lie along those of
 * the locker, on any of its sides; dimensions of the locker that are not stated set no bound, except that in a locker
 * without a stated height an item is not stood up higher than it is.
 */
export function shortfall(size: Size, { length, width, height }: Locker): number {
  const { length: a, width: b, height: c } = size;
  const poses = [
    [a, b, c],
    [b, a, c],
    [a, c, b],
    [c, a, b],
    [b, c, a],
    [c, b, a],
  ] as const;
  let least = Number.POSITIVE_INFINITY;
  for (const [along, across, up] of poses) {
    if (height === undefined && up > c) continue;
    const beyond = Math.max(excess(along, length), excess(across, width), excess(up, height));
    least = Math.min(least, beyond);
  }
  return least;
}

/** A tenth of a millimetre is rounding. */
const ROUNDING = 1e-4;

function excess(extent: number, room: number | undefined): number {
  return room === undefined || extent <= room + ROUNDING ? 0 : extent - room;
}
