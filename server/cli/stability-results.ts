import { type FirstMove, firstMoves } from '../../language/rules/stability/first-moves.ts';
import { leastDampedSwing } from '../../language/rules/stability/results.ts';
import { findReachStability, type ReachStability } from '../../language/semantics/envelope/reach-stability.ts';
import {
  evaluateStability,
  type RigStability,
  type SourceSensitivity,
  type StabilityResult,
  sensitivitiesOf,
} from '../../language/semantics/stability/evaluate-stability.ts';
import { leastDampedResult } from '../../language/semantics/stability/motion-at.ts';
import type { RigResult } from '../../language/semantics/state.ts';
import type { FoundRig } from './rigs.ts';

/** What of the rigs is looked at. */
export interface StabilityChoice {
  /** Names of cases; all when empty. */
  readonly cases: readonly string[];
  /** m/s, instead of the speed that the files intend. */
  readonly speed?: number;
}

/** A rig with its lateral stability; without, where it tows nothing or has no loads. */
export interface FoundStability {
  readonly found: FoundRig;
  readonly stability?: RigStability;
  /** The least-damped of its results. */
  readonly worst?: StabilityResult;
  /** The least-damped of those in which it swings and does not fold. */
  readonly swinging?: StabilityResult;
  /** What the damping of that one answers to, the greatest gain first. */
  readonly sensitivities: readonly SourceSensitivity[];
  /** The least-damped of the reachable states that were tried; absent where some cases are asked for, or nothing varies. */
  readonly reached?: ReachStability;
  /** What to move first there: items before tanks before fittings. */
  readonly moves: readonly FirstMove[];
}

export function findStability(rigs: readonly FoundRig[], choice: StabilityChoice): FoundStability[] {
  return rigs.map((found): FoundStability => {
    const result = atSpeed(found.result, choice.speed);
    const stability = ofCases(evaluateStability(result), choice.cases);
    if (stability === undefined) return { found, sensitivities: [], moves: [] };
    const worst = leastDampedResult(stability);
    const swinging = leastDampedSwing(stability.results);
    const reached =
      choice.cases.length > 0 || stability.results.length === 0 ? undefined : findReachStability(result, stability);
    const sensitivities = swinging === undefined ? [] : [...sensitivitiesOf(swinging, stability.speed)];
    return {
      found,
      stability,
      ...(worst ? { worst } : {}),
      ...(swinging ? { swinging } : {}),
      ...(reached ? { reached } : {}),
      sensitivities: sensitivities.sort((a, b) => gainOf(b) - gainOf(a)),
      moves: swinging === undefined ? [] : firstMoves(swinging, stability.speed, Number.POSITIVE_INFINITY),
    };
  });
}

/** A rig with the speed asked for as the intended one. */
function atSpeed({ rig, ...result }: RigResult, speed: number | undefined): RigResult {
  const travel = { down: 0, up: 0, location: rig.location, ...rig.travel, speed };
  return { ...result, rig: speed === undefined ? rig : { ...rig, travel } };
}

/** Of a stability the cases asked for; what is assumed does not depend on the choice. */
function ofCases(stability: RigStability | undefined, cases: readonly string[]): RigStability | undefined {
  if (stability === undefined || cases.length === 0) return stability;
  const results = stability.results.filter(({ state }) => cases.includes(state.case.name));
  return results.length > 0 || stability.results.length === 0 ? { ...stability, results } : undefined;
}

/** What can be gained: by 100 mm ahead or back, or by taking out 10 kg, or all where that is less. */
function gainOf({ damping, mass }: SourceSensitivity): number {
  return Math.max(0.1 * Math.abs(damping.x), -Math.min(10, mass) * damping.mass);
}
