import { describe, expect, test } from 'vitest';
import { overLimits } from '../../../language/rules/over-limits.ts';
import type { UnitModel } from '../../../language/semantics/model.ts';
import {
  at,
  axle,
  HAULER,
  hauler,
  item,
  loadCase,
  locker,
  RIG,
  rigResult,
  stow,
  TRUCK,
  tank,
  truck,
} from './fixture.ts';

// Loads by moments about the coupling: 640 kg, centre of gravity 2.4 m and axle 2.6 m behind it, put
// 640 · 2.4 / 2.6 = 590.77 kg on the axle and 49.23 kg on the coupling.
const bed = locker('bed', -2.4);
const sand = item('sand', 400);
const limit = (value: number, declaration = HAULER) => ({ value, location: at(declaration, 99) });

const loaded = (trailer: Partial<UnitModel>, vehicle: Partial<UnitModel> = {}) =>
  rigResult([truck(vehicle), hauler({ lockers: [bed], ...trailer })], { stowed: [stow(sand, 1, bed)] });

const found = (...parameters: Parameters<typeof loaded>) =>
  [...overLimits.check(loaded(...parameters))].map(({ key, message }) => [key, message]);

describe('ratings on the plates', () => {
  test('nothing is found where everything holds, to the last gram', () => {
    const groups = [axle('axles', -2.6, at(HAULER), { rating: limit((640 * 2.4) / 2.6) })];
    expect(found({ groups, limits: { ATM: limit(640), GTM: limit(591), coupling: limit(50) } })).toEqual([]);
  });

  test('a single axle', () => {
    const groups = [axle('axles', -2.6, at(HAULER), { rating: limit(500) })];
    const [finding, ...others] = overLimits.check(loaded({ groups }));
    expect(others).toEqual([]);
    expect(finding?.code).toBe('RW501');
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toBe(
      'Axle of Hauler: 591 kg is 90.8 kg over its rating of 500 kg in case loaded. ' +
        'Moving sand (400 kg) 100 mm ahead takes off 15.4 kg.',
    );
    expect(finding?.location).toEqual(at(RIG, 80));
    expect(finding?.related.map(({ message }) => message)).toEqual([
      'its rating of 500 kg',
      'sand in Hauler.bed (400 kg) contributes 369 kg',
      'Hauler.tare (240 kg) contributes 222 kg',
    ]);
    expect(finding?.related[0]?.location).toEqual(at(HAULER, 99));
  });

  test('a group of axles', () => {
    const axles = [
      { x: -2.2, track: 1.5 },
      { x: -3, track: 1.5 },
    ];
    const groups = [axle('axles', -2.6, at(HAULER), { axles, rating: limit(500) })];
    expect(found({ groups })[0]?.[0]).toBe('over-group-rating');
    expect(found({ groups })[0]?.[1]).toMatch(/^Axle group of Hauler: 591 kg is 90.8 kg over its rating of 500 kg/);
  });

  test.each([
    ['ATM', 600, 'over-ATM', 'Hauler: 640 kg is 40 kg over the ATM of 600 kg'],
    ['GTM', 550, 'over-GTM', 'Axles of Hauler: 591 kg is 40.8 kg over the GTM of 550 kg'],
    ['payload', 350, 'over-payload', 'Payload of Hauler: 400 kg is 50 kg over its limit of 350 kg'],
    [
      'coupling',
      40,
      'over-coupling-rating',
      'Coupling of Hauler: 49.2 kg is 9.23 kg over the coupling limit of Hauler of 40 kg',
    ],
  ] as const)('%s of a trailer', (name, value, key, words) => {
    const [first, ...others] = found({ limits: { [name]: limit(value) } });
    expect(others).toEqual([]);
    expect(first?.[0]).toBe(key);
    expect(first?.[1]).toContain(`${words} in case loaded.`);
  });

  // The coupling load counts as load of the tow vehicle: 49 CFR 571.110 S9.3.4; (EU) 1230/2012.
  test.each([
    ['GVM', 2150, 'over-GVM', 'Truck with its coupling load: 2\u202f169 kg is 19.2 kg over the GVM of 2\u202f150 kg'],
    ['GCM', 2700, 'over-GCM', 'Combination: 2\u202f760 kg is 60 kg over the GCM of 2\u202f700 kg'],
    ['towing', 600, 'over-towing', 'Hauler: 640 kg is 40 kg over the towing rating of 600 kg'],
    [
      'payload',
      40,
      'over-payload',
      'Payload of Truck, coupling load included: 49.2 kg is 9.23 kg over its limit of 40 kg',
    ],
    [
      'coupling',
      45,
      'over-coupling-rating',
      'Coupling of Hauler: 49.2 kg is 4.23 kg over the coupling limit of Truck of 45 kg',
    ],
  ] as const)('%s of a vehicle', (name, value, key, words) => {
    const [first, ...others] = found({}, { limits: { [name]: limit(value, TRUCK) } });
    expect(others).toEqual([]);
    expect(first?.[0]).toBe(key);
    expect(first?.[1]).toContain(`${words} in case loaded.`);
  });

  test('the brakes of the trailer decide which towing rating counts', () => {
    const limits = { towing: limit(1500, TRUCK), towing_unbraked: limit(500, TRUCK) };
    expect(found({ brakes: 'overrun' }, { limits })).toEqual([]);
    const unbraked = found({ brakes: 'unbraked' }, { limits });
    expect(unbraked.map(([key]) => key)).toEqual(['over-towing-unbraked']);
    expect(unbraked[0]?.[1]).toContain('640 kg is 140 kg over the towing rating without brakes of 500 kg');
    // Without a rating for unbraked trailers the other one is the least that must hold.
    expect(found({ brakes: 'unbraked' }, { limits: { towing: limit(600, TRUCK) } }).map(([key]) => key)).toEqual([
      'over-towing',
    ]);
  });

  test('the tare is no part of the payload', () => {
    const [finding] = overLimits.check(loaded({ limits: { payload: limit(350) } }));
    expect(finding?.related.map(({ message }) => message)).toEqual([
      'its limit of 350 kg',
      'sand in Hauler.bed (400 kg) contributes 400 kg',
    ]);
  });

  test('of the coupling limits the lowest governs and is named', () => {
    const coupling = { kind: 'ball', x: 0, z: 0.43, location: at(HAULER), rating: limit(45) } as const;
    const hitch = { kind: 'ball', x: -4.35, z: 0.43, location: at(TRUCK), rating: limit(40, TRUCK) } as const;
    const messages = found({ coupling, limits: { coupling: limit(48) } }, { hitch, limits: { coupling: limit(44) } });
    expect(messages).toHaveLength(1);
    expect(messages[0]?.[1]).toContain('9.23 kg over the hitch rating of Truck of 40 kg');
  });

  test('a drawbar that carries no load has no coupling limit', () => {
    const groups = [axle('front', -1, at(HAULER)), axle('rear', -4, at(HAULER))];
    const coupling = { kind: 'drawbar', x: 0, z: 0.43, location: at(HAULER) } as const;
    expect(found({ groups, coupling, limits: { coupling: limit(1) } })).toEqual([]);
  });

  test('one finding for a limit, for the worst case, naming the others', () => {
    const fresh = tank('fresh', 100, -2.4);
    const levels = (share: number) =>
      new Map([['Hauler.fresh', { value: share, least: share, most: share, location: at(RIG, 90) }]]);
    const cases = [
      loadCase('homebound', { levels: levels(0.2), location: at(RIG, 81) }),
      loadCase('departing', { levels: levels(1), location: at(RIG, 82) }),
      loadCase('dry', { levels: levels(0), location: at(RIG, 83) }),
    ];
    const trailer = hauler({ tanks: [fresh], limits: { ATM: limit(250) } });
    const [finding, ...others] = overLimits.check(rigResult([truck(), trailer], { cases }));
    expect(others).toEqual([]);
    expect(finding?.location).toEqual(at(RIG, 82));
    expect(finding?.message).toBe(
      'Hauler: 340 kg is 90 kg over the ATM of 250 kg in case departing. Also in case homebound (+10 kg). ' +
        'Draining Hauler.fresh from 100 % to 10 % takes off 90 kg.',
    );
  });

  test('a unit alone shows it at its own limit, a variant at its name', () => {
    const unit = hauler({ limits: { ATM: limit(200) } });
    const alone = (location = unit.location) =>
      rigResult([unit], { standalone: true, location, cases: [loadCase('bare', { location })] });
    expect([...overLimits.check(alone())][0]?.location).toEqual(at(HAULER, 99));
    expect([...overLimits.check(alone(at(RIG, 5)))][0]?.location).toEqual(at(RIG, 5));
  });
});
