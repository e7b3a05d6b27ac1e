import { describe, expect, test } from 'vitest';
import { UNITED_STATES } from '../../language/diagnostics/markets/united-states.ts';
import { limitsOf } from '../../language/rules/index.ts';
import { mostUnlabelled } from '../../language/rules/markets/added-weight.ts';
import { cargoCapacity } from '../../language/rules/markets/certified-weights.ts';
import { leastGrossRating } from '../../language/rules/markets/gross-rating-sum.ts';
import { normalOccupants } from '../../language/rules/markets/normal-load.ts';
import { derated } from '../../language/rules/tyre-rating.ts';
import { formatMass } from '../../language/units/display.ts';
import { read } from '../unit/semantics/support.ts';

interface Wagon {
  readonly limits: string;
  readonly axles?: string;
  readonly lines?: string;
  readonly market?: string;
}

/** A recreation vehicle trailer of 2664 kg with two bottles of 18 kg of propane: 2700 kg with full propane. */
const wagon = ({ limits, axles = 'rating 3100 kg', lines = '', market = 'US' }: Wagon) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1580 kg on front, 1240 kg on rear, 680 mm up, inertia 6200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
}
trailer Wagon {
  trailer_type recreation_trailer
  coupling ball 50 mm, 430 mm up
  axles tandem at 4200 mm back, spacing 900 mm, track 1900 mm, equalised, ${axles}
  tare 2664 kg at 3800 mm back, 900 mm up, inertia 9000 kg·m²
  brakes electric
  tank gas 36 kg of LPG at 900 mm back, 600 mm up
  ${lines}
  limits { ${limits} }
}
rig Trip in ${market} {
  tow Truck
  haul Wagon
  case out { }
}
`;

/** How the wagon stands against the text of a code. */
function standing(code: string, parts: Wagon) {
  const { result, keys } = read(wagon(parts));
  expect(keys).not.toContain('unexpected-part');
  const row = limitsOf(result('Trip')).find((each) => each.code === code && each.subject.includes('Wagon'));
  const { outcome } = row ?? { outcome: undefined };
  if (outcome === undefined) throw new Error(`no row for ${code}`);
  return outcome;
}

// Figures computed from the texts named, as worked examples; the texts were read, 567.4 is from memory.
describe('49 CFR 571.110', () => {
  // S4.2.2.2: two passenger tyres of 690 kg on a trailer axle count for 1254.5 kg.
  test('passenger tyres on a trailer are divided by 1.10', () => {
    expect(2 * derated(690)).toBeCloseTo(1254.5, 1);
  });

  test.each([
    [1254, 'holds'],
    [1255, 'broken'],
  ])('four of 690 kg (load index 95) on a tandem rated twice %d kg: %s', (rating, verdict) => {
    const axles = `rating ${2 * rating} kg, tyres 4 x "205/70R15 95H"`;
    expect(standing('RW830', { limits: 'ATM 3400 kg', axles })).toMatchObject({ verdict });
  });

  // S4.2.2.3, Table I: normal occupants 2 for 2 to 4 seats, 3 for 5 to 10.
  test.each([
    [1, undefined],
    [2, 2],
    [4, 2],
    [5, 3],
    [10, 3],
    [11, undefined],
  ])('%d seats have %s normal occupants', (seats, occupants) => {
    expect(normalOccupants(seats)).toBe(occupants);
  });

  // S9.2: 2 × 1550 + 300 ≥ 3400, and 299 falls short.
  test.each([
    [300, 'holds', 0],
    [299, 'broken', -1],
  ])('two axles of 1550 kg and a least coupling load of %d kg for a GVWR of 3400 kg', (least, verdict, margin) => {
    const outcome = standing('RW832', { limits: `ATM 3400 kg  coupling_minimum ${least} kg` });
    expect(outcome).toMatchObject({ verdict, value: 3100 + least, limit: 3400 });
    expect('margin' in outcome ? outcome.margin : Number.NaN).toBeCloseTo(margin, 9);
  });

  // S9.3, S4.3.5: GVWR 3400 kg, unloaded with full propane 2700 kg: 700 kg, which is 1543 lb.
  test('the carrying capacity is what the GVWR leaves above the unloaded weight', () => {
    expect(cargoCapacity(3400, 2700)).toBe(700);
    expect(Math.round(cargoCapacity(3400, 2700) / 0.45359237)).toBe(1543);
    expect(formatMass(700, 'US').replace(/\s/g, '')).toBe('1543lb');
  });

  test.each(['', '  UVW 2700 kg'])('full propane counts in the unloaded weight, and water does not (%s)', (label) => {
    const lines = 'tank fresh 100 L of water at 3 m back, 500 mm up';
    const limits = `ATM 3400 kg  CCC 700 kg${label}`;
    expect(standing('RW833', { limits, lines })).toMatchObject({ verdict: 'holds', limit: 700 });
    expect(standing('RW833', { limits: limits.replace('700', '701') })).toMatchObject({ verdict: 'broken' });
    // The rig is out with the full 100 L, at 1 kg/L (S9.3.4), as cargo (S9.3.2).
    expect(standing('RW834', { limits, lines })).toMatchObject({ value: 100, limit: 700 });
  });

  // S10.1: the lesser of 1.5 % and 45.4 kg (100 lb); GVWR 2500 kg → 37.5 kg.
  test.each([
    [2500, 37.5],
    [3400, 45.4],
    [45.4 / 0.015, 45.4],
  ])('of a GVWR of %d kg, %d kg may be added unlabelled', (gross, most) => {
    expect(mostUnlabelled(gross)).toBeCloseTo(most, 9);
  });

  test('what was added is the unloaded weight of the file less that of the label', () => {
    const limits = 'ATM 3400 kg  UVW 2700 kg  CCC 700 kg';
    const added = (mass: number) => ({ limits, lines: `fitting rack ${mass} kg at 3 m back, 1 m up` });
    expect(standing('RW835', added(45))).toMatchObject({ verdict: 'holds', limit: 45.4 });
    expect(standing('RW835', added(46))).toMatchObject({ verdict: 'broken' });
    expect(standing('RW834', added(46))).toMatchObject({ limit: 654 });
  });

  test('an added tank weighs what it weighs empty, and a gas bottle what it holds when full', () => {
    const limits = 'ATM 3400 kg  UVW 2700 kg  CCC 700 kg';
    const added = (line: string) => standing('RW835', { limits, lines: `${line} at 3 m back, 1 m up` });
    expect(added('tank water 50 L of water, empty 12 kg')).toMatchObject({ value: expect.closeTo(12, 9) });
    // 40 L filled to 80 %, 0.505 kg/L: 16.16 kg.
    expect(added('tank gas 40 L of LPG, empty 9 kg')).toMatchObject({ value: expect.closeTo(9 + 16.16, 9) });
  });

  test('S9.1: the axle ratings of a motor home add up to its GVWR', () => {
    const home = (rating: number) => `vehicle Home {
  vehicle_type motor_home
  wheelbase 3800 mm, track 1700 mm
  axle front rating 1600 kg
  axle rear rating ${rating} kg
  kerb 1300 kg on front, 1400 kg on rear, 900 mm up, inertia 8000 kg·m²
  limits { GVM 3400 kg }
}
rig Trip in US { tow Home }
`;
    const row = (rating: number) =>
      limitsOf(read(home(rating)).result('Trip')).find(({ text }) => text === '49 CFR 571.110 S9.1');
    expect(row(1800)).toMatchObject({ authority: 'regulation', outcome: { verdict: 'holds', value: 3400 } });
    expect(row(1799)).toMatchObject({ outcome: { verdict: 'broken' } });
    expect(read(home(1799)).keys).toContain('ratings-contradict');
    expect(read(home(1800)).keys).not.toContain('ratings-contradict');
  });
});

describe('the normal load of a pickup', () => {
  // Front axle 1180 kg; two occupants of 68 kg at 1350 mm of 3200 mm put 2 · 68 · 1850 / 3200 kg on it; computed by moments.
  const front = 1180 + (136 * 1850) / 3200;
  const { example, mended } = UNITED_STATES['normal-load-over-tyre'];

  test('each tyre carries half of the axle, at most 94 % of its derated rating', () => {
    for (const [text, capacity, verdict] of [
      [example, 690, 'broken'],
      [mended, 775, 'holds'],
    ] as const) {
      const row = limitsOf(read(text).result('Errand')).find(({ code }) => code === 'RW831');
      const outcome = row?.outcome;
      if (outcome === undefined || outcome.verdict === 'open') throw new Error('not compared');
      expect(outcome.verdict).toBe(verdict);
      expect(outcome.value).toBeCloseTo(front / 2, 9);
      expect(outcome.limit).toBeCloseTo((0.94 * capacity) / 1.1, 9);
    }
  });

  // The standard is for vehicles up to 4536 kg (10 000 lb), from memory.
  test('a heavier vehicle comes under another standard', () => {
    const rows = (gross: number) =>
      limitsOf(
        read(example.replace('vehicle_type truck', `vehicle_type truck\n  limits { GVM ${gross} kg }`)).result(
          'Errand',
        ),
      );
    expect(rows(4536).map(({ code }) => code)).toContain('RW831');
    expect(rows(4537).map(({ code }) => code)).not.toContain('RW831');
  });

  test('a passenger car’s tyres are not derated', () => {
    const car = example.replace('vehicle_type truck', 'vehicle_type passenger_car');
    const row = limitsOf(read(car).result('Errand')).find(({ code }) => code === 'RW831');
    expect(row?.outcome).toMatchObject({ verdict: 'holds', limit: 0.94 * 690 });
  });
});

describe('gross ratings', () => {
  // RW836. 49 CFR 567.4 (from memory): unloaded weight, rated cargo and 68 kg a seat; 2000 + 500 + 5 · 68.
  test('49 CFR 567.4', () => {
    expect(leastGrossRating({ unloaded: 2000, cargo: 500, seats: 5 })).toBe(2840);
  });

  // MVSR s. 5.2: fresh water counts beside them, waste water does not; 2700 + 500 + 100.
  test.each([
    [3300, 'holds'],
    [3299, 'broken'],
  ])('MVSR s. 5.2: a GVWR of %d kg %s', (gross, verdict) => {
    const lines =
      'tank fresh 90 L of water at 3 m back, 500 mm up\n  tank boiler 10 L of water at 3 m back, 1 m up\n  tank waste 80 L of grey_water at 5 m back, 500 mm up';
    const limits = `ATM ${gross} kg  CCC 500 kg`;
    expect(standing('RW840', { limits, lines, market: 'CA' })).toMatchObject({ verdict, limit: 3300 });
  });

  // 49 CFR 571.110 S9.3.2: potable water is cargo, so a CCC of 500 kg counts its 100 kg; 2700 + 500, or + 100 of water.
  test.each([
    ['CA, US', 500, 3200],
    ['US, CA', 60, 2800],
    ['CA', 60, 2860],
  ])('for a label in %s with a CCC of %d kg it is %d kg', (market, capacity, limit) => {
    const lines = 'tank fresh 100 L of water at 3 m back, 500 mm up';
    const limits = `ATM 3300 kg  CCC ${capacity} kg`;
    expect(standing('RW840', { limits, lines, market })).toMatchObject({ verdict: 'holds', limit });
  });
});
