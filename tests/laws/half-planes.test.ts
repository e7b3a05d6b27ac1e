import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FreeMass, findExtremes, type PlacedMass } from '../../language/mechanics/envelope.ts';
import { type Box, beyond, type Corner, clipBox, type HalfPlane } from '../../language/mechanics/half-planes.ts';
import type { Influence } from '../../language/mechanics/influence.ts';
import { fluidBody, type TankShape } from '../../language/mechanics/tank.ts';
import { boundsOf, type ChosenMass } from '../../language/mechanics/window.ts';

/** In general position: no border touches a corner of the box or runs along its sides. */
const general = (min: number, max: number) =>
  fc.integer({ min: 0, max: 9973 }).map((share) => min + ((share + Math.SQRT1_2) / 9975) * (max - min));
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const box: Box = { u: { least: 0, most: 1 }, v: { least: -1, most: 3 } };
const halfPlane: fc.Arbitrary<HalfPlane<number>> = fc
  .record({ angle: general(0, 2 * Math.PI), u: general(-0.2, 1.2), v: general(-1.5, 3.5), label: fc.nat() })
  .map(({ angle, u, v, label }) => {
    const [a, b] = [Math.cos(angle), Math.sin(angle)];
    return { a, b, c: -(a * u + b * v), label };
  });

const edges: HalfPlane<number>[] = [
  { a: -1, b: 0, c: 0, label: -1 },
  { a: 1, b: 0, c: -1, label: -1 },
  { a: 0, b: -1, c: -1, label: -1 },
  { a: 0, b: 1, c: -3, label: -1 },
];

/** The corners of a feasible region found as linear programming does it: every crossing of two borders that breaks none. */
function feasibleCrossings(all: readonly HalfPlane<number>[]): { u: number; v: number }[] {
  return all.flatMap((one, index) =>
    all.slice(index + 1).flatMap((other) => {
      const determinant = one.a * other.b - other.a * one.b;
      if (Math.abs(determinant) < 1e-6) return [];
      const u = (one.b * other.c - other.b * one.c) / determinant;
      const v = (other.a * one.c - one.a * other.c) / determinant;
      return all.every((each) => beyond(each, { u, v }) <= 1e-9) ? [{ u, v }] : [];
    }),
  );
}

const area = (corners: readonly { readonly u: number; readonly v: number }[]) =>
  corners.reduce((sum, a, index) => {
    const b = corners[(index + 1) % corners.length] ?? a;
    return sum + (a.u * b.v - b.u * a.v) / 2;
  }, 0);

const near = (one: { u: number; v: number }, other: { u: number; v: number }) =>
  Math.hypot(one.u - other.u, one.v - other.v) < 1e-6;

describe('clipping a box by half planes', () => {
  test('gives the corners that the crossings of all borders give', () => {
    let empty = 0;
    fc.assert(
      fc.property(fc.array(halfPlane, { minLength: 1, maxLength: 7 }), (halfPlanes) => {
        const corners = clipBox(box, halfPlanes);
        const crossings = feasibleCrossings([...edges, ...halfPlanes]);
        if (corners.length === 0) {
          empty++;
          // A region so small that all of its crossings are one point may be left out.
          for (const crossing of crossings) expect(near(crossing, crossings[0] ?? crossing)).toBe(true);
          return;
        }
        for (const corner of corners) expect(crossings.some((each) => near(each, corner))).toBe(true);
        for (const crossing of crossings) expect(corners.some((each) => near(each, crossing))).toBe(true);
        expect(area(corners)).toBeGreaterThanOrEqual(-1e-12);
      }),
      { numRuns: 1000 },
    );
    expect(empty).toBeGreaterThan(20);
  });

  test('labels each side with the half plane it lies on, and sides of the box with none', () => {
    fc.assert(
      fc.property(fc.array(halfPlane, { maxLength: 5 }), (halfPlanes) => {
        const corners = clipBox(box, halfPlanes);
        for (const [index, corner] of corners.entries()) {
          const next: Corner<number> = corners[(index + 1) % corners.length] ?? corner;
          const middle = { u: (corner.u + next.u) / 2, v: (corner.v + next.v) / 2 };
          const lines = corner.side === undefined ? edges : [corner.side];
          expect(lines.some((each) => Math.abs(beyond(each, middle)) < 1e-7)).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('keeps the first of two borders that differ by rounding alone', () => {
    const one = { a: 1, b: 1, c: -1, label: 1 };
    const corners = clipBox(box, [one, { a: 1 + 1e-13, b: 1 - 1e-13, c: -1, label: 2 }]);
    expect(corners.flatMap(({ side }) => (side === undefined ? [] : [side.label]))).toEqual([1]);
  });
});

const influence: fc.Arbitrary<Influence> = fc.record({
  constant: number(-50, 50),
  units: fc.array(
    fc.record({
      one: number(-1, 1),
      x: number(-0.5, 0.5),
      y: number(-0.5, 0.5),
      z: general(-1, 1),
      xy: number(-0.2, 0.2),
    }),
    { minLength: 1, maxLength: 1 },
  ),
});

const shape: fc.Arbitrary<TankShape> = fc.oneof(
  fc.constant<TankShape>({ kind: 'point' }),
  number(0.2, 0.9).map((height): TankShape => ({ kind: 'box', size: { length: 0.6, width: 0.4, height } })),
  number(0.2, 0.6).map((diameter): TankShape => ({ kind: 'lying-cylinder', diameter, length: 1, axis: 'x' })),
);

/** A tank by its level; the shape says where its content is. */
const tank: fc.Arbitrary<ChosenMass & { readonly at: (level: number) => FreeMass; readonly shape: TankShape }> = fc
  .record({ shape, x: number(-5, -1), z: number(0.2, 1), scale: number(0.7, 1) })
  .map(({ shape: own, x, z, scale }) => {
    const placed = (level: number, density: number): PlacedMass => {
      const { mass, centre } = fluidBody(own, 0.08, density, level, { x, y: 0.2, z });
      return { unit: 0, mass, centre };
    };
    const ways = [1000, 1000 * scale].map((density) => (level: number) => [placed(level, density)]);
    return {
      span: { least: 0, most: 1 },
      ways,
      shape: own,
      at: (level) => ({ choices: ways.map((way) => way(level)) }),
    };
  });

const rest: fc.Arbitrary<FreeMass[]> = fc.array(
  fc.record({ mass: number(10, 300), x: number(-5, 0) }).map(({ mass, x }) => ({
    choices: [[], [{ unit: 0, mass, centre: { x, y: 0, z: 0.5 } }]],
  })),
  { maxLength: 4 },
);

describe('the bounds of a load with two levels chosen', () => {
  test('are what it is at worst where no place moves with a level, and never less where one does', () => {
    let curved = 0;
    fc.assert(
      fc.property(influence, tank, tank, rest, general(0, 1), general(0, 1), (load, first, second, others, u, v) => {
        const bounds = boundsOf(load, first, second, others);
        const bound = Math.max(...bounds.map(({ a, b, c }) => a * u + b * v + c));
        const found =
          findExtremes({ numerator: load }, [...others, first.at(u), second.at(v)])?.most.value ?? Number.NaN;
        const isStraight = first.shape.kind === 'point' && second.shape.kind === 'point';
        expect(bound).toBeGreaterThanOrEqual(found - 1e-9);
        if (isStraight) expect(bounds.every(({ exact }) => exact)).toBe(true);
        if (bounds.every(({ exact }) => exact)) expect(bound).toBeCloseTo(found, 6);
        else {
          curved++;
          // A chord of a sixteenth sags by less than 1 % of the rise; a tangent may exceed by the whole sag of the term.
          const most = Math.max(...bounds.map(({ a, b, c }) => a * u + b * v + c)) - found;
          const z = Math.abs(load.units[0]?.z ?? 0);
          expect(most).toBeLessThanOrEqual(z * 80 * 0.5 + 1e-9);
        }
      }),
      { numRuns: 400 },
    );
    expect(curved).toBeGreaterThan(100);
  });

  test('of one that heights raise is a polygon inside the exact region, a sixteenth of a level off at most', () => {
    fc.assert(
      fc.property(tank, general(0.1, 1), general(0, 1), (first, z, level) => {
        const load: Influence = { constant: 0, units: [{ one: 0.3, x: 0, y: 0, z, xy: 0 }] };
        const at = (u: number) => findExtremes({ numerator: load }, [first.at(u)])?.most.value ?? Number.NaN;
        const bounds = boundsOf(load, first, undefined, []);
        const bound = (u: number) => Math.max(...bounds.map(({ a, c }) => a * u + c));
        expect(bound(level)).toBeGreaterThanOrEqual(at(level) - 1e-9);
        const [from, to] = [Math.floor(level * 16) / 16, Math.ceil(level * 16) / 16];
        expect(bound(level)).toBeLessThanOrEqual(Math.max(at(from), at(to)) + 1e-9);
      }),
      { numRuns: 300 },
    );
  });
});
