import { describe, expect, test } from 'vitest';
import { group, loadsOf, mass, trailer, vehicle } from '../unit/mechanics/rigs.ts';

describe('a pair of axles 4.1 and 4.9 m behind the coupling, 2000 kg at 4.3 m', () => {
  const axles = [{ x: -4.1 }, { x: -4.9 }];
  const source = mass(0, 2000, -4.3);

  test('equalised: 955.56 kg each, coupling 88.89 kg', () => {
    // By hand: one support at 4.5 m, 2000·4.3/4.5/2.
    const [unit] = loadsOf({ units: [trailer('equalised', axles)] }, [source]);
    expect(unit?.axles[0]).toBeCloseTo(955.56, 2);
    expect(unit?.axles[1]).toBeCloseTo(955.56, 2);
    expect(unit?.coupling).toBeCloseTo(88.89, 2);
  });

  test('independent, equal springs: 863.79 and 1032.34 kg, coupling 103.87 kg', () => {
    // By hand: rigid frame about the coupling, loads in proportion to the distance, 2000·4.3·4.1/(4.1² + 4.9²).
    const [unit] = loadsOf({ units: [trailer('independent', axles)] }, [source]);
    expect(unit?.axles[0]).toBeCloseTo(863.79, 2);
    expect(unit?.axles[1]).toBeCloseTo(1032.34, 2);
    expect(unit?.coupling).toBeCloseTo(103.87, 2);
  });

  test('independent, one spring twice as stiff: loads in proportion to rate times distance', () => {
    const [a, b] = axles.map((axle, i) => ({ ...axle, rate: i === 0 ? 2e5 : 1e5 }));
    const [unit] = loadsOf(
      {
        units: [
          trailer(
            'independent',
            [a, b].filter((each) => each !== undefined),
          ),
        ],
      },
      [source],
    );
    expect((unit?.axles[0] ?? 0) / (unit?.axles[1] ?? 1)).toBeCloseTo((2 * 4.1) / 4.9, 9);
  });
});

describe('a raised hitch', () => {
  // By hand for axles at 4 and 5 m, 100 kN/m each, hitch 0.05 m above the coupling's stated height: unknown angle φ,
  // loads k·(φ·L − 0.05), moments about the coupling; the change is −k·0.05·(1 − L·(4 + 5)/(4² + 5²)).
  const axles = [
    { x: -4, rate: 1e5 },
    { x: -5, rate: 1e5 },
  ];
  const change = (axle: number) => ((-1e5 * 0.05) / 9.80665) * (1 - (axle * 9) / 41);

  test('moves load from the front axle to the rear one and to the coupling', () => {
    const level = loadsOf({ units: [vehicle(2.7, 1, 0.45), trailer('independent', axles)] }, [mass(1, 2000, -4.4)])[1];
    const raised = loadsOf({ units: [vehicle(2.7, 1, 0.5), trailer('independent', axles)] }, [mass(1, 2000, -4.4)])[1];
    expect((raised?.axles[0] ?? 0) - (level?.axles[0] ?? 0)).toBeCloseTo(change(4), 9);
    expect((raised?.axles[1] ?? 0) - (level?.axles[1] ?? 0)).toBeCloseTo(change(5), 9);
    expect(change(4)).toBeLessThan(0);
    expect(change(5)).toBeGreaterThan(0);
    expect((raised?.coupling ?? 0) - (level?.coupling ?? 0)).toBeCloseTo(-change(4) - change(5), 9);
  });

  test('does nothing to an equalised pair', () => {
    const [, unit] = loadsOf({ units: [vehicle(2.7, 1, 0.6), trailer('equalised', axles)] }, [mass(1, 2000, -4.4)]);
    expect(unit?.axles[0]).toBeCloseTo((2000 * 4.4) / 4.5 / 2, 9);
  });
});

test('three equalised axles carry equal loads as one support at their middle', () => {
  // By hand: 3200·5.2/5.5/3.
  const axles = [{ x: -4.6 }, { x: -5.5 }, { x: -6.4 }];
  const [unit] = loadsOf({ units: [trailer('equalised', axles)] }, [mass(0, 3200, -5.2)]);
  for (const load of unit?.axles ?? []) expect(load).toBeCloseTo((3200 * 5.2) / 5.5 / 3, 9);
  expect(unit?.axles).toHaveLength(3);
});

test('a full trailer with a steered front axle: two supports, nothing on the drawbar', () => {
  // By hand: axles 2 and 6 m behind the coupling, 4000 kg at 3.5 m.
  const full = trailer('equalised', [{ x: -2 }], {
    groups: [group('equalised', [{ x: -2 }]), group('equalised', [{ x: -6 }])],
    couplingCarries: false,
  });
  const [lorry, towed] = loadsOf({ units: [vehicle(4, 1.2), full] }, [mass(1, 4000, -3.5)]);
  expect(towed?.coupling).toBeNaN();
  expect(towed?.axles[0]).toBeCloseTo((4000 * 2.5) / 4, 9);
  expect(towed?.axles[1]).toBeCloseTo((4000 * 1.5) / 4, 9);
  expect(lorry?.axles[0]).toBeCloseTo(0, 9);
  expect(lorry?.axles[1]).toBeCloseTo(0, 9);
});

test('a kingpin ahead of the rear axle loads both axles of the vehicle', () => {
  // By hand: wheelbase 3.6 m, kingpin 0.3 m ahead of the rear axle: a twelfth of its load on the front axle.
  const [pickup, towed] = loadsOf({ units: [vehicle(3.6, -0.3, 1.2), trailer('equalised', [{ x: -6 }])] }, [
    mass(1, 4000, -4.8),
  ]);
  expect(towed?.coupling).toBeCloseTo(800, 9);
  expect(pickup?.axles[0]).toBeCloseTo(800 / 12, 9);
  expect(pickup?.axles[1]).toBeCloseTo((800 * 11) / 12, 9);
});

test('a three-axle vehicle on equal springs: heave and pitch', () => {
  // By hand: axles at 0, 4 and 6 m, middle at 10/3 m, Σ(x − x̄)² = 56/3; 9000 kg at 4 m.
  const truck = {
    groups: [group('independent', [{ x: 0 }]), group('independent', [{ x: -4 }, { x: -6 }])],
    couplingCarries: false,
    brakeShare: 1,
  };
  const [loads] = loadsOf({ units: [truck] }, [mass(0, 9000, -4)]);
  const expected = [0, 4, 6].map((x) => 9000 * (1 / 3 + ((x - 10 / 3) * (4 - 10 / 3)) / (56 / 3)));
  for (const [i, load] of expected.entries()) expect(loads?.axles[i]).toBeCloseTo(load, 8);
});
