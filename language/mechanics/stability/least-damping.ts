import { emptySpectrum, findEigenvalues } from './eigenvalues.ts';
import { type Equations, stateMatrix } from './equations.ts';
import { swings } from './modes.ts';
import { findSpeedProblem } from './problems.ts';

/** Real parts up to this share of the greatest |λ| are 0 but for rounding. */
const GROWING = 1e-11;

/**
 * Damping ratio of all that moves at `speed` m/s, from eigenvalues alone: the least −Re λ/|λ| of what swings, 1 where nothing
 * does, −1 where something grows without swinging. Undefined where the eigenvalues cannot be found.
 */
export function leastDampingAt(equations: Equations, speed: number): number | undefined {
  if (findSpeedProblem(speed) !== undefined) return undefined;
  const { size } = equations.layout;
  const spectrum = emptySpectrum(size);
  if (!findEigenvalues(stateMatrix(equations, speed), spectrum)) return undefined;
  let least = 1;
  let greatest = 0;
  let growing = 0;
  for (let i = 0; i < size; i++) {
    const eigenvalue = { real: spectrum.real[i] ?? 0, imaginary: spectrum.imaginary[i] ?? 0 };
    const magnitude = Math.hypot(eigenvalue.real, eigenvalue.imaginary);
    greatest = Math.max(greatest, magnitude);
    if (swings(eigenvalue)) least = Math.min(least, -eigenvalue.real / magnitude);
    else growing = Math.max(growing, eigenvalue.real);
  }
  return growing > GROWING * greatest ? -1 : least;
}
