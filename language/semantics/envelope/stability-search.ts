import type { CaseModel } from '../model.ts';
import { tyresOf } from '../stability/cornering.ts';
import type { RigStability, StabilityResult } from '../stability/evaluate-stability.ts';
import type { LoadedScenario } from '../stability/scenarios.ts';
import type { RigResult } from '../state.ts';
import { type FreeSource, isFree } from './free-source.ts';
import { casesOf } from './reach.ts';
import { choicesInCase, isShownWithin, stabilityCorners } from './stability-corners.ts';
import { cornerOptions, type Descended, descend, LOWER, optionsWithin, towardsFolding } from './stability-descent.ts';
import { type Choices, createTrialStates, type Options, type Trial, type TrialStates } from './trial-states.ts';

/** The least damped of the states that a search has tried. */
export interface LeastDamped {
  readonly trial: Trial;
  readonly trials: TrialStates;
  /** How many states were tried, on the roads that are worst for them. */
  readonly tried: number;
  /** No other corner of any single mass is less damped, nor any tank at a third of its range; false where the bound came first. */
  readonly settled: boolean;
}

/** As many states are tried beside the named cases. */
export const MOST_TRIED = 60;
/** Corners are looked at on as many of the roads that are worst for the named cases. */
const ROADS_FOR_CORNERS = 2;
/** Descents begin at as many of the corners that are least damped. */
const DESCENTS = 3;

/**
 * Looks for the state of `masses` with the least damping at the intended speed, on the roads of `stability`: at the named
 * cases, at the corners in which loads and inertias are extreme, and from the worst of them downhill. Exact derivatives say
 * which masses to change together, and in which order to try them one by one; tanks are also tried between their ends. No
 * more than `most` states beside the named ones. A sample: other states can be worse, but none of the named cases that are
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
    const own = isShownWithin(masses, state) ? worstRoad(stability, state) : undefined;
    return onAll(choicesInCase(masses, state), own && [own]) ?? [];
  });
  const bound = trials.tried() + most;
  const options = cornerOptions(masses);
  const folding = foldingFirst(stability).slice(0, ROADS_FOR_CORNERS);
  const roadsForCorners = new Set([...roads.slice(0, ROADS_FOR_CORNERS), ...folding.map(({ scenario }) => scenario)]);
  const boundOfCorners = bound - Math.floor(most / 2);
  const corners = [
    ...folding.flatMap((each) => {
      const trial = trials.on(choicesInCase(masses, each.state.case), each.scenario);
      return trial === undefined ? [] : [towardsFolding(trials, options, trial, foldSpeed(each))];
    }),
    ...stabilityCorners(rig, masses, loads),
  ].flatMap((choices) => (trials.tried() < boundOfCorners ? (onAll(choices, [...roadsForCorners]) ?? []) : []));
  const starts = [...new Map([...named, ...corners].map((trial) => [trial.damping, trial])).values()]
    .sort((a, b) => a.damping - b.damping)
    .slice(0, DESCENTS);
  /** Downhill on the worst road, and where another is worse for the state that is reached, on from there. */
  const descendOnRoads = (start: Trial, among: Options): Descended => {
    let end = descend(trials, masses, among, start, bound);
    for (let turn = 1; turn < roads.length; turn++) {
      const worse = onAll(end.trial.choices);
      if (worse === undefined || worse.damping >= end.trial.damping - LOWER) break;
      end = descend(trials, masses, among, worse, bound);
    }
    return end;
  };
  let best: Descended | undefined;
  for (const start of starts) {
    const end = descendOnRoads(start, options);
    if (best === undefined || end.trial.damping < best.trial.damping - LOWER) best = end;
  }
  const within = best?.settled ? descendOnRoads(best.trial, optionsWithin(masses)) : best;
  return within && { ...within, trials, tried: trials.tried() };
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

function leastOf(trials: readonly Trial[]): Trial | undefined {
  return trials.reduce<Trial | undefined>(
    (least, each) => (least === undefined || each.damping < least.damping ? each : least),
    undefined,
  );
}
