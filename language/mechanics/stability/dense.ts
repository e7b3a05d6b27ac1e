/** Small dense matrices, row by row in one array: what the lateral dynamics needs of linear algebra without allocating. */

/** Lower factor L of a symmetric positive definite `size` × `size` matrix, L·Lᵀ; undefined if it is not one. */
export function choleskyFactor(matrix: Float64Array, size: number): Float64Array | undefined {
  const factor = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column <= row; column++) {
      let sum = matrix[row * size + column] ?? 0;
      for (let k = 0; k < column; k++) sum -= (factor[row * size + k] ?? 0) * (factor[column * size + k] ?? 0);
      if (row === column) {
        if (!(sum > 0 && sum < Number.POSITIVE_INFINITY)) return undefined;
        factor[row * size + row] = Math.sqrt(sum);
      } else {
        factor[row * size + column] = sum / (factor[column * size + column] ?? 1);
      }
    }
  }
  return factor;
}

/** Solves L·Lᵀ·X = B in place for the first `size` rows of B, each `columns` long. */
export function choleskySolve(factor: Float64Array, size: number, values: Float64Array, columns: number): void {
  for (let row = 0; row < size; row++) {
    for (let k = 0; k < row; k++) addRow(values, columns, row, k, -(factor[row * size + k] ?? 0));
    scaleRow(values, columns, row, 1 / (factor[row * size + row] ?? 1));
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) addRow(values, columns, row, k, -(factor[k * size + row] ?? 0));
    scaleRow(values, columns, row, 1 / (factor[row * size + row] ?? 1));
  }
}

function addRow(values: Float64Array, columns: number, to: number, from: number, factor: number): void {
  if (factor === 0) return;
  for (let column = 0; column < columns; column++) {
    const index = to * columns + column;
    values[index] = (values[index] ?? 0) + factor * (values[from * columns + column] ?? 0);
  }
}

function scaleRow(values: Float64Array, columns: number, row: number, factor: number): void {
  for (let column = 0; column < columns; column++) {
    const index = row * columns + column;
    values[index] = (values[index] ?? 0) * factor;
  }
}

/**
 * Solves A·x = b for one or more right-hand sides (`columns`), by elimination with partial pivoting, in place: `matrix`
 * (`size` × `size`) is destroyed, `values` (`size` × `columns`) becomes the solution. False if A is singular to working
 * precision.
 */
export function solveInPlace(matrix: Float64Array, size: number, values: Float64Array, columns: number): boolean {
  let largest = 0;
  for (const value of matrix) largest = Math.max(largest, Math.abs(value));
  for (let step = 0; step < size; step++) {
    let pivot = step;
    for (let row = step + 1; row < size; row++) {
      if (Math.abs(matrix[row * size + step] ?? 0) > Math.abs(matrix[pivot * size + step] ?? 0)) pivot = row;
    }
    const value = matrix[pivot * size + step] ?? 0;
    if (!(Math.abs(value) > largest * 1e-15)) return false;
    swapRows(matrix, size, step, pivot);
    swapRows(values, columns, step, pivot);
    for (let row = step + 1; row < size; row++) {
      const factor = -(matrix[row * size + step] ?? 0) / value;
      addRow(matrix, size, row, step, factor);
      addRow(values, columns, row, step, factor);
    }
  }
  for (let row = size - 1; row >= 0; row--) {
    for (let k = row + 1; k < size; k++) addRow(values, columns, row, k, -(matrix[row * size + k] ?? 0));
    scaleRow(values, columns, row, 1 / (matrix[row * size + row] ?? 1));
  }
  return true;
}

function swapRows(values: Float64Array, columns: number, a: number, b: number): void {
  if (a === b) return;
  for (let column = 0; column < columns; column++) {
    const held = values[a * columns + column] ?? 0;
    values[a * columns + column] = values[b * columns + column] ?? 0;
    values[b * columns + column] = held;
  }
}
