import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Choice,
  cornersOf,
  type Figure,
  type FreeMass,
  findExtremes,
  type PlacedMass,
  valueAt,
} from '../../language/mechanics/envelope.ts';
import { type Influence, massInfluence, unitInfluence } from '../../language/mechanics/influence.ts';
import { fluidBody, levelWithSurfaceAt, type TankShape } from '../../language/mechanics/tank.ts';

const UNITS = 2;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const influence: fc.Arbitrary<Influence> = fc.record({
  constant: number(-50, 50),
  units: fc.array(
    fc.record({ one: number(-2, 2), x: number(-1, 1), y: number(-1, 1), z: fc.constant(0), xy: number(-0.3, 0.3) }),
    { minLength: UNITS, maxLength: UNITS },
  ),
});

/** A mass with at most `free` things about it that are not certain. */
const freeMass: fc.Arbitrary<FreeMass> = fc
  .record({
    unit: fc.nat(UNITS - 1),
    mass: number(5, 500),
    range: fc.option(number(0.01, 1), { nil: 0 }),
    x: number(-6, 0),
    y: number(-1, 1),
    tolerance: fc.option(number(0.001, 0.3), { nil: 0 }),
    optional: fc.boolean(),
  })
  .map(({ unit, mass, range, x, y, tolerance, optional }) => ({
    choices: cornersOf({ unit, centre: { x, y, z: 0.5 } }, [mass * (1 - range), mass], { x: tolerance }, optional),
  }));

const certain: FreeMass = { choices: [[{ unit: 0, mass: 900, centre: { x: -1.4, y: 0, z: 0.6 } }]] };
const total = massInfluence(UNITS, [0, 1]);

const figureAt = ({ numerator, denominator }: Figure, choices: readonly Choice[]) => {
  const above = valueAt(numerator, choices);
  return denominator === undefined ? above : above / valueAt(denominator, choices);
};

/** Every state there is, one by one. */
function enumerate(figure: Figure, masses: readonly FreeMass[]): { least: number; most: number } {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  const visit = (chosen: readonly Choice[]): void => {
    const next = masses[chosen.length];
    if (next === undefined) {
      const value = figureAt(figure, chosen);
      least = Math.min(least, value);
      most = Math.max(most, value);
      return;
    }
    for (const choice of next.choices) visit([...chosen, choice]);
  };
  visit([]);
  return { least, most };
}

const tolerance = (value: number) => 1e-9 * Math.max(1, Math.abs(value));

describe('the envelope', () => {
  test.each([
    ['a load', {}],
    ['a share', { denominator: total }],
  ])('of %s is what trying every state gives', (_, below) => {
    fc.assert(
      fc.property(influence, fc.array(freeMass, { maxLength: 5 }), (numerator, masses) => {
        const figure: Figure = { numerator, ...below };
        const all = [certain, ...masses];
        const found = findExtremes(figure, all);
        const tried = enumerate(figure, all);
        expect(found).toBeDefined();
        if (found === undefined) return;
        expect(Math.abs(found.most.value - tried.most)).toBeLessThanOrEqual(tolerance(tried.most));
        expect(Math.abs(found.least.value - tried.least)).toBeLessThanOrEqual(tolerance(tried.least));
        for (const { value, witness } of [found.least, found.most]) {
          expect(figureAt(figure, witness)).toBeCloseTo(value, 9);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('of fourteen tanks and optional things is what trying all 16 384 states gives', () => {
    fc.assert(
      fc.property(
        influence,
        fc.array(
          freeMass.map(({ choices }) => ({ choices: [...choices.slice(0, 1), ...choices.slice(-1)] })),
          { minLength: 14, maxLength: 14 },
        ),
        (numerator, masses) => {
          const figure: Figure = { numerator, denominator: total };
          const all = [certain, ...masses];
          const found = findExtremes(figure, all);
          const tried = enumerate(figure, all);
          expect(found?.most.value).toBeCloseTo(tried.most, 9);
          expect(found?.least.value).toBeCloseTo(tried.least, 9);
        },
      ),
      { numRuns: 5 },
    );
  });

  test('of forty things holds every state tried at random, and shrinks with them', () => {
    const states = fc.array(fc.array(number(0, 1), { minLength: 40, maxLength: 40 }), { minLength: 50, maxLength: 50 });
    fc.assert(
      fc.property(
        influence,
        fc.array(freeMass, { minLength: 40, maxLength: 40 }),
        states,
        (numerator, masses, tries) => {
          const figure: Figure = { numerator, denominator: total };
          const all = [certain, ...masses];
          const found = findExtremes(figure, all);
          if (found === undefined) throw new Error('no bounds');
          for (const shares of tries) {
            const choices = all.map(({ choices: own }, index): Choice => {
              const [first, last, t] = [own[0], own.at(-1), shares[index] ?? 0];
              if (first === undefined || last === undefined) throw new Error('no choice');
              const [a, b] = [first[0] ?? { ...last[0], mass: 0 }, last[0]];
              if (b === undefined) throw new Error('no mass');
              const mix = (from: number, to: number) => from + t * (to - from);
              const from = a.centre ?? b.centre;
              const centre = { x: mix(from.x, b.centre.x), y: mix(from.y, b.centre.y), z: 0.5 };
              return [{ unit: b.unit, mass: mix(a.mass, b.mass), centre }];
            });
            const value = figureAt(figure, choices);
            expect(value).toBeLessThanOrEqual(found.most.value + tolerance(value));
            expect(value).toBeGreaterThanOrEqual(found.least.value - tolerance(value));
          }
          const fewer = all.map(({ choices }, index) => ({
            choices: index % 2 === 0 ? choices : choices.slice(0, 1),
          }));
          const smaller = findExtremes(figure, fewer);
          expect(smaller?.most.value).toBeLessThanOrEqual(found.most.value + tolerance(found.most.value));
          expect(smaller?.least.value).toBeGreaterThanOrEqual(found.least.value - tolerance(found.least.value));
        },
      ),
      { numRuns: 40 },
    );
  });

  test('has no bounds for a share of what can weigh nothing', () => {
    const optional: FreeMass = { choices: cornersOf({ unit: 0, centre: { x: 0, y: 0, z: 0 } }, [3, 3], {}, true) };
    expect(findExtremes({ numerator: total, denominator: total }, [optional])).toBeUndefined();
  });
});

const shape: fc.Arbitrary<TankShape> = fc.oneof(
  number(0.2, 1).map((height): TankShape => ({ kind: 'box', size: { length: 0.9, width: 0.4, height } })),
  number(0.2, 1).map((height): TankShape => ({ kind: 'upright-cylinder', diameter: 0.4, height })),
  number(0.2, 1).map((diameter): TankShape => ({ kind: 'lying-cylinder', diameter, length: 0.8, axis: 'x' })),
);

describe('the height of the centre of gravity', () => {
  const high = unitInfluence(UNITS, 0, { z: 1 });

  test('is least where the surface of a rising liquid meets it', () => {
    fc.assert(
      fc.property(shape, number(0.2, 1.5), number(50, 400), number(0.3, 1.2), (inside, z, content, bodyHeight) => {
        const capacity = content / 1000;
        const centre = { x: -2, y: 0, z };
        const at = (mass: number): PlacedMass => {
          const level = mass / content;
          return { unit: 0, mass, centre: fluidBody(inside, capacity, 1000, level, centre).centre };
        };
        const withSurfaceAt = (height: number) => content * levelWithSurfaceAt(inside, height - z);
        const tank: FreeMass = { choices: [[at(0)], [at(content)]], fillings: [{ at, withSurfaceAt }] };
        const body: FreeMass = { choices: [[{ unit: 0, mass: 600, centre: { x: -1, y: 0, z: bodyHeight } }]] };
        const figure: Figure = { numerator: high, denominator: massInfluence(UNITS, [0]) };
        const found = findExtremes(figure, [body, tank]);
        if (found === undefined) throw new Error('no bounds');
        const swept = Array.from({ length: 2001 }, (_, index) =>
          figureAt(figure, [...body.choices, [at((content * index) / 2000)]]),
        );
        expect(found.least.value).toBeLessThanOrEqual(Math.min(...swept) + 1e-12);
        expect(found.least.value).toBeCloseTo(Math.min(...swept), 5);
        expect(found.most.value).toBeCloseTo(Math.max(...swept), 9);
      }),
      { numRuns: 200 },
    );
  });
});
