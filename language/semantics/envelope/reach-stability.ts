import { isSameChoice } from '../../mechanics/envelope.ts';
import { isStabilityProblem } from '../../mechanics/stability/problems.ts';
import type { CaseModel, RigModel } from '../model.ts';
import { createRecall, type Recall } from '../recall.ts';
import { resultOf, stabilityOf } from '../results.ts';
import { tyresOf } from '../stability/cornering.ts';
import { type RigStability, resultOn, type StabilityResult } from '../stability/evaluate-stability.ts';
import { trainOf } from '../stability/train-of.ts';
import { vehicleAloneLoads } from '../stability/vehicle-alone.ts';
import type { RigResult, StateResult } from '../state.ts';
import type { FreeSource } from './free-source.ts';
import { casesOf, type Reach, wholeReach } from './reach.ts';
import { choicesInCase, isShownWithin } from './stability-corners.ts';
import { type LeastDamped, searchLeastDamped } from './stability-search.ts';
import type { Choices } from './trial-states.ts';
import { type Witness, witnessOf } from './witness.ts';

/** The least-damped reachable state that a search has found. Sampled: others can be worse. */
export interface ReachStability {
  /** Damping ratio of all that moves at the intended speed, on the worst road. */
  readonly damping: number;
  /** How many states were tried. */
  readonly tried: number;
  /** No change of a single mass to one of its corners, or of a tank to a third of its range, lowers damping further. */
  readonly settled: boolean;
  /** The state in words, with what lateral motion it has; undefined where that cannot be computed. Computed when asked for. */
  readonly worst: WorstReachable | undefined;
}

export interface WorstReachable {
  readonly witness: Witness;
  /** In that state, on the road on which it is least damped. */
  readonly result: StabilityResult;
  /** In that state, on all roads. */
  readonly results: readonly StabilityResult[];
}

/** The least-damped state found among all that are reachable for a rig; undefined where nothing varies or nothing is towed. */
export const reachStabilityOf: Recall<ReachStability | undefined> = createRecall((rig: RigModel) => {
  const result = resultOf(rig);
  const stability = stabilityOf(rig);
  return 'problem' in result || stability === undefined ? undefined : findReachStability(result, stability);
});

/** The same of a rig whose stability was looked at otherwise, such as at another speed. */
export function findReachStability(result: RigResult, stability: RigStability): ReachStability | undefined {
  const reach = wholeReach(result);
  const found = searchLeastDamped(result, stability, reach.free);
  if (found === undefined) return undefined;
  let worst: WorstReachable | undefined | 'not told' = 'not told';
  return {
    damping: found.trial.damping,
    tried: found.tried,
    settled: found.settled,
    get worst() {
      if (worst === 'not told') worst = tell(reach, stability, found);
      return worst;
    },
  };
}

/** Damping ratio that a state may have more where it takes less to tell: nobody would see it. */
const UNSEEN = 5e-4;

function tell(reach: Reach, stability: RigStability, found: LeastDamped): WorstReachable | undefined {
  const { result, free } = reach;
  const [loads] = result.motions;
  const { choices, road } = found.trial;
  const base = nearestCase(casesOf(result), free, choices);
  if (loads === undefined || base === undefined) return undefined;
  const told = tellable(found, free, base, leastNamed(result, stability, free));
  const sizes = found.trials.changes(
    found.trial,
    free.map((source) => [source.inCase(base)]),
  );
  const sizeOf = new Map(choices.map((choice, index) => [choice, Math.abs(sizes?.[index]?.[0] ?? 0)]));
  // What is other in the case counts, however flat the damping is there.
  const witness = witnessOf(reach, free, told, base, loads, (chosen, instead) =>
    isSameChoice(chosen, instead) ? 0 : 1 + (sizeOf.get(chosen) ?? 0),
  );
  const results = motionsIn(result, stability, witness.state);
  const own = results.find(({ scenario }) => scenario === road);
  return own && { witness, result: own, results };
}

/** What lateral motion any state of a rig has, on all the roads that its named cases are looked at on. */
export function motionsIn(
  { rig, states }: RigResult,
  { results, speed }: RigStability,
  state: StateResult,
): readonly StabilityResult[] {
  const tyres = tyresOf(
    rig,
    states.filter(({ motion }) => motion.kind === 'level'),
  );
  const roads = new Set(results.map(({ scenario }) => scenario));
  return [...roads].flatMap((scenario) => {
    const built = trainOf(state, scenario, tyres);
    const each = built && resultOn(state, scenario, built, tyres, speed, vehicleAloneLoads(rig, scenario));
    return each === undefined || isStabilityProblem(each) ? [] : [each];
  });
}

/** The case from which fewest things are other. */
function nearestCase(
  cases: readonly CaseModel[],
  masses: readonly FreeSource[],
  choices: Choices,
): CaseModel | undefined {
  let nearest: { readonly state: CaseModel; readonly apart: number } | undefined;
  for (const state of cases) {
    const apart = masses.filter((source, at) => !isSameChoice(source.inCase(state), choices[at] ?? [])).length;
    if (nearest === undefined || apart < nearest.apart) nearest = { state, apart };
  }
  return nearest?.state;
}

/** The least damping of the named cases that are reachable. */
function leastNamed({ states }: RigResult, { results }: RigStability, masses: readonly FreeSource[]): number {
  const reachable = new Set(states.map((state) => state.case).filter((state) => isShownWithin(masses, state)));
  return Math.min(1, ...results.filter(({ state }) => reachable.has(state.case)).map(({ damping }) => damping));
}

/**
 * The state that was found with as much as in the case as leaves its damping where it is, but for what nobody would see: few
 * things are to be told. Never better than `least`, the least-damped named case.
 */
function tellable(
  { trial, trials }: LeastDamped,
  masses: readonly FreeSource[],
  base: CaseModel,
  least: number,
): Choices {
  const inCase = choicesInCase(masses, base);
  const sizes = trials.changes(
    trial,
    inCase.map((choice) => [choice]),
  );
  const most = Math.max(trial.damping, Math.min(trial.damping + UNSEEN, least));
  let choices = trial.choices;
  const others = [...masses.keys()]
    .filter((index) => !isSameChoice(choices[index] ?? [], inCase[index] ?? []))
    .map((index) => ({ index, size: Math.abs(sizes?.[index]?.[0] ?? 0) }))
    .sort((a, b) => a.size - b.size);
  for (const { index } of others) {
    const next = choices.map((choice, at) => (at === index ? (inCase[index] ?? choice) : choice));
    const damping = trials.on(next, trial.road)?.damping;
    if (damping !== undefined && damping <= most) choices = next;
  }
  return choices;
}
