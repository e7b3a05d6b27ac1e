import { describe, expect, test } from 'vitest';
import { DIMENSIONLESS, FORCE, LENGTH, MASS, MASS_PER_AREA } from '../../../language/units/dimension.ts';
import {
  add,
  compare,
  describeProblem,
  divide,
  isQuantity,
  multiply,
  negate,
  parseNumber,
  plainNumber,
  type Quantity,
  quantity,
  readNumber,
  subtract,
} from '../../../language/units/quantity.ts';
import { parseUnit } from '../../../language/units/units.ts';

function q(amount: number, text: string): Quantity {
  const unit = parseUnit(text);
  const result = unit === undefined ? undefined : quantity(amount, unit);
  if (result === undefined || !isQuantity(result)) throw new Error(`no quantity: ${amount} ${text}`);
  return result;
}

describe('readNumber', () => {
  test.each([
    ['1850', 1850],
    ['1_850', 1850],
    ['12_345_678', 12345678],
    ['1\u202f934', 1934],
    ['1\u00a0934.5', 1934.5],
    ['3.5', 3.5],
    ['.5', 0.5],
    ['0', 0],
    ['0.000', 0],
    ['0e5', 0],
    ['1e3', 1000],
    ['1E-3', 0.001],
    ['1/2', 0.5],
    ['0/8', 0],
    ['0 0/8', 0],
    ['12/5', 2.4],
    ['3 3/4', 3.75],
    ['3 \t15/16', 3.9375],
    ['1_000 1/2', 1000.5],
    [' 7 ', 7],
  ])('%j is %d', (text, value) => {
    expect(readNumber(text)).toBe(value);
    expect(parseNumber(text)).toBe(value);
  });

  test.each([
    ['', 'malformed'],
    ['.', 'malformed'],
    ['1.', 'malformed'],
    ['1__0', 'malformed'],
    ['_1', 'malformed'],
    ['1_', 'malformed'],
    ['1.2.3', 'malformed'],
    ['1,5', 'malformed'],
    ['-3', 'malformed'],
    ['+3', 'malformed'],
    ['1e', 'malformed'],
    ['0x10', 'malformed'],
    ['NaN', 'malformed'],
    ['Infinity', 'malformed'],
    ['1.5/2', 'malformed'],
    ['1 / 2', 'malformed'],
    ['3 4', 'malformed'],
    ['1\u202f93', 'malformed'],
    ['1e999', 'overflow'],
    ['9'.repeat(400), 'overflow'],
    [`${'9'.repeat(400)}/${'9'.repeat(400)}`, 'overflow'],
    [`1/${'9'.repeat(400)}`, 'overflow'],
    [`${'9'.repeat(400)} 1/2`, 'overflow'],
    ['1e-999', 'underflow'],
    ['3/0', 'zero denominator'],
    ['1 0/0', 'zero denominator'],
    ['3 5/4', 'improper fraction'],
    ['3 4/4', 'improper fraction'],
  ])('%j is %s', (text, kind) => {
    expect(readNumber(text)).toMatchObject({ kind, found: text });
    expect(parseNumber(text)).toBeUndefined();
  });
});

describe('arithmetic', () => {
  test('compound measures add up and keep the first unit', () => {
    const sum = add(q(11, 'ft'), q(3, 'in'));
    expect(sum).toMatchObject({ dimension: LENGTH, unit: 'ft' });
    expect(isQuantity(sum) ? sum.value : Number.NaN).toBeCloseTo(3.429, 12);
  });

  test('a mismatch names both dimensions', () => {
    const result = add(q(1, 'kg'), q(1, 'm'));
    expect(result).toEqual({ kind: 'dimension mismatch', operation: 'add', left: MASS, right: LENGTH });
    expect(isQuantity(result)).toBe(false);
    const messages = [result, subtract(q(1, 'kg'), q(1, 'N'))].map((r) => (isQuantity(r) ? '' : describeProblem(r)));
    expect(messages).toEqual(['a length cannot be added to a mass', 'a force cannot be subtracted from a mass']);
    const comparison = compare(q(8, '%'), q(1, 'deg'));
    expect(typeof comparison === 'number' ? '' : describeProblem(comparison)).toBe(
      'a plain number cannot be compared with an angle',
    );
  });

  test('products and quotients carry dimensions; a plain factor keeps the unit', () => {
    expect(divide(q(10, 'kg'), q(2, 'm²'))).toEqual({ value: 5, dimension: MASS_PER_AREA });
    expect(multiply(q(10, 'kg'), q(2, 'm/s²'))).toEqual({ value: 20, dimension: FORCE });
    expect(multiply(q(50, '%'), q(2, 't'))).toEqual({ value: 1000, dimension: MASS, unit: 't' });
    expect(multiply(q(2, 't'), q(50, '%'))).toEqual({ value: 1000, dimension: MASS, unit: 't' });
    expect(divide(q(3, 'm'), q(2, 'm'))).toEqual({ value: 1.5, dimension: DIMENSIONLESS });
    expect(divide(q(2, 't'), plain(4))).toEqual({ value: 500, dimension: MASS, unit: 't' });
  });

  test('no result is infinite, NaN or a negative zero', () => {
    expect(divide(q(1, 'kg'), q(0, 'm'))).toEqual({ kind: 'division by zero' });
    expect(divide(q(0, 'kg'), q(0, 'kg'))).toEqual({ kind: 'division by zero' });
    expect(multiply(q(1e300, 'kg'), q(1e300, 'm'))).toEqual({ kind: 'overflow' });
    expect(add(q(1.7e308, 'kg'), q(1.7e308, 'kg'))).toEqual({ kind: 'overflow' });
    const km = parseUnit('km');
    expect(km && quantity(1e308, km)).toEqual({ kind: 'overflow' });
    expect(plainNumber(Number.NaN)).toEqual({ kind: 'overflow' });
    expect(Object.is(negate(q(0, 'kg')).value, 0)).toBe(true);
    expect(Object.is(plain(-0).value, 0)).toBe(true);
  });

  test('comparison', () => {
    expect(compare(q(1, 'in'), q(25.4, 'mm'))).toBe(0);
    expect(compare(q(1, 'ft'), q(1, 'm'))).toBe(-1);
    expect(compare(q(1, 't'), q(1, 'ton'))).toBe(1);
  });
});

function plain(value: number): Quantity {
  const result = plainNumber(value);
  if (!isQuantity(result)) throw new Error(`no plain number: ${value}`);
  return result;
}
