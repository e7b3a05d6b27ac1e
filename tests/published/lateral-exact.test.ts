import { describe, expect, test } from 'vitest';
import { handlingOf } from '../../language/mechanics/stability/handling.ts';
import { leastDamped, modesOf } from '../../language/mechanics/stability/modes.ts';
import { sweepSpeeds } from '../../language/mechanics/stability/sweep.ts';
import type { Train } from '../../language/mechanics/stability/train.ts';
import { solved, type TextbookRig, TOURING, textbookTrain } from '../unit/stability/trains.ts';

// Results that can be derived by hand; no source but the derivation beside each.

const TRUCK: TextbookRig = {
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

const RANGE = { least: 1, most: 60, points: 60 };

describe('divergence speed', () => {
  // In a steady turn the trailer asks the hitch for the share mh = m2·(L − e)/L of its lateral force; moments about the
  // axles give Ff and Fr per lateral acceleration; understeer gradient K = Ff/Cf − Fr/Cr; diverges at √(−wb/K).
  function byHand({ m1, a, b, d, Cf, Cr, m2, e, L }: TextbookRig): { gradient: number; speed: number } {
    const hitched = (m2 * (L - e)) / L;
    const front = (m1 * b - hitched * (d - b)) / (a + b);
    const rear = (m1 * a + hitched * (a + d)) / (a + b);
    const gradient = front / Cf - rear / Cr;
    return { gradient, speed: Math.sqrt(-(a + b) / gradient) };
  }

  test.each([
    ['published truck and trailer', TRUCK],
    ['tourer with weak rear tyres', { ...TOURING, Cr: 60_000 }],
    ['trailer heavy at its nose', { ...TOURING, e: 3, Cr: 80_000 }],
    ['trailer heavy behind its axle', { ...TOURING, e: 4.6, Cr: 50_000 }],
    ['hitch ahead of the rear axle', { ...TOURING, d: 1.2, e: 3, Cr: 80_000 }],
  ])('%s: understeer gradient and divergence as by hand', (_, rig) => {
    const { gradient, speed } = byHand(rig);
    const handling = solved(handlingOf(textbookTrain(rig)));
    expect(handling.understeer / gradient).toBeCloseTo(1, 12);
    expect(handling.wheelbase).toBeCloseTo(rig.a + rig.b, 12);
    expect((handling.criticalSpeed ?? Number.NaN) / speed).toBeCloseTo(1, 12);
    const { divergence } = solved(sweepSpeeds(textbookTrain(rig), RANGE));
    expect(divergence.kind === 'at' && divergence.speed / speed).toBeCloseTo(1, 9);
  });

  test('23.892382 m/s for the published truck and trailer', () => {
    expect(byHand(TRUCK).speed).toBeCloseTo(23.892382, 6);
  });

  test('lag of the tyres does not move it', () => {
    const { speed } = byHand(TRUCK);
    const { divergence } = solved(sweepSpeeds(textbookTrain(TRUCK, 0.5), RANGE));
    expect(divergence.kind === 'at' && divergence.speed / speed).toBeCloseTo(1, 9);
  });
});

describe('a trailer on an infinitely heavy vehicle', () => {
  // Yaw about a hitch that runs straight: (I2 + m2·e²)·θ̈ + C2·L²/V·θ̇ + C2·L·θ = 0. Damping inversely proportional to
  // speed is a published statement (ASME J. Appl. Mech. 24(4):515, abstract).
  test.each([10, 15, 30, 60])('natural frequency and damping ratio at %s m/s', (speed) => {
    const { m2, I2, e, L, C2 } = TOURING;
    const heavy = { ...TOURING, m1: 1e12, I1: 1e13, Cf: 1e13, Cr: 1e13 };
    const about = I2 + m2 * e * e;
    const mode = leastDamped(solved(modesOf(textbookTrain(heavy), speed)));
    const natural = Math.hypot(mode?.eigenvalue.real ?? 0, mode?.eigenvalue.imaginary ?? 0);
    const ratio = (L / (2 * speed)) * Math.sqrt((C2 * L) / about);
    expect(natural ** 2 / ((C2 * L) / about)).toBeCloseTo(1, 6);
    expect((mode?.damping ?? Number.NaN) / ratio).toBeCloseTo(1, 6);
  });
});

test('without a trailer: the pair of the bicycle model', () => {
  // m·V·s + D11 etc. written out: s² + s·(Σ C/(mV) + Σ C·l²/(IV)) + Cf·Cr·wb²/(m·I·V²) + (b·Cr − a·Cf)/I = 0.
  const { m1, I1, a, b, Cf, Cr } = TOURING;
  const units = textbookTrain(TOURING).units.slice(0, 1);
  for (const speed of [8, 25, 45]) {
    const half = ((Cf + Cr) / (m1 * speed) + (a * a * Cf + b * b * Cr) / (I1 * speed)) / 2;
    const product = (Cf * Cr * (a + b) ** 2) / (m1 * I1 * speed * speed) + (b * Cr - a * Cf) / I1;
    const found = solved(modesOf({ units }, speed));
    const sum = found.reduce(
      (total, { eigenvalue, frequency }) => total + eigenvalue.real * (frequency > 0 ? 2 : 1),
      0,
    );
    const [first, second = first] = found;
    const size = (mode: typeof first) => Math.hypot(mode?.eigenvalue.real ?? 0, mode?.eigenvalue.imaginary ?? 0);
    expect(sum / (-2 * half)).toBeCloseTo(1, 10);
    expect((size(first) * size(second)) / product).toBeCloseTo(1, 10);
  }
});

describe('scaling', () => {
  const swaying = { ...TOURING, e: 4.5, I2: 6500 };
  const critical = (rig: TextbookRig) => {
    const { zeroDamping } = solved(sweepSpeeds(textbookTrain(rig), { ...RANGE, most: 90 }));
    return zeroDamping.kind === 'at' ? zeroDamping.speed : Number.NaN;
  };

  test('lengths twice, inertias four times: critical speed √2 times', () => {
    // Dimensions: C·l/(m·V²) and I/(m·l²) are all there is.
    const { a, b, d, e, L, I1, I2 } = swaying;
    const larger = { ...swaying, a: 2 * a, b: 2 * b, d: 2 * d, e: 2 * e, L: 2 * L, I1: 4 * I1, I2: 4 * I2 };
    expect(critical(larger) / critical(swaying)).toBeCloseTo(Math.SQRT2, 9);
  });

  test('masses, inertias and stiffnesses three times: nothing changes', () => {
    const { m1, m2, I1, I2, Cf, Cr, C2 } = swaying;
    const heavier = { ...swaying, m1: 3 * m1, m2: 3 * m2, I1: 3 * I1, I2: 3 * I2, Cf: 3 * Cf, Cr: 3 * Cr, C2: 3 * C2 };
    expect(critical(heavier) / critical(swaying)).toBeCloseTo(1, 9);
  });
});

describe('a trailer whose hitch gives way sideways', () => {
  // A trailer on a hitch that runs straight and gives way sideways with a spring, its tyres rolling without slip: swings
  // die out if and only if I < m·a·b, a and b from the CG to the hitch and to the axle. The "vehicle" here is that
  // spring: the shortest unit there is, light, on tyres so slow that they act as springs (their lag is long).
  const lateralSpring = 40_000;

  function onSpring(yawInertia: number): Train {
    const lag = 1e5;
    return {
      units: [
        {
          mass: 1e-3,
          x: 0,
          yawInertia: 1e9,
          axles: [
            { x: 1, stiffness: (lateralSpring * lag) / 2, relaxation: lag },
            { x: -1, stiffness: (lateralSpring * lag) / 2, relaxation: lag },
          ],
          hitch: 0,
        },
        { mass: 1000, x: -2, yawInertia, axles: [{ x: -3, stiffness: 1e10 }], coupling: 0 },
      ],
    };
  }

  test.each([
    [0.9, true],
    [0.99, true],
    [1.01, false],
    [1.1, false],
  ])('yaw inertia %s times m·a·b dies out: %s', (factor, stable) => {
    const modes = solved(modesOf(onSpring(factor * 1000 * 2 * 1), 10)).filter(({ frequency }) => frequency > 0.1);
    const growth = Math.max(...modes.map(({ eigenvalue }) => eigenvalue.real));
    expect(modes.length).toBeGreaterThan(0);
    expect(growth < 0).toBe(stable);
  });
});
