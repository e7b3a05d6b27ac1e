import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Choice, type FreeMass, type PlacedMass, valueAt } from '../../language/mechanics/envelope.ts';
import type { Influence } from '../../language/mechanics/influence.ts';
import { greatestLesser } from '../../language/mechanics/lesser.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const influence: fc.Arbitrary<Influence> = fc.record({
  constant: number(-300, 300),
  units: fc.tuple(
    fc.record({ one: number(-2, 2), x: number(-1, 1), y: number(-1, 1), z: fc.constant(0), xy: fc.constant(0) }),
  ),
});

/** A tank that is empty, full or in between, or something that is there or not. */
interface Drawn {
  readonly isTank: boolean;
  readonly mass: number;
  readonly x: number;
  readonly y: number;
}

const drawn = (isTank: fc.Arbitrary<boolean>) =>
  fc.array(fc.record({ isTank, mass: number(5, 300), x: number(-5, 0), y: number(-1, 1) }), {
    minLength: 1,
    maxLength: 6,
  });

const placed = ({ x, y }: Drawn, mass: number): PlacedMass => ({ unit: 0, mass, centre: { x, y, z: 0.5 } });

function massOf(each: Drawn): FreeMass {
  const choices: readonly Choice[] = each.isTank
    ? [[placed(each, 0)], [placed(each, each.mass)]]
    : [[], [placed(each, each.mass)]];
  if (!each.isTank) return { choices };
  const massIn = ([only]: Choice) => only?.mass ?? 0;
  return {
    choices,
    between: (from, to, share) => [placed(each, massIn(from) + share * (massIn(to) - massIn(from)))],
  };
}

/**
 * By trying every corner, and of every tank in each of them the level at which both loads are equal: the lesser of two loads is the
 * solution of a linear programme with two rows beside the bounds, which leaves at most one tank between its ends.
 */
function enumerated(a: Influence, b: Influence, all: readonly Drawn[]): number {
  const lesser = (shares: readonly number[]) => {
    const choices = all.map((each, index): Choice => [placed(each, each.mass * (shares[index] ?? 0))]);
    const [ofA, ofB] = [valueAt(a, choices), valueAt(b, choices)];
    return { ofA, ofB, value: Math.min(ofA, ofB) };
  };
  let most = Number.NEGATIVE_INFINITY;
  for (let corner = 0; corner < 2 ** all.length; corner++) {
    const shares = all.map((_, index) => (corner >> index) & 1);
    most = Math.max(most, lesser(shares).value);
    for (const [index, { isTank }] of all.entries()) {
      if (!isTank) continue;
      const [empty, full] = [lesser(shares.with(index, 0)), lesser(shares.with(index, 1))];
      const [from, to] = [empty.ofA - empty.ofB, full.ofA - full.ofB];
      if (from * to < 0) most = Math.max(most, lesser(shares.with(index, from / (from - to))).value);
    }
  }
  return most;
}

test('the lesser of two loads is greatest where trying every corner and every level of equality says, with tanks alone', () => {
  fc.assert(
    fc.property(influence, influence, drawn(fc.constant(true)), (a, b, all) => {
      const { value, witness, bound } = greatestLesser(a, b, all.map(massOf));
      expect(value).toBeCloseTo(enumerated(a, b, all), 6);
      expect(bound).toBeCloseTo(value, 6);
      expect(Math.min(valueAt(a, witness), valueAt(b, witness))).toBe(value);
    }),
    { numRuns: 400 },
  );
});

test('where things come and go it is between what is found and the bound, and mostly known exactly', () => {
  let exact = 0;
  let runs = 0;
  fc.assert(
    fc.property(influence, influence, drawn(fc.boolean()), (a, b, all) => {
      const { value, witness, bound } = greatestLesser(a, b, all.map(massOf));
      const most = enumerated(a, b, all);
      expect(value).toBeLessThanOrEqual(most + 1e-6);
      expect(bound).toBeGreaterThanOrEqual(most - 1e-6);
      expect(Math.min(valueAt(a, witness), valueAt(b, witness))).toBe(value);
      runs++;
      if (bound - value < 1e-6) exact++;
    }),
    { numRuns: 400 },
  );
  expect(exact / runs).toBeGreaterThan(0.8);
});

test('what only some things together make equal has a bound that is not taken for what is found', () => {
  // 15, 10 and 6 kg, of which 16 kg are wanted: a is 1 kg with 16 kg, and so is b.
  const things = [15, 10, 6].map((mass): Drawn => ({ isTank: false, mass, x: 0, y: 0 }));
  const loads = (sign: 1 | -1): Influence => ({
    constant: sign * -16 + 1,
    units: [{ one: sign, x: 0, y: 0, z: 0, xy: 0 }],
  });
  const { value, bound } = greatestLesser(loads(1), loads(-1), things.map(massOf));
  expect(enumerated(loads(1), loads(-1), things)).toBe(1);
  expect(bound).toBeGreaterThanOrEqual(1);
  expect(value).toBeLessThanOrEqual(1);
  expect(value).toBeGreaterThanOrEqual(0);
});

test('its bound holds where what is found is far below the greatest', () => {
  const things: readonly (readonly [mass: number, ofA: number, ofB: number])[] = [
    [8, -2, 3],
    [7, 1, 1],
    [3, 2, -3],
    [5, 3, -1],
  ];
  // Each thing is in a unit of its own, so that it counts in either load as it likes.
  const masses = things.map(
    ([mass], unit): FreeMass => ({
      choices: [[], [{ unit, mass, centre: { x: 0, y: 0, z: 0 } }]],
    }),
  );
  const loads = (constant: number, column: 1 | 2): Influence => ({
    constant,
    units: things.map((each) => ({ one: each[column], x: 0, y: 0, z: 0, xy: 0 })),
  });
  const [a, b] = [loads(7, 1), loads(-1, 2)];
  // With all of them a = 7 − 16 + 7 + 6 + 15 = 19 and b = −1 + 24 + 7 − 9 − 5 = 16.
  const all = masses.map(({ choices }) => choices[1] ?? []);
  expect([valueAt(a, all), valueAt(b, all)]).toEqual([19, 16]);
  const { value, bound } = greatestLesser(a, b, masses);
  expect(bound).toBeGreaterThanOrEqual(16);
  expect(value).toBeLessThan(16);
});
