import { describe, expect, test } from 'vitest';
import { limitsOf } from '../../language/rules/index.ts';
import type { Standing } from '../../language/rules/limits/table.ts';
import { leastCouplingLoad } from '../../language/rules/markets/coupling-load-minimum.ts';
import { fail, read } from '../unit/semantics/support.ts';

/** How a limit stands in a rig or a unit of a file. */
function standing(text: string, name: string, code: string, subject?: string): Standing {
  const rows = limitsOf(read(text).result(name)).filter(
    (row) => row.code === code && (subject ?? row.subject) === row.subject,
  );
  const [row] = rows;
  if (rows.length !== 1 || row === undefined) return fail(`${rows.length} rows of ${code}`);
  return row.outcome.verdict === 'open' ? fail(`${code} lacks ${row.outcome.missing}`) : row.outcome;
}

/** A vehicle of 2000 kg and a trailer of 500 kg that puts 50 kg on its hitch: 500 · (3000 − 2700) / 3000. */
const rig = (market = '', limits = 'GVM 2049 kg') => `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up
  hitch ball at 1000 mm behind rear, 440 mm up
  limits { ${limits} }
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 500 kg at 2700 mm back, 500 mm up
  brakes overrun
  limits { payload 100 kg }
}
rig Errand${market} { tow Truck  haul Cart }
`;

// RW503, RW509. 49 CFR 571.110 S9.3.4 [read]: what the trailer puts on the hitch counts as load of the tow vehicle.
describe('49 CFR 571.110 S9.3.4: the coupling load counts', () => {
  test('in the gross mass of the tow vehicle: 2000 kg and 50 kg', () => {
    expect(standing(rig(), 'Errand', 'RW503')).toMatchObject({ value: expect.closeTo(2050, 9), verdict: 'broken' });
    expect(standing(rig('', 'GVM 2050 kg'), 'Errand', 'RW503')).toMatchObject({ verdict: 'holds' });
  });

  test('in its payload: 50 kg with nothing on board', () => {
    const outcome = (most: number) =>
      standing(
        rig('', `GVM 3000 kg  payload ${most} kg`),
        'Errand',
        'RW509',
        'Payload of Truck, coupling load included',
      );
    expect(outcome(50)).toMatchObject({ value: expect.closeTo(50, 9), verdict: 'holds' });
    expect(outcome(49)).toMatchObject({ verdict: 'broken' });
  });
});

/** A trailer whose axle carries all of its mass, on two tyres. */
const trailer = (mass: number, marking: string, rating = 3000) => `trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm, rating ${rating} kg, tyres 2 x "${marking}"
  tare ${mass} kg at 3000 mm back, 500 mm up
  brakes overrun
}
`;

// UN Regulation No. 54, Annex IV (also No. 30, Annex 4): load index 94 is 670 kg [read]; speed symbols N 140 km/h, P 150 km/h
// [from memory].
describe('UN Regulations No. 30 and No. 54', () => {
  test.each([
    [1340, 'holds'],
    [1341, 'broken'],
  ])('RW611: two tyres of load index 94 under %d kg: %s', (mass, verdict) => {
    expect(standing(trailer(mass, '165R13C 94/92N'), 'Cart', 'RW611')).toMatchObject({ limit: 670, verdict });
  });

  test.each([
    ['165R13C 94/92N', 140, 'holds'],
    ['165R13C 94/92N', 141, 'broken'],
    ['165R13C 94/92P', 150, 'holds'],
  ])('RW613: %s at %d km/h: %s', (marking, speed, verdict) => {
    const text = `${trailer(600, marking)}rig Errand { haul Cart  travel ${speed} km/h }\n`;
    expect(standing(text, 'Errand', 'RW613')).toMatchObject({ verdict });
  });
});

// 49 CFR 571.110 S4.2.2.1 [read]: the sum of the tyre ratings of an axle is not less than its GAWR.
test.each([
  [1340, false],
  [1341, true],
])('RW612, 49 CFR 571.110 S4.2.2.1: two tyres of 670 kg on an axle rated %d kg', (rating, isReported) => {
  const codes = read(trailer(600, '165R13C 94/92N', rating)).diagnostics.map(({ code }) => code);
  expect(codes.includes('RW612')).toBe(isReported);
});

// RW801. StVZO § 44(3): 600 kg → 24 kg is an official theory question; 1500 → 25; if it may weigh more than 3.5 t, 4 %,
// at most 500 kg.
describe('StVZO § 44(3)', () => {
  test.each([
    [600, 750, 24],
    [1500, 3500, 25],
    [3600, 3500, 25],
    [3000, 4000, 120],
    [4000, 4000, 160],
    [20_000, 20_000, 500],
  ])('a trailer of %d kg that may weigh %d kg puts at least %d kg on its coupling', (mass, permissible, least) => {
    expect(leastCouplingLoad(mass, permissible)).toBeCloseTo(least, 9);
  });

  test('is asked of a rig in Germany: 500 kg → 20 kg', () => {
    expect(standing(rig(' in DE'), 'Errand', 'RW801')).toMatchObject({
      value: expect.closeTo(50, 9),
      limit: expect.closeTo(20, 9),
      verdict: 'holds',
    });
  });
});
