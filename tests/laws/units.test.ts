import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseTyreMarking } from '../../language/catalogue/tyres.ts';
import { baseUnits, dimensionName, sameDimension } from '../../language/units/dimension.ts';
import { formatNumber, formatQuantity } from '../../language/units/display.ts';
import {
  add,
  compare,
  divide,
  isQuantity,
  multiply,
  negate,
  parseNumber,
  type Quantity,
  type QuantityProblem,
  quantity,
  readNumber,
  subtract,
} from '../../language/units/quantity.ts';
import {
  fromSI,
  isUnitWord,
  nearestUnit,
  parseUnit,
  toSI,
  UNITS,
  unitAt,
  unitsOf,
} from '../../language/units/units.ts';

const spellings = UNITS.flatMap((unit) => [unit.symbol, ...unit.synonyms]);
const words = spellings.filter((spelling) => isUnitWord(spelling) && !['percent', 'pct'].includes(spelling));
const anyUnit = fc.constantFrom(...UNITS);
/** Amounts as an author might write them: not so small that floats lose their relative precision. */
const amount = fc.double({ min: -1e9, max: 1e9, noNaN: true }).map((x) => (Math.abs(x) < 1e-9 ? 0 : x));
const positive = fc.double({ min: 1e-3, max: 1e9, noNaN: true });

const composed = fc
  .tuple(
    fc.array(
      fc.tuple(
        fc.constantFrom('·', '*', '.', '⋅'),
        fc.constantFrom(...words),
        fc.constantFrom('', '²', '^3', '^-1', '⁻⁴'),
      ),
      { minLength: 1, maxLength: 4 },
    ),
    fc.array(fc.tuple(fc.constantFrom(...words), fc.constantFrom('', '²', '^2')), { maxLength: 2 }),
  )
  .map(
    ([product, divisors]) =>
      product.map(([operator, word, exponent], i) => (i === 0 ? '' : operator) + word + exponent).join('') +
      divisors.map(([word, exponent]) => `/${word}${exponent}`).join(''),
  );

const pairOfUnits = anyUnit.chain((unit) => fc.tuple(fc.constant(unit), fc.constantFrom(...unitsOf(unit.dimension))));

const made = (value: number, symbol: string): Quantity => {
  const unit = parseUnit(symbol);
  return resultOf(unit === undefined ? undefined : quantity(value, unit));
};

function resultOf(result: Quantity | QuantityProblem | undefined): Quantity {
  if (result === undefined || !isQuantity(result)) throw new Error(`no quantity: ${JSON.stringify(result)}`);
  return result;
}

const near = (a: number, b: number, relative = 1e-12): boolean =>
  Math.abs(a - b) <= relative * Math.max(Math.abs(a), Math.abs(b));

describe('units', () => {
  test('conversion there and back returns the amount', () => {
    fc.assert(
      fc.property(pairOfUnits, amount, ([from, to], x) => {
        const there = fromSI(toSI(x, from), to);
        expect(near(fromSI(toSI(there, to), from), x)).toBe(true);
      }),
    );
  });

  test('the printed spelling reads as the same unit and prints as itself', () => {
    fc.assert(
      fc.property(fc.oneof(composed, fc.constantFrom(...spellings)), (text) => {
        const unit = parseUnit(text);
        if (unit === undefined) return;
        const again = parseUnit(unit.text);
        expect(again?.text).toBe(unit.text);
        expect(again?.dimension).toEqual(unit.dimension);
        expect(near(again?.factor ?? 0, unit.factor)).toBe(true);
        expect(Number.isFinite(unit.factor) && unit.factor > 0).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  test('most composed texts are units, so the law above says something', () => {
    const sample = fc.sample(composed, 300);
    expect(sample.filter((text) => parseUnit(text) !== undefined).length).toBeGreaterThan(100);
  });

  test('a dimension spelled in base units reads as that dimension', () => {
    const exponent = fc.integer({ min: -4, max: 4 });
    fc.assert(
      fc.property(fc.tuple(exponent, exponent, exponent, exponent), (dimension) => {
        const text = baseUnits(dimension);
        fc.pre(text !== '');
        expect(parseUnit(text)?.dimension).toEqual(dimension);
        expect(dimensionName(dimension)).not.toBe('');
      }),
    );
  });

  test('what the pattern matches is a unit, whatever stands before and behind', () => {
    const tail = fc.oneof(
      fc.string(),
      fc.constantFrom('', ' of water', '/h', ' back', 's', '2', '²', '.', '·m', ' lb'),
    );
    fc.assert(
      fc.property(fc.oneof(composed, fc.constantFrom(...spellings)), tail, (unit, rest) => {
        const match = unitAt(`12 ${unit}${rest}`, 2);
        if (match !== undefined) expect(parseUnit(match.text), match.text).toBeDefined();
      }),
      { numRuns: 1000 },
    );
  });

  test('a unit before an ordinary word is matched whole', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...spellings),
        fc.constantFrom(' of', ' back,', ',', ' {', '', '\n', ' # x'),
        (u, rest) => {
          expect(unitAt(`12 ${u}${rest}`, 2)?.text).toBe(u);
        },
      ),
    );
  });

  test('the pattern never takes the beginning of a word', () => {
    const name = fc.stringMatching(/^[A-Za-z_][A-Za-z0-9_]{0,8}$/);
    const unitLike = fc.tuple(fc.constantFrom(...words), name).map(([unit, rest]) => unit + rest);
    fc.assert(
      fc.property(fc.oneof(name, unitLike), fc.constantFrom('', ' ', ',', ' x'), (word, rest) => {
        const match = unitAt(`12 ${word}${rest}`, 2);
        if (match !== undefined) expect(match.text).toBe(word.startsWith('°') ? match.text : word);
      }),
      { numRuns: 1000 },
    );
  });

  test('no text makes the readers throw', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        parseUnit(text);
        nearestUnit(text);
        unitAt(text, 0);
        readNumber(text);
        parseTyreMarking(text);
      }),
    );
  });

  test('the nearest unit is a printed spelling, of the wanted dimension where one is near', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 6 }), anyUnit, (text, { dimension }) => {
        const nearest = nearestUnit(text, dimension);
        if (nearest !== undefined) expect(parseUnit(nearest)?.text).toBe(nearest);
      }),
    );
    fc.assert(
      fc.property(anyUnit, (unit) => {
        expect(nearestUnit(unit.symbol, unit.dimension)).toBe(unit.symbol);
      }),
    );
  });
});

describe('quantities', () => {
  test('a sum commutes, and does not depend on the units it was written in', () => {
    fc.assert(
      fc.property(pairOfUnits, amount, amount, ([u, v], x, y) => {
        const a = made(x, u.symbol);
        const b = made(y, v.symbol);
        const sum = resultOf(add(a, b)).value;
        expect(sum).toBe(resultOf(add(b, a)).value);
        const rewritten = made(fromSI(a.value, v), v.symbol);
        const scale = Math.abs(a.value) + Math.abs(b.value);
        expect(Math.abs(resultOf(add(rewritten, b)).value - sum)).toBeLessThanOrEqual(1e-12 * scale);
      }),
    );
  });

  test('subtraction is addition of the negative; division undoes multiplication', () => {
    fc.assert(
      fc.property(anyUnit, anyUnit, amount, positive, (u, v, x, y) => {
        const a = made(x, u.symbol);
        const b = made(y, u.symbol);
        const c = made(y, v.symbol);
        expect(resultOf(subtract(a, b)).value).toBe(resultOf(add(a, negate(b))).value);
        const back = resultOf(divide(resultOf(multiply(a, c)), c));
        expect(near(back.value, a.value)).toBe(true);
        expect(back.dimension).toEqual(a.dimension);
      }),
    );
  });

  test('different dimensions neither add nor compare, and both are named', () => {
    fc.assert(
      fc.property(anyUnit, anyUnit, positive, (u, v, x) => {
        fc.pre(!sameDimension(u.dimension, v.dimension));
        const expected = { kind: 'dimension mismatch', left: u.dimension, right: v.dimension };
        for (const operation of [add, subtract, compare]) {
          expect(operation(made(x, u.symbol), made(x, v.symbol))).toMatchObject(expected);
        }
      }),
    );
  });
});

describe('numbers', () => {
  test('a printed number reads back to within its rounding, and prints the same again', () => {
    const any = fc.double({ min: 0, noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(fc.oneof(any, positive), fc.integer({ min: 1, max: 15 }), (x, digits) => {
        fc.pre(x === 0 || x > 1e-300);
        const text = formatNumber(x, digits);
        const read = parseNumber(text);
        expect(read, text).toBeDefined();
        expect(Math.abs((read ?? 0) - x)).toBeLessThanOrEqual(0.5000001 * 10 ** (1 - digits) * x);
        expect(formatNumber(read ?? 0, digits)).toBe(text);
      }),
      { numRuns: 1000 },
    );
  });

  test('nothing printed is NaN, infinite or a negative zero', () => {
    fc.assert(
      fc.property(fc.double(), anyUnit, (value, { dimension, symbol }) => {
        expect(formatQuantity({ value, dimension, unit: symbol })).not.toMatch(/NaN|Infinity|undefined|-0(?![.\d])/);
      }),
      { numRuns: 500 },
    );
  });

  test('a quantity printed in its unit reads back as the printed amount', () => {
    fc.assert(
      fc.property(anyUnit, positive, (unit, x) => {
        const text = formatQuantity(made(x, unit.symbol), undefined, { significant: 6 });
        const [number = '', symbol = ''] = text.split(' ');
        expect(symbol).toBe(unit.symbol);
        expect(near(parseNumber(number) ?? Number.NaN, x, 1e-5)).toBe(true);
      }),
    );
  });

  test('a mixed number is its whole plus its fraction', () => {
    fc.assert(
      fc.property(fc.nat(9999), fc.integer({ min: 1, max: 64 }), fc.nat(63), (whole, below, above) => {
        fc.pre(above < below);
        expect(parseNumber(`${whole} ${above}/${below}`)).toBe(whole + above / below);
      }),
    );
  });

  test('digit groups do not change a number', () => {
    fc.assert(
      fc.property(fc.nat(2_000_000_000), fc.constantFrom('_', '\u202f', '\u00a0'), (n, separator) => {
        expect(parseNumber(String(n).replace(/\B(?=(\d{3})+$)/g, separator))).toBe(n);
      }),
    );
  });
});
