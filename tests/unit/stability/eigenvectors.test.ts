import { describe, expect, test } from 'vitest';
import { leftVector } from '../../../language/mechanics/stability/left-vector.ts';

describe('left eigenvectors', () => {
  test.each([1e-3, 1e-4, 1e-5])('of eigenvalues %s apart, by hand', (gap) => {
    // Rows (1, 1) and (0, 1 + gap): v·A = v for v = (−gap, 1), and (0, 1) belongs to 1 + gap.
    const matrix = Float64Array.from([1, 1, 0, 1 + gap]);
    const first = leftVector(matrix, 2, { real: 1, imaginary: 0 });
    expect((first?.real[0] ?? 0) / (first?.real[1] ?? 0) / -gap).toBeCloseTo(1, 8);
    const second = leftVector(matrix, 2, { real: 1 + gap, imaginary: 0 });
    expect((second?.real[0] ?? 0) / (second?.real[1] ?? 0)).toBeCloseTo(0, 12);
  });

  test('of a pair beside a close pair', () => {
    // Two dying rotations of nearly one frequency, the second driven by the first; v·A = (−0.5 + iω)·v.
    const near = 1 + 1e-4;
    const matrix = Float64Array.from([-0.5, -1, 0, 0, 1, -0.5, 0, 0, 1, 0, -0.5, -near, 0, 0, near, -0.5]);
    for (const frequency of [1, near]) {
      const vector = leftVector(matrix, 4, { real: -0.5, imaginary: frequency });
      if (vector === undefined) throw new Error('no vector');
      for (let column = 0; column < 4; column++) {
        let [real, imaginary] = [0, 0];
        for (let row = 0; row < 4; row++) {
          real += (vector.real[row] ?? 0) * (matrix[row * 4 + column] ?? 0);
          imaginary += (vector.imaginary[row] ?? 0) * (matrix[row * 4 + column] ?? 0);
        }
        const [own, turned] = [vector.real[column] ?? 0, vector.imaginary[column] ?? 0];
        expect(real).toBeCloseTo(-0.5 * own - frequency * turned, 13);
        expect(imaginary).toBeCloseTo(-0.5 * turned + frequency * own, 13);
      }
    }
  });
});
