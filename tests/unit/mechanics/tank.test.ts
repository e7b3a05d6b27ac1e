import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxInertia, cylinderInertia } from '../../../language/mechanics/inertia.ts';
import { combine } from '../../../language/mechanics/mass.ts';
import { fluidBody, type TankShape } from '../../../language/mechanics/tank.ts';
import { number } from '../../laws/combinations.ts';

const centre = { x: -2, y: 0.3, z: 0.8 };
const lying: TankShape = { kind: 'lying-cylinder', diameter: 0.6, length: 1.4, axis: 'x' };
const upright: TankShape = { kind: 'upright-cylinder', diameter: 0.6, height: 1.4 };
const box: TankShape = { kind: 'box', size: { length: 0.9, width: 0.45, height: 0.24 } };
const volume = Math.PI * 0.09 * 1.4;

describe('a tank filled from the bottom', () => {
  test('a box at a quarter: the fluid stands in its lowest quarter', () => {
    const fluid = fluidBody(box, 0.095, 1000, 0.25, centre);
    expect(fluid.mass).toBeCloseTo(23.75, 12);
    expect(fluid.centre).toEqual({ x: -2, y: 0.3, z: expect.closeTo(0.8 - 0.09, 12) });
    expect(fluid.inertia).toEqual(boxInertia(fluid.mass, { length: 0.9, width: 0.45, height: 0.06 }));
  });

  test('an upright cylinder at a half', () => {
    const fluid = fluidBody(upright, volume, 800, 0.5, centre);
    expect(fluid.centre.z).toBeCloseTo(0.8 - 0.35, 12);
    expect(fluid.inertia).toEqual(cylinderInertia(fluid.mass, 0.6, 0.7, 'z'));
  });

  test('a lying cylinder at a half: a half disc, its centroid 4r/3π below the axis', () => {
    // Source: mechanics handbooks; second moments of a half disc about its centroid per area: r²/4 − (4r/3π)² and r²/4.
    const fluid = fluidBody(lying, volume, 1000, 0.5, centre);
    const drop = (4 * 0.3) / (3 * Math.PI);
    expect(fluid.centre.z).toBeCloseTo(0.8 - drop, 12);
    const vertical = fluid.mass * (0.09 / 4 - drop * drop);
    const along = (fluid.mass * 1.4 * 1.4) / 12;
    expect(fluid.inertia.xx).toBeCloseTo(vertical + (fluid.mass * 0.09) / 4, 10);
    expect(fluid.inertia.yy).toBeCloseTo(vertical + along, 10);
    expect(fluid.inertia.zz).toBeCloseTo((fluid.mass * 0.09) / 4 + along, 10);
  });

  test('a full lying cylinder is a solid cylinder, along either axis', () => {
    for (const axis of ['x', 'y'] as const) {
      const fluid = fluidBody({ kind: 'lying-cylinder', diameter: 0.6, length: 1.4, axis }, volume, 1000, 1, centre);
      const solid = cylinderInertia(fluid.mass, 0.6, 1.4, axis);
      expect(fluid.centre.z).toBeCloseTo(0.8, 12);
      for (const key of ['xx', 'yy', 'zz'] as const) expect(fluid.inertia[key]).toBeCloseTo(solid[key], 9);
    }
  });

  test('an empty tank holds nothing, at its bottom', () => {
    for (const [shape, half] of [
      [box, 0.12],
      [upright, 0.7],
      [lying, 0.3],
    ] as const) {
      const fluid = fluidBody(shape, 0.1, 1000, 0, centre);
      expect(fluid.mass).toBe(0);
      expect(fluid.centre.z).toBeCloseTo(0.8 - half, 12);
      expect(Object.values(fluid.inertia).every((value) => Math.abs(value) === 0)).toBe(true);
    }
  });

  test('without a shape the fluid stays at the stated place', () => {
    expect(fluidBody({ kind: 'point' }, 0.07, 1000, 0.3, centre).centre).toEqual(centre);
  });

  test('the mass follows any level, the shape is never more than full or less than empty', () => {
    expect(fluidBody(box, 0.1, 1000, 1.2, centre).mass).toBeCloseTo(120, 12);
    expect(fluidBody(box, 0.1, 1000, 1.2, centre).centre.z).toBeCloseTo(0.8, 12);
    expect(fluidBody(lying, 0.1, 1000, -0.2, centre).centre.z).toBeCloseTo(0.5, 12);
  });

  test('a lying cylinder is symmetric: the fluid at a level and the air above it balance about the axis', () => {
    const level = fc.oneof(number(0, 1), number(0, 1e-4));
    fc.assert(
      fc.property(level, (share) => {
        const fluid = fluidBody(lying, 1, 1, share, { x: 0, y: 0, z: 0 });
        const rest = fluidBody(lying, 1, 1, 1 - share, { x: 0, y: 0, z: 0 });
        expect(fluid.mass * fluid.centre.z).toBeCloseTo(rest.mass * rest.centre.z, 10);
        const full = cylinderInertia(1, 0.6, 1.4, 'x');
        const own = (each: typeof fluid) => each.inertia.yy + each.mass * each.centre.z ** 2;
        expect(own(fluid) + own(rest)).toBeCloseTo(full.yy, 9);
      }),
    );
  });

  test.each([0.003, 0.2, 0.7])('a lying cylinder at %d: centroid and inertia by summing thin layers', (share) => {
    const fluid = fluidBody(lying, 1, 1, share, { x: 0, y: 0, z: 0 });
    // Layers of the disc z = −r·cos t, evenly spaced in t, from the bottom until their area holds the share.
    const steps = 200_000;
    const sums = { area: 0, z: 0, zz: 0, yy: 0 };
    for (let i = 0; i < steps && sums.area < share * Math.PI * 0.09; i++) {
      const t = (Math.PI * (i + 0.5)) / steps;
      const half = 0.3 * Math.sin(t);
      const z = -0.3 * Math.cos(t);
      const area = 2 * half * half * (Math.PI / steps);
      sums.area += area;
      sums.z += area * z;
      sums.zz += area * z * z;
      sums.yy += (area * half * half) / 3;
    }
    const drop = sums.z / sums.area;
    expect(fluid.centre.z).toBeCloseTo(drop, 5);
    const along = (fluid.mass * 1.4 * 1.4) / 12;
    const upright = fluid.mass * (sums.zz / sums.area - drop * drop);
    const across = (fluid.mass * sums.yy) / sums.area;
    expect(fluid.inertia.xx).toBeCloseTo(upright + across, 6);
    expect(fluid.inertia.yy).toBeCloseTo(upright + along, 6);
    expect(fluid.inertia.zz).toBeCloseTo(across + along, 6);
  });

  test('a drop in a lying cylinder lies right above its bottom', () => {
    // The centroid of a flat segment is 2/5 of its depth below its surface; the depth is r·(3π·level/2)^(2/3)/2.
    const level = 1e-9;
    const depth = (0.3 / 2) * ((3 * Math.PI * level) / 2) ** (2 / 3);
    const height = fluidBody(lying, 1, 1, level, { x: 0, y: 0, z: 0.3 }).centre.z;
    expect(height / depth).toBeCloseTo(0.6, 5);
  });

  test('more fluid never lies lower', () => {
    const level = number(0, 1);
    fc.assert(
      fc.property(fc.constantFrom(box, upright, lying), level, level, (shape, a, b) => {
        const height = (share: number) => fluidBody(shape, 0.1, 1000, share, centre).centre.z;
        expect(height(Math.max(a, b))).toBeGreaterThanOrEqual(height(Math.min(a, b)) - 1e-12);
      }),
    );
  });
});

describe('combining bodies', () => {
  const fluid = fluidBody(lying, volume, 1000, 0.4, centre);
  const crate = {
    mass: 40,
    centre: { x: 1, y: 2, z: 3 },
    inertia: boxInertia(40, { length: 1, width: 0.5, height: 0.3 }),
  };

  test('in steps is the same as at once', () => {
    const third = fluidBody(box, 0.095, 1000, 0.9, { x: -5, y: -0.4, z: 0.5 });
    const pair = combine([fluid, crate]);
    if (pair.centre === undefined) throw new Error('a mass expected');
    const once = combine([fluid, crate, third]);
    const steps = combine([pair, third]);
    expect(steps.mass).toBeCloseTo(once.mass, 12);
    for (const key of ['x', 'y', 'z'] as const) {
      expect(steps.centre?.[key]).toBeCloseTo(once.centre?.[key] ?? Number.NaN, 12);
    }
    for (const key of ['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const) {
      expect(steps.inertia[key]).toBeCloseTo(once.inertia[key], 8);
    }
  });

  test('no mass has no centre', () => {
    expect(combine([])).toEqual({ mass: 0, centre: undefined, inertia: combine([]).inertia });
    expect(combine([{ ...crate, mass: 0 }]).centre).toBeUndefined();
  });

  test('takes any iterable', () => {
    expect(combine(new Set([crate])).centre).toEqual(crate.centre);
  });
});
