import { describe, expect, test } from 'vitest';
import { fromSI, parseUnit, toSI } from '../../language/units/units.ts';

const factor = (text: string): number => parseUnit(text)?.factor ?? Number.NaN;
const convert = (amount: number, from: string, to: string): number =>
  fromSI(toSI(amount, { factor: factor(from) }), { factor: factor(to) });

describe('factors', () => {
  // NIST SP 811, Appendix B: exact by definition (from memory).
  test.each([
    ['in', 0.0254],
    ['ft', 0.3048],
    ['yd', 0.9144],
    ['mi', 1609.344],
    ['lb', 0.45359237],
    ['oz', 0.028349523125],
    ['ton', 907.18474],
    ['gal', 3.785411784e-3],
    ['impgal', 4.54609e-3],
    ['gn', 9.80665],
    ['lbf', 4.4482216152605],
    ['kgf', 9.80665],
    ['mph', 0.44704],
    ['bar', 1e5],
    ['ft²', 0.09290304],
    ['in²', 6.4516e-4],
    ['in³', 1.6387064e-5],
    ['ft³', 0.028316846592],
    ['min', 60],
    ['h', 3600],
    ['t', 1000],
    ['L', 1e-3],
  ])('%s is exactly %d', (unit, published) => {
    expect(factor(unit) / published).toBeCloseTo(1, 15);
  });

  // NIST SP 811, Appendix B: ratios given there to seven significant digits (from memory).
  test.each([
    ['slug', 14.5939],
    ['psi', 6894.757],
    ['lbf·ft', 1.355818],
    ['lbf·in', 0.1129848],
    ['lbf/in', 175.1268],
    ['lb/ft', 1.488164],
    ['lb/ft²', 4.882428],
    ['lb/ft³', 16.01846],
    ['lb/gal', 119.8264],
    ['lb·ft²', 0.04214011],
    ['km/h', 0.2777778],
    ['knot', 0.5144444],
    ['deg', 0.01745329],
  ])('%s is %d to the digits given', (unit, published) => {
    const digits = String(published).replace(/^0\.0*|\./g, '').length;
    expect(Number(factor(unit).toPrecision(digits))).toBe(published);
  });

  // Slug to more digits, as reference tables print it (from memory).
  test('slug', () => expect(factor('slug')).toBeCloseTo(14.59390294, 8));

  // 49 CFR 571.110 S9.3.4 states 1 kg/L and, on US labels, 8.3 lb/gal for water; the two differ by half a per cent.
  test('the water figures of the US label are not each other', () => {
    expect(convert(8.3, 'lb/gal', 'kg/L')).toBeCloseTo(0.99456, 5);
    expect(convert(1, 'kg/L', 'lb/gal')).toBeCloseTo(8.3454, 5);
  });

  // 49 CFR 571.110 S10.1 pairs 45.4 kg with 100 lb, S4 68 kg with 150 lb: rounded by the text itself.
  test('regulation pairs agree to their rounding', () => {
    expect(Math.round(convert(150, 'lb', 'kg'))).toBe(68);
    expect(convert(100, 'lb', 'kg').toFixed(1)).toBe('45.4');
    expect(Math.round(convert(700, 'kg', 'lb'))).toBe(1543);
  });

  // Common practice, no source: 35 psi is painted on wheel arches as 240 kPa or 2.4 bar.
  test('tyre pressure', () => {
    expect(convert(35, 'psi', 'kPa')).toBeCloseTo(241.3, 1);
    expect(convert(35, 'psi', 'bar')).toBeCloseTo(2.413, 3);
  });
});
