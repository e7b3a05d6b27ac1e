import { type Complex, type ComplexVector, complex, component, normalise, plus, scaled, times } from './complex.ts';
import { solveInPlace } from './dense.ts';

/** Distance from the eigenvalue, relative, at which the inverse iteration works. */
const SHIFT = 1e-9;

/** Each pass gains the ratio of that distance to the gap to the next eigenvalue. */
const PASSES = 3;

/**
 * The left eigenvector (vector·A = λ·vector, nothing conjugated) of a real `size` × `size` matrix to a known eigenvalue, by
 * inverse iteration on the transposed matrix; the greatest component is 1. Undefined if that is singular even beside
 * the eigenvalue.
 */
export function leftVector(matrix: Float64Array, size: number, eigenvalue: Complex): ComplexVector | undefined {
  let scale = 0;
  for (let i = 0; i < size; i++) scale = Math.max(scale, Math.abs(matrix[i * (size + 1)] ?? 0));
  const shifted = complex(eigenvalue.real + SHIFT * Math.max(scale, Math.abs(eigenvalue.real)), eigenvalue.imaginary);
  let vector: ComplexVector = { real: new Float64Array(size), imaginary: new Float64Array(size) };
  for (let i = 0; i < size; i++) vector.real[i] = 1 + 0.37 * i;
  for (let pass = 0; pass < PASSES; pass++) {
    const next = solveTransposed(matrix, size, shifted, vector);
    if (next === undefined) return undefined;
    vector = normalise(next);
  }
  return vector;
}

/** Solves (Aᵀ − μ)·y = b as a real system of twice the size. */
function solveTransposed(
  matrix: Float64Array,
  size: number,
  { real, imaginary }: Complex,
  right: ComplexVector,
): ComplexVector | undefined {
  const width = 2 * size;
  const system = new Float64Array(width * width);
  const values = new Float64Array(width);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const value = (matrix[column * size + row] ?? 0) - (row === column ? real : 0);
      system[row * width + column] = value;
      system[(row + size) * width + column + size] = value;
    }
    system[row * width + row + size] = imaginary;
    system[(row + size) * width + row] = -imaginary;
    values[row] = right.real[row] ?? 0;
    values[row + size] = right.imaginary[row] ?? 0;
  }
  if (!solveInPlace(system, width, values, 1)) return undefined;
  return { real: values.slice(0, size), imaginary: values.slice(size) };
}

/** Σ left·right, nothing conjugated. */
export function dot(left: ComplexVector, right: ComplexVector): Complex {
  let sum = complex(0);
  for (let k = 0; k < left.real.length; k++) sum = plus(sum, times(component(left, k), component(right, k)));
  return sum;
}

/** left·matrix·right, the matrix real. */
export function bilinear(left: ComplexVector, matrix: Float64Array, right: ComplexVector): Complex {
  const size = left.real.length;
  let sum = complex(0);
  for (let row = 0; row < size; row++) {
    let inner = complex(0);
    for (let column = 0; column < size; column++) {
      const value = matrix[row * size + column] ?? 0;
      if (value !== 0) inner = plus(inner, scaled(component(right, column), value));
    }
    sum = plus(sum, times(component(left, row), inner));
  }
  return sum;
}
