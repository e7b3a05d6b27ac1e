import { type Line, line, type Point } from './drawing.ts';

/** px between hatch lines. */
const SPACING = 11;

/**
 * Lines at 45° over a rectangle without a convex polygon inside of it; over all of it where there is no polygon. Their places
 * do not depend on the polygon.
 */
export function hatchAround(
  {
    left,
    right,
    top,
    bottom,
  }: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number },
  polygon: readonly Point[],
): Line[] {
  const lines: Line[] = [];
  for (let sum = Math.ceil((left + top) / SPACING) * SPACING; sum < right + bottom; sum += SPACING) {
    const at = (x: number): Point => ({ x, y: sum - x });
    const from = Math.max(left, sum - bottom);
    const to = Math.min(right, sum - top);
    if (!(to > from)) continue;
    const inside = crossed(polygon, sum);
    if (inside === undefined) lines.push(line('hatch', at(from), at(to)));
    else {
      if (inside.from > from) lines.push(line('hatch', at(from), at(inside.from)));
      if (inside.to < to) lines.push(line('hatch', at(inside.to), at(to)));
    }
  }
  return lines;
}

/** Between which x the line x + y = sum runs inside a convex polygon. */
function crossed(polygon: readonly Point[], sum: number): { readonly from: number; readonly to: number } | undefined {
  const crossings = polygon.flatMap((a, index) => {
    const b = polygon[(index + 1) % polygon.length] ?? a;
    const [before, after] = [a.x + a.y - sum, b.x + b.y - sum];
    if (before === after || before * after > 0) return [];
    return [a.x + ((b.x - a.x) * before) / (before - after)];
  });
  return crossings.length < 2 ? undefined : { from: Math.min(...crossings), to: Math.max(...crossings) };
}
