import { describe, expect, test } from 'vitest';
import { limitsOf } from '../../language/rules/index.ts';
import { BALL_LOAD, TONGUE_LOAD } from '../../language/rules/markets/coupling-bands.ts';
import { mostTowed } from '../../language/rules/markets/towing-without-figure.ts';
import { at, HAULER, hauler, rigResult, truck } from '../unit/rules/fixture.ts';

// RW809. South Australia, where no maker's figure exists: 1.5 times the unladen mass with brakes, 1.0 times without.
test.each([
  [2000, true, 3000],
  [2000, false, 2000],
])('South Australia: an unladen mass of %d kg, brakes %s, tows %d kg', (unladen, braked, most) => {
  expect(mostTowed(unladen, braked)).toBeCloseTo(most, 9);
});

// ATM: the laden trailer including what it imposes on the drawing vehicle; GTM: what its axles transmit (from memory as the
// ADR definition); so the coupling load is ATM - GTM.
describe('ATM, GTM and coupling', () => {
  const limit = (value: number) => ({ value, location: at(HAULER) });
  const rows = (ATM: number, GTM: number, coupling: number) => {
    const limits = { ATM: limit(ATM), GTM: limit(GTM), coupling: limit(coupling) };
    const table = limitsOf(rigResult([truck(), hauler({ limits })], { markets: ['AU'] }));
    const compared = table.filter(({ markets }) => markets !== 'everywhere' && markets.includes('AU'));
    return ['RW541', 'RW808'].map((code) => compared.find((row) => row.code === code)?.outcome);
  };

  test('2000 kg, 1850 kg and 150 kg fit together', () => {
    expect(rows(2000, 1850, 150)).toMatchObject([
      { verdict: 'holds', margin: 150 },
      { verdict: 'holds', limit: 150, margin: 0 },
    ]);
  });

  test('a coupling limited to less cannot carry the difference', () => {
    expect(rows(2000, 1850, 100)[1]).toMatchObject({ verdict: 'broken', margin: -50 });
  });

  test('an ATM below the GTM contradicts it', () => {
    expect(rows(1850, 2000, 150)[0]).toMatchObject({ verdict: 'broken', margin: -150 });
  });
});

// Common practice, no source: about 10 % on the ball; in North America 10 % to 15 %, on kingpins 15 % to 20 % (sources
// conflict on the kingpin figure).
test('practice of the coupling load', () => {
  const { least, most } = BALL_LOAD.conventional;
  expect((least + most) / 2).toBeCloseTo(0.1, 9);
  expect(TONGUE_LOAD).toMatchObject({
    conventional: { least: 0.1, most: 0.15 },
    semiTrailer: { least: 0.15, most: 0.2 },
  });
});
