import {
  type Choice,
  findExtremes,
  greatestLoad,
  isAlwaysPositive,
  isSameChoice,
  valueAt,
} from '../../mechanics/envelope.ts';
import { blendInfluences, type Influence } from '../../mechanics/influence.ts';
import { greatestLesser } from '../../mechanics/lesser.ts';
import { figureOf } from '../../semantics/envelope/figures.ts';
import type { FreeSource } from '../../semantics/envelope/free-source.ts';
import type { Reach } from '../../semantics/envelope/reach.ts';
import { type Witness, witnessOf } from '../../semantics/envelope/witness.ts';
import type { MotionLoads, StateResult } from '../../semantics/state.ts';
import { excessOf, roundingOf } from '../limits/check-limits.ts';
import type { Comparison, Limited, LimitedRatio } from '../limits/limit-rule.ts';
import { climb, type Tried } from './climb.ts';

/** How a limit stands over all states of a reach. */
export interface Standing {
  /** The state in which it is nearest to its limit, or furthest beyond. */
  readonly worst: Worst;
  /** `proved` where the worst state is found exactly; `sampled` where other states than those tried can be worse. */
  readonly found: 'proved' | 'sampled';
}

export interface Worst extends Comparison {
  readonly witness: Witness;
  /** Beyond the limit where positive, SI. */
  readonly by: number;
  /** The load (kg) that is positive where the limit is broken, if it is known. */
  readonly excess?: Influence;
  /** Another rule tells it of that state, with more weight. */
  readonly isToldElsewhere: boolean;
}

/** The named states on level ground that witnesses are told by. */
export type Bases = readonly [StateResult, ...StateResult[]];

/** The state of a reach that breaks a limit most; undefined where the limit holds in all of them, or in all that are tried. */
export function brokenIn(
  limited: Limited,
  reach: Reach,
  masses: readonly FreeSource[],
  bases: Bases,
  loads: MotionLoads,
): Standing | undefined {
  // Telling a state takes far longer than finding it.
  const most = mostBeyond(limited, masses, bases[0], loads);
  if (most !== undefined && most <= 0) return undefined;
  const standing = standingOf(limited, reach, masses, bases, loads);
  return standing === undefined || standing.worst.by <= roundingOf(limited, standing.worst.limit)
    ? undefined
    : standing;
}

/** How a limit stands over a reach; undefined where no state has the figure that it limits. */
export function standingOf(
  limited: Limited,
  reach: Reach,
  masses: readonly FreeSource[],
  bases: Bases,
  loads: MotionLoads,
): Standing | undefined {
  const attempt = (candidate: Candidate): Tried<Worst> | undefined => {
    const value = compareAt(limited, reach, masses, candidate, bases, loads);
    return value && { choices: candidate.choices, by: value.by, value };
  };
  const worstOf = (candidates: readonly Candidate[]): Tried<Worst> | undefined => {
    let worst: Tried<Worst> | undefined;
    for (const candidate of candidates) {
      const next = attempt(candidate);
      if (next !== undefined && (worst === undefined || next.by > worst.by)) worst = next;
    }
    return worst;
  };
  const excesses = limited.excess?.(bases[0], loads);
  const ratio = limited.ratio?.(bases[0], loads);
  if (excesses !== undefined && hasValue(ratio, masses)) {
    const exact = worstOf(extremesOf(limited, ratio, excesses, masses) ?? greatestOf(excesses, masses));
    if (exact !== undefined) return { worst: exact.value, found: 'proved' };
  }
  const both = bothOf(limited, masses, bases[0], loads);
  if (both?.isExact === true) {
    const exact = worstOf([both]);
    if (exact !== undefined) return { worst: exact.value, found: 'proved' };
  }
  const tried = worstOf([
    ...namedChoices(masses, bases),
    ...sampledChoices(reach, masses, loads),
    ...(both === undefined ? [] : [both]),
    ...withValue(ratio, excesses ?? [], masses),
  ]);
  if (tried === undefined) return undefined;
  const { value: worst } = climb(tried, masses, (choices) => attempt({ choices }));
  return { worst, found: 'sampled' };
}

/** Whether a limit is proved to hold over masses: that no state breaks it, as far as it has a figure there, is certain. */
export function isProvedToHold(
  limited: Limited,
  reach: Reach,
  masses: readonly FreeSource[],
  bases: Bases,
  loads: MotionLoads,
): boolean {
  const most = mostBeyond(limited, masses, bases[0], loads);
  if (most === undefined || most <= 0) return most !== undefined;
  const standing = standingOf(limited, reach, masses, bases, loads);
  return standing?.found === 'proved' && standing.worst.by <= roundingOf(limited, standing.worst.limit);
}

/**
 * kg; the loads that tell whether a limit is broken are more in no state: it holds where that is not positive. Undefined where it
 * is not known.
 */
function mostBeyond(
  limited: Limited,
  masses: readonly FreeSource[],
  state: StateResult,
  loads: MotionLoads,
): number | undefined {
  return bothOf(limited, masses, state, loads)?.bound ?? greatestExcess(limited, masses, state, loads);
}

/**
 * The greatest value of a load over all masses, kg: by how much a limit is broken at worst, where it is its excess; of no loads
 * less than any. Undefined where that is not known, or where a state can have no value to be limited.
 */
export function greatestExcess(
  limited: Limited,
  masses: readonly FreeSource[],
  state: StateResult,
  loads: MotionLoads,
): number | undefined {
  const excesses = limited.excess?.(state, loads);
  if (excesses === undefined || !hasValue(limited.ratio?.(state, loads), masses)) return undefined;
  return greatestOf(excesses, masses)[0]?.value ?? Number.NEGATIVE_INFINITY;
}

/** Whether a ratio has a value whatever the masses are; so has what is none. */
function hasValue(ratio: LimitedRatio | undefined, masses: readonly FreeSource[]): boolean {
  const denominator = ratio?.figure.denominator;
  return denominator === undefined || isAlwaysPositive(denominator, masses);
}

/** States to try a ratio in that does not exist in all of them: far beyond its limit where the load that divides is positive. */
function withValue(
  ratio: LimitedRatio | undefined,
  excesses: readonly Influence[],
  masses: readonly FreeSource[],
): readonly Candidate[] {
  const denominator = ratio?.figure.denominator;
  return denominator === undefined ? [] : excesses.map((excess) => bothCandidate(excess, denominator, masses));
}

/** The state in which a limit is broken most that two loads break together; undefined for another limit. */
function bothOf(
  limited: Limited,
  masses: readonly FreeSource[],
  state: StateResult,
  loads: MotionLoads,
): BothCandidate | undefined {
  const both = limited.lesser?.(state, loads);
  return both && bothCandidate(both[0], both[1], masses);
}

/** kg: nearer to the bound than that, a state is the worst there is. */
const EXACT = 1e-6;

function bothCandidate(a: Influence, b: Influence, masses: readonly FreeSource[]): BothCandidate {
  const { witness, value, bound } = greatestLesser(a, b, masses);
  const excess = valueAt(a, witness) <= valueAt(b, witness) ? a : b;
  return { choices: witness, excess, moves: [a, b], bound, isExact: bound - value <= EXACT };
}

interface Candidate {
  readonly choices: readonly Choice[];
  readonly excess?: Influence;
  /** The loads that tell what a mass does to the figure there; the excess where absent. */
  readonly moves?: readonly Influence[];
}

/** The state in which the lesser of two loads is greatest. */
interface BothCandidate extends Candidate {
  /** kg; the lesser is more in no state. */
  readonly bound: number;
  /** Whether it is that much there. */
  readonly isExact: boolean;
}

/** Of the loads that tell whether a limit is broken the one that can be greatest. */
function greatestOf(
  excesses: readonly Influence[],
  masses: readonly FreeSource[],
): readonly (Candidate & { readonly value: number })[] {
  let greatest: (Candidate & { readonly value: number }) | undefined;
  for (const excess of excesses) {
    const { value, witness } = greatestLoad(excess, masses);
    if (greatest === undefined || value > greatest.value) greatest = { choices: witness, excess, value };
  }
  return greatest === undefined ? [] : [greatest];
}

/** The states in which a limited ratio is extreme; undefined for what is none. */
function extremesOf(
  { sense }: Limited,
  ratio: LimitedRatio | undefined,
  excesses: readonly Influence[],
  masses: readonly FreeSource[],
): readonly Candidate[] | undefined {
  const extremes = ratio && findExtremes(ratio.figure, masses);
  if (ratio?.figure.denominator === undefined || extremes === undefined) return undefined;
  const { scale, absolute } = ratio;
  const { numerator, denominator } = ratio.figure;
  const ends = scale > 0 ? [extremes.most, extremes.least] : [extremes.least, extremes.most];
  const [greatest, smallest] = ends.map(
    ({ value, witness }, index): Candidate => ({
      choices: witness,
      moves: [blendInfluences(numerator, 1, denominator, -value)],
      ...excessAt(excesses, absolute ? index : 0),
    }),
  );
  const wanted = absolute ? [greatest, smallest] : [sense === 'at most' ? greatest : smallest];
  return wanted.flatMap((candidate) => candidate ?? []);
}

function compareAt(
  limited: Limited,
  reach: Reach,
  masses: readonly FreeSource[],
  { choices, excess, moves = excess && [excess] }: Candidate,
  bases: Bases,
  loads: MotionLoads,
): Worst | undefined {
  const base = worstBase(limited, bases);
  const effect = (chosen: Choice, instead: Choice) =>
    moves === undefined
      ? Number(!isSameChoice(chosen, instead))
      : moves.reduce((sum, load) => sum + Math.abs(valueAt(load, [chosen]) - valueAt(load, [instead])), 0);
  const witness = witnessOf(reach, masses, choices, base.case, loads, effect);
  const comparison = limited.compare(witness.state);
  if (comparison === undefined) return undefined;
  const by = excessOf(limited, comparison);
  const isToldElsewhere = limited.toldElsewhere?.(witness.state) === true;
  return { ...comparison, witness, by, isToldElsewhere, ...(excess ? { excess } : {}) };
}

/** The named state that is nearest to the limit. */
function worstBase(limited: Limited, bases: Bases): StateResult {
  let worst = bases[0];
  let greatest = Number.NEGATIVE_INFINITY;
  for (const state of bases) {
    const comparison = limited.compare(state);
    const by = comparison === undefined ? Number.NEGATIVE_INFINITY : excessOf(limited, comparison);
    if (by <= greatest) continue;
    worst = state;
    greatest = by;
  }
  return worst;
}

/** A ratio without sign has one for either side it can tilt to. */
function excessAt(excesses: readonly Influence[], index: number): Pick<Candidate, 'excess'> {
  const excess = excesses[index];
  return excess === undefined ? {} : { excess };
}

/** The named cases themselves, as far as they are states of these masses. */
function namedChoices(masses: readonly FreeSource[], bases: Bases): readonly Candidate[] {
  return bases.map((state) => ({ choices: masses.map((source) => source.inCase(state.case)) }));
}

const sampled = new WeakMap<readonly FreeSource[], readonly Candidate[]>();

/** The corners that a figure is tried at which is no load: those where masses and what couplings carry are least and greatest. */
function sampledChoices(
  { result: { rig } }: Reach,
  masses: readonly FreeSource[],
  loads: MotionLoads,
): readonly Candidate[] {
  let choices = sampled.get(masses);
  if (choices === undefined) {
    const names = rig.units.flatMap(({ name }) => [`${name}.mass`, `${name}.coupling.load`, `${name}.coupling.share`]);
    choices = names.flatMap((name) => {
      const found = figureOf(rig, loads, name);
      const extremes = found && findExtremes(found.figure, masses);
      return extremes === undefined ? [] : [{ choices: extremes.least.witness }, { choices: extremes.most.witness }];
    });
    sampled.set(masses, choices);
  }
  return choices;
}
