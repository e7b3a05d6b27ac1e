import type { Box, Span } from '../../mechanics/half-planes.ts';
import { type Influence, scaleInfluence } from '../../mechanics/influence.ts';
import { boundsOf } from '../../mechanics/window.ts';
import { roundingOf } from '../limits/check-limits.ts';
import type { Limited } from '../limits/limit-rule.ts';
import { standingOf, type Worst } from '../reach/breach.ts';
import type { ReachLimit } from '../reach/reach-limit.ts';
import { massesAt, type Question } from './question.ts';

/** A limit that no load tells everywhere, as it stood where it was tried. */
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
 * The loads (kg) that are positive exactly where a limit is broken, at all amounts of what is chosen; undefined where that is not
 * known, or where it limits a ratio that can be without a value there.
 */
export function excessesOf(question: Question, { excess, ratio }: Limited): readonly Influence[] | undefined {
  const { bases, loads } = question.reaches;
  const denominator = ratio?.(bases[0], loads)?.figure.denominator;
  const isKnown = denominator === undefined || isPositiveAtAll(question, denominator);
  return isKnown ? excess?.(bases[0], loads) : undefined;
}

/** Whether a load is more than nothing at all amounts of what is chosen, whatever the rest is. */
function isPositiveAtAll({ chosen: [first, second], rest }: Question, load: Influence): boolean {
  if (first === undefined) return false;
  const ends = ({ least, most }: Span) => [least, most];
  return boundsOf(scaleInfluence(load, -1), first.mass, second?.mass, rest).every(({ a, b, c }) =>
    ends(first.mass.span).every((u) => ends(second?.mass.span ?? NONE).every((v) => a * u + b * v + c < 0)),
  );
}

const NONE: Span = { least: 0, most: 0 };

/**
 * The limits that are no loads, tried at a grid of amounts with the rest at its corners: masses and what couplings carry at
 * their least and greatest. Other states can be worse.
 */
export function triedLimits(question: Question, box: Box): readonly Tried[] {
  const { reach, bases, reaches, held } = question;
  const limits = held.limits.filter(({ limited }) => excessesOf(question, limited) === undefined);
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
