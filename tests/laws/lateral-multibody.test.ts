import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { equationsOf } from '../../language/mechanics/stability/equations.ts';
import { modesAt } from '../../language/mechanics/stability/modes.ts';
import type { Train } from '../../language/mechanics/stability/train.ts';
import { type EigenvaluePair, farthest } from '../unit/stability/spectra.ts';
import { solved } from '../unit/stability/trains.ts';
import { type Multibody, multibodyOf, placeBodies, readBodies, reducedRates, step } from './multibody.ts';
import { sampleTrains } from './trains.ts';

// Source: a planar nonlinear multibody simulation (multibody.ts), which shares no equation with the model.

/** Central differences of a vector function at 0. */
function slopes(size: number, width: number, of: (at: Float64Array) => Float64Array): Matrix {
  const matrix = Matrix.zeros(size, size);
  for (let column = 0; column < size; column++) {
    const at = new Float64Array(size);
    at[column] = width;
    const up = of(at);
    at[column] = -width;
    const down = of(at);
    for (let row = 0; row < size; row++) matrix.set(row, column, ((up[row] ?? 0) - (down[row] ?? 0)) / (2 * width));
  }
  return matrix;
}

function eigenvaluesOf(matrix: Matrix): EigenvaluePair[] {
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(matrix);
  return realEigenvalues.map((real, i) => [real, imaginaryEigenvalues[i] ?? 0]);
}

/** What the model says, and the eigenvalues its smaller state leaves out: the heading's 0 and lags by themselves. */
function modelled(train: Train, speed: number, size: number): EigenvaluePair[] {
  const equations = solved(equationsOf(train));
  const found = solved(modesAt(equations, speed)).flatMap(({ eigenvalue: { real, imaginary } }): EigenvaluePair[] => {
    const one: EigenvaluePair = [real, imaginary];
    return imaginary > 0 ? [one, [real, -imaginary]] : [one];
  });
  if (equations.layout.course < 0) found.push([0, 0]);
  const shared = equations.axles.filter(({ lagging }) => lagging >= 0);
  const sets = new Map(shared.map(({ lagging, relaxation }) => [lagging, relaxation]));
  for (const [lagging, relaxation] of sets) {
    const carried = shared.filter((axle) => axle.lagging === lagging).length - equations.layout.velocities;
    for (let k = 0; k < carried; k++) found.push([-speed / relaxation, 0]);
  }
  expect(found).toHaveLength(size);
  return found;
}

const reducedSize = ({ size, bodies }: Multibody): number => 2 * bodies.length + 1 + size - 6 * bodies.length;

describe('small motions of the multibody simulation', () => {
  const trains = sampleTrains(600, 20240301, { course: 'either' });

  test('have the eigenvalues of the model at once, whatever lags, pulls and brakes', () => {
    for (const [i, train] of trains.entries()) {
      const speed = 4 + ((i * 7.3) % 40);
      const system = multibodyOf(train, speed);
      const size = reducedSize(system);
      const found = eigenvaluesOf(slopes(size, 1e-5, (at) => reducedRates(system, at)));
      expect(farthest(found, modelled(train, speed, size)), `train ${i} at ${speed} m/s`).toBeLessThan(2e-5);
    }
  }, 60_000);

  test('have them over time: the motion of a tenth of a second, integrated, grows and turns as exp(λ·t)', () => {
    // Steady speed only: what the body force pulls, the first axle holds.
    for (const [i, train] of trains.slice(0, 15).entries()) {
      const speed = 12 + ((i * 5.7) % 25);
      const system = multibodyOf(train, speed);
      const size = reducedSize(system);
      const steps = 120;
      const time = 0.1;
      const travelled = (at: Float64Array) => {
        let state = placeBodies(system, at);
        for (let k = 0; k < steps; k++) state = step(system, state, time / steps);
        return readBodies(system, state);
      };
      const expected = modelled(train, speed, size).map(([real, imaginary]): EigenvaluePair => {
        const growth = Math.exp(real * time);
        return [growth * Math.cos(imaginary * time), growth * Math.sin(imaginary * time)];
      });
      expect(farthest(eigenvaluesOf(slopes(size, 1e-5, travelled)), expected), `train ${i}`).toBeLessThan(1e-4);
    }
  }, 60_000);
});
