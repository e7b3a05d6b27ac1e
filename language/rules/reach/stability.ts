import { finding } from '../../diagnostics/create.ts';
import type { Finding } from '../../diagnostics/finding.ts';
import { REACH } from '../../diagnostics/reach.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import { reachStabilityOf, type WorstReachable } from '../../semantics/envelope/reach-stability.ts';
import type { RigStability, StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import { ownPlace, pointAt } from '../places.ts';
import { advise } from '../stability/help.ts';
import { leastDampingWanted } from '../stability/margins.ts';
import { basisOf, INSTABILITIES, LEAST_DAMPING, swingingUnit } from '../stability/results.ts';
import { isUnstable } from '../stability/unstable-at-speed.ts';
import { heldRequirements, requiredStability } from './required-stability.ts';

/** A state that no case names, with a fault of its lateral motion that no named case has. */
export interface UnsteadyState {
  readonly finding: Finding;
  readonly worst: WorstReachable;
  /** Whether a state with this motion, on all roads, has the fault too. */
  readonly isFaulty: (results: readonly StabilityResult[]) => boolean;
}

/** What is found of the lateral stability in states that no case names. */
export function checkReachStability(stability: RigStability): readonly Finding[] {
  return unsteadyStates(stability).map(({ finding }) => finding);
}

/**
 * The least-damped state that a search has come upon, if it has less damping than is wanted, sways by itself or folds at the
 * intended speed, or breaks what the author requires. Nothing where a named case does so, which other rules tell; states are not
 * even searched then.
 */
export function unsteadyStates(stability: RigStability): readonly UnsteadyState[] {
  return [...swayingState(stability), ...requiredStability(stability)];
}

/** Looks for the least-damped state, where it will be asked for: the longest part of finding what is wrong with it. */
export function searchReachStability(stability: RigStability): void {
  if (isSteady(stability) || heldRequirements(stability).length > 0) reachStabilityOf(stability.rig);
}

/** Whether no named case sways too much, as other rules would tell. */
function isSteady({ speed, results }: RigStability): boolean {
  const isTold = results.some((each) => INSTABILITIES.some((kind) => isUnstable(each, kind, speed)));
  return results.length > 0 && !isTold && leastNamed(results) >= leastDampingWanted(speed);
}

const leastNamed = (results: readonly StabilityResult[]): number => Math.min(...results.map(({ damping }) => damping));

function swayingState(stability: RigStability): readonly UnsteadyState[] {
  const { rig, speed, results } = stability;
  const wanted = leastDampingWanted(speed);
  if (!isSteady(stability)) return [];
  const reached = reachStabilityOf(rig);
  if (reached === undefined || reached.damping >= wanted) return [];
  const { worst, tried } = reached;
  if (worst === undefined || worst.result.damping >= wanted) return [];
  const { result, witness } = worst;
  const place = ownPlace(stability, rig.reachable?.location, rig.travel?.location);
  const kind = result.folds ? 'folding' : 'swinging';
  const parameters = {
    subject: result.folds ? rig.name : swingingUnit(result),
    damping: result.damping,
    least: LEAST_DAMPING,
    named: leastNamed(results),
    tried,
    intended: speed,
    ...basisOf(stability),
    state: result.label,
    also: [],
    help: advise(kind, { ...stability, results: worst.results }, result, { least: wanted }),
  };
  const { base } = witness;
  const related = pointAt(place, base.location, `the state is told as other than case ${base.name}`);
  const told = finding('reach-stability', REACH['reach-stability'], parameters, place, related);
  const isFaulty = (found: readonly StabilityResult[]) => found.some(({ damping }) => damping < wanted);
  return [{ finding: { ...told, follows: STABILITY['damping-low'].code }, worst, isFaulty }];
}
