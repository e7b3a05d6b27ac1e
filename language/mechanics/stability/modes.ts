import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { type Complex, type ComplexVector, magnitude, normalise } from './complex.ts';
import { emptySpectrum, findEigenvalues } from './eigenvalues.ts';
import { type Equations, equationsOf, stateMatrix } from './equations.ts';
import { findSpeedProblem, type StabilityProblem } from './problems.ts';
import type { Train } from './train.ts';

/** What a mode looks like to someone beside the road. */
export type Motion =
  /** The first unit yaws most. */
  | 'vehicle-yaw'
  /** A towed unit swings most. */
  | 'trailer-swing'
  /** An articulation grows without swinging: the train folds. */
  | 'folding'
  /** The first unit leaves its course without swinging. */
  | 'spin'
  /** It dies out without swinging. */
  | 'settling';

/** One way in which a train moves by itself: exp(λ·t), of a complex pair the one with positive imaginary part. */
export interface Mode {
  /** λ, 1/s. */
  readonly eigenvalue: Complex;
  /** −Re λ/|λ|: 1 dies out without swinging, 0 swings for ever, below 0 grows. */
  readonly damping: number;
  /** Of the swinging, Hz; 0 if it does not swing. */
  readonly frequency: number;
  readonly motion: Motion;
  /** The unit that yaws most, by index. */
  readonly unit: number;
  /** Yaw of every unit in the common motion, the greatest being 1. */
  readonly yaw: readonly Complex[];
  /** The motion in the whole state (see `StateLayout`), the greatest component being 1. */
  readonly vector: ComplexVector;
}

/** Imaginary parts below this share of |λ| are what rounding makes of a double real eigenvalue. */
export const SWINGING = 1e-7;

/**
 * All modes of a train at `speed` m/s, the slowest to die out first; a complex pair is one mode. Eigenvalues and
 * eigenvectors by ml-matrix. Never throws.
 */
export function modesOf(train: Train, speed: number): readonly Mode[] | StabilityProblem {
  const equations = equationsOf(train);
  return 'problem' in equations ? equations : modesAt(equations, speed);
}

/** The same from equations made before. */
export function modesAt(equations: Equations, speed: number): readonly Mode[] | StabilityProblem {
  const problem = findSpeedProblem(speed);
  if (problem !== undefined) return problem;
  const { size } = equations.layout;
  const matrix = stateMatrix(equations, speed);
  // The library neither limits its iterations nor minds what is not a number: tried here first.
  if (!findEigenvalues(matrix.slice(), emptySpectrum(size))) return { problem: 'overflow' };
  const found = new EigenvalueDecomposition(toMatrix(matrix, size), { assumeSymmetric: false });
  const modes: Mode[] = [];
  for (let i = 0; i < size; i++) {
    const eigenvalue = { real: found.realEigenvalues[i] ?? 0, imaginary: found.imaginaryEigenvalues[i] ?? 0 };
    if (eigenvalue.imaginary < 0) continue;
    const vector = columnOf(found.eigenvectorMatrix, i, eigenvalue.imaginary > 0);
    modes.push(describe(equations, eigenvalue, vector));
  }
  return modes.sort((a, b) => b.eigenvalue.real - a.eigenvalue.real);
}

/** The swinging mode with the least damping ratio; undefined if nothing swings. */
export function leastDamped(modes: readonly Mode[]): Mode | undefined {
  let least: Mode | undefined;
  for (const mode of modes) {
    if (mode.frequency > 0 && (least === undefined || mode.damping < least.damping)) least = mode;
  }
  return least;
}

/** Whether λ belongs to a swinging motion. */
export function swings({ real, imaginary }: Complex): boolean {
  return Math.abs(imaginary) > SWINGING * Math.hypot(real, imaginary);
}

function toMatrix(values: Float64Array, size: number): Matrix {
  const rows: number[][] = [];
  for (let row = 0; row < size; row++) rows.push(Array.from(values.subarray(row * size, (row + 1) * size)));
  return new Matrix(rows);
}

/** The library keeps the real and the imaginary part of a pair's vector in two columns. */
function columnOf(vectors: Matrix, column: number, isComplex: boolean): ComplexVector {
  const real = Float64Array.from(vectors.getColumn(column));
  const imaginary = isComplex ? Float64Array.from(vectors.getColumn(column + 1)) : new Float64Array(real.length);
  return normalise({ real, imaginary });
}

function describe({ layout }: Equations, eigenvalue: Complex, vector: ComplexVector): Mode {
  const { real, imaginary } = eigenvalue;
  const size = magnitude(eigenvalue);
  const isSwinging = swings(eigenvalue);
  const yaw = yawOf(vector, layout.units);
  const unit = yaw.reduce((most, each, i) => (magnitude(each) > magnitude(yaw[most]) * (1 + 1e-9) ? i : most), 0);
  return {
    eigenvalue,
    damping: size === 0 ? 0 : -real / size,
    frequency: isSwinging ? imaginary / (2 * Math.PI) : 0,
    motion: isSwinging ? (unit === 0 ? 'vehicle-yaw' : 'trailer-swing') : standingMotion(real, unit, layout.units),
    unit,
    yaw,
    vector,
  };
}

function standingMotion(real: number, unit: number, units: number): Motion {
  if (real <= 0) return 'settling';
  return unit === 0 && units === 1 ? 'spin' : 'folding';
}

/** Yaw rates of a mode are λ times its yaw angles, the same for all units. */
function yawOf({ real, imaginary }: ComplexVector, units: number): readonly Complex[] {
  const { real: a, imaginary: b } = normalise({
    real: real.slice(1, units + 1),
    imaginary: imaginary.slice(1, units + 1),
  });
  return Array.from(a, (each, i) => ({ real: each, imaginary: b[i] ?? 0 }));
}
