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
  /** Weighted residuals P·v (1/kg) and their variances: what shows which reading is off. */
  readonly weighted: readonly number[];
  readonly weightedVariances: readonly number[];
}

/**
 * Generalised least squares within the combinations that the readings determine, so that the correction is the smallest
 * of all that fit as well. Rows are whitened by the Cholesky factor of the covariance and solved by QR.
 */
export function fitCorrection({ rows, residuals, covariance, determined }: FitProblem): Fit {
  const { basis, rank } = determined;
  if (residuals.length === 0) return nothingToFit(basis.rows);
  const whitening = inverseOfLower(new CholeskyDecomposition(covariance).lowerTriangularMatrix);
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
    weightedVariances: [],
  };
}

/** The inverse of a lower triangular matrix, by forward substitution; it is one too. */
function inverseOfLower(lower: Matrix): Matrix {
  const size = lower.rows;
  const rows = lower.to2DArray();
  const inverse = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  rows.forEach((row, i) => {
    const pivot = row[i] ?? 1;
    const own = inverse[i] ?? [];
    for (let k = 0; k < i; k++) {
      const share = (row[k] ?? 0) / pivot;
      // Readings of which most have nothing in common.
      if (share === 0) continue;
      const above = inverse[k] ?? [];
      for (let j = 0; j <= k; j++) own[j] = (own[j] ?? 0) - share * (above[j] ?? 0);
    }
    own[i] = 1 / pivot;
  });
  return new Matrix(inverse);
}

/**
 * With the whitening W, the orthonormal columns Q of what corrections can do and N = 1 − Q·Qᵀ: P·v = Wᵀ·N·W·v, whose
 * variances are the diagonal of Wᵀ·N·W. A redundancy is its element over that of P = WᵀW. Only diagonals are computed:
 * all slips of a rig together may have many readings.
 */
function judge(whitening: Matrix, space: Matrix, residuals: readonly number[]) {
  const whitened = whitening.mmul(Matrix.columnVector([...residuals]));
  const weights = squaredColumns(whitening);
  const explained = space.columns === 0 ? weights.map(() => 0) : squaredColumns(space.transpose().mmul(whitening));
  const weightedVariances = weights.map((weight, index) => Math.max(0, weight - (explained[index] ?? 0)));
  return {
    chiSquare: whitened.norm() ** 2,
    weighted: whitening.transpose().mmul(whitened).to1DArray(),
    weightedVariances,
    redundancies: weights.map((weight, index) => Math.min(1, (weightedVariances[index] ?? 0) / weight)),
  };
}

/** Σ of the squares of each column. */
function squaredColumns(matrix: Matrix): number[] {
  const sums = new Array<number>(matrix.columns).fill(0);
  for (const row of matrix.to2DArray()) {
    row.forEach((value, column) => {
      sums[column] = (sums[column] ?? 0) + value ** 2;
    });
  }
  return sums;
}
