import { describe, expect, test } from 'vitest';
import type { MarketName } from '../../../../language/catalogue/markets.ts';
import { checkRig, limitsOf } from '../../../../language/rules/index.ts';
import type { BrakeKind, LimitName, UnitModel } from '../../../../language/semantics/model.ts';
import { at, HAULER, hauler, item, loadCase, locker, rigResult, stow, TRUCK, tare, truck } from '../fixture.ts';

const limits = (stated: Partial<Record<LimitName, number>>) =>
  Object.fromEntries(
    Object.entries(stated).map(([name, value]) => [name, { value, location: at(TRUCK, 90) }]),
  ) satisfies UnitModel['limits'];

/** A trailer of a mass with a tenth of it on its coupling. */
const trailer = (mass: number, brakes: BrakeKind = 'overrun', more: Partial<UnitModel> = {}) =>
  hauler({ brakes, parts: [tare(mass, -2.6 * 0.9, at(HAULER, 40))], ...more });

const towing = (market: MarketName, mass: number, more: Partial<UnitModel>, brakes?: BrakeKind) =>
  rigResult([truck(more), trailer(mass, brakes)], { markets: [market] });

const TOWING_CODES = ['RW507', 'RW508', 'RW516', 'RW805', 'RW806', 'RW809', 'RW851', 'RW854'];

const codes = (...parameters: Parameters<typeof towing>) =>
  checkRig(towing(...parameters)).flatMap(({ code }) => (TOWING_CODES.includes(code) ? [code] : []));

const missing = (code: string, ...parameters: Parameters<typeof towing>) =>
  limitsOf(towing(...parameters)).flatMap((row) =>
    row.code === code && row.outcome.verdict === 'open' ? [row.outcome.missing] : [],
  );

describe('in the European Union', () => {
  test('with brakes no more than the maximum laden mass', () => {
    expect(codes('EU', 2300, { limits: limits({ GVM: 2400 }) })).not.toContain('RW805');
    expect(codes('EU', 2450, { limits: limits({ GVM: 2400 }) })).toContain('RW805');
    expect(codes('EU', 2450, { limits: limits({ GVM: 2400 }), offRoad: true })).not.toContain('RW805');
    expect(codes('DE', 2450, { limits: limits({ GVM: 2400 }) })).toContain('RW805');
  });

  test('over the maker’s own figure is told once', () => {
    const found = checkRig(towing('EU', 2300, { limits: limits({ GVM: 2400, towing: 2200 }) }));
    expect(found.filter(({ key }) => key === 'over-towing')).toHaveLength(1);
    expect(found.filter(({ code }) => code === 'RW805')).toEqual([]);
  });

  test('a lorry is not a light vehicle; a motor caravan above 3.5 t is', () => {
    expect(codes('EU', 3600, { limits: limits({ GVM: 7500 }) })).not.toContain('RW805');
    expect(codes('EU', 3600, { limits: limits({ GVM: 4500 }), berths: 4 })).toContain('RW805');
  });

  test('without a GVM it says what to write', () => {
    expect(missing('RW805', 'EU', 800, {})).toEqual(['a GVM among the limits of Truck (GVM 3000 kg)']);
  });

  test('without brakes no more than 750 kg', () => {
    expect(codes('EU', 740, {}, 'unbraked')).not.toContain('RW806');
    expect(codes('EU', 760, {}, 'unbraked')).toContain('RW806');
  });

  test('a payload says what it lacks, line by line', () => {
    const body = { front: 0.9, rear: -5.1, location: at(TRUCK) };
    const seats = [{ name: 'driver', mass: 75, centre: { x: -1.3, y: 0, z: 0.7 }, location: at(TRUCK) }];
    expect(missing('RW803', 'EU', 500, {})[0]).toMatch(/^the berths of Truck/);
    expect(missing('RW803', 'EU', 500, { berths: 2 })[0]).toMatch(/^the seats of Truck/);
    expect(missing('RW803', 'EU', 500, { berths: 2, seats })[0]).toMatch(/^the outline of Truck/);
    expect(missing('RW803', 'EU', 500, { berths: 2, seats, body })[0]).toMatch(/^a GVM among/);
    expect(missing('RW803', 'EU', 500, { berths: 2, seats, body, limits: limits({ GVM: 3000 }) })).toEqual([]);
  });

  test('a payload is the GVM less the mass in running order and 75 kg for each seat but the driver’s', () => {
    const body = { front: 0.9, rear: -5.1, location: at(TRUCK) };
    const places = ['driver', 'mate', 'left', 'right'];
    const seats = places.map((name) => ({ name, mass: 60, centre: { x: -1.3, y: 0, z: 0.7 }, location: at(TRUCK) }));
    const camper = (GVM: number) =>
      limitsOf(towing('EU', 500, { berths: 2, seats, body, limits: limits({ GVM }) })).find(
        ({ code }) => code === 'RW803',
      );
    // 2520 - (2120 + 75) - 3 · 75 = 100 kg; 10 kg for each of 4 seats and 6 m are 100 kg.
    expect(camper(2520)?.outcome).toMatchObject({ verdict: 'holds', value: 100, limit: 100 });
    expect(camper(2519)?.outcome).toMatchObject({ verdict: 'broken', value: 99, limit: 100 });
  });
});

describe('in Australia', () => {
  test('1.5 times the unladen mass where the file has no figure of the maker', () => {
    expect(codes('AU', 3100, {})).not.toContain('RW809');
    expect(codes('AU', 3200, {})).toContain('RW809');
    expect(codes('AU', 3200, { limits: limits({ towing: 3500 }) })).not.toContain('RW809');
    expect(codes('NZ', 3200, {})).not.toContain('RW809');
  });

  test('the unladen mass without brakes', () => {
    expect(codes('AU', 2100, {}, 'unbraked')).not.toContain('RW809');
    expect(codes('AU', 2200, {}, 'unbraked')).toContain('RW809');
  });
});

describe('practice', () => {
  test('85 % of the kerb mass in the UK; heavier than the vehicle is told as that', () => {
    expect(codes('UK', 1800, {})).toEqual([]);
    expect(codes('UK', 1850, {})).toEqual(['RW851']);
    expect(codes('UK', 2300, {})).toEqual(['RW516']);
  });

  test('six tenths of the towing rating, in every market; over the rating is told as that', () => {
    const rated = { limits: limits({ towing: 1000 }) };
    expect(codes('CA', 590, rated)).toEqual([]);
    expect(codes('CA', 610, rated)).toEqual(['RW854']);
    expect(codes('NZ', 610, rated)).toEqual(['RW854']);
    expect(codes('CA', 1010, rated)).not.toContain('RW854');
    expect(missing('RW854', 'CA', 610, {})).toEqual(['a towing rating among the limits of Truck (towing 3000 kg)']);
  });

  test('heavy things far from the axles or high', () => {
    const deck = (x: number, z: number) => locker('deck', x, { centre: { x, y: 0, z } });
    const heavy = (mass: number, x: number, z: number) => {
      const stowed = [stow(item('anvil', mass), 1, deck(x, z))];
      const cases = [loadCase('without'), loadCase('with', { stowed })];
      return checkRig(rigResult([truck(), trailer(1000)], { markets: ['US'], cases })).filter(({ code }) =>
        ['RW855', 'RW856'].includes(code),
      );
    };
    // 3 tenths of 2.6 m are 0.78 m; three quarters of the track of 1.5 m are 1.125 m.
    expect(heavy(60, -1.9, 1.1)).toEqual([]);
    expect(heavy(60, -1.7, 1.1).map(({ code }) => code)).toEqual(['RW855']);
    expect(heavy(60, -2.4, 1.2).map(({ code }) => code)).toEqual(['RW856']);
    expect(heavy(40, -1.0, 1.6)).toEqual([]);
    expect(heavy(60, -1.7, 1.1)[0]?.message).toBe(
      'Item anvil in Hauler.deck: the distance from the axles of 35.4 in is 4.72 in over three tenths of the distance ' +
        'from coupling to axles, 30.7 in.',
    );
  });

  test('a rig without a market hears none of it', () => {
    const result = rigResult([truck({ limits: limits({ towing: 1000 }) }), trailer(900)]);
    expect(checkRig(result).filter(({ code }) => code.startsWith('RW8'))).toEqual([]);
    expect(limitsOf(result).filter(({ code }) => code.startsWith('RW8'))).toEqual([]);
  });
});
