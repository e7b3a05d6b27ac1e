import fc from 'fast-check';
import { expect, test } from 'vitest';
import { loadAtPressure } from '../../language/mechanics/tyre-load.ts';
import { limitsOf } from '../../language/rules/index.ts';
import { mostUnlabelled } from '../../language/rules/markets/added-weight.ts';
import { cargoCapacity } from '../../language/rules/markets/certified-weights.ts';
import { leastGrossRating } from '../../language/rules/markets/gross-rating-sum.ts';
import { derated } from '../../language/rules/tyre-rating.ts';
import { at, HAULER, hauler, rigResult, tare, truck } from '../unit/rules/fixture.ts';

const mass = fc.double({ min: 1, max: 1e5, noNaN: true });
const pressure = fc.double({ min: 1e4, max: 1e6, noNaN: true });
const exponent = fc.double({ min: 0.5, max: 0.8, noNaN: true });

test('derating is monotone and never adds', () => {
  fc.assert(
    fc.property(mass, mass, (a, b) => {
      expect(derated(a)).toBeLessThan(a);
      expect(derated(Math.min(a, b))).toBeLessThanOrEqual(derated(Math.max(a, b)));
    }),
  );
});

test('a tyre carries no more at less pressure, its rating at the reference pressure, and never more', () => {
  fc.assert(
    fc.property(mass, pressure, pressure, pressure, exponent, (rated, p, q, reference, n) => {
      const [low, high] = [Math.min(p, q), Math.max(p, q)];
      expect(loadAtPressure(rated, low, reference, n)).toBeLessThanOrEqual(loadAtPressure(rated, high, reference, n));
      expect(loadAtPressure(rated, high, reference, n)).toBeLessThanOrEqual(rated);
      expect(loadAtPressure(rated, reference, reference, n)).toBe(rated);
      // A greater exponent leaves no more.
      expect(loadAtPressure(rated, low, reference, 0.8)).toBeLessThanOrEqual(loadAtPressure(rated, low, reference, n));
    }),
  );
});

test('the carrying capacity falls by what is added, and a gross rating has to grow by it', () => {
  fc.assert(
    fc.property(mass, mass, mass, fc.nat(10), (gross, unloaded, added, seats) => {
      const scale = gross + unloaded + added;
      const fallen = cargoCapacity(gross, unloaded) - cargoCapacity(gross, unloaded, added);
      expect(Math.abs(fallen - added) / scale).toBeLessThan(1e-12);
      expect(cargoCapacity(gross, unloaded + added)).toBeCloseTo(cargoCapacity(gross, unloaded, added), 6);
      const cargo = Math.max(0, cargoCapacity(gross, unloaded));
      const least = leastGrossRating({ unloaded, cargo, seats: 0 });
      expect(leastGrossRating({ unloaded, cargo, seats, water: added }) - least).toBeCloseTo(added + 68 * seats, 6);
    }),
  );
});

test('what may be added unlabelled grows with the gross rating up to 45.4 kg', () => {
  fc.assert(
    fc.property(mass, mass, (a, b) => {
      expect(mostUnlabelled(Math.min(a, b))).toBeLessThanOrEqual(mostUnlabelled(Math.max(a, b)));
      expect(mostUnlabelled(a)).toBeLessThanOrEqual(45.4);
    }),
  );
});

test('what is added to a labelled trailer comes off its carrying capacity, kilogram for kilogram', () => {
  const limit = (value: number) => ({ value, location: at(HAULER, 60) });
  const labelled = (added: number) =>
    hauler({
      vehicleType: 'recreation_trailer',
      limits: { ATM: limit(2000), UVW: limit(240), CCC: limit(1700) },
      parts: [tare(240 + added, -2.4, at(HAULER, 40))],
    });
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1000, noNaN: true }), (added) => {
      const rows = limitsOf(rigResult([truck(), labelled(added)], { markets: ['US'] }));
      const outcome = rows.find(({ code }) => code === 'RW834')?.outcome;
      if (outcome === undefined || outcome.verdict === 'open') throw new Error('not compared');
      expect(outcome.limit).toBeCloseTo(1700 - added, 9);
    }),
    { numRuns: 50 },
  );
});
