import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  dcValue,
  drawbarTestLoads,
  dValue,
  fifthWheelDValue,
  greatestTrailerMass,
  REGULATION_GRAVITY,
  vValue,
} from '../../language/mechanics/coupling-values.ts';

const mass = fc.double({ min: 10, max: 60_000, noNaN: true });
const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const metres = fc.double({ min: 0.5, max: 15, noNaN: true });

/** Relative to the greater of two figures. */
const near = (one: number, other: number) => Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));

test('D is symmetric in T and R, and below g times the lesser', () => {
  fc.assert(
    fc.property(mass, mass, (one, other) => {
      const value = dValue(one, other);
      expect(near(value, dValue(other, one))).toBe(true);
      expect(value).toBeGreaterThan(0);
      expect(value).toBeLessThan(REGULATION_GRAVITY * Math.min(one, other));
    }),
  );
});

test('D, Dc and V grow with the masses, and D of a fifth wheel with the load on it', () => {
  fc.assert(
    fc.property(mass, mass, mass, share, metres, metres, (vehicle, trailer, more, part, length, distance) => {
      expect(dValue(vehicle + more, trailer)).toBeGreaterThan(dValue(vehicle, trailer));
      expect(dValue(vehicle, trailer + more)).toBeGreaterThan(dValue(vehicle, trailer));
      expect(dcValue(vehicle, trailer + more)).toBeGreaterThan(dcValue(vehicle, trailer));
      const v = (axles: number) => vValue(1.8, { axles, length, distance });
      expect(v(trailer + more)).toBeGreaterThan(v(trailer));
      const imposed = part * Math.min(vehicle, trailer);
      expect(fifthWheelDValue(vehicle, trailer, imposed)).toBeGreaterThan(
        fifthWheelDValue(vehicle, trailer, imposed / 2),
      );
      expect(fifthWheelDValue(vehicle, trailer + more, imposed)).toBeGreaterThan(
        fifthWheelDValue(vehicle, trailer, imposed),
      );
    }),
  );
});

test('without load on it a fifth wheel needs 0.6 of the D value of a drawbar', () => {
  fc.assert(
    fc.property(mass, mass, (vehicle, trailer) => {
      expect(near(fifthWheelDValue(vehicle, trailer, 0), 0.6 * dValue(vehicle, trailer))).toBe(true);
    }),
  );
});

test('the trailer that a D value suffices for needs just that value', () => {
  fc.assert(
    fc.property(mass, share, (vehicle, part) => {
      const marked = part * REGULATION_GRAVITY * vehicle;
      const trailer = greatestTrailerMass(marked, vehicle);
      expect(near(dValue(vehicle, trailer), marked)).toBe(true);
      expect(dValue(vehicle, trailer * 1.01)).toBeGreaterThan(marked);
      expect(greatestTrailerMass((1.001 * marked) / part, vehicle)).toBe(Number.POSITIVE_INFINITY);
    }),
  );
});

test('V is at least a·C, and does not know how long a trailer shorter than its drawbar is', () => {
  fc.assert(
    fc.property(mass, metres, metres, (axles, length, distance) => {
      expect(vValue(2.4, { axles, length, distance })).toBeGreaterThanOrEqual(2.4 * axles);
      const short = Math.min(length, distance);
      expect(vValue(2.4, { axles, length: short, distance })).toBe(2.4 * axles);
    }),
  );
});

test('test loads are in proportion to the ATM', () => {
  fc.assert(
    fc.property(mass, share, (atm, part) => {
      const whole = drawbarTestLoads(atm);
      const less = drawbarTestLoads(part * atm);
      expect(near(less.longitudinal, part * whole.longitudinal)).toBe(true);
      expect(near(whole.vertical * 2, whole.longitudinal)).toBe(true);
    }),
  );
});
