import { type Choice, findExtremes, greatestLoad, isAlwaysPositive, valueAt } from '../../mechanics/envelope.ts';
import { blendInfluences, type Influence } from '../../mechanics/influence.ts';
import { figureOf } from '../../semantics/envelope/figures.ts';
import type { FreeSource } from '../../semantics/envelope/free-source.ts';
import type { Reach } from '../../semantics/envelope/reach.ts';
import { type Witness, witnessOf } from '../../semantics/envelope/witness.ts';
import type { MotionLoads, StateResult } from '../../semantics/state.ts';
import { excessOf, roundingOf } from '../limits/check-limits.ts';
import type { Comparison, Limited, LimitedRatio } from '../limits/limit-rule.ts';

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
  const excesses = limited.excess?.(bases[0], loads);
  // Telling a state takes far longer than finding it.
  if (excesses !== undefined && greatestOf(excesses, masses).every(({ value }) => value <= 0)) return undefined;
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
  const worstOf = (candidates: readonly Candidate[]): Worst | undefined => {
    let worst: Worst | undefined;
    for (const candidate of candidates) {
      const compared = compareAt(limited, reach, masses, candidate, bases, loads);
      if (compared !== undefined && (worst === undefined || compared.by > worst.by)) worst = compared;
    }
    return worst;
  };
  const excesses = limited.excess?.(bases[0], loads);
  const ratio = limited.ratio?.(bases[0], loads);
  if (excesses !== undefined && hasValue(ratio, masses)) {
    const worst = worstOf(extremesOf(limited, ratio, excesses, masses) ?? greatestOf(excesses, masses));
    if (worst !== undefined) return { worst, found: 'proved' };
  }
  const worst = worstOf([
    ...namedChoices(masses, bases),
    ...sampledChoices(reach, masses, loads),
    ...towardsValue(ratio, excesses ?? [], masses),
  ]);
  return worst && { worst, found: 'sampled' };
}

/** Whether it is certain how a limit stands over masses: it is not broken in any state, or the worst state is found exactly. */
export function isProved(
  limited: Limited,
  reach: Reach,
  masses: readonly FreeSource[],
  bases: Bases,
  loads: MotionLoads,
): boolean {
  const excess = greatestExcess(limited, masses, bases[0], loads);
  if (excess === undefined) return false;
  return excess <= 0 || standingOf(limited, reach, masses, bases, loads)?.found === 'proved';
}

/**
 * The greatest value of a load over all masses, kg: by how much a limit is broken at worst, where it is its excess. Undefined
 * where that is not known, or where a state can have no value to be limited.
 */
export function greatestExcess(
  limited: Limited,
  masses: readonly FreeSource[],
  state: StateResult,
  loads: MotionLoads,
): number | undefined {
  const excesses = limited.excess?.(state, loads);
  if (excesses === undefined || !hasValue(limited.ratio?.(state, loads), masses)) return undefined;
  return greatestOf(excesses, masses)[0]?.value;
}

/** Whether a ratio has a value whatever the masses are; so has what is none. */
function hasValue(ratio: LimitedRatio | undefined, masses: readonly FreeSource[]): boolean {
  const denominator = ratio?.figure.denominator;
  return denominator === undefined || isAlwaysPositive(denominator, masses);
}

/** Parts of the load that divides which are added to an excess, so that it is greatest where the ratio has a value. */
const TOWARDS_VALUE = [0, 0.3, 1, 3, 10];

/** States to try a ratio in that does not exist in all of them: those in which it is far beyond its limit and the load that divides is not small. */
function towardsValue(
  ratio: LimitedRatio | undefined,
  excesses: readonly Influence[],
  masses: readonly FreeSource[],
): readonly Candidate[] {
  const denominator = ratio?.figure.denominator;
  if (denominator === undefined) return [];
  return excesses.flatMap((excess) =>
    TOWARDS_VALUE.map((share): Candidate => {
      const { witness } = greatestLoad(blendInfluences(excess, 1, denominator, share), masses);
      return { choices: witness, excess };
    }),
  );
}

interface Candidate {
  readonly choices: readonly Choice[];
  readonly excess?: Influence;
  /** The load that tells what a mass does to the figure there; the excess where absent. */
  readonly moves?: Influence;
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
      moves: blendInfluences(numerator, 1, denominator, -value),
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
  { choices, excess, moves = excess }: Candidate,
  bases: Bases,
  loads: MotionLoads,
): Worst | undefined {
  const base = worstBase(limited, bases);
  const effect = (chosen: Choice, instead: Choice) =>
    moves === undefined ? (chosen === instead ? 0 : 1) : valueAt(moves, [chosen]) - valueAt(moves, [instead]);
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
