import { CholeskyDecomposition, Matrix, QrDecomposition, solve } from 'ml-matrix';
import { COMPONENTS, type Correction, changeOfLoad, derivativesOfLoad } from './design.ts';
import type { Determined } from './determined.ts';
import type { Observation, TareGuess } from './observation.ts';

/** Readings to be fitted: all usable, with what the file predicts and what they vary by. */
export interface FitProblem {
  readonly observations: readonly Observation<unknown>[];
  readonly tares: readonly TareGuess[];
  /** reading − predicted, kg. */
  readonly residuals: readonly number[];
  /** Covariance of those residuals, kg². */
  readonly covariance: Matrix;
  readonly determined: Determined;
}

export interface Fit {
  readonly correction: Correction;
  /** Covariance of the correction by the stated deviations; zero in what the readings do not determine. */
  readonly covariance: Matrix;
  /** Residuals after the fit, kg. */
  readonly residuals: readonly number[];
  readonly chiSquare: number;
  /** Share of an error of each reading that shows in its own residual. */
  readonly redundancies: readonly number[];
  /** Weighted residuals P·v (1/kg) and their covariance: what shows which reading is off. */
  readonly weighted: readonly number[];
  readonly weightedCovariance: Matrix;
  readonly settled: boolean;
}

const MOST_STEPS = 40;

/** Relative change of a correction below which it has settled. */
const SETTLED = 1e-10;

/**
 * Weighted least squares by Gauss–Newton. Loads are linear in mass and moments but for the product of x and y in wheel
 * loads; without such readings the first step is exact. Each step solves for the whole correction, not for an increment,
 * within the combinations that the readings determine at the file's place, so that it stays the smallest of its kind.
 * Rows are whitened by the Cholesky factor of the covariance and solved by QR. Where it does not settle, the first step stands.
 */
export function fitCorrection(problem: FitProblem): Fit {
  const { tares, residuals, covariance } = problem;
  if (residuals.length === 0) return nothingToFit(tares.length * COMPONENTS.length);
  const factor = new CholeskyDecomposition(covariance).lowerTriangularMatrix;
  const whitening = solve(factor, Matrix.eye(residuals.length));
  const first = takeStep(problem, whitening, new Array<number>(tares.length * COMPONENTS.length).fill(0));
  let last = first;
  let settled = false;
  for (let count = 1; !settled && count < MOST_STEPS; count++) {
    const next = takeStep(problem, whitening, last.correction);
    settled = isNear(next.correction, last.correction);
    last = next;
  }
  const { correction, covariance: ofCorrection, space } = settled ? last : first;
  const left = residuals.map((residual, i) => residual - changeAt(problem, i, correction));
  return { correction, settled, covariance: ofCorrection, residuals: left, ...judge(factor, whitening, space, left) };
}

function nothingToFit(size: number): Fit {
  return {
    correction: new Array<number>(size).fill(0),
    covariance: Matrix.zeros(size, size),
    residuals: [],
    chiSquare: 0,
    redundancies: [],
    weighted: [],
    weightedCovariance: Matrix.zeros(0, 0),
    settled: true,
  };
}

interface Step {
  readonly correction: Correction;
  readonly covariance: Matrix;
  /** Orthonormal columns: what corrections can do to whitened readings. */
  readonly space: Matrix;
}

function takeStep(problem: FitProblem, whitening: Matrix, at: Correction): Step {
  const { observations, tares, residuals, determined } = problem;
  const size = at.length;
  if (determined.rank === 0) {
    return { correction: at, covariance: Matrix.zeros(size, size), space: Matrix.zeros(observations.length, 0) };
  }
  const rows = observations.map(({ influence }) => derivativesOfLoad(influence, tares, at));
  const target = rows.map((row, i) => (residuals[i] ?? 0) - changeAt(problem, i, at) + dot(row, at));
  const decomposition = new QrDecomposition(whitening.mmul(new Matrix(rows)).mmul(determined.basis));
  const space = decomposition.orthogonalMatrix;
  const inverse = determined.basis.mmul(solve(decomposition.upperTriangularMatrix, Matrix.eye(determined.rank)));
  const solution = inverse.mmul(space.transpose().mmul(whitening.mmul(Matrix.columnVector(target))));
  return { correction: solution.to1DArray(), covariance: inverse.mmul(inverse.transpose()), space };
}

function changeAt({ observations, tares }: FitProblem, index: number, correction: Correction): number {
  const observation = observations[index];
  return observation === undefined ? 0 : changeOfLoad(observation.influence, tares, correction);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, index) => sum + value * (b[index] ?? 0), 0);
}

function isNear(a: Correction, b: Correction): boolean {
  const size = Math.hypot(...a);
  return a.every((value, index) => Math.abs(value - (b[index] ?? 0)) <= SETTLED * (1 + size));
}

/**
 * With the whitening W and the projector N on what no correction can do: P·v = Wᵀ·N·W·v, its covariance Wᵀ·N·W, and
 * the redundancies as the diagonal of W⁻¹·N·W.
 */
function judge(factor: Matrix, whitening: Matrix, space: Matrix, residuals: readonly number[]) {
  const projector = Matrix.eye(residuals.length).sub(space.mmul(space.transpose()));
  const whitened = whitening.mmul(Matrix.columnVector([...residuals]));
  const weightedCovariance = whitening.transpose().mmul(projector).mmul(whitening);
  return {
    chiSquare: whitened.norm() ** 2,
    weighted: whitening.transpose().mmul(whitened).to1DArray(),
    weightedCovariance,
    redundancies: factor
      .mmul(projector)
      .mmul(whitening)
      .diagonal()
      .map((value) => Math.min(1, Math.max(0, value))),
  };
}
