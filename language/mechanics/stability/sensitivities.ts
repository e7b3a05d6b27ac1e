import { magnitude } from './complex.ts';
import { type Equations, equationsOf } from './equations.ts';
import { type Adjoint, adjointOf, type Figure, gradientOf, type TrainGradient } from './gradient.ts';
import { leastDamped, type Mode, modesAt } from './modes.ts';
import type { StabilityProblem } from './problems.ts';
import type { Train } from './train.ts';

/** A figure with its derivatives. */
export interface Sensitivity {
  readonly value: number;
  readonly gradient: TrainGradient;
  /** The mode it belongs to. */
  readonly mode: Mode;
}

/**
 * Damping ratio of the least-damped swinging mode at `speed` m/s and its first derivatives, exact, from the right and the
 * left eigenvector. Undefined if nothing swings, or where two modes coincide.
 */
export function dampingSensitivity(train: Train, speed: number): Sensitivity | undefined | StabilityProblem {
  const equations = equationsOf(train);
  return 'problem' in equations ? equations : dampingSensitivityAt(equations, speed);
}

/** The same from equations made before. */
export function dampingSensitivityAt(equations: Equations, speed: number): Sensitivity | undefined | StabilityProblem {
  const modes = modesAt(equations, speed);
  if ('problem' in modes) return modes;
  const mode = leastDamped(modes);
  const adjoint = mode && adjointOf(equations, speed, mode.eigenvalue, mode.vector);
  if (mode === undefined || adjoint === undefined) return undefined;
  return { value: mode.damping, gradient: gradientOf(equations, adjoint, dampingChange(adjoint)), mode };
}

/**
 * First derivatives of a critical speed (m/s, as `sweepSpeeds` found it): of the zero-damping speed if `swinging`, else of
 * the divergence speed. Undefined if no eigenvalue has a real part of 0 there, or it only touches 0.
 */
export function criticalSpeedSensitivity(
  train: Train,
  speed: number,
  swinging: boolean,
): Sensitivity | undefined | StabilityProblem {
  const equations = equationsOf(train);
  return 'problem' in equations ? equations : criticalSpeedSensitivityAt(equations, speed, swinging);
}

/** The same from equations made before. */
export function criticalSpeedSensitivityAt(
  equations: Equations,
  speed: number,
  swinging: boolean,
): Sensitivity | undefined | StabilityProblem {
  const modes = modesAt(equations, speed);
  if ('problem' in modes) return modes;
  const mode = nearestToAxis(modes, swinging);
  const adjoint = mode && adjointOf(equations, speed, mode.eigenvalue, mode.vector);
  if (mode === undefined || adjoint === undefined || adjoint.perSpeed.real === 0) return undefined;
  const change: Figure = ({ real }) => -real / adjoint.perSpeed.real;
  return { value: speed, gradient: gradientOf(equations, adjoint, change), mode };
}

/** A real part that is 0 but for rounding, relative to the greatest |λ|. */
const ON_AXIS = 1e-6;

function nearestToAxis(modes: readonly Mode[], swinging: boolean): Mode | undefined {
  const greatest = Math.max(...modes.map(({ eigenvalue }) => magnitude(eigenvalue)));
  let nearest: Mode | undefined;
  for (const mode of modes) {
    const away = Math.abs(mode.eigenvalue.real);
    const swings = Math.abs(mode.eigenvalue.imaginary) > ON_AXIS * greatest;
    if (swings !== swinging || away > ON_AXIS * greatest) continue;
    if (nearest === undefined || away < Math.abs(nearest.eigenvalue.real)) nearest = mode;
  }
  return nearest;
}

/** d(−Re λ/|λ|) = −Im λ·(Im λ·dRe λ − Re λ·dIm λ)/|λ|³ */
function dampingChange({ eigenvalue: { real, imaginary } }: Adjoint): Figure {
  const cube = Math.hypot(real, imaginary) ** 3;
  return (change) => (-imaginary * (imaginary * change.real - real * change.imaginary)) / cube;
}
