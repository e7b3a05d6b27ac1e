import { finding } from '../../diagnostics/create.ts';
import type { Finding } from '../../diagnostics/finding.ts';
import { REACH } from '../../diagnostics/reach.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import { reachStabilityOf } from '../../semantics/envelope/reach-stability.ts';
import type { RigStability } from '../../semantics/stability/evaluate-stability.ts';
import { ownPlace, pointAt } from '../places.ts';
import { advise } from '../stability/help.ts';
import { leastDampingWanted } from '../stability/margins.ts';
import { basisOf, INSTABILITIES, LEAST_DAMPING, swingingUnit } from '../stability/results.ts';
import { isUnstable } from '../stability/unstable-at-speed.ts';

/**
 * What is found of the lateral stability in states that no case names: the least-damped one that a search has come upon, if it
 * has less damping than is wanted, sways by itself or folds at the intended speed. Nothing where a named case does so, which
 * other rules tell; states are not even searched then.
 */
export function checkReachStability(stability: RigStability): readonly Finding[] {
  const { rig, speed, results } = stability;
  const wanted = leastDampingWanted(speed);
  const named = Math.min(...results.map(({ damping }) => damping));
  const isTold = results.some((each) => INSTABILITIES.some((kind) => isUnstable(each, kind, speed)));
  if (results.length === 0 || isTold || named < wanted) return [];
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
    named,
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
  return [{ ...told, follows: STABILITY['damping-low'].code }];
}
