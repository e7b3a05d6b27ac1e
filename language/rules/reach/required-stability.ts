import { finding } from '../../diagnostics/create.ts';
import { REACH } from '../../diagnostics/reach.ts';
import { REQUIREMENTS } from '../../diagnostics/requirements.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import { reachStabilityOf, type WorstReachable } from '../../semantics/envelope/reach-stability.ts';
import type { Requirement } from '../../semantics/model.ts';
import {
  checkRequirement,
  type RequirementCheck,
  requiredQuantity,
  requirementsOf,
  textIn,
} from '../../semantics/requirements.ts';
import type { RigStability, StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import { asksForStability, withStability } from '../../semantics/stability/stability-quantities.ts';
import { formatDifference, formatLimited } from '../limits/check-limits.ts';
import { ownPlace, pointAt } from '../places.ts';
import { advise } from '../stability/help.ts';
import type { UnsteadyState } from './stability.ts';

/** The author's own limits on lateral stability, of all cases, that every named case holds. */
export function heldRequirements({ rig, results }: RigStability): readonly Requirement[] {
  if (results.length === 0) return [];
  const isHeld = (requirement: Requirement) => results.every((result) => (marginIn(requirement, result) ?? -1) >= 0);
  return requirementsOf(rig).filter(
    (requirement) => requirement.cases === undefined && asksForStability(requirement) && isHeld(requirement),
  );
}

/** Those that the least-damped reachable state found does not hold. Sampled: others can be worse, in damping and in the rest. */
export function requiredStability(stability: RigStability): readonly UnsteadyState[] {
  const held = heldRequirements(stability);
  const worst = held.length === 0 ? undefined : reachStabilityOf(stability.rig)?.worst;
  return worst === undefined ? [] : held.flatMap((requirement) => brokenIn(stability, worst, requirement) ?? []);
}

/** What is least held of a requirement on the roads that a state is looked at on; undefined where it cannot be checked. */
export function leastHeld(
  requirement: Requirement,
  results: readonly StabilityResult[],
): (RequirementCheck & { readonly result: StabilityResult }) | undefined {
  let least: (RequirementCheck & { readonly result: StabilityResult }) | undefined;
  for (const result of results) {
    const check = checkRequirement(requirement, withStability(result));
    if ('problem' in check) return undefined;
    if (least === undefined || check.margin < least.margin) least = { ...check, result };
  }
  return least;
}

const marginIn = (requirement: Requirement, result: StabilityResult): number | undefined =>
  leastHeld(requirement, [result])?.margin;

function brokenIn(stability: RigStability, worst: WorstReachable, requirement: Requirement): UnsteadyState | undefined {
  const { rig } = stability;
  const check = leastHeld(requirement, worst.results);
  if (check === undefined || check.margin >= 0) return undefined;
  const { value, least, most, result, state } = check;
  const sense = least !== undefined && value.value < least.value ? 'at least' : 'at most';
  const limit = sense === 'at least' ? least : most;
  if (limit === undefined) return undefined;
  const system = systemOfRig(rig);
  const limited = { dimension: value.dimension, ...(limit.unit === undefined ? {} : { unit: limit.unit }) };
  const isDamping = sense === 'at least' && requiredQuantity(requirement, state) === 'rig.damping';
  const kind = result.folds ? 'folding' : 'swinging';
  const motions = { ...stability, results: worst.results };
  const parameters = {
    subject: textIn(requirement, state),
    quantity: 'the value',
    sense,
    limitName: `the ${sense === 'at most' ? 'most' : 'least'} allowed here`,
    value: value.value,
    limit: limit.value,
    format: (figure: number) => formatLimited(limited, figure, system),
    formatDifference: (figure: number) => formatDifference(limited, figure, system),
    state: result.label,
    case: undefined,
    found: 'sampled',
    help: isDamping ? advise(kind, motions, result, { least: limit.value }) : undefined,
  } as const;
  const place = ownPlace(stability, rig.reachable?.location, requirement.location);
  const { base } = worst.witness;
  const related = [
    ...pointAt(place, requirement.location, 'Required here.'),
    ...pointAt(place, base.location, `the state is told as other than case ${base.name}`),
  ];
  const told = finding('reach-over-limit', REACH['reach-over-limit'], parameters, place, related);
  const isFaulty = (results: readonly StabilityResult[]) => (leastHeld(requirement, results)?.margin ?? 0) < 0;
  return { finding: { ...told, follows: REQUIREMENTS['requirement-violated'].code }, worst, isFaulty };
}
