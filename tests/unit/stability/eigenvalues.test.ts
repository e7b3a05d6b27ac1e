import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { emptySpectrum, findEigenvalues } from '../../../language/mechanics/stability/eigenvalues.ts';
import { equationsOf, stateMatrix } from '../../../language/mechanics/stability/equations.ts';
import { sampleTrains } from '../../laws/trains.ts';
import { type EigenvaluePair, farthest } from './spectra.ts';
import { solved } from './trains.ts';

function own(values: Float64Array, size: number): EigenvaluePair[] | undefined {
  const spectrum = emptySpectrum(size);
  if (!findEigenvalues(values.slice(), spectrum)) return undefined;
  return Array.from(spectrum.real, (real, i) => [real, spectrum.imaginary[i] ?? 0]);
}

function library(values: Float64Array, size: number): EigenvaluePair[] {
  const rows = Array.from({ length: size }, (_, row) => Array.from(values.subarray(row * size, (row + 1) * size)));
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(new Matrix(rows));
  return realEigenvalues.map((real, i) => [real, imaginaryEigenvalues[i] ?? 0]);
}

/** A generator of evenly spread numbers from 0 to 1 that always gives the same. */
function* numbers(): Generator<number, never> {
  for (let seed = 42; ; ) {
    seed = (seed * 16_807) % 2_147_483_647;
    yield seed / 2_147_483_647;
  }
}

describe('eigenvalues without vectors', () => {
  test('of random matrices are those of ml-matrix', () => {
    const random = numbers();
    for (let k = 0; k < 3000; k++) {
      const size = 1 + (k % 12);
      const matrix = Float64Array.from({ length: size * size }, () => (random.next().value - 0.5) * 10 ** (k % 4));
      expect(farthest(own(matrix, size) ?? [], library(matrix, size)), `matrix ${k}`).toBeLessThan(1e-10);
    }
  });

  test('of random trains at walking and at motorway speed are those of ml-matrix', () => {
    for (const [i, train] of sampleTrains(1000, 5, { course: 'either' }).entries()) {
      const equations = solved(equationsOf(train));
      for (const speed of [2, 27]) {
        const matrix = stateMatrix(equations, speed);
        const { size } = equations.layout;
        expect(farthest(own(matrix, size) ?? [], library(matrix, size)), `train ${i}`).toBeLessThan(1e-9);
      }
    }
  });

  test('hard cases: zero, defective, companion, already triangular, a rotation of four', () => {
    const cases: [number[], EigenvaluePair[]][] = [
      [
        [0, 0, 0, 0],
        [
          [0, 0],
          [0, 0],
        ],
      ],
      [
        [1, 1, 0, 1],
        [
          [1, 0],
          [1, 0],
        ],
      ],
      [
        [0, 0, 6, 1, 0, -11, 0, 1, 6],
        [
          [1, 0],
          [2, 0],
          [3, 0],
        ],
      ],
      [
        [1, 5, 7, 0, 2, 9, 0, 0, 3],
        [
          [1, 0],
          [2, 0],
          [3, 0],
        ],
      ],
      [
        [0, 0, 0, 1, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0],
        [
          [1, 0],
          [-1, 0],
          [0, 1],
          [0, -1],
        ],
      ],
    ];
    for (const [matrix, expected] of cases) {
      const found = own(Float64Array.from(matrix), expected.length) ?? [];
      if (matrix.every((value) => value === 0)) expect(found).toEqual(expected);
      else expect(farthest(found, expected)).toBeLessThan(1e-7);
    }
  });

  test('what is not a number has none', () => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(own(Float64Array.from([1, 2, bad, 4]), 2)).toBeUndefined();
    }
  });
});
