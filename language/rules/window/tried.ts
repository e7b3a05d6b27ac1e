import type { Box, Span } from '../../mechanics/half-planes.ts';
import { roundingOf } from '../limits/check-limits.ts';
import { standingOf, type Worst } from '../reach/breach.ts';
import type { ReachLimit } from '../reach/reach-limit.ts';
import { massesAt, type Question } from './question.ts';

/** A limit that is no load, as it stood where it was tried. */
export interface Tried {
  readonly limit: ReachLimit;
  /** How many pairs of amounts it was tried at. */
  readonly at: number;
  /** Those at which some state breaks it. */
  readonly broken: readonly BrokenAt[];
}

export interface BrokenAt {
  readonly u: number;
  readonly v: number;
  readonly worst: Worst;
}

/** Amounts of each of the two that such a limit is tried at. */
const STEPS = 8;

/**
 * The limits that are no loads, tried at a grid of amounts with the rest at its corners: masses and what couplings carry at
 * their least and greatest. Other states can be worse.
 */
export function triedLimits(question: Question, box: Box): readonly Tried[] {
  const { reach, bases, reaches, held } = question;
  const [first] = bases;
  const limits = held.limits.filter(({ limited }) => limited.excess?.(first, reaches.loads) === undefined);
  if (limits.length === 0) return [];
  const found = new Map<ReachLimit, { at: number; readonly broken: BrokenAt[] }>();
  for (const limit of limits) found.set(limit, { at: 0, broken: [] });
  for (const u of stepsOf(box.u)) {
    for (const v of stepsOf(box.v)) {
      const masses = massesAt(question, [u, v]);
      for (const [{ limited }, tries] of found) {
        const worst = standingOf(limited, reach, masses, bases, reaches.loads)?.worst;
        if (worst === undefined) continue;
        tries.at++;
        if (worst.by > roundingOf(limited, worst.limit)) tries.broken.push({ u, v, worst });
      }
    }
  }
  return [...found].flatMap(([limit, { at, broken }]) => (at === 0 ? [] : [{ limit, at, broken }]));
}

function stepsOf({ least, most }: Span): number[] {
  return Array.from({ length: STEPS + 1 }, (_, index) => least + ((most - least) * index) / STEPS);
}
