import type { Choice } from '../../mechanics/envelope.ts';
import type { CaseModel } from '../model.ts';
import { tyresOf } from '../stability/cornering.ts';
import type { RigStability, StabilityResult } from '../stability/evaluate-stability.ts';
import type { LoadedScenario } from '../stability/scenarios.ts';
import type { RigResult } from '../state.ts';
import { type FreeSource, isFree } from './free-source.ts';
import { casesOf } from './reach.ts';
import { choicesInCase, isReachable, stabilityCorners } from './stability-corners.ts';
import { type Choices, createTrialStates, type Trial, type TrialStates } from './trial-states.ts';

/** The least damped of the states that a search has tried. */
export interface LeastDamped {
  readonly trial: Trial;
  readonly trials: TrialStates;
  /** How many states were tried, on the roads that are worst for them. */
  readonly tried: number;
  /** No other corner of any single mass is less damped; false where the bound on states came first. */
  readonly settled: boolean;
}

/** As many states are tried beside the named cases. */
export const MOST_TRIED = 60;
/** Corners are looked at on as many of the roads that are worst for the named cases. */
const ROADS_FOR_CORNERS = 2;
/** Descents begin at as many of the corners that are least damped. */
const DESCENTS = 3;
/** Less of a damping ratio is rounding. */
const LOWER = 1e-7;

/**
 * Looks for the state of `masses` with the least damping at the intended speed, on the roads of `stability`: at the named
 * cases, at the corners in which loads and inertias are extreme, and from the worst of them downhill. Exact derivatives say which
 * masses to change together, and in which order to try them one by one; a tank whose damping falls from both ends is
 * also tried between. No more than `most` states beside the named ones. A sample: other states can be worse, but none of the named cases that are
 * reachable is. Deterministic. Undefined where there is nothing to vary or no stability.
 */
export function searchLeastDamped(
  result: RigResult,
  stability: RigStability,
  masses: readonly FreeSource[],
  most = MOST_TRIED,
): LeastDamped | undefined {
  const { rig, motions } = result;
  const [loads] = motions;
  if (loads === undefined || stability.results.length === 0 || !masses.some(isFree)) return undefined;
  const level = result.states.filter(({ motion }) => motion.kind === 'level');
  const trials = createTrialStates(rig, masses, tyresOf(rig, level), stability.speed);
  const roads = roadsByDamping(stability);
  const onAll = (choices: Choices, among = roads) => leastOf(among.flatMap((road) => trials.on(choices, road) ?? []));
  const named = casesOf(result).flatMap((state) => {
    const own = isReachable(masses, state) ? worstRoad(stability, state) : undefined;
    return onAll(choicesInCase(masses, state), own && [own]) ?? [];
  });
  const bound = trials.tried() + most;
  const folding = foldingFirst(stability).slice(0, ROADS_FOR_CORNERS);
  const roadsForCorners = new Set([...roads.slice(0, ROADS_FOR_CORNERS), ...folding.map(({ scenario }) => scenario)]);
  const boundOfCorners = bound - Math.floor(most / 2);
  const corners = [
    ...folding.flatMap((each) => towardsFolding(trials, masses, each)),
    ...stabilityCorners(rig, masses, loads),
  ].flatMap((choices) => (trials.tried() < boundOfCorners ? (onAll(choices, [...roadsForCorners]) ?? []) : []));
  const starts = [...new Map([...named, ...corners].map((trial) => [trial.damping, trial])).values()]
    .sort((a, b) => a.damping - b.damping)
    .slice(0, DESCENTS);
  let best: Descended | undefined;
  for (const start of starts) {
    let end = descend(trials, masses, start, bound);
    // Where another road is worse for the state that is reached, it is the one to go on with.
    for (let turn = 1; turn < roads.length; turn++) {
      const worse = onAll(end.trial.choices);
      if (worse === undefined || worse.damping >= end.trial.damping - LOWER) break;
      end = descend(trials, masses, worse, bound);
    }
    if (best === undefined || end.trial.damping < best.trial.damping - LOWER) best = end;
  }
  return best && { ...best, trials, tried: trials.tried() };
}

/** The roads, the one on which a named case is least damped first. */
function roadsByDamping({ results }: RigStability): readonly LoadedScenario[] {
  const least = new Map<LoadedScenario, number>();
  for (const { scenario, damping } of results) least.set(scenario, Math.min(least.get(scenario) ?? 1, damping));
  return [...least].sort(([, a], [, b]) => a - b).map(([road]) => road);
}

/** The road on which a case is known to be least damped. */
function worstRoad({ results }: RigStability, state: CaseModel): LoadedScenario | undefined {
  const own = results.filter((result) => result.state.case === state);
  return own.length === 0 ? undefined : own.reduce((a, b) => (b.damping < a.damping ? b : a)).scenario;
}

/** Results that fold at some speed looked at, one on each road, the lowest speed first. */
function foldingFirst({ results }: RigStability): readonly StabilityResult[] {
  const first = new Map<LoadedScenario, StabilityResult>();
  const ordered = results
    .filter(({ divergence }) => divergence.kind === 'at')
    .sort((a, b) => foldSpeed(a) - foldSpeed(b));
  for (const result of ordered) if (!first.has(result.scenario)) first.set(result.scenario, result);
  return [...first.values()];
}

const foldSpeed = ({ divergence }: StabilityResult): number => (divergence.kind === 'at' ? divergence.speed : Infinity);

/** The corner in which, by the derivatives in a case, a rig folds from the lowest speed. */
function towardsFolding(trials: TrialStates, masses: readonly FreeSource[], result: StabilityResult): Choices[] {
  const trial = trials.on(choicesInCase(masses, result.state.case), result.scenario);
  const changes = trial && changesFrom(trials, masses, trial, foldSpeed(result));
  return trial === undefined || changes === undefined
    ? []
    : [withChanges(trial.choices, [...bestOfEach(changes).values()])];
}

function leastOf(trials: readonly Trial[]): Trial | undefined {
  return trials.reduce<Trial | undefined>(
    (least, each) => (least === undefined || each.damping < least.damping ? each : least),
    undefined,
  );
}

interface Descended {
  readonly trial: Trial;
  readonly settled: boolean;
}

/** One mass taken for something else, with what the derivatives say of it. */
interface Change {
  readonly index: number;
  readonly choice: Choice;
  readonly predicted: number;
}

/** From a state to less damped ones on its road, until no change of one mass lowers damping or `bound` states are tried. */
function descend(trials: TrialStates, masses: readonly FreeSource[], start: Trial, bound: number): Descended {
  let trial = start;
  for (;;) {
    const changes = changesFrom(trials, masses, trial);
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

/**
 * Every change of one mass to one of its corners, the one that lowers damping most first, or the speed that the rig folds from
 * if that is given; undefined where there are no derivatives.
 */
function changesFrom(
  trials: TrialStates,
  masses: readonly FreeSource[],
  trial: Trial,
  foldsFrom?: number,
): readonly Change[] | undefined {
  const options = masses.map((source, index) =>
    isFree(source) ? source.choices.filter((choice) => choice !== trial.choices[index]) : [],
  );
  const predicted = trials.changes(trial, options, foldsFrom);
  return predicted
    ?.flatMap((each, index) =>
      each.flatMap((change, at): Change[] => {
        const choice = options[index]?.[at];
        return choice === undefined || !Number.isFinite(change) ? [] : [{ index, choice, predicted: change }];
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
