import type { Range } from './axes.ts';
import type { Point } from './drawing.ts';

const GAP: Point = { x: Number.NaN, y: Number.NaN };

/** A curve without what lies above or below a range of y; where it leaves or enters the range, it ends on its border. */
export function clipCurve(points: readonly Point[], { least, most }: Range): Point[] {
  const clipped: Point[] = [];
  let previous = GAP;
  for (const point of points) {
    for (const border of bordersBetween(previous, point, least, most)) clipped.push(border);
    const isInside = point.y >= least && point.y <= most;
    clipped.push(isInside ? point : GAP);
    previous = point;
  }
  return clipped;
}

/** Where the way from `a` to `b` meets a border, in its order. */
function bordersBetween(a: Point, b: Point, least: number, most: number): Point[] {
  return [least, most]
    .map((y) => ({ y, share: (y - a.y) / (b.y - a.y) }))
    .filter(({ share }) => share > 0 && share < 1)
    .sort((first, second) => first.share - second.share)
    .map(({ y, share }) => ({ x: a.x + share * (b.x - a.x), y }));
}

/** Value of a curve at `x` between its points; undefined beyond them and in gaps. */
export function valueAt(points: readonly Point[], x: number): number | undefined {
  for (const [i, b] of points.entries()) {
    const a = points[i - 1] ?? b;
    if (!(x >= a.x && x <= b.x)) continue;
    const y = b.x > a.x ? a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y) : b.y;
    if (Number.isFinite(y)) return y;
  }
  return undefined;
}
