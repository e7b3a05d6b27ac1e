import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { emptySpectrum, findEigenvalues } from '../../language/mechanics/stability/eigenvalues.ts';
import { equationsOf, stateMatrix } from '../../language/mechanics/stability/equations.ts';
import { modesAt } from '../../language/mechanics/stability/modes.ts';
import type { Train } from '../../language/mechanics/stability/train.ts';
import { type EigenvaluePair, farthest } from '../unit/stability/spectra.ts';
import { solved } from '../unit/stability/trains.ts';

// Source: the equations of motion derived independently by Kane's method with sympy, eigenvalues with 30 digits, for random
// trains of one to four units with lag, joints, grades, braking, drag and tethers (oracle/lateral.py, which CI runs again).

interface OracleLine {
  readonly train: Train & { readonly gravity: number; readonly acceleration: number };
  readonly speed: number;
  readonly eigenvalues: readonly EigenvaluePair[];
}

const LINES: readonly OracleLine[] = readFileSync(new URL('oracle/lateral-trains.jsonl', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line));

/** More axles with one lag are carried in fewer states: what is left out lags by itself, at −V/σ. */
function withoutOwnLag(
  values: readonly EigenvaluePair[],
  count: number,
  train: Train,
  speed: number,
): EigenvaluePair[] {
  const lags = train.units.flatMap(({ axles }) => axles.map(({ relaxation = 0 }) => relaxation));
  const own = new Set(lags.filter((lag) => lag > 0).map((lag) => -speed / lag));
  const away = ([real, imaginary]: EigenvaluePair) =>
    Math.min(...[...own].map((rate) => Math.hypot(real - rate, imaginary) / Math.abs(rate)));
  const left = [...values];
  while (left.length > count) {
    const nearest = left.reduce((least, each, i) => (away(each) < away(left[least] ?? [0, 0]) ? i : least), 0);
    expect(away(left[nearest] ?? [0, 0])).toBeLessThan(1e-5);
    left.splice(nearest, 1);
  }
  return left;
}

test('there are as many trains as the script writes, of every kind', () => {
  expect(LINES).toHaveLength(120);
  expect(new Set(LINES.map(({ train }) => train.units.length))).toEqual(new Set([1, 2, 3, 4]));
  expect(LINES.filter(({ train }) => train.course === 'space').length).toBeGreaterThan(20);
  expect(LINES.filter(({ train }) => train.acceleration !== 0).length).toBeGreaterThan(20);
});

test.each(LINES.map((line, i) => [i, line] as const))(
  'train %s has the eigenvalues of the independent derivation',
  (_, line) => {
    const { train, speed } = line;
    const equations = solved(equationsOf({ ...train, bodyForce: train.gravity - train.acceleration }));
    const { size } = equations.layout;
    // A heading over a fixed course that nothing acts along is no part of the state.
    const withZero = train.course === 'space' && equations.layout.course < 0;
    const expected = withoutOwnLag(line.eigenvalues, size + (withZero ? 1 : 0), train, speed);
    const zero: EigenvaluePair[] = withZero ? [[0, 0]] : [];

    const spectrum = emptySpectrum(size);
    expect(findEigenvalues(stateMatrix(equations, speed), spectrum)).toBe(true);
    const swept = Array.from(spectrum.real, (real, i): EigenvaluePair => [real, spectrum.imaginary[i] ?? 0]);
    expect(farthest([...swept, ...zero], expected)).toBeLessThan(2e-6);

    const modes = solved(modesAt(equations, speed)).flatMap(({ eigenvalue: { real, imaginary } }): EigenvaluePair[] =>
      imaginary > 0
        ? [
            [real, imaginary],
            [real, -imaginary],
          ]
        : [[real, imaginary]],
    );
    expect(farthest([...modes, ...zero], expected)).toBeLessThan(2e-6);
  },
);
