import { describe, expect, test } from 'vitest';
import { lifted } from '../../../language/rules/lifted.ts';
import { restoresTooMuch } from '../../../language/rules/restores-too-much.ts';
import { sideImbalance } from '../../../language/rules/side-imbalance.ts';
import { steeringAxleLightened } from '../../../language/rules/steering-axle-lightened.ts';
import { trailerHeavier } from '../../../language/rules/trailer-heavier.ts';
import type { WeightDistributionDevice } from '../../../language/semantics/model.ts';
import { at, axle, HAULER, hauler, item, locker, RIG, rigResult, stow, TRUCK, tare, truck } from './fixture.ts';

/** A trailer with this much on its coupling, by moments. */
const loading = (mass: number, onCoupling: number) =>
  hauler({ parts: [tare(mass, -2.6 * (1 - onCoupling / mass), at(HAULER, 40))] });

describe('the steering axle', () => {
  // Front load lost = coupling load · overhang / wheelbase (statics section of any handbook): H · 1.15 / 3.2 of 1180 kg.
  test('a fifth of its load lost is the limit of common practice', () => {
    const lost = (share: number) => loading(6000, (share * 1180 * 3.2) / 1.15);
    expect([...steeringAxleLightened.check(rigResult([truck(), lost(0.199)]))]).toEqual([]);
    const [finding, ...others] = steeringAxleLightened.check(rigResult([truck(), lost(0.25)]));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW512', 'warning']);
    expect(finding?.message).toBe(
      'Front axle of Truck loses 295 kg (25 %) to what it tows in case loaded: ' +
        '885 kg remain; common practice is at most 20 %.',
    );
  });

  test('an axle that lifts is left to its own rule', () => {
    // By moments all of the 1180 kg are lost at 1180 · 3.2 / 1.15 kg on the coupling.
    const result = rigResult([truck(), loading(20_000, (1.05 * 1180 * 3.2) / 1.15)]);
    expect([...steeringAxleLightened.check(result)]).toEqual([]);
    expect([...lifted.check(result)].map(({ code }) => code)).toEqual(['RW513']);
  });

  test('a vehicle alone loses nothing', () => {
    expect([...steeringAxleLightened.check(rigResult([truck()]))]).toEqual([]);
  });
});

describe('lifted axles and wheels', () => {
  const sand = (mass: number, x: number, y = 0) => {
    const rack = locker('rack', x, { centre: { x, y, z: 0.7 } });
    return { lockers: [rack], stowed: [stow(item('sand', mass), 0, rack)] };
  };

  test('a front axle, behind too much weight at the rear', () => {
    // 1180 - 4000 · 1.5 / 3.2 = -695 kg, with the load 1.5 m behind the rear axle.
    const { lockers, stowed } = sand(4000, -4.7);
    const [finding, ...others] = lifted.check(rigResult([truck({ lockers })], { stowed }));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW513', 'error']);
    expect(finding?.message).toMatch(/^Front axle of Truck lifts off in case loaded: its load comes to -695 kg\./);
  });

  test('a wheel', () => {
    // A trailer rolls about its coupling: 240 · 2.4 / 2.6 / 2 = 110.77 kg each side; 300 kg at 1.5 m to the left put
    // 300 · 2.4 / 2.6 / 2 = 138.46 on each side and shift 300 · 1.5 / 1.5 = 300 kg: right 249.23 - 300 = -50.77 kg.
    const bed = locker('bed', -2.4, { centre: { x: -2.4, y: 1.5, z: 0.7 } });
    const result = rigResult([truck(), hauler({ lockers: [bed] })], { stowed: [stow(item('sand', 300), 1, bed)] });
    const [finding, ...others] = lifted.check(result);
    expect(others).toEqual([]);
    expect(finding?.code).toBe('RW514');
    expect(finding?.message).toMatch(
      /^The right wheel of the axle of Hauler lifts off in case loaded: its load comes to -50.8 kg\./,
    );
    // A lifted wheel is not an imbalance as well.
    expect([...sideImbalance.check(result)]).toEqual([]);
  });

  test('a standing rig', () => {
    expect([...lifted.check(rigResult([truck(), hauler()]))]).toEqual([]);
  });
});

describe('left and right', () => {
  // 400 kg at y to the left on a track of 1.5 m make a difference of 800 · y / 1.5 kg, of 590.77 kg on the axle.
  const shifted = (y: number) => {
    const bed = locker('bed', -2.4, { centre: { x: -2.4, y, z: 0.5 } });
    const middle = locker('deck', -2.4);
    return rigResult([truck(), hauler({ lockers: [bed, middle] })], { stowed: [stow(item('sand', 400), 1, bed)] });
  };

  test('a tenth of the load is the limit of common practice', () => {
    expect([...sideImbalance.check(shifted(0.11))]).toEqual([]);
    const [finding, ...others] = sideImbalance.check(shifted(-0.2));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW515', 'warning']);
    expect(finding?.message).toBe(
      'Axle of Hauler: the right side is 107 kg heavier in case loaded, 18.1 % of its load; common practice is at most 10 %. ' +
        'Moving sand (400 kg) to Hauler.deck takes off 107 kg of difference.',
    );
  });
});

describe('a weight-distribution device', () => {
  const devised = (weightDistribution: WeightDistributionDevice) =>
    [...restoresTooMuch.check(rigResult([truck(), loading(1000, 100)], { weightDistribution }))].map((each) => each);

  // Not over 100 %: recommendation of the committee of SAE J2807 (read second-hand).
  test('restores at most 100 %', () => {
    expect(devised({ kind: 'restored', share: 1, location: at(RIG, 60) })).toEqual([]);
    const [finding, ...others] = devised({ kind: 'restored', share: 1.2, location: at(RIG, 60) });
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('warning');
    expect(finding?.location).toEqual(at(RIG, 60));
    // The trailer takes 100 · 1.15 / 3.2 = 35.94 kg off the front axle; a fifth of it more is 7.19 kg.
    expect(finding?.message).toBe(
      'Front axle of Truck carries 7.19 kg more with the trailer than without in case loaded (120 % restored): ' +
        'set the device so that it restores at most 100 %.',
    );
  });

  test('given by its moment', () => {
    // ΔFront = M / g · (1 + overhang / trailer wheelbase) / wheelbase (R. Gratz 2004): 815.4 N m bring back 35.94 kg.
    const whole = (35.9375 * 3.2 * 9.80665) / (1 + 1.15 / 2.6);
    expect(devised({ kind: 'moment', moment: whole * 0.999, location: at(RIG, 60) })).toEqual([]);
    expect(devised({ kind: 'moment', moment: whole * 1.1, location: at(TRUCK, 60) })[0]?.message).toBe(
      'Front axle of Truck carries 3.59 kg more with the trailer than without in case loaded: ' +
        'set the device so that it restores at most 100 %.',
    );
  });
});

describe('a trailer heavier than its tow vehicle', () => {
  test('is information', () => {
    expect([...trailerHeavier.check(rigResult([truck(), loading(2120, 150)]))]).toEqual([]);
    const [finding] = trailerHeavier.check(rigResult([truck(), loading(2500, 150)]));
    expect(finding?.severity).toBe('information');
    expect(finding?.message).toBe(
      'Heavier than its tow vehicle in case loaded: 2\u202f500 kg behind Truck of 2\u202f120 kg.',
    );
  });

  test('needs a tow vehicle', () => {
    expect([...trailerHeavier.check(rigResult([hauler()]))]).toEqual([]);
    expect([
      ...trailerHeavier.check(
        rigResult([truck({ groups: [axle('front', 0, at(TRUCK)), axle('rear', -3.2, at(TRUCK))] })]),
      ),
    ]).toEqual([]);
  });
});
