import type { Box, Corner } from '../../mechanics/half-planes.ts';
import type { Worst } from '../reach/breach.ts';
import type { ReachLimit } from '../reach/reach-limit.ts';
import type { Chosen } from './choose.ts';
import type { Border, Cut, WorstAt } from './window.ts';

/** A part of a window's border that one limit makes, straight or of several straight pieces. */
export interface Side {
  readonly limit: ReachLimit;
  /** From its first corner to its last, counter-clockwise around the window. */
  readonly corners: readonly Corner<Cut>[];
  readonly borders: readonly Border[];
  /** Which of the two amounts it is told as a bound of, and to which side. */
  readonly bounds: Bounds;
  readonly exact: boolean;
  /** The state that is at the limit in the middle of the side. */
  readonly worst?: Worst;
}

export interface Bounds {
  readonly axis: 'u' | 'v';
  readonly sense: 'at most' | 'at least';
}

/** The two amounts, and between what they lie. */
export interface Field {
  readonly box: Box;
  readonly axes: readonly [Chosen, Chosen];
}

/** The pieces of a window's border that limits make; neighbouring pieces of one limit are one side. */
export function sidesOf(field: Field, corners: readonly Corner<Cut>[], worstAt: WorstAt): Side[] {
  const start = Math.max(
    0,
    corners.findIndex((corner, index) => !goesOn(field, corners.at(index - 1), corner)),
  );
  const round = [...corners.slice(start), ...corners.slice(0, start)];
  const sides: { borders: Border[]; corners: Corner<Cut>[] }[] = [];
  for (const [index, corner] of round.entries()) {
    const next = round[(index + 1) % round.length] ?? corner;
    const last = sides.at(-1);
    if (corner.side === undefined) continue;
    if (last !== undefined && index > 0 && goesOn(field, round[index - 1], corner)) {
      last.borders.push(corner.side);
      last.corners.push(next);
    } else sides.push({ borders: [corner.side], corners: [corner, next] });
  }
  return sides.flatMap(({ borders, corners: own }) => {
    const [border] = borders;
    return border === undefined ? [] : [sideOf(field, border, borders, own, worstAt)];
  });
}

function sideOf(
  field: Field,
  { a, b, label: { limit } }: Border,
  borders: readonly Border[],
  corners: readonly Corner<Cut>[],
  worstAt: WorstAt,
): Side {
  const from = corners[Math.floor((corners.length - 1) / 2)] ?? { u: 0, v: 0 };
  const to = corners[Math.ceil((corners.length - 1) / 2)] ?? from;
  const between = corners.length === 2 ? corners : [from, to];
  const mean = (axis: 'u' | 'v') => between.reduce((sum, corner) => sum + corner[axis], 0) / between.length;
  const worst = worstAt(limit, [mean('u'), mean('v')]);
  return {
    limit,
    corners,
    borders,
    bounds: boundsOf(field, { a, b }),
    exact: borders.every(({ label }) => label.exact),
    ...(worst === undefined ? {} : { worst }),
  };
}

/** Levels rather than pieces are told as bounded, unless they do far less to the load. */
const RATHER_LEVELS = 20;

/** The amount that does more to the load over its span is told as bounded; the other one tells when. */
function boundsOf({ box: { u, v }, axes: [first, second] }: Field, { a, b }: Pick<Border, 'a' | 'b'>): Bounds {
  const weight = ({ kind }: Chosen) => (kind === 'tank' ? RATHER_LEVELS : 1);
  const [across, up] = [Math.abs(a) * (u.most - u.least), Math.abs(b) * (v.most - v.least)];
  const axis = across * weight(first) > up * weight(second) ? 'u' : 'v';
  return { axis, sense: (axis === 'u' ? a : b) > 0 ? 'at most' : 'at least' };
}

function goesOn(field: Field, previous: Corner<Cut> | undefined, { side }: Corner<Cut>): boolean {
  const before = previous?.side;
  if (before === undefined || side === undefined) return false;
  const [one, other] = [boundsOf(field, before), boundsOf(field, side)];
  return (
    before.label.limit === side.label.limit &&
    before.label.index === side.label.index &&
    one.axis === other.axis &&
    one.sense === other.sense
  );
}
