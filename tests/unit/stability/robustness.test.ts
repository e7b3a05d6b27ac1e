import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { handlingAlone, handlingOf } from '../../../language/mechanics/stability/handling.ts';
import { leastDamped, modesOf } from '../../../language/mechanics/stability/modes.ts';
import type { StabilityProblemKind } from '../../../language/mechanics/stability/problems.ts';
import { respond } from '../../../language/mechanics/stability/response.ts';
import { dampingSensitivity } from '../../../language/mechanics/stability/sensitivities.ts';
import { sweepSpeeds } from '../../../language/mechanics/stability/sweep.ts';
import {
  type Train,
  type TrainAxle,
  type TrainUnit,
  withoutTrailers,
} from '../../../language/mechanics/stability/train.ts';
import { trains } from '../../laws/trains.ts';
import { solved, TOURING, textbookTrain } from './trains.ts';

const base = textbookTrain(TOURING);
const RANGE = { least: 5, most: 40, points: 20 };

function withUnit(index: number, change: Partial<TrainUnit>): Train {
  return { ...base, units: base.units.map((unit, i) => (i === index ? { ...unit, ...change } : unit)) };
}

function withAxle(unit: number, change: Partial<TrainAxle>): Train {
  return withUnit(unit, { axles: (base.units[unit]?.axles ?? []).map((axle) => ({ ...axle, ...change })) });
}

/** Everything that can be asked of a train, and whether each answer is free of NaN. */
function answers(train: Train, speed: number): unknown[] {
  const pulse = { kind: 'steer', amount: 0.02, duration: 0.3, shape: 'rectangular' } as const;
  return [
    modesOf(train, speed),
    sweepSpeeds(train, { ...RANGE, least: speed / 2, most: speed }),
    handlingOf(train),
    dampingSensitivity(train, speed),
    respond(train, speed, pulse, { end: 0.5, step: 0.1 }),
  ];
}

function hasNoNaN(value: unknown): boolean {
  if (typeof value === 'number') return !Number.isNaN(value);
  if (value instanceof Float64Array) return value.every((each) => !Number.isNaN(each));
  if (typeof value !== 'object' || value === null) return true;
  return Object.values(value).every(hasNoNaN);
}

describe('what is no train is a problem that says what and where', () => {
  const cases: [string, Train, StabilityProblemKind, number | undefined][] = [
    ['no units', { units: [] }, 'no-units', undefined],
    ['no tyres on the car', withUnit(0, { axles: [] }), 'no-axles', 0],
    ['no tyres on the trailer', withUnit(1, { axles: [] }), 'no-axles', 1],
    ['zero wheelbase', withAxle(0, { x: -1 }), 'zero-wheelbase', 0],
    ['axle at the coupling', withAxle(1, { x: 0 }), 'axle-at-coupling', 1],
    ['negative stiffness', withAxle(1, { stiffness: -1 }), 'stiffness-negative', 1],
    ['stiffness not a number', withAxle(0, { stiffness: Number.NaN }), 'not-finite', 0],
    ['negative relaxation length', withAxle(0, { relaxation: -0.1 }), 'relaxation-negative', 0],
    ['no mass', withUnit(1, { mass: 0 }), 'mass-not-positive', 1],
    ['negative mass', withUnit(0, { mass: -5 }), 'mass-not-positive', 0],
    ['no yaw inertia', withUnit(1, { yawInertia: 0 }), 'inertia-not-positive', 1],
    ['centre of gravity infinitely far', withUnit(1, { x: Number.NEGATIVE_INFINITY }), 'not-finite', 1],
    ['no coupling', withUnit(1, { coupling: undefined }), 'no-coupling', 1],
    ['no hitch', withUnit(0, { hitch: undefined }), 'no-hitch', 0],
    ['a damper that drives', withUnit(1, { joint: { damping: -1 } }), 'joint-negative', 1],
    ['body force not a number', { ...base, bodyForce: Number.NaN }, 'not-finite', undefined],
    [
      'a force on no unit',
      { ...base, forces: [{ unit: 2, x: 0, force: 1, direction: 'unit' }] },
      'no-such-unit',
      undefined,
    ],
    ['figures past all numbers', withUnit(0, { mass: 1e308, yawInertia: 1e308, x: -1e200 }), 'overflow', undefined],
  ];

  test.each(cases)('%s', (_, train, problem, unit) => {
    for (const answer of answers(train, 20)) {
      expect(answer).toMatchObject({ problem, ...(unit === undefined ? {} : { unit }) });
    }
  });

  test.each([0, -10, 1000.001 / 3.6, Number.NaN, Number.POSITIVE_INFINITY])('a speed of %s m/s', (speed) => {
    expect(modesOf(base, speed)).toEqual({ problem: 'speed-out-of-range' });
    expect(sweepSpeeds(base, { ...RANGE, most: speed })).toEqual({ problem: 'speed-out-of-range' });
    expect(dampingSensitivity(base, speed)).toEqual({ problem: 'speed-out-of-range' });
  });

  test('1000 km/h is computed; an empty range is not', () => {
    expect(solved(modesOf(base, 1000 / 3.6)).length).toBeGreaterThan(0);
    expect(sweepSpeeds(base, { least: 10, most: 10, points: 5 })).toEqual({ problem: 'speed-out-of-range' });
    expect(sweepSpeeds(base, { least: 10, most: 20, points: 1 })).toEqual({ problem: 'speed-out-of-range' });
  });
});

describe('what is extreme but possible is computed as what it is', () => {
  test('front wheels off the ground: no grip in front, steering says nothing', () => {
    const [front, rear] = base.units[0]?.axles ?? [];
    if (front === undefined || rear === undefined) throw new Error('two axles');
    const train = withUnit(0, { axles: [{ ...front, stiffness: 0 }, rear] });
    expect(answers(train, 20).every(hasNoNaN)).toBe(true);
    expect(handlingOf(train)).toBeUndefined();
    expect(solved(modesOf(train, 20)).length).toBeGreaterThan(0);
  });

  test('a trailer whose tyres carry nothing swings to anywhere, and nothing is said to be critical for it', () => {
    const train = withAxle(1, { stiffness: 0 });
    expect(answers(train, 20).every(hasNoNaN)).toBe(true);
    const sweep = solved(sweepSpeeds(train, RANGE));
    expect(sweep.crossings).toEqual([]);
    expect(sweep.zeroDamping.kind).toBe('above');
  });

  test('the car alone asks nothing of its trailer', () => {
    const alone = solved(handlingAlone(base));
    expect(solved(handlingAlone(withUnit(1, { axles: [] })))).toEqual(alone);
    expect(solved(handlingOf(withoutTrailers(base)))).toEqual(alone);
  });

  test('a centre of gravity behind the trailer axle is less damped than one at it', () => {
    const ratio = (x: number) => leastDamped(solved(modesOf(withUnit(1, { x }), 25)))?.damping ?? Number.NaN;
    expect(ratio(-4.9)).toBeLessThan(0);
    expect(ratio(-4.9)).toBeLessThan(ratio(-4.3));
  });

  test('random trains at any speed: no NaN anywhere', () => {
    fc.assert(
      fc.property(trains({ course: 'either' }), fc.double({ min: 0.01, max: 277, noNaN: true }), (train, speed) => {
        expect(answers(train, speed).every(hasNoNaN)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  test('random nonsense: a problem or numbers, never an exception', () => {
    const any = fc.oneof(fc.double(), fc.constantFrom(0, -0, 1e300, 1e-300, -1));
    fc.assert(
      fc.property(fc.array(any, { minLength: 12, maxLength: 12 }), ([a, b, c, d, e, f, g, h, i, j, k, l]) => {
        const train: Train = {
          units: [
            {
              mass: a ?? 0,
              x: b ?? 0,
              yawInertia: c ?? 0,
              axles: [
                { x: 0, stiffness: d ?? 0 },
                { x: e ?? 0, stiffness: 1 },
              ],
            },
            { mass: f ?? 0, x: g ?? 0, yawInertia: h ?? 0, axles: [{ x: i ?? 0, stiffness: j ?? 0 }], coupling: 0 },
          ].map((unit, index) => (index === 0 ? { ...unit, hitch: k ?? 0 } : unit)),
          bodyForce: l,
        };
        expect(answers(train, 20).every(hasNoNaN)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});

test('a full trailer is two units, the steered frame and the body on its turntable', () => {
  const [car] = base.units;
  if (car === undefined) throw new Error('a car');
  const frame: TrainUnit = {
    mass: 300,
    x: -1.6,
    yawInertia: 120,
    axles: [{ x: -2, stiffness: 6e4 }],
    coupling: 0,
    hitch: -2,
  };
  const body: TrainUnit = { mass: 1500, x: -4, yawInertia: 3000, axles: [{ x: -6, stiffness: 8e4 }], coupling: -2 };
  const slow = solved(modesOf({ units: [car, frame, body] }, 20))[0];
  expect(slow?.yaw).toHaveLength(3);
  expect(slow?.eigenvalue.real).toBeLessThan(0);
});
