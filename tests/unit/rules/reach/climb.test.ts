import { describe, expect, test } from 'vitest';
import type { Choice } from '../../../../language/mechanics/envelope.ts';
import { climb, type Tried } from '../../../../language/rules/reach/climb.ts';

/** Masses that are 0 or 1 kg each. */
const massesOf = (count: number) =>
  Array.from({ length: count }, (_, unit) => ({
    choices: [0, 1].map((mass): Choice => [{ unit, mass, centre: { x: 0, y: 0, z: 0 } }]),
  }));

/** From all at 0 kg, where a state is as bad as `badness` of the masses (kg) says. */
function climbed(count: number, badness: (masses: readonly number[]) => number | undefined) {
  const masses = massesOf(count);
  let attempts = 0;
  const attempt = (choices: readonly Choice[]): Tried<readonly number[]> | undefined => {
    attempts++;
    const value = choices.map(([placed]) => placed?.mass ?? 0);
    const by = badness(value);
    return by === undefined ? undefined : { choices, by, value };
  };
  const from = attempt(masses.map(({ choices }) => choices[0] ?? []));
  if (from === undefined) throw new Error('no state to begin at');
  const { value, by } = climb(from, masses, attempt);
  return { value, by, attempts };
}

describe('a climb', () => {
  test('takes every mass to the corner that makes it worse, also after one that did not before', () => {
    // A product: the first factor counts once the second does.
    const product = climbed(3, ([a = 0, b = 0, c = 0]) => a * b * 10 + b - c);
    expect(product).toMatchObject({ value: [1, 1, 0], by: 11 });
  });

  test('stays where no single mass makes it worse, whatever two of them would', () => {
    expect(climbed(2, ([a = 0, b = 0]) => a * b * 10 - a - b)).toMatchObject({ value: [0, 0], by: 0 });
  });

  test('passes over states without a figure, and over what is rounding', () => {
    expect(climbed(2, ([a = 0, b = 0]) => (a > 0 ? undefined : b))).toMatchObject({ value: [0, 1] });
    expect(climbed(2, ([a = 0, b = 0]) => 1 + 1e-12 * (a + b))).toMatchObject({ value: [0, 0] });
  });

  test('tries no more than 60 states on its way', () => {
    const { attempts, by } = climbed(100, (masses) => masses.reduce((sum, mass) => sum + mass, 0));
    expect(attempts).toBe(61);
    expect(by).toBe(60);
  });
});
