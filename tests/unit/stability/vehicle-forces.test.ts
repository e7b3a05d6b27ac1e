import { describe, expect, test } from 'vitest';
import { equationsOf } from '../../../language/mechanics/stability/equations.ts';
import { handlingOf } from '../../../language/mechanics/stability/handling.ts';
import { modesOf } from '../../../language/mechanics/stability/modes.ts';
import { type Pulse, respond } from '../../../language/mechanics/stability/response.ts';
import type { Train } from '../../../language/mechanics/stability/train.ts';
import { solved, TOURING, textbookTrain } from './trains.ts';

/** The same train with a longitudinal force on each axle of the vehicle, N. */
const withForces = ({ units: [vehicle, ...towed], ...rest }: Train, force: number): Train => ({
  ...rest,
  units:
    vehicle === undefined ? [] : [{ ...vehicle, axles: vehicle.axles.map((axle) => ({ ...axle, force })) }, ...towed],
});

describe('longitudinal forces of the vehicle’s own axles', () => {
  const train: Train = { ...textbookTrain(TOURING, 0.4), bodyForce: -1.5 };

  test.each(['vehicle', 'space'] as const)(
    'follow from the balance, course %s: what an axle states is not counted',
    (course) => {
      const eigenvalues = (each: Train) => solved(modesOf({ ...each, course }, 24)).map(({ eigenvalue }) => eigenvalue);
      expect(eigenvalues(withForces(train, -2500))).toEqual(eigenvalues(train));
      expect(handlingOf(withForces(train, -2500))).toEqual(handlingOf(train));
      for (const { unit, force } of solved(equationsOf(withForces(train, -2500))).axles) {
        if (unit === 0) expect(force).toBe(0);
      }
    },
  );
});

describe('the first moment of steering', () => {
  // By hand: half the traction m·2 m/s² turns with the front wheels at once, their side force lags; F·δ/m = δ · 1 m/s².
  const [vehicle] = textbookTrain(TOURING).units;
  if (vehicle === undefined) throw new Error('a vehicle');
  const alone = (relaxation: number): Train => ({
    units: [{ ...vehicle, axles: vehicle.axles.map((axle) => ({ ...axle, relaxation })) }],
    bodyForce: -2,
  });
  const steer: Pulse = { kind: 'steer', amount: 0.01, duration: 1, shape: 'rectangular' };
  const first = (train: Train) => solved(respond(train, 20, steer, { end: 0.1, step: 0.01 })).lateralAcceleration[0];

  test('uphill the driving force of the steered wheels turns with them', () => {
    expect(first(alone(0.4))).toBeCloseTo(0.01, 12);
  });

  test('without lag the side force is there as well', () => {
    expect(first(alone(0))).toBeCloseTo(0.01 * (1 + TOURING.Cf / TOURING.m1), 12);
  });
});
