/** Terms of the series; with a norm up to 1/2 the next is below 1e-19. */
const TERMS = 14;

/**
 * exp of a `size` × `size` matrix (row by row): scaling to a small norm, Taylor series, repeated squaring. Not finite where
 * the matrix, or what comes out, is past all numbers.
 */
export function matrixExponential(matrix: Float64Array, size: number): Float64Array {
  let norm = 0;
  for (let row = 0; row < size; row++) {
    let sum = 0;
    for (let column = 0; column < size; column++) sum += Math.abs(matrix[row * size + column] ?? 0);
    norm = Math.max(norm, sum);
  }
  if (!Number.isFinite(norm)) return new Float64Array(size * size).fill(Number.POSITIVE_INFINITY);
  const halvings = norm > 0.5 ? Math.ceil(Math.log2(norm / 0.5)) : 0;
  const scaled = matrix.map((value) => value / 2 ** halvings);
  let result = identity(size);
  for (let term = TERMS; term > 0; term--) {
    result = multiply(scaled, result, size).map((value) => value / term);
    for (let i = 0; i < size; i++) result[i * (size + 1)] = (result[i * (size + 1)] ?? 0) + 1;
  }
  for (let i = 0; i < halvings; i++) result = multiply(result, result, size);
  return result;
}

/** matrix·vector, written to `out`. */
export function transform(matrix: Float64Array, vector: Float64Array, out: Float64Array): void {
  const size = vector.length;
  for (let row = 0; row < size; row++) {
    let sum = 0;
    for (let column = 0; column < size; column++) sum += (matrix[row * size + column] ?? 0) * (vector[column] ?? 0);
    out[row] = sum;
  }
}

function identity(size: number): Float64Array {
  const matrix = new Float64Array(size * size);
  for (let i = 0; i < size; i++) matrix[i * (size + 1)] = 1;
  return matrix;
}

function multiply(a: Float64Array, b: Float64Array, size: number): Float64Array {
  const product = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < size; k++) {
      const factor = a[row * size + k] ?? 0;
      if (factor === 0) continue;
      for (let column = 0; column < size; column++) {
        const index = row * size + column;
        product[index] = (product[index] ?? 0) + factor * (b[k * size + column] ?? 0);
      }
    }
  }
  return product;
}
