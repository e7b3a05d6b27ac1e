import { describe, expect, test } from 'vitest';
import { type Combination, LEVEL, type Unit } from '../../../language/mechanics/combination.ts';
import { solveSupports } from '../../../language/mechanics/statics.ts';
import { group, loadsOf, mass, solve, trailer, vehicle } from './rigs.ts';

const car = vehicle(2.7, 1);
const single = trailer('equalised', [{ x: -4.5 }]);

function unit(change: Partial<Unit>): Combination {
  return { units: [{ ...car, ...change }] };
}

describe('what cannot be solved is named, with its place', () => {
  const oneAxle = (change: object) => [group('equalised', [{ x: 0 }]), group('equalised', [{ x: -2.7, ...change }])];

  test.each<[string, Combination, object]>([
    ['nothing', { units: [] }, { problem: 'no-units' }],
    ['a unit without groups', unit({ groups: [] }), { problem: 'no-axles', unit: 0 }],
    [
      'a group without axles',
      unit({ groups: [group('equalised', [{ x: 0 }]), group('equalised', [])] }),
      { problem: 'no-axles', unit: 0, group: 1 },
    ],
    [
      'an axle nowhere',
      unit({ groups: oneAxle({ x: Number.NaN }) }),
      { problem: 'place-not-finite', unit: 0, group: 1, axle: 0 },
    ],
    [
      'no track',
      unit({ groups: oneAxle({ track: 0 }) }),
      { problem: 'track-not-positive', unit: 0, group: 1, axle: 0 },
    ],
    [
      'endless track',
      unit({ groups: oneAxle({ track: Number.POSITIVE_INFINITY }) }),
      { problem: 'track-not-positive' },
    ],
    [
      'a negative rate',
      unit({ groups: oneAxle({ rate: -1 }) }),
      { problem: 'rate-not-positive', unit: 0, group: 1, axle: 0 },
    ],
    ['a hitch nowhere', unit({ hitch: { x: Number.NaN, z: 0 } }), { problem: 'place-not-finite', unit: 0 }],
    ['a vehicle on one axle', unit({ groups: oneAxle({}).slice(0, 1) }), { problem: 'single-support', unit: 0 }],
    ['two axles in one place', unit({ groups: oneAxle({ x: 0 }) }), { problem: 'supports-coincide', unit: 0 }],
    [
      'an axle under the coupling',
      { units: [car, trailer('equalised', [{ x: 0 }])] },
      { problem: 'coupling-at-axle', unit: 1, group: 0 },
    ],
    [
      'an axle ahead of the coupling',
      { units: [car, trailer('equalised', [{ x: 1 }])] },
      { problem: 'axle-ahead-of-coupling', unit: 1, group: 0 },
    ],
    ['two vehicles', { units: [car, car] }, { problem: 'no-coupling', unit: 1 }],
    ['no hitch', { units: [{ ...car, hitch: undefined }, single] }, { problem: 'no-hitch', unit: 0 }],
    [
      'brakes that push',
      { units: [car, { ...single, brakeShare: -0.1 }] },
      { problem: 'brake-share-out-of-range', unit: 1 },
    ],
    ['numbers too large', unit({ groups: oneAxle({ x: -1e308 }), hitch: undefined }), { problem: 'overflow' }],
    [
      'a device without a trailer',
      { units: [car], weightDistribution: { kind: 'moment', moment: 1 } },
      { problem: 'weight-distribution-without-trailer' },
    ],
    [
      'a device behind a trailer standing alone',
      { units: [{ ...single, hitch: { x: -6, z: 0.4 } }, single], weightDistribution: { kind: 'moment', moment: 1 } },
      { problem: 'weight-distribution-without-vehicle' },
    ],
    [
      'a device at a hinged drawbar',
      {
        units: [car, { ...single, groups: oneAxle({}), couplingCarries: false }],
        weightDistribution: { kind: 'restored', share: 0.5 },
      },
      { problem: 'weight-distribution-on-hinged-drawbar', unit: 1 },
    ],
    [
      'a device without a number',
      { units: [car, single], weightDistribution: { kind: 'moment', moment: Number.NaN } },
      { problem: 'weight-distribution-not-finite' },
    ],
    [
      'restoring where the trailer loads the front axle',
      { units: [vehicle(2.7, -0.2), single], weightDistribution: { kind: 'restored', share: 0.5 } },
      { problem: 'nothing-to-restore', unit: 0 },
    ],
  ])('%s', (_, combination, problem) => {
    expect(solveSupports(combination, LEVEL)).toMatchObject(problem);
  });

  test('a grade without end', () => {
    expect(solveSupports({ units: [car] }, { grade: Number.POSITIVE_INFINITY, deceleration: 0 })).toEqual({
      problem: 'field-not-finite',
    });
  });
});

describe('what is taken for granted is listed', () => {
  const kinds = (combination: Combination) => solve(combination).assumptions.map(({ assumption }) => assumption);
  const pair = (rate?: number) =>
    trailer('independent', [
      { x: -4, rate },
      { x: -5, rate },
    ]);

  test('missing rates matter only where equilibrium cannot tell', () => {
    expect(solve({ units: [car, pair()] }).assumptions).toContainEqual({
      assumption: 'equal-spring-rates',
      unit: 1,
      group: 0,
    });
    expect(kinds({ units: [car, pair(1e5)] })).not.toContain('equal-spring-rates');
    expect(kinds({ units: [car, single] })).not.toContain('equal-spring-rates');
  });

  test('a hitch at another height without rates', () => {
    expect(kinds({ units: [vehicle(2.7, 1, 0.5), pair()] })).toContain('hitch-height-ignored');
    expect(kinds({ units: [vehicle(2.7, 1, 0.5), pair(1e5)] })).not.toContain('hitch-height-ignored');
    expect(kinds({ units: [vehicle(2.7, 1, 0.5), single] })).not.toContain('hitch-height-ignored');
  });

  test('how roll is carried', () => {
    expect(kinds({ units: [car, single] })).toEqual(['roll-moment-by-longitudinal-share', 'roll-moment-on-own-axles']);
    expect(kinds({ units: [pair(1e5)] })).toEqual(['roll-moment-on-own-axles', 'roll-moment-by-axle-load']);
  });
});

describe('left and right', () => {
  test('a trailer off centre: half the load and y/track more to its side', () => {
    const [unit] = loadsOf({ units: [single] }, [mass(0, 900, -4.5, 0.2)]);
    expect(unit?.left[0]).toBeCloseTo(450 + (900 * 0.2) / 1.8, 9);
    expect(unit?.right[0]).toBeCloseTo(450 - (900 * 0.2) / 1.8, 9);
  });

  test('all of its roll moment, whatever rests on the coupling', () => {
    const [front, towed] = loadsOf({ units: [car, single] }, [mass(1, 900, -1.5, 0.2)]);
    expect((towed?.left[0] ?? 0) - (towed?.right[0] ?? 0)).toBeCloseTo((2 * 900 * 0.2) / 1.8, 9);
    expect(front?.left[1]).toBeCloseTo(front?.right[1] ?? Number.NaN, 9);
  });

  test('a mass right over an axle of a vehicle moves load across that axle only', () => {
    const [unit] = loadsOf({ units: [car] }, [mass(0, 300, -2.7, -0.4)]);
    expect(unit?.left[0]).toBeCloseTo(0, 9);
    expect(unit?.right[1]).toBeCloseTo(150 + (300 * 0.4) / 1.8, 9);
  });
});

test('a chain of three: the last unit acts on the first through the second', () => {
  // By hand: 900 kg at 3 m of 4 → 225 kg on the second hitch; 1 m behind the second trailer's axle at 5 m → −45 kg on
  // its coupling; 1 m behind the rear axle of a 3 m wheelbase → +15 kg on the front axle.
  const middle = trailer('equalised', [{ x: -5 }], { hitch: { x: -6, z: 0.4 } });
  const last = trailer('equalised', [{ x: -4 }]);
  const [lorry, second, third] = loadsOf({ units: [vehicle(3, 1), middle, last] }, [mass(2, 900, -3)]);
  expect(third?.coupling).toBeCloseTo(225, 9);
  expect(second?.coupling).toBeCloseTo(-45, 9);
  expect(second?.axles[0]).toBeCloseTo(270, 9);
  expect(lorry?.axles[0]).toBeCloseTo(15, 9);
  expect(lorry?.axles[1]).toBeCloseTo(-60, 9);
});

test('on a climb the brakes of a trailer do nothing; on a descent they hold its share', () => {
  const sources = [mass(1, 1000, -4.5)];
  const braked = (brakeShare: number) => ({ units: [car, { ...single, brakeShare }] });
  const sine = Math.sin(Math.atan(0.1));
  for (const share of [0, 0.6]) {
    const [, up] = loadsOf(braked(share), sources, { grade: 0.1, deceleration: 0 });
    const [, down] = loadsOf(braked(share), sources, { grade: -0.1, deceleration: 0 });
    expect(up?.drawbar).toBeCloseTo(1000 * sine, 9);
    expect(down?.drawbar).toBeCloseTo(-1000 * sine * (1 - share), 9);
  }
  const [, stretched] = loadsOf(braked(1.2), sources, { grade: -0.1, deceleration: 0 });
  expect(stretched?.drawbar).toBeGreaterThan(0);
});
