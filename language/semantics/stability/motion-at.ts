import { equationsOf } from '../../mechanics/stability/equations.ts';
import { leastDamped, type Mode, modesAt } from '../../mechanics/stability/modes.ts';
import { isStabilityProblem } from '../../mechanics/stability/problems.ts';
import type { RigStability, StabilityResult } from './evaluate-stability.ts';

/** How a rig moves by itself at a speed. */
export interface MotionAt {
  /** The least-damped swinging mode; undefined where nothing swings. */
  readonly mode?: Mode;
  /** Something grows without swinging: the rig folds or spins, however well the swinging that is left is damped. */
  readonly folds: boolean;
  /** Greatest real part of all eigenvalues, 1/s: above 0 something grows. */
  readonly growth: number;
}

/** Where the motion cannot be computed. */
export const STILL: MotionAt = { folds: false, growth: 0 };

/** The motion of a result at `speed`, m/s; undefined where it cannot be computed. */
export function motionAt({ built }: StabilityResult, speed: number): MotionAt | undefined {
  const equations = equationsOf(built.train);
  const modes = isStabilityProblem(equations) ? equations : modesAt(equations, speed);
  if (isStabilityProblem(modes)) return undefined;
  const mode = leastDamped(modes);
  return {
    folds: modes.some(({ eigenvalue, frequency }) => frequency === 0 && eigenvalue.real > 0),
    growth: Math.max(...modes.map(({ eigenvalue }) => eigenvalue.real)),
    ...(mode ? { mode } : {}),
  };
}

/** Damping ratio of all that moves: −1 where something grows without swinging, as −Re λ/|λ| is of a real λ above 0. */
export function overallDamping(motion: MotionAt | undefined): number {
  return motion?.folds ? -1 : (motion?.mode?.damping ?? 1);
}

/** The result that is the least damped at the intended speed; the first of several. */
export function leastDampedResult({ results }: RigStability): StabilityResult | undefined {
  let least: { readonly result: StabilityResult; readonly damping: number } | undefined;
  for (const result of results) {
    const { damping } = result;
    if (least === undefined || damping < least.damping) least = { result, damping };
  }
  return least?.result;
}
