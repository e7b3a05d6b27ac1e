import { describe, expect, test } from 'vitest';
import { handlingAlone, handlingOf } from '../../language/mechanics/stability/handling.ts';
import { leastDamped, modesOf } from '../../language/mechanics/stability/modes.ts';
import { sweepSpeeds } from '../../language/mechanics/stability/sweep.ts';
import { bodyForceOf, longitudinalBalance, type Train } from '../../language/mechanics/stability/train.ts';
import { solved, type TextbookRig, TOURING, textbookTrain } from '../unit/stability/trains.ts';

// Directions in which damping and critical speeds move, for an invented car and tourer.

const RANGE = { least: 3, most: 90, points: 88 };

function zeroDamping(train: Train): number {
  const found = solved(sweepSpeeds(train, RANGE)).zeroDamping;
  return found.kind === 'at' ? found.speed : found.kind === 'above' ? Number.POSITIVE_INFINITY : 0;
}

const of = (change: Partial<TextbookRig>): number => zeroDamping(textbookTrain({ ...TOURING, ...change }));

describe('published directions for car and caravan', () => {
  // Source: a car/caravan stability study of 1983, abstract (TRID 204242): low yaw inertia, light, adequate drawbar length,
  // short hitch overhang, large wheelbase are more stable; a hitch damper stabilises.
  test('low yaw inertia of the trailer', () => expect(of({ I2: 2800 })).toBeGreaterThan(of({ I2: 4500 })));
  test('light trailer, tyres loaded in proportion', () => {
    const { m2, I2, C2 } = TOURING;
    expect(of({ m2: m2 * 0.7, I2: I2 * 0.7, C2: C2 * 0.7 })).toBeGreaterThan(of({}));
  });
  test('long drawbar', () => {
    const { L, e } = TOURING;
    expect(of({ L: L + 0.5, e: e + 0.5 })).toBeGreaterThan(of({}));
  });
  test('short overhang of the hitch', () => expect(of({ d: 2.1 })).toBeGreaterThan(of({ d: 2.8 })));
  test('long wheelbase of the car', () => {
    const { a, b, d } = TOURING;
    expect(of({ a: a + 0.2, b: b + 0.2, d: d + 0.2, I1: 3600 })).toBeGreaterThan(of({}));
  });
  test('hitch damper', () => expect(of({ c: 2000 })).toBeGreaterThan(of({})));

  // Source: J. Darling, D. Tilley and B. Gao 2009, track tests, abstract: trailer yaw inertia, nose mass and axle position
  // dominate, trailer mass alone does not.
  test('nose mass: centre of gravity ahead', () => expect(of({ e: 3.9 })).toBeGreaterThan(of({ e: 4.2 })));
  test('axle position: axle farther back', () => expect(of({ L: 4.5 })).toBeGreaterThan(of({ L: 4.2 })));
  test('a tenth more yaw inertia costs more than a tenth more mass at the axle', () => {
    const { m2, I2, C2, L, e } = TOURING;
    const more = 0.1 * m2;
    const centre = (m2 * e + more * L) / (m2 + more);
    const atAxle = {
      m2: m2 + more,
      e: centre,
      I2: I2 + m2 * (centre - e) ** 2 + more * (L - centre) ** 2,
      C2: C2 * 1.1,
    };
    expect(of({ I2: 1.1 * I2 })).toBeLessThan(of(atAxle));
  });
  test('heavier with its mass at the axle beats lighter with its mass at the ends', () => {
    expect(of({ m2: 1900, I2: 3000, C2: TOURING.C2 * (1900 / 1500) })).toBeGreaterThan(of({ m2: 1300, I2: 5200 }));
  });

  // Source: A. Hac, D. Fulk and H. Chen, SAE 2008-01-1228, abstract: divergence depends on the tow vehicle and the vertical
  // hitch load, oscillation on both units.
  test('divergence does not ask for the yaw inertia or the tyres of the trailer', () => {
    const speed = (change: Partial<TextbookRig>) => {
      const rig = { ...TOURING, Cr: 60_000, e: 3.8, ...change };
      const { divergence } = solved(sweepSpeeds(textbookTrain(rig), RANGE));
      return divergence.kind === 'at' ? divergence.speed : Number.NaN;
    };
    expect(speed({ I2: 6000 })).toBeCloseTo(speed({}), 8);
    expect(speed({ C2: 40_000 })).toBeCloseTo(speed({}), 8);
    expect(speed({ e: 3.6 })).toBeLessThan(speed({}));
  });

  test('coupling load makes the car understeer less (common practice, no source)', () => {
    const train = textbookTrain(TOURING);
    expect(solved(handlingOf(train)).understeer).toBeLessThan(solved(handlingAlone(train)).understeer);
  });
});

describe('longitudinal force', () => {
  // Common practice, no source: stretching the drawbar raises the critical speed, compressing it lowers it; uphill is more
  // damped, downhill less; tow-only braking is worse than braking by the trailer too.
  const base = textbookTrain(TOURING);
  const onGrade = (grade: number) => ({ ...base, bodyForce: bodyForceOf({ grade, deceleration: 0 }) });

  function braking(deceleration: number, share: number): Train {
    const force = -share * TOURING.m2 * deceleration;
    const [car, trailer] = base.units;
    if (car === undefined || trailer === undefined) throw new Error('two units');
    const axles = trailer.axles.map((axle) => ({ ...axle, force }));
    return { units: [car, { ...trailer, axles }], bodyForce: bodyForceOf({ grade: 0, deceleration }) };
  }

  test('uphill more, downhill less', () => {
    expect(zeroDamping(onGrade(0.1))).toBeGreaterThan(zeroDamping(base));
    expect(zeroDamping(onGrade(-0.1))).toBeLessThan(zeroDamping(base));
  });

  test('tow-only braking less, and less than braking by the trailer', () => {
    expect(zeroDamping(braking(2, 0))).toBeLessThan(zeroDamping(base));
    expect(zeroDamping(braking(2, 1))).toBeGreaterThan(zeroDamping(braking(2, 0)));
    expect(zeroDamping(braking(2, 1.6))).toBeGreaterThan(zeroDamping(braking(2, 1)));
  });

  test('drag on the trailer and tension are what the balance says', () => {
    const drag = { unit: 1, x: -4, force: 0, perSpeedSquared: -1.1, direction: 'course' } as const;
    const { tension, traction } = longitudinalBalance({ ...onGrade(0.05), forces: [drag] }, 25);
    const weight = 9.80665 * Math.sin(Math.atan(0.05));
    expect(tension[1]).toBeCloseTo(1.1 * 625 + TOURING.m2 * weight, 9);
    expect(traction).toBeCloseTo((tension[1] ?? 0) + TOURING.m1 * weight, 9);
    expect(zeroDamping({ ...base, forces: [drag] })).toBeGreaterThan(zeroDamping(base));
  });
});

test('faster is less damped', () => {
  // Common practice, and the published inverse proportionality to speed (ASME J. Appl. Mech. 24(4):515, abstract).
  const damping = [15, 20, 25, 30].map((speed) => leastDamped(solved(modesOf(textbookTrain(TOURING), speed)))?.damping);
  expect(damping).toEqual([...damping].sort((a, b) => (b ?? 0) - (a ?? 0)));
});
