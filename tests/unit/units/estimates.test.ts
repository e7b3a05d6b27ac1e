import { describe, expect, test } from 'vitest';
import { LENGTH, MASS } from '../../../language/units/dimension.ts';
import { formatAgainst, formatError, formatWithin } from '../../../language/units/estimates.ts';

const plain = (text: string) => text.replaceAll('\u202f', ' ');

describe('a standard error', () => {
  test.each([
    [7.8046, '7.8 kg'],
    [28.7, '29 kg'],
    [141.4, '141 kg'],
    [0.7249, '0.72 kg'],
    [0.02887, '0.029 kg'],
    [0, '0 kg'],
  ])('of %d kg is %s', (value, text) => {
    expect(formatError(value, MASS)).toBe(text);
  });

  test('is shown in the units of the system', () => {
    // 1 lb = 0.45359237 kg, 1 in = 25.4 mm, exactly (international yard and pound agreement of 1959).
    expect(formatError(3.5380204, MASS, 'US')).toBe('7.8 lb');
    expect(formatError(0.00254, LENGTH, 'US')).toBe('0.1 in');
  });
});

describe('what it belongs to', () => {
  test.each([
    [2008.43, 7.8, '2 008 kg'],
    [57.26, 2, '57 kg'],
    [355.64, 0.72, '355.6 kg'],
    [355.6449, 0.0707, '355.64 kg'],
    [355.6449, 0, '356 kg'],
    [-0.4, 3, '0 kg'],
  ])('%d kg ± %d kg is %s', (value, error, text) => {
    expect(plain(formatWithin(value, error, MASS))).toBe(text);
  });
});

describe('a difference beside its tolerance', () => {
  test.each([
    [-0.721, 5.33, '-0.7 kg', '5.3 kg'],
    [4.97, 28.7, '5 kg', '28.7 kg'],
    [48.04, 2, '48 kg', '2 kg'],
    [0.0449, 0.577, '0.04 kg', '0.58 kg'],
    [999999550, 11.547, '999 999 550 kg', '11.5 kg'],
  ])('%d kg against %d kg', (value, tolerance, difference, limit) => {
    expect(plain(formatAgainst(value, tolerance, MASS))).toBe(difference);
    expect(plain(formatAgainst(tolerance, tolerance, MASS))).toBe(limit);
  });
});
