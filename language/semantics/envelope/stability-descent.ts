import type { Choice } from '../../mechanics/envelope.ts';
import { type FreeSource, isFree } from './free-source.ts';
import type { Choices, Options, Trial, TrialStates } from './trial-states.ts';

/** Less of a damping ratio is rounding. */
export const LOWER = 1e-7;

/** Where a descent has ended. */
export interface Descended {
  readonly trial: Trial;
  /** No change of one mass to another of the options is less damped; false where the bound on states came first. */
  readonly settled: boolean;
}

/** One mass taken for something else, with what the derivatives say of it. */
interface Change {
  readonly index: number;
  readonly choice: Choice;
  readonly predicted: number;
}

/** The corners of every mass that is not the same in all states. */
export function cornerOptions(masses: readonly FreeSource[]): Options {
  return masses.map((source) => (isFree(source) ? source.choices : []));
}

/** The same with two levels in between for every tank: a third and two thirds of what it can be. */
export function optionsWithin(masses: readonly FreeSource[]): Options {
  return masses.map(({ choices, levelIn, atLevel }) => {
    if (levelIn === undefined || atLevel === undefined || choices.length < 2) return choices.length > 1 ? choices : [];
    const levels = choices.map(levelIn);
    const [least, most] = [Math.min(...levels), Math.max(...levels)];
    return [...choices, ...[1 / 3, 2 / 3].map((share) => atLevel(least + share * (most - least)))];
  });
}

/**
 * From a state to less damped ones on its road, until no change of one mass to another of its `options` lowers damping or
 * `bound` states are tried.
 */
export function descend(
  trials: TrialStates,
  masses: readonly FreeSource[],
  options: Options,
  start: Trial,
  bound: number,
): Descended {
  let trial = start;
  for (;;) {
    const changes = changesFrom(trials, options, trial);
    // A rig that folds cannot do worse; where nothing swings nothing is known of the way.
    if (trial.damping <= -1 || changes === undefined) return { trial, settled: trial.damping <= -1 };
    const next = lowerTogether(changes) ?? lowerAlone(changes);
    if (next === undefined) return { trial, settled: true };
    if (next === 'bound') return { trial, settled: false };
    trial = next;
  }

  /** All masses at once to where the derivatives say that damping is less. */
  function lowerTogether(changes: readonly Change[]): Trial | undefined {
    const best = bestOfEach(changes);
    return best.size > 1 && trials.tried() < bound ? lower(withChanges(trial.choices, [...best.values()])) : undefined;
  }

  function lowerAlone(changes: readonly Change[]): Trial | 'bound' | undefined {
    for (const change of changes) {
      if (trials.tried() >= bound) return 'bound';
      const choices = withChanges(trial.choices, [change]);
      const found = lower(choices) ?? between(change, choices);
      if (found !== undefined) return found;
    }
    return undefined;
  }

  /** Of a tank whose damping falls at first on the way to a level: where the parabola through slope and ends is lowest. */
  function between({ index, choice, predicted }: Change, choices: Choices): Trial | undefined {
    const { levelIn, atLevel } = masses[index] ?? {};
    const own = trial.choices[index];
    const end = trials.on(choices, trial.road);
    if (levelIn === undefined || atLevel === undefined || own === undefined || end === undefined) return undefined;
    if (!(predicted < -LOWER) || trials.tried() >= bound) return undefined;
    const bend = end.damping - trial.damping - predicted;
    const share = -predicted / (2 * bend);
    const [from, to] = [levelIn(own), levelIn(choice)];
    return share < 1
      ? lower(withChanges(trial.choices, [{ index, choice: atLevel(from + share * (to - from)), predicted }]))
      : undefined;
  }

  function lower(choices: Choices): Trial | undefined {
    const found = trials.on(choices, trial.road);
    return found !== undefined && found.damping < trial.damping - LOWER ? found : undefined;
  }
}

/** All changes at once that, by the derivatives, bring the speed that a rig folds from (m/s) down. */
export function towardsFolding(trials: TrialStates, options: Options, trial: Trial, foldsFrom: number): Choices {
  const changes = changesFrom(trials, options, trial, foldsFrom) ?? [];
  return withChanges(trial.choices, [...bestOfEach(changes).values()]);
}

/**
 * Every change of one mass, the one that lowers damping most first, or the speed that the rig folds from if that is given;
 * undefined where there are no derivatives.
 */
function changesFrom(
  trials: TrialStates,
  options: Options,
  trial: Trial,
  foldsFrom?: number,
): readonly Change[] | undefined {
  const others = options.map((each, index) => each.filter((choice) => choice !== trial.choices[index]));
  return trials
    .changes(trial, others, foldsFrom)
    ?.flatMap((each, index) =>
      each.flatMap((predicted, at): Change[] => {
        const choice = others[index]?.[at];
        return choice === undefined || !Number.isFinite(predicted) ? [] : [{ index, choice, predicted }];
      }),
    )
    .sort((a, b) => a.predicted - b.predicted);
}

/** Of each mass the change that lowers most, if any does. */
function bestOfEach(changes: readonly Change[]): ReadonlyMap<number, Change> {
  const best = new Map<number, Change>();
  for (const change of changes) {
    if (change.predicted < Math.min(-LOWER, best.get(change.index)?.predicted ?? 0)) best.set(change.index, change);
  }
  return best;
}

function withChanges(choices: Choices, changes: readonly Change[]): Choices {
  const next = [...choices];
  for (const { index, choice } of changes) next[index] = choice;
  return next;
}
