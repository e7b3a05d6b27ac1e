import fc from 'fast-check';
import { expect, test } from 'vitest';
import { counterpartOf, lastPlaceOf, rewritten } from '../../language/units/counterpart.ts';
import { sameDimension } from '../../language/units/dimension.ts';
import { fromSI, parseUnit, toSI } from '../../language/units/parse-unit.ts';
import { parseNumber } from '../../language/units/quantity.ts';
import { UNITS } from '../../language/units/units.ts';

const pairs = UNITS.flatMap(({ symbol }) => {
  const from = parseUnit(symbol);
  const to = from && counterpartOf(from);
  return from && to ? [{ from, to }] : [];
});

const decimalsOf = (text: string): number => text.split('.')[1]?.length ?? 0;

/** Numbers as an author writes them, with 0 to 4 decimals. */
const written = fc
  .tuple(fc.integer({ min: 1, max: 10_000_000 }), fc.integer({ min: 0, max: 4 }))
  .map(([digits, decimals]) => (digits / 10 ** decimals).toFixed(decimals));

test('a counterpart measures the same, in the other system, and has one in the first', () => {
  expect(pairs.length).toBeGreaterThan(40);
  const systemOf = new Map(UNITS.map(({ symbol, system }) => [symbol, system]));
  const isCustomary = (symbol: string) => ['US', 'imperial'].includes(systemOf.get(symbol) ?? '');
  for (const { from, to } of pairs) {
    expect(sameDimension(from.dimension, to.dimension), `${from.text} ${to.text}`).toBe(true);
    expect(isCustomary(from.text), `${from.text} ${to.text}`).toBe(!isCustomary(to.text));
    const back = counterpartOf(to);
    expect(back && isCustomary(back.text), `${from.text} ${to.text}`).toBe(isCustomary(from.text));
  }
});

test('a rewritten number reads back as what was written, in the digits written', () => {
  fc.assert(
    fc.property(written, fc.constantFrom(...pairs), (text, { from, to }) => {
      const amount = Number(text);
      const result = rewritten(amount, lastPlaceOf(text), from, to);
      if (result === undefined) return;
      const back = fromSI(toSI(parseNumber(result.number) ?? Number.NaN, to), from);
      expect(back.toFixed(decimalsOf(text))).toBe(text);
      expect(result.readBack).toBe(back);
      expect(Math.abs(back - amount)).toBeLessThanOrEqual(amount / 2000 + 1e-12);
      if (result.isExact) expect(Math.abs(back - amount)).toBeLessThanOrEqual(1e-12 * amount);
    }),
  );
});

test('it has no digit that it could do without', () => {
  fc.assert(
    fc.property(written, fc.constantFrom(...pairs), (text, { from, to }) => {
      const amount = Number(text);
      const lastPlace = lastPlaceOf(text);
      const result = rewritten(amount, lastPlace, from, to);
      const decimals = decimalsOf(result?.number ?? '');
      if (result === undefined || result.isExact || decimals === 0) return;
      const shorter = Number(fromSI(toSI(amount, from), to).toFixed(decimals - 1));
      const back = fromSI(toSI(shorter, to), from);
      expect(Math.abs(back - amount)).toBeGreaterThan(Math.min(lastPlace / 20, amount / 2000) * (1 - 1e-9));
    }),
  );
});
