import { type Choice, type FreeMass, findExtremes, valueAt } from './envelope.ts';
import type { Span } from './half-planes.ts';
import type { Influence } from './influence.ts';

/** Something whose amount is chosen, with each way in which that amount can weigh and lie. */
export interface ChosenMass {
  readonly span: Span;
  readonly ways: readonly ((amount: number) => Choice)[];
}

/** a·u + b·v + c, kg: no less than a load can be with the amounts u and v, whatever the rest is. */
export interface Bound {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Whether the load takes that value for all u and v; a bound on the safe side otherwise. */
  readonly exact: boolean;
}

/**
 * Bounds of a load over everything that the rest of the masses can be, for two chosen amounts: the greatest of them bounds it.
 *
 * A load is a constant and one term for each mass, so that the greatest value is that of the rest plus the terms of the two.
 * A term is linear in its amount wherever its place stays; the load is then the greatest of the bounds, exactly. Where the load
 * depends on height, and a content rises with its level, the term is convex in the level and replaced by chords, or concave
 * and replaced by a tangent: both lie above it.
 */
export function boundsOf(
  load: Influence,
  first: ChosenMass,
  second: ChosenMass | undefined,
  rest: readonly FreeMass[],
): Bound[] {
  const constant = findExtremes({ numerator: load }, rest)?.most.value ?? 0;
  const own = { ...load, constant: 0 };
  const others = second === undefined ? [NOTHING] : linesAbove(own, second);
  return linesAbove(own, first).flatMap((u) =>
    others.map((v) => ({
      a: u.slope,
      b: v.slope,
      c: constant + u.base + v.base,
      exact: u.exact && v.exact,
    })),
  );
}

interface Line {
  readonly slope: number;
  readonly base: number;
  readonly exact: boolean;
}

const NOTHING: Line = { slope: 0, base: 0, exact: true };

/** Chords that a convex term is replaced by. */
const CHORDS = 16;
/** Deviation from a straight line that is rounding, relative to the term. */
const STRAIGHT = 1e-10;

function linesAbove(load: Influence, { span, ways }: ChosenMass): Line[] {
  return ways.flatMap((way) => {
    const term = (amount: number) => valueAt(load, [way(amount)]);
    const { least, most } = span;
    const [start, middle, end] = [term(least), term((least + most) / 2), term(most)];
    const sag = (start + end) / 2 - middle;
    if (Math.abs(sag) <= STRAIGHT * Math.max(1, Math.abs(start), Math.abs(end))) {
      return [{ ...chord(term, least, most), exact: true }];
    }
    return sag > 0 ? chords(term, span) : [tangent(term, span)];
  });
}

function chord(term: (amount: number) => number, from: number, to: number): Line {
  const start = term(from);
  const slope = to > from ? (term(to) - start) / (to - from) : 0;
  return { slope, base: start - slope * from, exact: false };
}

function chords(term: (amount: number) => number, { least, most }: Span): Line[] {
  const at = (index: number) => least + ((most - least) * index) / CHORDS;
  return Array.from({ length: CHORDS }, (_, index) => chord(term, at(index), at(index + 1)));
}

/** Golden sections until nothing is left of the interval. */
const SECTIONS = 80;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** The tangent of a concave term that is parallel to its chord: of all single lines above it the one that exceeds it least. */
function tangent(term: (amount: number) => number, { least, most }: Span): Line {
  const { slope, base } = chord(term, least, most);
  const above = (amount: number) => term(amount) - slope * amount - base;
  let [from, to] = [least, most];
  for (let section = 0; section < SECTIONS; section++) {
    const step = GOLDEN * (to - from);
    if (above(to - step) < above(from + step)) from = to - step;
    else to = from + step;
  }
  return { slope, base: base + above((from + to) / 2), exact: false };
}
