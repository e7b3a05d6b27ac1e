import { describe, expect, test } from 'vitest';
import { lessOf, moreOf } from '../../../language/rules/goal.ts';
import { helpFor } from '../../../language/rules/moves.ts';
import { influenceOf } from '../../../language/rules/states.ts';
import type { RigResult, StateResult } from '../../../language/semantics/state.ts';
import {
  at,
  HAULER,
  hauler,
  item,
  level,
  loadCase,
  locker,
  rigResult,
  stow,
  TRUCK,
  tank,
  tare,
  truck,
} from './fixture.ts';

function stateOf(result: RigResult): StateResult {
  const [state] = result.states;
  if (state === undefined) throw new Error('no state');
  return state;
}

function less(state: StateResult, name: string, excess: number): string | undefined {
  const influence = influenceOf(state, [name]);
  return influence && helpFor(state, lessOf(influence, excess));
}

const holding = (value: number) => ({ holds: { value, location: at(HAULER, 55) } });
const front = locker('front', -1.3);
const middle = locker('middle', -2.6);
const boot = locker('boot', -3.9);
const awning = item('awning', 38);
const stove = item('stove', 12);

// On the axle 2.6 m behind the coupling a mass at x carries x / 2.6 of itself: in `front` one half, in `middle` all of
// itself, in `boot` one and a half.
const trailer = (...lockers: (typeof front)[]) => hauler({ lockers });

describe('what moves a load', () => {
  test('the move between lockers that does most, where none mends it all', () => {
    const state = stateOf(
      rigResult([truck(), trailer(front, middle, boot)], { stowed: [stow(awning, 1, boot), stow(stove, 1, boot)] }),
    );
    expect(less(state, 'Hauler.axles.load', 84)).toBe(
      'Moving awning (38 kg) to Hauler.front takes off 38 kg, which is not enough.',
    );
  });

  test('the lightest move that mends it all', () => {
    const state = stateOf(
      rigResult([truck(), trailer(front, middle, boot)], { stowed: [stow(awning, 1, boot), stow(stove, 1, boot)] }),
    );
    expect(less(state, 'Hauler.axles.load', 10)).toBe('Moving stove (12 kg) to Hauler.front takes off 12 kg.');
    expect(less(state, 'Hauler.axles.load', 15)).toBe('Moving awning (38 kg) to Hauler.front takes off 38 kg.');
  });

  test('a locker takes no more than it holds, counting what is in it', () => {
    const full = { ...front, ...holding(45) };
    const state = stateOf(
      rigResult([truck(), trailer(full, middle, boot)], { stowed: [stow(awning, 1, boot), stow(stove, 1, front)] }),
    );
    expect(less(state, 'Hauler.axles.load', 84)).toBe(
      'Moving awning (38 kg) to Hauler.middle takes off 19 kg, which is not enough.',
    );
  });

  test('a locker takes nothing larger than itself', () => {
    const narrow = { ...front, length: 1, width: 0.5, height: 0.5 };
    const long = item('poles', 38, { size: { length: 1.2, width: 0.1, height: 0.1 } });
    const state = stateOf(rigResult([truck(), trailer(narrow, middle, boot)], { stowed: [stow(long, 1, boot)] }));
    expect(less(state, 'Hauler.axles.load', 84)).toContain('to Hauler.middle');
  });

  test('nothing is proposed that breaks another limit', () => {
    // In front the awning would bring the coupling load from 240 · 0.2 / 2.6 - 19 = -0.54 kg to 37.5 kg.
    const limits = { coupling: { value: 30, location: at(HAULER, 99) } };
    const unit = hauler({ lockers: [front, middle, boot], limits });
    const state = stateOf(rigResult([truck(), unit], { stowed: [stow(awning, 1, boot)] }));
    expect(less(state, 'Hauler.axles.load', 84)).toBe(
      'Moving awning (38 kg) to Hauler.middle takes off 19 kg, which is not enough.',
    );
  });

  test('several of a thing are moved together', () => {
    const state = stateOf(rigResult([truck(), trailer(front, boot)], { stowed: [stow(stove, 1, boot, { count: 2 })] }));
    expect(less(state, 'Hauler.axles.load', 84)).toBe(
      'Moving 2 x stove (24 kg) to Hauler.front takes off 24 kg, which is not enough.',
    );
  });

  test('draining a tank, where it does more than any move, and only as far as it takes', () => {
    const waste = tank('waste', 95, -3.9);
    const unit = hauler({ lockers: [front, boot], tanks: [waste], parts: [tare(240, -2, at(HAULER, 40))] });
    const cases = [loadCase('homebound', { levels: new Map([['Hauler.waste', level(0.6)]]) })];
    const state = stateOf(rigResult([truck(), unit], { stowed: [stow(stove, 1, boot)], cases }));
    // A full tank puts 95 · 1.5 = 142.5 kg on the axle; 55 kg are 38.6 % of it.
    expect(less(state, 'Hauler.axles.load', 55)).toBe('Draining Hauler.waste from 60 % to 20 % takes off 57 kg.');
    expect(less(state, 'Hauler.axles.load', 500)).toBe(
      'Draining Hauler.waste from 60 % to 0 % takes off 85.5 kg, which is not enough.',
    );
  });

  test('no draining where a move mends it all, or does more', () => {
    const unit = hauler({ lockers: [front, boot], tanks: [tank('waste', 20, -3.9)] });
    const cases = [loadCase('homebound', { levels: new Map([['Hauler.waste', level(1)]]) })];
    const state = stateOf(rigResult([truck(), unit], { stowed: [stow(stove, 1, boot)], cases }));
    // The move takes off 12 kg; a full tank puts 20 · 1.5 = 30 kg on the axle.
    expect(less(state, 'Hauler.axles.load', 11)).toBe('Moving stove (12 kg) to Hauler.front takes off 12 kg.');
    expect(less(state, 'Hauler.axles.load', 13)).toContain('Draining Hauler.waste');
    const heavy = stateOf(rigResult([truck(), unit], { stowed: [stow(awning, 1, boot)], cases }));
    expect(less(heavy, 'Hauler.axles.load', 84)).toBe(
      'Moving awning (38 kg) to Hauler.front takes off 38 kg, which is not enough.',
    );
  });

  test('nothing that breaks the payload of a vehicle, which its coupling load is part of', () => {
    // In front the awning would bring the coupling load from -0.54 kg to 37.5 kg.
    const limits = { payload: { value: 30, location: at(TRUCK, 99) } };
    const stowed = [stow(awning, 1, boot)];
    const state = stateOf(rigResult([truck({ limits }), trailer(front, middle, boot)], { stowed }));
    expect(less(state, 'Hauler.axles.load', 84)).toBe(
      'Moving awning (38 kg) to Hauler.middle takes off 19 kg, which is not enough.',
    );
  });

  test('the best of very many moves, in a bounded time', () => {
    const shelves = Array.from({ length: 1000 }, (_, index) => locker(`shelf_${index}`, -2.6 - 0.001 * index));
    const stowed = shelves.map((shelf, index) => stow(item(`crate_${index}`, index === 700 ? 2 : 1), 1, shelf));
    const state = stateOf(rigResult([truck(), trailer(front, ...shelves)], { stowed }));
    const before = performance.now();
    for (let round = 0; round < 20; round++) {
      // By moments: 2 · (3.3 - 1.3) / 2.6 kg; the last crate takes off (3.599 - 1.3) / 2.6 kg.
      expect(less(state, 'Hauler.axles.load', 1.5)).toBe('Moving crate_700 (2 kg) to Hauler.front takes off 1.54 kg.');
    }
    // Looking at all of the million pairs takes many times as long.
    expect(performance.now() - before).toBeLessThan(4000);
  });

  test('where nothing can be stowed elsewhere, what 100 mm do', () => {
    const fresh = tank('fresh', 104, -2.4, { level: level(1, at(HAULER, 61)) });
    const unit = hauler({ tanks: [fresh] });
    const state = stateOf(rigResult([truck(), unit]));
    const influence = influenceOf(state, ['Hauler.coupling.load']);
    const help = influence && helpFor(state, moreOf(influence, 40));
    expect(help).toBe('Moving Hauler.fresh 100 mm ahead adds 4 kg.');
  });

  test('a mass that cannot be moved can be left behind; the tare cannot', () => {
    const state = stateOf(rigResult([truck(), trailer(boot)], { stowed: [stow(awning, 1, boot)] }));
    expect(less(state, 'rig.mass', 20)).toBe('Leaving awning (38 kg) behind takes off 38 kg.');
    expect(less(stateOf(rigResult([truck(), hauler()])), 'rig.mass', 20)).toBeUndefined();
  });

  test('equals are told apart by name, whatever the order in the file', () => {
    const other = item('bench', 38);
    const stowed = [stow(awning, 1, boot), stow(other, 1, boot)];
    for (const order of [stowed, [...stowed].reverse()]) {
      const state = stateOf(rigResult([truck(), trailer(boot, front)], { stowed: order }));
      expect(less(state, 'Hauler.axles.load', 30)).toBe('Moving awning (38 kg) to Hauler.front takes off 38 kg.');
    }
  });
});
