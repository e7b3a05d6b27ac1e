import { describe, expect, test } from 'vitest';
import { itemTooLarge } from '../../../language/rules/item-too-large.ts';
import { outsideBody } from '../../../language/rules/outside-body.ts';
import { overLockerLimit } from '../../../language/rules/over-locker-limit.ts';
import { tankLevels } from '../../../language/rules/tank-levels.ts';
import type { LevelRange, Locker, UnitModel } from '../../../language/semantics/model.ts';
import {
  at,
  HAULER,
  hauler,
  item,
  level,
  loadCase,
  locker,
  RIG,
  rigResult,
  stow,
  tank,
  tare,
  truck,
} from './fixture.ts';

describe('levels of tanks', () => {
  const gas = { name: 'LPG', density: 505, source: 'vessels are filled to 80 %', maximumFill: 0.8 };

  const check = (stated: LevelRange, fluid?: typeof gas) => {
    const store = tank('store', 50, -2.4, fluid === undefined ? {} : { fluid });
    const cases = [loadCase('departing', { levels: new Map([['Hauler.store', stated]]) })];
    return [...tankLevels.check(rigResult([truck(), hauler({ tanks: [store] })], { cases }))];
  };

  test('a tank holds at most 100 %', () => {
    expect(check(level(1))).toEqual([]);
    const [finding, ...others] = check(level(1.2));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity, finding?.location]).toEqual(['RW521', 'error', at(RIG, 90)]);
    expect(finding?.message).toBe('Hauler.store is filled to 120 % in case departing: a tank holds at most 100 %.');
  });

  test('the end of a range counts', () => {
    expect(check({ ...level(0.9), least: 0.7, most: 1.1 }).map(({ key }) => key)).toEqual(['tank-overfull']);
  });

  test('LPG is filled to 80 % (secondary literature)', () => {
    expect(check(level(0.8), gas)).toEqual([]);
    expect(check(level(0.9), gas)[0]?.message).toBe(
      'Hauler.store is filled to 90 % in case departing: vessels for LPG are filled to at most 80 % ' +
        '(vessels are filled to 80 %).',
    );
  });

  test('what the tank itself states is for its unit to say', () => {
    const store = tank('store', 50, -2.4, { level: level(1.5, at(HAULER, 61)) });
    const unit = hauler({ tanks: [store] });
    expect([...tankLevels.check(rigResult([truck(), unit]))]).toEqual([]);
    const [finding] = tankLevels.check(rigResult([unit], { standalone: true, location: unit.location }));
    expect(finding?.location).toEqual(at(HAULER, 61));
    expect(finding?.message).toBe('Hauler.store is filled to 150 %: a tank holds at most 100 %.');
  });
});

describe('what a locker holds', () => {
  const holds = (value: number) => ({ holds: { value, location: at(HAULER, 55) } });

  test('over its limit', () => {
    const boot = locker('boot', -3.4, holds(40));
    const galley = locker('galley', -2, holds(20));
    const stowed = [
      stow(item('stove', 12), 1, boot, { location: at(RIG, 71) }),
      stow(item('awning', 38), 1, boot, { location: at(RIG, 72) }),
    ];
    const trailer = hauler({ lockers: [boot, galley], parts: [tare(240, -2.2, at(HAULER, 40))] });
    const [finding, ...others] = overLockerLimit.check(rigResult([truck(), trailer], { stowed }));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW523', 'error']);
    expect(finding?.message).toBe(
      'Hauler.boot: 50 kg is 10 kg over its limit of 40 kg in case loaded. ' +
        'Moving stove (12 kg) to Hauler.galley takes off 12 kg.',
    );
    expect(finding?.location).toEqual(at(RIG, 72));
    expect(finding?.related.map(({ location }) => location)).toEqual([at(HAULER, 55), at(RIG, 71)]);
  });

  test('counts make up the sum, absent things do not', () => {
    const boot = locker('boot', -3.4, holds(40));
    const result = (count: number, absent: readonly string[] = []) =>
      rigResult([truck(), hauler({ lockers: [boot] })], {
        stowed: [stow(item('bottle', 14), 1, boot, { count })],
        cases: [loadCase('loaded', { absent: new Set(absent) })],
      });
    expect([...overLockerLimit.check(result(2))]).toEqual([]);
    expect([...overLockerLimit.check(result(3))][0]?.message).toMatch(/^Hauler.boot: 42 kg is 2 kg over/);
    expect([...overLockerLimit.check(result(3, ['bottle']))]).toEqual([]);
  });
});

describe('items and the size of their locker', () => {
  const check = (length: number, width: number, height: number, room: Partial<Locker>) => {
    const box = locker('box', -2.4, room);
    const thing = item('thing', 10, { size: { length, width, height } });
    const result = rigResult([truck(), hauler({ lockers: [box] })], { stowed: [stow(thing, 1, box)] });
    return [...itemTooLarge.check(result)].map(({ message }) => message);
  };

  test('it may be turned, laid on its side and stood up', () => {
    const room = { length: 1, width: 0.6, height: 0.4 };
    expect(check(0.6, 1, 0.4, room)).toEqual([]);
    expect(check(0.4, 0.6, 1, room)).toEqual([]);
    expect(check(0.3, 0.3, 0.9, { length: 0.3, width: 0.3, height: 1 })).toEqual([]);
    expect(check(0.9, 0.3, 0.3, { length: 0.3, width: 0.3, height: 1 })).toEqual([]);
  });

  test('where it is too large, by how much at best', () => {
    expect(check(1.2, 0.5, 0.3, { length: 1, width: 0.6, height: 0.4 })).toEqual([
      'thing (1\u202f200 mm long, 500 mm wide, 300 mm high) does not fit into ' +
        'Hauler.box (1\u202f000 mm long, 600 mm wide, 400 mm high): whichever way it lies, 200 mm are missing.',
    ]);
  });

  test('what is not stated of a locker sets no bound, but nothing is stood up in a locker of unknown height', () => {
    expect(check(5, 0.5, 0.3, {})).toEqual([]);
    expect(check(3, 0.5, 0.3, { width: 0.6 })).toEqual([]);
    expect(check(3, 0.5, 0.3, { length: 2, width: 1 })).toHaveLength(1);
    expect(check(0.3, 0.5, 3, { length: 2, width: 1 })).toEqual([]);
  });
});

describe('the outline of the body', () => {
  const body = { front: -0.6, rear: -3.6, width: 1.5, location: at(HAULER, 5) };

  const alone = (more: Partial<UnitModel>) => {
    const unit = hauler({ body, ...more });
    const result = rigResult([unit], { standalone: true, location: unit.location });
    return [...outsideBody.check(result)].map(({ message }) => message);
  };

  test('lockers by their size', () => {
    expect(alone({ lockers: [locker('chest', -3.15, { length: 0.9, width: 1.5 })] })).toEqual([]);
    expect(alone({ lockers: [locker('chest', -3.5, { length: 1.4 })] })).toEqual([
      'Hauler.chest reaches 600 mm behind the rear end of the body.',
    ]);
    expect(alone({ lockers: [locker('chest', -3, { width: 1.6 })] })).toEqual([
      'Hauler.chest reaches 50 mm beyond the left side of the body.',
    ]);
  });

  test('the drawbar belongs to the trailer, what is ahead of the coupling does not', () => {
    expect(alone({ tanks: [tank('gas', 9, -0.3)] })).toEqual([]);
    expect(alone({ tanks: [tank('gas', 9, 0.2)] })).toEqual(['Hauler.gas reaches 200 mm ahead of the coupling.']);
  });

  test('round tanks by the way they lie, fittings by their centre', () => {
    const lying = { kind: 'lying-cylinder', diameter: 0.4, length: 1.6, axis: 'y' } as const;
    expect(alone({ tanks: [tank('fresh', 90, -2, { shape: lying })] })).toHaveLength(1);
    expect(alone({ tanks: [tank('fresh', 90, -2, { shape: { ...lying, axis: 'x' } })] })).toEqual([]);
    const fitting = (x: number) => ({ ...tare(8, x, at(HAULER, 41)), name: 'lamp', kind: 'fitting' as const });
    expect(alone({ parts: [fitting(-3.6)] })).toEqual([]);
    expect(alone({ parts: [fitting(-3.7)] })).toEqual(['Hauler.lamp reaches 100 mm behind the rear end of the body.']);
  });

  test('a rig speaks only of what it stows outside lockers', () => {
    const chest = locker('chest', -3.5, { length: 1.4 });
    const spade = stow(item('spade', 3), 1, chest, { locker: undefined, centre: { x: -4, y: 0, z: 1 } });
    const result = rigResult([truck(), hauler({ body, lockers: [chest] })], { stowed: [spade] });
    expect([...outsideBody.check(result)].map(({ message, location }) => [message, location])).toEqual([
      ['spade reaches 400 mm behind the rear end of the body.', at(RIG, 70)],
    ]);
  });
});
