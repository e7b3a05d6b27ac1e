import { describe, expect, test } from 'vitest';
import { modesOf } from '../../language/mechanics/stability/modes.ts';
import { sweepSpeeds } from '../../language/mechanics/stability/sweep.ts';
import { solved, type TextbookRig, textbookTrain } from '../unit/stability/trains.ts';

/** Eigenvalues with positive imaginary part, or real, the slowest to die out first. */
function eigenvalues(rig: TextbookRig, speed: number): [number, number][] {
  return solved(modesOf(textbookTrain(rig), speed)).map(({ eigenvalue }) => [eigenvalue.real, eigenvalue.imaginary]);
}

describe('published eigenvalues of a car with a trailer', () => {
  // Source: comment of the example file input_ex_ellis_benchmark.m of B. Minaker's multibody code; that the figures are
  // those of J. R. Ellis is from memory. Units ft, slug, lbf, speed 30 ft/s: the equations do not mind.
  const rig: TextbookRig = {
    m1: 186,
    I1: 2980,
    a: 3.75,
    b: 5.25,
    Cf: 23_250,
    Cr: 68_500,
    m2: 620,
    I2: 35_000,
    C2: 57_500,
    L: 20,
    d: 6,
    e: 10,
  };
  const published = [
    [-1.3, 0],
    [-6.3, 1.1],
    [-9.3, 0],
  ];

  test('within 0.06 of −1.3, −6.3 ± 1.1i, −9.3 as printed', () => {
    const found = eigenvalues(rig, 30);
    expect(found).toHaveLength(published.length);
    for (const [i, [real = 0, imaginary = 0]] of published.entries()) {
      expect(Math.abs((found[i]?.[0] ?? Number.NaN) - real)).toBeLessThan(0.06);
      expect(Math.abs((found[i]?.[1] ?? Number.NaN) - imaginary)).toBeLessThan(0.06);
    }
  });

  test('to four decimals as computed once by an independent model: −1.2633, −6.2483 ± 1.1049i, −9.2428', () => {
    const found = eigenvalues(rig, 30).flat();
    for (const [i, value] of [-1.2633, 0, -6.2483, 1.1049, -9.2428, 0].entries())
      expect(found[i]).toBeCloseTo(value, 4);
  });
});

describe('published parameters, eigenvalues computed by an independent model', () => {
  // Source of the parameters: input_ex_truck_trailer.m of the same author; of the results: a model written anew from
  // the textbook matrices, not published.
  const first: TextbookRig = {
    m1: 16_975 / 9.81,
    I1: 3508,
    a: 1.289,
    b: 1.596,
    Cf: 80_000,
    Cr: 80_000,
    d: 2.7,
    m2: 2000,
    I2: 3000,
    C2: 80_000,
    L: 3,
    e: 2.5,
  };
  const second: TextbookRig = { ...first, m1: 1700, I1: 2000, a: 1.5, b: 1.7 };
  const range = { least: 5, most: 40, points: 36 };

  test('first set at 20 m/s: −0.5648, −1.0139 ± 3.5429i, −6.5359', () => {
    const found = eigenvalues(first, 20).flat();
    for (const [i, value] of [-0.5648, 0, -1.0139, 3.5429, -6.5359, 0].entries())
      expect(found[i]).toBeCloseTo(value, 4);
  });

  test.each([
    ['first', first, 23.8924],
    ['second', second, 24.2475],
  ])('%s set diverges at %s', (_, rig, speed) => {
    const { divergence, zeroDamping } = solved(sweepSpeeds(textbookTrain(rig), range));
    expect(zeroDamping.kind).toBe('above');
    expect(divergence.kind === 'at' && divergence.speed).toBeCloseTo(speed, 4);
  });
});
