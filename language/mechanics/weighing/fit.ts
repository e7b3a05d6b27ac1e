import { CholeskyDecomposition, Matrix, QrDecomposition, solve } from 'ml-matrix';
import type { Correction } from './design.ts';
import type { Determined } from './determined.ts';

/** Readings to be fitted: what of them the file does not explain, and how a correction changes them. */
export interface FitProblem {
  /** Derivatives of each reading by the numbers of the correction. */
  readonly rows: readonly (readonly number[])[];
  /** reading − predicted, kg. */
  readonly residuals: readonly number[];
  /** Covariance of those residuals, kg², positive definite. */
  readonly covariance: Matrix;
  readonly determined: Determined;
}

export interface Fit {
  readonly correction: Correction;
  /** Covariance of the correction by the stated deviations; nothing from what the readings do not determine. */
  readonly covariance: Matrix;
  /** Residuals after the fit, kg. */
  readonly residuals: readonly number[];
  readonly chiSquare: number;
  /** How far the others check each reading: 0 not at all, 1 as if the tares were known. */
  readonly redundancies: readonly number[];
  /** Weighted residuals P·v (1/kg) and their covariance: what shows which reading is off. */
  readonly weighted: readonly number[];
  readonly weightedCovariance: Matrix;
}

/**
 * Generalised least squares within the combinations that the readings determine, so that the correction is the smallest
 * of all that fit as well. Rows are whitened by the Cholesky factor of the covariance and solved by QR.
 */
export function fitCorrection({ rows, residuals, covariance, determined }: FitProblem): Fit {
  const { basis, rank } = determined;
  if (residuals.length === 0) return nothingToFit(basis.rows);
  const whitening = solve(new CholeskyDecomposition(covariance).lowerTriangularMatrix, Matrix.eye(residuals.length));
  const design = new Matrix(rows.map((row) => [...row]));
  const target = Matrix.columnVector([...residuals]);
  if (rank === 0) {
    const space = Matrix.zeros(residuals.length, 0);
    return { ...nothingToFit(basis.rows), residuals, ...judge(whitening, space, residuals) };
  }
  const decomposition = new QrDecomposition(whitening.mmul(design).mmul(basis));
  const space = decomposition.orthogonalMatrix;
  const inverse = basis.mmul(solve(decomposition.upperTriangularMatrix, Matrix.eye(rank)));
  const correction = inverse.mmul(space.transpose().mmul(whitening.mmul(target)));
  const left = Matrix.sub(target, design.mmul(correction)).to1DArray();
  return {
    correction: correction.to1DArray(),
    covariance: inverse.mmul(inverse.transpose()),
    residuals: left,
    ...judge(whitening, space, left),
  };
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
  };
}

/**
 * With the whitening W and the projector N on what no correction can do: P·v = Wᵀ·N·W·v with the covariance Wᵀ·N·W. A
 * redundancy is its diagonal element over that of P = WᵀW.
 */
function judge(whitening: Matrix, space: Matrix, residuals: readonly number[]) {
  const projector = Matrix.eye(residuals.length).sub(space.mmul(space.transpose()));
  const whitened = whitening.mmul(Matrix.columnVector([...residuals]));
  const weightedCovariance = whitening.transpose().mmul(projector).mmul(whitening);
  const weights = whitening.transpose().mmul(whitening);
  const share = (index: number) => weightedCovariance.get(index, index) / weights.get(index, index);
  return {
    chiSquare: whitened.norm() ** 2,
    weighted: whitening.transpose().mmul(whitened).to1DArray(),
    weightedCovariance,
    redundancies: residuals.map((_, index) => Math.min(1, Math.max(0, share(index)))),
  };
}
