import { type Box, type Corner, clipBox, type HalfPlane, type Span } from '../../mechanics/half-planes.ts';
import { boundsOf } from '../../mechanics/window.ts';
import type { CaseModel } from '../../semantics/model.ts';
import type { RigResult } from '../../semantics/state.ts';
import { standingOf, type Worst } from '../reach/breach.ts';
import type { Reaches } from '../reach/check-reach.ts';
import type { ReachLimit } from '../reach/reach-limit.ts';
import { ROUNDING } from '../states.ts';
import type { Chosen } from './choose.ts';
import { type Conflict, conflictOf } from './conflict.ts';
import { type Held, massesAt, type Question, questionOf, type WindowOptions } from './question.ts';
import { type Side, sidesOf } from './sides.ts';
import { excessesOf, type Tried, triedLimits } from './tried.ts';

/** Where a limit holds. */
export interface Cut {
  readonly limit: ReachLimit;
  /** Which of the loads of the limit it is. */
  readonly index: number;
  /** False for a bound on the safe side. */
  readonly exact: boolean;
}

export type Border = HalfPlane<Cut>;

/** The amounts of two things with which all limits hold, whatever the rest of the rig is. */
export interface OperatingWindow {
  readonly result: RigResult;
  /** The case that has the rest; absent where the rest is whatever can be on board. */
  readonly case?: CaseModel;
  /** `none` where the files state no tolerance. */
  readonly tolerances: 'worst' | 'nominal' | 'none';
  readonly axes: readonly [Chosen, Chosen];
  readonly box: Box;
  /** Counter-clockwise, with the first amount to the right and the second one upward; none where nothing holds all limits. */
  readonly corners: readonly Corner<Cut>[];
  /** What limits make of its border, in its order. */
  readonly sides: readonly Side[];
  /** Half planes of the limits that are loads, which hold them exactly or on the safe side. */
  readonly borders: readonly Border[];
  /** Why there is no window. */
  readonly conflict?: Conflict;
  /** Limits that are no loads: these are tried, not proved. */
  readonly tried: readonly Tried[];
  readonly points: readonly CasePoint[];
  readonly held: Held;
}

/** A named case as a point of the window. */
export interface CasePoint {
  readonly name: string;
  readonly u: number;
  readonly v: number;
}

/** The window of two things; undefined where the rig has no such case. */
export function windowOf(
  result: RigResult,
  reaches: Reaches,
  axes: readonly [Chosen, Chosen],
  options: WindowOptions,
): OperatingWindow | undefined {
  const question = questionOf(result, reaches, axes, options);
  if (question === undefined) return undefined;
  const [first, second] = axes;
  const box = { u: spanOf(first), v: spanOf(second) };
  const borders = bordersOf(question);
  const corners = clipBox(box, borders);
  const worst = worstOf(question);
  const conflict = corners.length === 0 ? conflictOf(box, borders, worst) : undefined;
  const { reach, reaches: known, held } = question;
  return {
    result,
    ...(reach.case ? { case: reach.case } : {}),
    tolerances: known.whole.hasTolerances ? options.tolerances : 'none',
    axes,
    box,
    corners,
    sides: sidesOf({ box, axes }, corners, worst),
    borders,
    ...(conflict === undefined ? {} : { conflict }),
    tried: triedLimits(question, box),
    points: pointsOf(question),
    held,
  };
}

const spanOf = ({ least, most }: Chosen) => ({ least, most });

/** Where each limit that is a load holds, as half planes of the amounts chosen; one amount alone is the first of them. */
export function bordersOf(question: Question): Border[] {
  const { chosen, rest, held } = question;
  const [first, second] = chosen;
  if (first === undefined) return [];
  return held.limits.flatMap((limit) =>
    (excessesOf(question, limit.limited) ?? []).flatMap((load, index) =>
      boundsOf(load, first.mass, second?.mass, rest).map(({ a, b, c, exact }) => ({
        a,
        b,
        // What is nearer to its limit than that holds it.
        c: c - ROUNDING,
        label: { limit, index, exact },
      })),
    ),
  );
}

/** The worst state of a limit with amounts chosen. */
export type WorstAt = (limit: ReachLimit, amounts: readonly number[]) => Worst | undefined;

export function worstOf(question: Question): WorstAt {
  const { reach, bases, reaches } = question;
  return ({ limited }, amounts) => standingOf(limited, reach, massesAt(question, amounts), bases, reaches.loads)?.worst;
}

/** Between what one amount has to lie, whatever the rest is. */
export interface AmountRange {
  /** Absent where no amount holds all limits. */
  readonly holds?: Span;
  readonly conflict?: Conflict;
  readonly held: Held;
}

/** The amounts of one thing with which all limits that are loads hold; undefined where the rig has no such case. */
export function amountRange(
  result: RigResult,
  reaches: Reaches,
  chosen: Chosen,
  options: WindowOptions,
): AmountRange | undefined {
  const question = questionOf(result, reaches, [chosen], options);
  if (question === undefined) return undefined;
  const { held } = question;
  const box = { u: spanOf(chosen), v: { least: 0, most: 1 } };
  const borders = bordersOf(question);
  const amounts = clipBox(box, borders).map(({ u }) => u);
  if (amounts.length > 0) return { holds: { least: Math.min(...amounts), most: Math.max(...amounts) }, held };
  return { conflict: conflictOf(box, borders, worstOf(question)), held };
}

function pointsOf({ chosen, bases }: Question): CasePoint[] {
  const [first, second] = chosen.map(({ source }) => source.amounts);
  if (first === undefined || second === undefined) return [];
  return bases.map(({ case: state }) => ({ name: state.name, u: first.inCase(state), v: second.inCase(state) }));
}
