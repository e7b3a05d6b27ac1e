import { describe, expect, it } from 'vitest';
import { read as readAll, trailer, uriOf, vehicle } from './support.ts';

/** As it is read; these rigs are for arithmetic and need no sound share of coupling load. */
const read: typeof readAll = (text, files) => {
  const reading = readAll(text, files);
  return { ...reading, keys: reading.keys.filter((key) => !UNASKED.test(key)) };
};

/** What these rigs bring out besides, and what rigs say of units with errors: see the last tests. */
const UNASKED = /^(coupling-share|loads-incomplete)/;

const ITEMS = 'item box 30 kg size 600 x 400 x 400 mm\n';
const TANK = 'tank fresh 95 L of water at 2600 mm back, 500 mm up';
const LOCKER = 'locker bed from 500 mm to 2500 mm back, floor 600 mm up';
const SEAT = 'seat driver 80 kg at 1200 mm back, 700 mm up';
const RIG = `rig R {
  tow Truck with driver
  haul Hauler
  stow box in Hauler.bed
  stow box in bed
  case out { fresh 50 % }
  case back { Hauler.fresh 10 %  occupants Truck.driver }
}
`;
const LEFT_OUT = (name: string) => `lines with errors are left out of ${name}: its loads are not complete`;

describe('lines with errors that a rig speaks of', () => {
  const keysOf = (lines: { tank?: string; locker?: string; seat?: string }) => {
    const { tank = TANK, locker = LOCKER, seat = SEAT } = lines;
    return read(`${ITEMS}${vehicle(seat)}${trailer(`${tank}\n  ${locker}`)}${RIG}`).keys;
  };
  it('are told where the error is, and there only', () => {
    expect(keysOf({})).toEqual([]);
    expect(keysOf({ tank: 'tank fresh 95 Q of water at 2600 mm back, 500 mm up' })).toEqual(['unknown-unit']);
    expect(keysOf({ tank: 'tank fresh 95 L of watr at 2600 mm back, 500 mm up' })).toEqual(['unknown-name']);
    expect(keysOf({ tank: 'tank fresh 95 L of water' })).toEqual(['missing-place']);
    expect(keysOf({ locker: 'locker bed from 2500 mm to 500 mm back, floor 600 mm up' })).toEqual(['range-reversed']);
    expect(keysOf({ locker: 'locker bed from' })).toEqual(['syntax-error']);
    expect(keysOf({ seat: 'seat driver 80 L at 1200 mm back, 700 mm up' })).toEqual(['dimension-mismatch']);
    expect(keysOf({ seat: 'seat driver 80 kg' })).toEqual(['missing-place']);
  });
  it('also where the head of the line is misspelt', () => {
    expect(keysOf({ tank: TANK.replace('tank', 'tnk') })).toEqual(['unknown-statement']);
    expect(keysOf({ locker: LOCKER.replace('locker', 'lokcer') })).toEqual(['unknown-statement']);
    expect(keysOf({ seat: SEAT.replace('seat', 'seet') })).toEqual(['unknown-statement']);
  });
  it('a name that no line declares is still told', () => {
    const damaged = { tank: 'tank fresh 95 Q of water at 2600 mm back', locker: LOCKER.replace('bed', 'chest') };
    expect(keysOf(damaged)).toEqual(['unknown-unit', 'unknown-name', 'unknown-name']);
  });
  it('are known by name in the model', () => {
    const { unit } = read(trailer('tank fresh 95 Q of water at 2 m back\n  locker bed\n  lokcer chest at 1 m back'));
    expect(unit('Hauler').unreadable).toEqual(['fresh', 'bed', 'chest']);
    expect(read(trailer(`${TANK}\n  ${LOCKER}`)).unit('Hauler').unreadable).toEqual([]);
  });
});

describe('loads without the lines with errors', () => {
  it('of a unit say so', () => {
    const { assumptions, value, diagnostics, result } = read(trailer('fitting sink 4 m at 1 m back, 1 m up'));
    expect(value('Hauler', 'Hauler.mass')).toBe(240);
    expect(assumptions('Hauler')).toContain(LEFT_OUT('Hauler'));
    // It stands with the results and makes no diagnostic: the error itself is one.
    expect(diagnostics.filter(({ key }) => key === 'assumption')).toEqual([]);
    expect(result('Hauler').assumptions.find(({ incomplete }) => incomplete)?.general).toBe(true);
    expect(read(trailer()).assumptions('Hauler')).not.toContain(LEFT_OUT('Hauler'));
  });
  it('of a variant say so too, and of a rig that has the unit', () => {
    const text = `${vehicle()}${trailer('fitting sink 4 m at 1 m back, 1 m up')}variant Long of Hauler { }
rig R { tow Truck\n haul Long }
`;
    const { assumptions } = read(text);
    expect(assumptions('Long')).toContain(LEFT_OUT('Long'));
    expect(assumptions('R')).toContain(LEFT_OUT('Long'));
    expect(assumptions('R')).not.toContain(LEFT_OUT('R'));
    expect(assumptions('Truck')).not.toContain(LEFT_OUT('Truck'));
  });
  it('of a rig say so: its own lines, and what they name', () => {
    const text = (item: string, lines: string) =>
      `${item}${vehicle()}${trailer(LOCKER)}rig R {\n  tow Truck\n  haul Hauler\n  ${lines}\n}\n`;
    const isTold = (item: string, lines: string, files = {}) =>
      read(text(item, lines), files).assumptions('R').includes(LEFT_OUT('R'));
    expect(isTold(ITEMS, 'stow box in Hauler.bed')).toBe(false);
    expect(isTold(ITEMS, 'stow bux in Hauler.bed')).toBe(true);
    expect(isTold(ITEMS, 'stow box in')).toBe(true);
    expect(isTold('item box 30 m\n', 'stow box in Hauler.bed')).toBe(true);
    expect(isTold('use "i.rig"\n', 'stow box in Hauler.bed', { 'i.rig': 'item box 30 m' })).toBe(true);
    expect(isTold('use "i.rig"\n', 'stow box in Hauler.bed', { 'i.rig': 'item box 30 kg' })).toBe(false);
    const silent = read(`${ITEMS}${vehicle(SEAT)}${trailer('locker bed')}${RIG}`);
    expect(silent.assumptions('R')).toContain(LEFT_OUT('R'));
  });
  it('errors that loads do not depend on are no reason', () => {
    const isTold = (lines: string) => read(trailer(lines)).assumptions('Hauler').includes(LEFT_OUT('Hauler'));
    expect(isTold('limits { ATM 3 m }')).toBe(false);
    expect(isTold('require coupling.load at most 3 kgs')).toBe(false);
    expect(isTold('fitting a 1 kg at 1 m back, 1 m up\n  fitting a 2 kg at 1 m back, 1 m up')).toBe(false);
    expect(isTold('limits { ATM 3 m }\n  tank t 3 m of water at 1 m back, 1 m up')).toBe(true);
  });
  it('with files beside it, the unit of another file says it in the rig', () => {
    const unit = trailer('tank fresh 95 Q of water at 2600 mm back, 500 mm up');
    const { keys, assumptions, analysis } = read(
      `use "hauler.rig"\n${vehicle()}rig R {\n  tow Truck\n  haul Hauler\n  case out { fresh 50 % }\n}\n`,
      { 'hauler.rig': unit },
    );
    expect(keys).toEqual([]);
    expect(assumptions('R')).toEqual(expect.arrayContaining([LEFT_OUT('Hauler'), LEFT_OUT('R')]));
    expect(analysis.diagnostics(uriOf('hauler.rig')).map(({ key }) => key)).toEqual(['unknown-unit']);
  });
  it('a rig says so as a diagnostic, unless it shows an error itself', () => {
    const rig = (item: string, lines: string) =>
      readAll(`${item}${vehicle()}${trailer(LOCKER)}rig R {\n  tow Truck\n  haul Hauler\n  ${lines}\n}\n`).keys;
    expect(rig('item box 30 m\n', 'stow box in Hauler.bed')).toContain('loads-incomplete');
    expect(rig(ITEMS, 'stow bux in Hauler.bed')).not.toContain('loads-incomplete');
    expect(rig(ITEMS, 'stow box in Hauler.bed')).not.toContain('loads-incomplete');
    const unit = `${vehicle()}${trailer('fitting sink 4 m at 1 m back, 1 m up')}rig R {\n  tow Truck\n  haul Hauler\n}\n`;
    expect(readAll(unit).keys).toContain('loads-incomplete');
  });
});
