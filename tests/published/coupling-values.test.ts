import { describe, expect, test } from 'vitest';
import { parseCouplingClass } from '../../language/catalogue/coupling-classes.ts';
import {
  dcValue,
  drawbarTestLoads,
  dValue,
  fifthWheelDValue,
  greatestTrailerMass,
  VERTICAL_ACCELERATION,
  vValue,
} from '../../language/mechanics/coupling-values.ts';

/** Masses of the examples are in tonnes, forces in kN, as the regulation has them. */
const TONNE = 1000;
const KILONEWTON = 1000;

// The figures are computed from the formulas of UN Regulation No. 55, with g = 9.81 m/s².
describe('UN R55, characteristic values', () => {
  // RW810. D = g·T·R/(T+R): the formula from memory.
  test.each([
    [2.0, 1.5, 8.4086],
    [3.5, 3.5, 17.1675],
    [18, 44, 125.315],
  ])('D of T %d t and R %d t is %d kN', (vehicle, trailer, expected) => {
    expect(dValue(vehicle * TONNE, trailer * TONNE) / KILONEWTON).toBeCloseTo(expected, 3);
  });

  // RW811. Dc = g·T·C/(T+C): the formula from memory.
  test('Dc of T 2.0 t and C 1.4 t is 8.0788 kN', () => {
    expect(dcValue(2.0 * TONNE, 1.4 * TONNE) / KILONEWTON).toBeCloseTo(8.0788, 4);
  });

  // D = 0.6·g·T·R/(T+R−U): the formula read second-hand.
  test('D of a fifth wheel, T 18 t, R 33 t, U 10.5 t, is 86.328 kN', () => {
    expect(fifthWheelDValue(18 * TONNE, 33 * TONNE, 10.5 * TONNE) / KILONEWTON).toBeCloseTo(86.328, 3);
  });

  // RW812. V = a·(X²/L²)·C, X²/L² at least 1, a 1.8 m/s² with air suspension, else 2.4: from memory.
  test.each([
    ['air', 7.8, 6.0, 10, 30.42],
    ['other', 7.8, 6.0, 10, 40.56],
    ['air', 5.0, 5.5, 1.8, 3.24],
  ] as const)(
    'V with %s suspension, X %d m, L %d m, C %d t is %d kN',
    (suspension, length, distance, axles, expected) => {
      const trailer = { axles: axles * TONNE, length, distance };
      expect(vValue(VERTICAL_ACCELERATION[suspension], trailer) / KILONEWTON).toBeCloseTo(expected, 9);
    },
  );

  // R = D·T/(g·T−D), the inverse of the formula for D.
  test('the D value of T 2.0 t and R 1.5 t suffices for 1.5 t', () => {
    expect(greatestTrailerMass(8.4086 * KILONEWTON, 2.0 * TONNE) / TONNE).toBeCloseTo(1.5, 4);
  });

  // RW815, RW816. Annex 4: classes A, B, C, D and G [read]; the others from memory.
  test.each([
    ['A50-X', 'A', 50],
    ['B50-X', 'B', 50],
    ['C50-4', 'C', 50],
    ['D50-A', 'D', 50],
    ['G50-X', 'G', 50],
    ['L40', 'L', 40],
    ['F', 'F', undefined],
  ])('class %s is letter %s of %s mm', (marking, letter, diameter) => {
    expect(parseCouplingClass(marking)).toEqual({ text: 'UN R55', letter, ...(diameter ? { diameter } : {}) });
  });
});

// RW814. ADR 62/02 [read]: longitudinal 9.81·ATM, vertical 0.5·9.81·ATM; the figures computed from that.
test('ADR 62/02 tests the drawbar of an ATM of 2000 kg with 19 620 N and 9810 N', () => {
  const { longitudinal, vertical } = drawbarTestLoads(2000);
  expect(longitudinal).toBeCloseTo(19_620, 6);
  expect(vertical).toBeCloseTo(9810, 6);
});

// RW813. SAE J684, gross trailer weight of the classes [read through COMAR 11.13.08.04].
test.each([
  ['I', 2000],
  ['II', 3500],
  ['III', 5000],
  ['IV', 10_000],
])('SAE J684: class %s is for trailers of up to %d lb', (marking, pounds) => {
  const found = parseCouplingClass(marking);
  expect(found?.text === 'SAE J684' ? found.trailer / 0.45359237 : undefined).toBeCloseTo(pounds, 9);
});
