import type { Finding } from '../../diagnostics/finding.ts';
import type { RigStability } from '../../semantics/stability/evaluate-stability.ts';
import { massAtBothEnds } from './both-ends.ts';
import { dampingLow, speedMarginSmall } from './margins.ts';
import { notComputed } from './not-computed.ts';
import { oversteers } from './oversteers.ts';
import type { StabilityRule } from './rule.ts';
import { unstableAtSpeed } from './unstable-at-speed.ts';
import { worseOffLevel } from './worse-off-level.ts';

/** All rules on lateral stability, in the order in which their findings at one place are listed. */
export const STABILITY_RULES: readonly StabilityRule[] = [
  notComputed,
  unstableAtSpeed,
  dampingLow,
  oversteers,
  massAtBothEnds,
  speedMarginSmall,
  worseOffLevel,
];

/** Everything the rules find in the lateral stability of a rig, all inside its own declaration. */
export function checkStability(stability: RigStability): readonly Finding[] {
  return STABILITY_RULES.flatMap(({ check }) => [...check(stability)]);
}
