import { describe, expect, test } from 'vitest';
import { ASSUMED_TYRES, assumedCurve } from '../../language/mechanics/stability/tyre-table.ts';
import { axleStiffness, curveOfParameters, tyreStiffness } from '../../language/mechanics/stability/tyres.ts';

describe('cornering stiffness over load', () => {
  // Source: 205/60R15 91V at 2.2 bar, Fz0 4000 N, pKy1 14.95, pKy2 2.130: H. B. Pacejka, Tyre and Vehicle Dynamics, table
  // A3.1, as in three stored tyre files; stiffnesses computed from them.
  const curve = curveOfParameters(4000, 14.95, 2.13);

  test.each([
    [2000, 26_608.9],
    [4000, 46_009.1],
    [8520, 59_800],
  ])('at %s N: %s N/rad', (load, stiffness) => {
    expect(tyreStiffness(curve, load).value).toBeCloseTo(stiffness, 1);
  });

  test('peaks at 8520 N and falls beyond', () => {
    expect(tyreStiffness(curve, 8520).slope).toBeCloseTo(0, 12);
    expect(tyreStiffness(curve, 8000).slope).toBeGreaterThan(0);
    expect(tyreStiffness(curve, 9000).slope).toBeLessThan(0);
  });

  test('is sin(2·atan) as published', () => {
    for (const load of [10, 1234, 5000, 12_000]) {
      const published = 14.95 * 4000 * Math.sin(2 * Math.atan(load / (2.13 * 4000)));
      expect(tyreStiffness(curve, load).value / published).toBeCloseTo(1, 12);
    }
  });

  test('unequal sides cost stiffness', () => {
    // Textbook fact (lateral load transfer lowers the axle's stiffness, e.g. Gillespie ch. 6; from memory): the curve is concave.
    const even = axleStiffness(curve, 1, 4000, 4000).value;
    expect(axleStiffness(curve, 1, 5000, 3000).value).toBeLessThan(even);
    expect(axleStiffness(curve, 1, 7000, 1000).value).toBeLessThan(axleStiffness(curve, 1, 5000, 3000).value);
  });
});

describe('what is taken of a tyre whose figures are not known', () => {
  // Source: T. D. Gillespie, Fundamentals of Vehicle Dynamics, pp. 347–355, second hand: stiffness per degree over load
  // 0.12 (0.08–0.18) for bias, 0.15 (0.11–0.19) for radial tyres.
  const ranges = { bias: [0.08, 0.18], radial: [0.11, 0.19] } as const;

  test.each(
    Object.entries(ASSUMED_TYRES).flatMap(([kind, of]) =>
      (['bias', 'radial'] as const).map((construction) => ({ kind, construction, tyre: of[construction] })),
    ),
  )('$kind, $construction: within the published range at its rated load', ({ construction, tyre }) => {
    const rated = 6000;
    const perDegree = (tyreStiffness(assumedCurve(tyre, rated), rated).value / rated) * (Math.PI / 180);
    const [least, most] = ranges[construction];
    expect(perDegree).toBeCloseTo(tyre.coefficient.value, 12);
    expect(perDegree).toBeGreaterThanOrEqual(least);
    expect(perDegree).toBeLessThanOrEqual(most);
    expect([tyre.coefficient.least, tyre.coefficient.most]).toEqual([least, most]);
    for (const figure of [tyre.coefficient, tyre.peakRatio, tyre.relaxation]) expect(figure.source).not.toBe('');
  });

  test('passenger tyres have the published middle values', () => {
    expect(ASSUMED_TYRES.passenger.bias.coefficient.value).toBe(0.12);
    expect(ASSUMED_TYRES.passenger.radial.coefficient.value).toBe(0.15);
  });

  test('relaxation lengths lie in the usual 0.2 to 0.7 m (from memory)', () => {
    for (const of of Object.values(ASSUMED_TYRES)) {
      for (const { relaxation } of Object.values(of)) {
        expect(relaxation.value).toBeGreaterThanOrEqual(0.2);
        expect(relaxation.value).toBeLessThanOrEqual(0.7);
      }
    }
  });
});
