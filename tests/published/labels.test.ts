import { describe, expect, test } from 'vitest';
import type { MarketName } from '../../language/catalogue/markets.ts';
import { type LabelRow, labelOf } from '../../language/label/label.ts';
import { formatMass } from '../../language/units/display.ts';
import { read } from '../unit/semantics/support.ts';

interface Wagon {
  readonly limits: string;
  readonly lines?: string;
  readonly tyres?: string;
}

/** A recreation vehicle trailer of 2664 kg with two bottles of 18 kg of propane: 2700 kg with full propane. */
const wagon = ({ limits, lines = '', tyres = '4 x "205/75R15C 110/108Q" at 450 kPa' }: Wagon) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1580 kg on front, 1240 kg on rear, 680 mm up, inertia 6200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
}
trailer Wagon {
  trailer_type recreation_trailer
  coupling ball 50 mm, 430 mm up
  axles tandem at 4200 mm back, spacing 900 mm, track 1900 mm, equalised, rating 3100 kg, tyres ${tyres}
  tare 2664 kg at 3800 mm back, 900 mm up, inertia 9000 kg·m²
  brakes electric
  tank gas 36 kg of LPG at 900 mm back, 600 mm up
  ${lines}
  limits { ${limits} }
}
rig Trip {
  tow Truck
  haul Wagon
  case out { }
}
`;

function rowOf(parts: Wagon, market: MarketName, term: string): LabelRow {
  const unit = read(wagon(parts))
    .result('Trip')
    .rig.units.find(({ name }) => name === 'Wagon');
  const row = unit && labelOf(unit, market).find((each) => each.term.startsWith(term));
  if (row === undefined) throw new Error(`no row '${term}'`);
  return row;
}

// Figures computed from the texts named, as worked examples; the texts were read.
describe('49 CFR 571.110', () => {
  // S9.3, S4.3.5: a GVWR of 3400 kg less 2700 kg unloaded with full propane leaves 700 kg, 1543 lb.
  test('the cargo carrying capacity is what the GVWR leaves above the unloaded weight with full propane', () => {
    expect(rowOf({ limits: 'ATM 3400 kg' }, 'US', 'unloaded').value).toBeCloseTo(2700, 6);
    const capacity = rowOf({ limits: 'ATM 3400 kg' }, 'US', 'cargo carrying capacity (CCC)');
    expect(capacity.value).toBeCloseTo(700, 6);
    expect(formatMass(capacity.value ?? 0, 'US')).toMatch(/^1\D?543 lb$/);
    expect(capacity).toMatchObject({ authority: 'regulation', source: expect.stringContaining('571.110') });
  });

  // What the unit weighs more than its label says comes off its capacity: 2700 − 2650 = 50 kg of 3400 − 2650 = 750 kg.
  test('what was added since certification comes off', () => {
    expect(rowOf({ limits: 'ATM 3400 kg  UVW 2650 kg' }, 'US', 'cargo').value).toBeCloseTo(700, 6);
  });

  // S10.1: of a GVWR of 2500 kg, 1.5 % are 37.5 kg; of 3400 kg the 45.4 kg are less than 51 kg.
  test.each([
    [2500, 37.5],
    [3400, 45.4],
  ])('a GVWR of %d kg has to be labelled anew above %d kg', (gross, most) => {
    expect(rowOf({ limits: `ATM ${gross} kg` }, 'US', 'weight that may be added').value).toBeCloseTo(most, 6);
  });

  // S4.2.2.2: two passenger tyres of 690 kg (load index 95) count for 1254.5 kg on a trailer; four for 2509.1 kg.
  test('passenger tyres count divided by 1.10', () => {
    const row = rowOf({ limits: 'ATM 3400 kg', tyres: '4 x "205/65R15 95H"' }, 'US', 'capacity of the tyres');
    expect(row.value).toBeCloseTo(2 * 1254.5, 0);
    expect(rowOf({ limits: 'ATM 3400 kg', tyres: '4 x "205/65R15 95H"' }, 'EU', 'capacity').value).toBeCloseTo(
      4 * 690,
      6,
    );
  });
});

// Canada, MVSR s. 5.2 (read): the gross rating covers full fresh water as well; 100 L of it leave 600 kg of 700 kg.
test('MVSR s. 5.2: full fresh water comes off the cargo carrying capacity', () => {
  const lines = 'tank fresh 100 L of water at 4200 mm back, 500 mm up';
  expect(rowOf({ limits: 'ATM 3400 kg', lines }, 'CA', 'cargo carrying').value).toBeCloseTo(600, 0);
  expect(rowOf({ limits: 'ATM 3400 kg', lines }, 'US', 'cargo carrying').value).toBeCloseTo(700, 6);
});

// ADR definitions (ATM read, GTM from memory): the coupling load is the ATM less the GTM.
test('ADR: the coupling load at ATM and GTM', () => {
  expect(rowOf({ limits: 'ATM 3400 kg  GTM 3100 kg' }, 'AU', 'coupling load').value).toBe(300);
  expect(rowOf({ limits: 'ATM 3400 kg' }, 'AU', 'coupling load').missing).toBe(
    'a GTM among the limits of Wagon (GTM 3000 kg)',
  );
});

// (EU) 1230/2012 Art. 2 (read), EN 1645-2 (read second-hand: 5.2 m and 2 berths ask for 102 kg).
test('European Union: mass in running order and user payload', () => {
  const parts = { limits: 'ATM 3400 kg', lines: 'berths 2\n  body from 1000 mm to 6200 mm back' };
  expect(rowOf(parts, 'EU', 'mass in running order').value).toBeCloseTo(2664, 6);
  expect(rowOf(parts, 'EU', 'user payload').value).toBeCloseTo(736, 6);
  expect(rowOf(parts, 'EU', 'least payload').value).toBeCloseTo(102, 6);
});
