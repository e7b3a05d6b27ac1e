import { describe, expect, test } from 'vitest';
import { FORCE, INERTIA, PRESSURE, SPEED, SPRING_RATE, sameDimension } from '../../../language/units/dimension.ts';
import {
  displayUnit,
  formatLength,
  formatMass,
  formatNumber,
  formatQuantity,
  formatShare,
  formatValue,
} from '../../../language/units/display.ts';
import { parseUnit, UNITS } from '../../../language/units/units.ts';

describe('formatNumber', () => {
  test.each([
    [1934, '1\u202f934'],
    [1934.4, '1\u202f934'],
    [1234567.8, '1\u202f234\u202f568'],
    [999.6, '1\u202f000'],
    [137.04, '137'],
    [45.36, '45.4'],
    [8.5, '8.5'],
    [9.996, '10'],
    [0.0123, '0.0123'],
    [0.1 + 0.2, '0.3'],
    [-37.04, '-37'],
    [1e-7, '1e-7'],
    [9.9996e-7, '0.000001'],
    [1.234e15, '1.23e15'],
    [1e300, '1e300'],
    [0, '0'],
    [-0, '0'],
    [Number.NaN, '—'],
    [Number.POSITIVE_INFINITY, '—'],
  ])('%d is %s', (value, text) => {
    expect(formatNumber(value)).toBe(text);
  });

  test('decimals may be limited; what vanishes has no sign', () => {
    expect(formatNumber(-0.0004, 3, 3)).toBe('0');
    expect(formatNumber(0.0995, 3, 1)).toBe('0.1');
    expect(formatNumber(12.345, 5)).toBe('12.345');
  });
});

describe('formats', () => {
  test('computed values in either system', () => {
    expect(formatMass(1934.2)).toBe('1\u202f934 kg');
    expect(formatMass(1934.2, 'US')).toBe('4\u202f264 lb');
    expect(formatMass(8.5)).toBe('8.5 kg');
    expect(formatMass(-1e-13)).toBe('0 kg');
    expect(formatLength(3.205)).toBe('3\u202f205 mm');
    expect(formatLength(3.302, 'US')).toBe('130 in');
    expect(formatShare(0.0955)).toBe('9.6 %');
    expect(formatValue(100 / 3.6, SPEED)).toBe('100 km/h');
    expect(formatValue(450e3, PRESSURE)).toBe('450 kPa');
    expect(formatValue(26_608.9, FORCE, 'US')).toBe('5\u202f982 lbf');
    expect(formatValue(1, INERTIA)).toBe('1 kg·m²');
    expect(formatValue(Number.NaN, FORCE)).toBe('— N');
  });

  test('a quantity shows the preferred unit if it fits, else the written one, else the default', () => {
    const rate = { value: 87_563.4, dimension: SPRING_RATE, unit: 'lbf/in' };
    expect(formatQuantity(rate)).toBe('500 lbf/in');
    expect(formatQuantity(rate, 'N/mm')).toBe('87.6 N/mm');
    expect(formatQuantity(rate, 'kg')).toBe('500 lbf/in');
    expect(formatQuantity({ value: 87_563.4, dimension: SPRING_RATE })).toBe('87.6 N/mm');
    expect(formatQuantity({ value: 87_563.4, dimension: SPRING_RATE }, 'nonsense', { significant: 5 })).toBe(
      '87.563 N/mm',
    );
  });

  test('without a unit: plain numbers bare, unnamed dimensions in base units', () => {
    expect(formatQuantity({ value: 2.5, dimension: [0, 0, 0, 0] })).toBe('2.5');
    expect(formatQuantity({ value: 2.5, dimension: [-5, 1, 0, 0] })).toBe('2.5 kg·m⁻⁵');
  });

  test('each default unit belongs to its dimension', () => {
    for (const { dimension, symbol } of UNITS.filter(({ symbol }) => symbol !== '%')) {
      for (const system of ['metric', 'US'] as const) {
        const shown = parseUnit(displayUnit(dimension, system));
        expect(shown && sameDimension(shown.dimension, dimension), `${symbol} ${system}`).toBe(true);
      }
    }
  });
});
