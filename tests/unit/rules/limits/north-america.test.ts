import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../../language/diagnostics/catalogue.ts';
import { loadAtPressure } from '../../../../language/mechanics/tyre-load.ts';
import { limitsOf } from '../../../../language/rules/index.ts';
import type { LimitRow } from '../../../../language/rules/limits/table.ts';
import { MARKET_RULES } from '../../../../language/rules/markets/index.ts';
import { read } from '../../semantics/support.ts';

const VEHICLE = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
  #vehicle
}
`;
const TRAILER = `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm#axle
  tare 1000 kg at 2392 mm back, 520 mm up, inertia 900 kg·m²
  brakes overrun
  locker bed from 1400 mm to 3400 mm back, floor 500 mm up
  #trailer
}
`;

interface Parts {
  readonly vehicle?: string;
  readonly trailer?: string;
  readonly axle?: string;
  readonly market?: string;
  readonly rig?: string;
}

const text = ({ vehicle = '', trailer = '', axle = '', market = ' in US', rig = '' }: Parts) =>
  `item sand 100 kg size 900 x 900 x 200 mm
${VEHICLE.replace('#vehicle', vehicle)}${TRAILER.replace('#axle', axle).replace('#trailer', trailer)}rig Trip${market} {
  tow Truck
  haul Hauler
  ${rig}
  case out { }
}
`;

const reading = (parts: Parts) => read(text(parts));
const rows = (parts: Parts): readonly LimitRow[] => limitsOf(reading(parts).result('Trip'));
const missing = (parts: Parts, code: string) =>
  rows(parts).flatMap((row) => (row.code === code && 'missing' in row.outcome ? [row.outcome.missing] : []));
const codes = (parts: Parts) => reading(parts).diagnostics.map(({ code }) => code);

test.each(MARKET_RULES.map(({ key }) => key))('%s names its source and authority', (key) => {
  expect(CATALOGUE[key]).toMatchObject({ source: expect.any(String), authority: expect.any(String) });
});

describe('passenger tyres', () => {
  // 920 kg on the axle, 460 kg on each tyre; load index 82 is 475 kg (UN R30, Annex 4), 431.8 kg when divided by 1.10.
  const axle = ', tyres 2 x "165R13 82S"';

  test.each([' in US', ' in CA', ' in AU, CA'])('are derated%s, and the message says so', (market) => {
    const found = reading({ axle, market }).diagnostics.find(({ code }) => code === 'RW611');
    expect(found?.severity).toBe('error');
    expect(found?.message).toContain('over its capacity divided by 1.10 (49 CFR 571.110 S4.2.2.2)');
    expect(codes({ axle, market })).not.toContain('RW846');
  });

  test.each(['', ' in AU', ' in EU'])('carry their marking elsewhere, with a word on practice (%s)', (market) => {
    const { diagnostics } = reading({ axle, market });
    expect(diagnostics.map(({ code }) => code)).not.toContain('RW611');
    expect(diagnostics.find(({ code }) => code === 'RW846')?.severity).toBe('information');
  });

  test('tyres for commercial use are not', () => {
    expect(codes({ axle: ', tyres 2 x "165R13C 82/80S"' })).not.toContain('RW611');
    expect(rows({ axle: ', tyres 2 x "165R13C 82/80S", rating 950 kg' }).map(({ code }) => code)).not.toContain(
      'RW830',
    );
  });

  test('of a vehicle ask what it is certified as', () => {
    const tyres = 'axle front tyres 2 x "215/65R16 95H", rating 1300 kg';
    const words = 'what Truck is certified as (vehicle_type passenger_car, multipurpose_vehicle, truck or motor_home)';
    expect(missing({ vehicle: tyres }, 'RW830')).toEqual([words]);
    // 2 · 690 / 1.10 = 1254.5
    expect(codes({ vehicle: `vehicle_type truck\n  ${tyres}` })).toContain('RW830');
    expect(codes({ vehicle: `vehicle_type passenger_car\n  ${tyres}` })).not.toContain('RW830');
    expect(missing({ vehicle: `vehicle_type passenger_car\n  ${tyres}` }, 'RW830')).toEqual([]);
  });
});

describe('what the file does not give', () => {
  const home = 'trailer_type recreation_trailer\n  ';
  test.each([
    ['RW832', '', 'trailer_type recreation_trailer or utility_trailer'],
    ['RW832', home, 'an ATM among the limits of Hauler (ATM 6500 lb)'],
    ['RW832', `${home}limits { ATM 1400 kg }`, 'a rating of every axle of Hauler (rating 3400 lb)'],
    ['RW833', `${home}limits { ATM 1400 kg }`, 'a CCC among the limits of Hauler (CCC 1100 lb)'],
    [
      'RW835',
      `${home}limits { ATM 1400 kg }`,
      'an unloaded vehicle weight as certified among the limits of Hauler (UVW 3100 lb)',
    ],
    ['RW836', 'limits { ATM 1400 kg }', 'a CCC among the limits of Hauler (CCC 1100 lb)'],
  ])('%s says what line to write', (code, trailer, words) => {
    expect(missing({ trailer }, code).join(' ')).toContain(words);
  });

  test('the least recommended coupling load', () => {
    const parts = { trailer: `${home}limits { ATM 1400 kg }`, axle: ', rating 1200 kg' };
    expect(missing(parts, 'RW832')).toEqual([
      'a least coupling load among the limits of Hauler (coupling_minimum 260 lb)',
    ]);
  });

  test('a utility trailer is asked for none of the labels of a recreation vehicle trailer', () => {
    const asked = rows({ trailer: 'trailer_type utility_trailer' }).filter(({ subject }) => subject === 'Hauler');
    expect(asked.map(({ code }) => code)).not.toEqual(expect.arrayContaining(['RW832']));
    expect(asked.map(({ code }) => code)).not.toEqual(expect.arrayContaining(['RW833']));
    expect(asked.map(({ code }) => code)).not.toEqual(expect.arrayContaining(['RW835']));
  });

  test('tyres need both pressures for the estimate', () => {
    const tyres = ', tyres 2 x "195R14C 106/104Q"';
    expect(missing({ axle: tyres }, 'RW845')).toEqual(['the pressure of the tyres of the axle of Hauler (at 65 psi)']);
    expect(missing({ axle: `${tyres} at 300 kPa` }, 'RW845')[0]).toContain('reference_pressure 65 psi');
  });
});

describe('the pressure of tyres', () => {
  const tyre = (pressure: string) => `, tyres 2 x "165R13C 90/88R" at ${pressure}, reference_pressure 400 kPa`;

  test('a wheel over the estimate is information, labelled as one', () => {
    // 600 kg · (250/400)^0.8 = 412 kg against 460 kg.
    expect(loadAtPressure(600, 250, 400, 0.8)).toBeCloseTo(412.0, 0);
    const found = reading({ axle: tyre('250 kPa'), market: '' }).diagnostics.find(({ code }) => code === 'RW845');
    expect(found?.severity).toBe('information');
    expect(found?.message).toContain('estimated with the exponent 0.8');
    expect(codes({ axle: tyre('350 kPa') })).not.toContain('RW845');
  });

  test('the reference pressure may stand with the tyre, the axle or its tyres', () => {
    const referenceOf = (axles: string, before = '') =>
      read(`${before}${text({ axle: axles })}`).unit('Hauler').groups[0]?.tyres?.referencePressure;
    expect(referenceOf(', tyres 2 x "165R13C 90/88R", reference_pressure 4 bar')).toBeCloseTo(400e3, 6);
    expect(referenceOf(' { tyres 2 x "165R13C 90/88R" at 3 bar, reference_pressure 4 bar }')).toBeCloseTo(400e3, 6);
    const named = 'tyre small "165R13C 90/88R" at 3 bar, reference_pressure 4 bar\n';
    expect(referenceOf(', tyres 2 x small', named)).toBeCloseTo(400e3, 6);
  });

  test('a reference pressure that is none is an error at its place', () => {
    expect(reading({ axle: tyre('250 kPa').replace('400 kPa', '400 kg') }).marked('dimension-mismatch')).toBe('400 kg');
  });
});

describe('the carrying capacity', () => {
  const trailer = 'tank fresh 50 L of water at 2600 mm back, 500 mm up\n  limits { CCC 150 kg }';
  const cargo = (market: string) => {
    const parts = { trailer, market, rig: 'stow sand in Hauler.bed' };
    return rows(parts).find(({ code }) => code === 'RW834')?.outcome;
  };

  test.each([
    [' in US', 150],
    [' in CA', 100],
    [' in US, CA', 150],
    ['', 150],
  ])('counts water as cargo or not%s', (market, value) => {
    expect(cargo(market)).toMatchObject({ value, limit: 150, verdict: 'holds' });
  });

  test.each([
    [' in US', 'Draining Hauler.fresh from 100 % to 10 %'],
    [' in CA', 'Leaving sand (100 kg) behind'],
  ])('is mended by what counts as cargo%s', (market, help) => {
    // 100 kg of sand and 50 kg of water, which is cargo in the United States only.
    const most = market === ' in US' ? 105 : 60;
    const limited = trailer.replace('CCC 150 kg', `CCC ${most} kg`);
    const { diagnostics } = reading({ trailer: limited, market, rig: 'stow sand in Hauler.bed' });
    const [message = ''] = diagnostics.filter(({ code }) => code === 'RW834').map((each) => each.message);
    expect(message).toContain(help);
  });

  test('of a vehicle counts the coupling load; OCCC counts occupants, too', () => {
    const vehicle =
      'seat driver 80 kg at 1350 mm back, 700 mm up\n  tank fuel 70 L of diesel at 2600 mm back, 500 mm up\n  limits { CCC 200 kg  OCCC 300 kg }';
    const outcomes = limitsOf(
      read(text({ vehicle }).replace('tow Truck', 'tow Truck with driver')).result('Trip'),
    ).flatMap((row) => (row.code === 'RW834' && row.outcome.verdict !== 'open' ? [row.outcome] : []));
    // The coupling carries 1000 · (2600 − 2392) / 2600 = 80 kg.
    expect(outcomes.map(({ value }) => Math.round(value * 1e6) / 1e6)).toEqual([160, 80]);
  });
});

describe('words on the certification label', () => {
  test('one that is none is refused at its place', () => {
    expect(reading({ trailer: 'trailer_type motor_home' }).marked('unexpected-part')).toBe('motor_home');
    expect(reading({ vehicle: 'vehicle_type' }).marked('missing-part')).toBe('vehicle_type');
    expect(reading({ vehicle: 'vehicle_type truck\n  vehicle_type motor_home' }).keys).toContain('repeated-part');
  });
});
