import { describe, expect, test } from 'vitest';
import { leastCaravanPayload } from '../../language/rules/markets/caravan-payload.ts';
import { NOSE_LOAD } from '../../language/rules/markets/coupling-bands.ts';
import { mostCouplingLoad } from '../../language/rules/markets/coupling-load-maximum.ts';
import { usualMassTowed } from '../../language/rules/markets/kerb-mass-share.ts';
import { leastMotorCaravanPayload } from '../../language/rules/markets/motor-caravan-payload.ts';
import { towableBraked, towableUnbraked } from '../../language/rules/markets/towable-mass.ts';
import { massInRunningOrder } from '../../language/semantics/running-order.ts';
import { at, TRUCK, tank, truck } from '../unit/rules/fixture.ts';

const limit = (value: number) => ({ value, location: at(TRUCK) });

// (EU) 1230/2012 Art. 2: at least 90 % fuel and the driver; that the driver counts as 75 kg is from memory.
describe('mass in running order', () => {
  const diesel = { name: 'diesel', density: 832.5, source: 'test' };

  test('of a vehicle: the tare, nine tenths of the fuel with its tank, the driver', () => {
    const unit = truck({ tanks: [tank('fuel', 60, -2, { fluid: diesel, empty: 8 }), tank('fresh', 90, -2)] });
    // 2120 + 8 + 0.9 · 60 + 75; the water is not fuel.
    expect(massInRunningOrder(unit)).toBeCloseTo(2257, 9);
  });
});

// RW803. (EU) 1230/2012 Annex I Part A and (EU) 2021/535 Annex XIII, from memory: 10·(n + L).
test.each([
  [4, 7, 110],
  [2, 5.99, 79.9],
])('a motor caravan for %d, %d m long, leaves at least %d kg', (occupants, length, least) => {
  expect(leastMotorCaravanPayload(occupants, length)).toBeCloseTo(least, 9);
});

// RW804. EN 1645-2, as a trade article gives it: 10·L + 10·N + 30.
test('a caravan with 2 berths and 5.2 m of body leaves at least 102 kg', () => {
  expect(leastCaravanPayload(2, 5.2)).toBeCloseTo(102, 9);
});

// RW805. (EU) 1230/2012 Annex I, from memory: with brakes the lowest of maker's value, M (1.5·M off-road), 3500 kg.
describe('the mass towed with brakes', () => {
  test.each([
    [{ GVM: 2000 }, false, 2000],
    [{ GVM: 2000 }, true, 3000],
    [{ GVM: 2000, towing: 1500 }, true, 1500],
    [{ GVM: 3200 }, true, 3500],
    [{ GVM: 3400, towing: 3500 }, false, 3400],
  ])('%o, off-road %s: %d kg', (stated, offRoad, most) => {
    const limits = Object.fromEntries(Object.entries(stated).map(([name, value]) => [name, limit(value)]));
    expect(towableBraked(truck({ limits, offRoad }))?.limit).toBeCloseTo(most, 9);
  });

  test('cannot be told without a maximum laden mass', () => {
    expect(towableBraked(truck())).toBeUndefined();
  });
});

// RW806. (EU) 1230/2012 Annex I, from memory: without brakes at most half the mass in running order and 750 kg.
test.each([
  [1125, undefined, 600],
  [2120, undefined, 750],
  [2120, 700, 700],
])('behind a tare of %d kg, maker’s value %s: without brakes %d kg', (tareMass, makers, most) => {
  const [part] = truck().parts;
  const parts = part === undefined ? [] : [{ ...part, body: { ...part.body, mass: tareMass } }];
  const limits = makers === undefined ? {} : { towing_unbraked: limit(makers) };
  expect(towableUnbraked(truck({ parts, limits }))?.limit).toBeCloseTo(most, 9);
});

// RW802. StVZO § 44(3): of a trailer that may weigh more than 3.5 t at most 15 % of the actual mass and 2.00 t.
test.each([
  [3500, 3500, undefined],
  [3600, 3500, undefined],
  [3000, 4000, 450],
  [4000, 4000, 600],
  [13_000, 14_000, 1950],
  [18_000, 18_000, 2000],
])('StVZO: a trailer of %d kg that may weigh %d kg puts at most %s kg on its coupling', (mass, permissible, most) => {
  if (most === undefined) expect(mostCouplingLoad(mass, permissible)).toBeUndefined();
  else expect(mostCouplingLoad(mass, permissible)).toBeCloseTo(most, 9);
});

// United Kingdom, common practice, no source.
test('UK practice: 5 % to 7 % of the laden mass on the nose, at most 85 % of the kerb mass towed', () => {
  expect(NOSE_LOAD.conventional).toEqual({ least: 0.05, most: 0.07 });
  expect(usualMassTowed(1600)).toBeCloseTo(1360, 9);
});
