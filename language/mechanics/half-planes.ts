/** Where a·u + b·v + c is 0 or less. */
export interface HalfPlane<Label> {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly label: Label;
}

/** The rectangle that two figures can lie in. */
export interface Box {
  readonly u: Span;
  readonly v: Span;
}

export interface Span {
  readonly least: number;
  readonly most: number;
}

/** A corner of a convex polygon. */
export interface Corner<Label> {
  readonly u: number;
  readonly v: number;
  /** The half plane whose border the side from here to the next corner is part of; absent on a side of the box. */
  readonly side?: HalfPlane<Label>;
}

/** Sides shorter than this share of the box are left out: they are rounding. */
const SHORTEST = 1e-9;

/** The corners of a box, counter-clockwise from its lower left one. */
export function boxCorners<Label>({ u, v }: Box): Corner<Label>[] {
  return [
    { u: u.least, v: v.least },
    { u: u.most, v: v.least },
    { u: u.most, v: v.most },
    { u: u.least, v: v.most },
  ];
}

/**
 * The part of a box that lies in all half planes, as a convex polygon, counter-clockwise; none where nothing does. Each side
 * keeps the half plane that makes it, the first of several with the same border. What is thinner than rounding can be lost. One half plane after the other cuts the
 * polygon (I. Sutherland and G. Hodgman, Communications of the ACM 17 (1974) 32–42, from memory).
 */
export function clipBox<Label>(box: Box, halfPlanes: readonly HalfPlane<Label>[]): Corner<Label>[] {
  let corners = boxCorners<Label>(box);
  for (const halfPlane of halfPlanes) {
    const rounding = SHORTEST * (Math.abs(halfPlane.a) * lengthOf(box.u) + Math.abs(halfPlane.b) * lengthOf(box.v));
    // Of borders that are the same but for rounding the first one stays whole.
    if (corners.every((corner) => beyond(halfPlane, corner) <= rounding)) continue;
    corners = withoutShortSides(box, cut(corners, halfPlane));
  }
  return corners;
}

const lengthOf = ({ least, most }: Span): number => most - least;

function cut<Label>(corners: readonly Corner<Label>[], side: HalfPlane<Label>): Corner<Label>[] {
  const kept: Corner<Label>[] = [];
  for (const [index, corner] of corners.entries()) {
    const next = corners[(index + 1) % corners.length] ?? corner;
    const [here, there] = [beyond(side, corner), beyond(side, next)];
    if (here <= 0) kept.push(corner);
    if (here <= 0 === there <= 0) continue;
    const share = here / (here - there);
    const crossing = { u: corner.u + share * (next.u - corner.u), v: corner.v + share * (next.v - corner.v) };
    // On the way out the new side begins, on the way in the old one goes on.
    kept.push(here <= 0 ? { ...crossing, side } : { ...corner, ...crossing });
  }
  return kept;
}

/** How far a point is beyond a half plane: positive outside of it. */
export function beyond<Label>(
  { a, b, c }: HalfPlane<Label>,
  { u, v }: { readonly u: number; readonly v: number },
): number {
  return a * u + b * v + c;
}

function withoutShortSides<Label>({ u, v }: Box, corners: readonly Corner<Label>[]): Corner<Label>[] {
  const [width, height] = [lengthOf(u), lengthOf(v)];
  return corners.filter((corner, index) => {
    const next = corners[(index + 1) % corners.length] ?? corner;
    return (
      corners.length < 2 ||
      Math.abs(next.u - corner.u) > SHORTEST * width ||
      Math.abs(next.v - corner.v) > SHORTEST * height
    );
  });
}

/** The point of a convex polygon that is least beyond a half plane, and by how much; undefined of no polygon. */
export function leastBeyond<Label>(
  corners: readonly Corner<Label>[],
  halfPlane: HalfPlane<Label>,
): { readonly u: number; readonly v: number; readonly by: number } | undefined {
  let least: { readonly u: number; readonly v: number; readonly by: number } | undefined;
  for (const { u, v } of corners) {
    const by = beyond(halfPlane, { u, v });
    if (least === undefined || by < least.by) least = { u, v, by };
  }
  return least;
}
