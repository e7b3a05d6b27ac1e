import { describe, expect, test } from 'vitest';
import { COUPLINGS } from '../../../language/diagnostics/couplings.ts';
import { EXTENTS } from '../../../language/diagnostics/extents.ts';
import { LOADS } from '../../../language/diagnostics/loads.ts';
import { RATINGS } from '../../../language/diagnostics/ratings.ts';
import { assumptions } from '../../../language/rules/assumptions.ts';
import { checkRig, RULES } from '../../../language/rules/index.ts';
import type { RigResult } from '../../../language/semantics/state.ts';
import { openDocument } from '../../../language/syntax/document.ts';
import {
  at,
  axle,
  HAULER,
  hauler,
  ITEMS,
  item,
  loadCase,
  locker,
  RIG,
  rigResult,
  stow,
  TRUCK,
  truck,
} from './fixture.ts';

const ENTRIES = Object.entries({ ...LOADS, ...COUPLINGS, ...EXTENTS, ...RATINGS });

describe('the catalogue of the rules', () => {
  test('every entry is reported by exactly one rule', () => {
    expect(RULES.flatMap(({ keys }) => keys).sort()).toEqual(ENTRIES.map(([key]) => key).sort());
  });

  test('codes are unique', () => {
    const codes = ENTRIES.map(([, { code }]) => code);
    expect(new Set(codes).size).toBe(codes.length);
  });

  test.each(ENTRIES)('the files of %s can be read and differ', (_key, { example, mended }) => {
    expect(example).not.toBe(mended);
    for (const text of [example, mended]) {
      const { declarations } = openDocument(text);
      expect(declarations.length).toBeGreaterThan(0);
      expect(declarations.flatMap(({ declaration }) => declaration.problems)).toEqual([]);
    }
  });
});

describe('all rules together', () => {
  const limits = { ATM: { value: 300, location: at(HAULER, 99) } };
  const bed = locker('bed', -2.4, { centre: { x: -2.4, y: 0.9, z: 0.5 } });
  const overloaded = () =>
    rigResult([truck(), hauler({ limits, lockers: [bed] })], {
      stowed: [stow(item('sand', 400), 1, bed)],
      cases: [loadCase('loaded'), loadCase('empty', { absent: new Set(['sand']) })],
    });

  const faults = (result: RigResult) => checkRig(result).map(({ key }) => key);

  test('find what is wrong, every time the same', () => {
    expect(faults(overloaded())).toEqual(['over-ATM', 'side-imbalance']);
    expect(checkRig(overloaded())).toEqual(checkRig(overloaded()));
  });

  test('find nothing in a rig that is in order', () => {
    expect(faults(rigResult([truck(), hauler()]))).toEqual([]);
  });

  test('place everything inside the declaration of the rig', () => {
    const far = at(ITEMS, 3);
    const result = rigResult([truck(), hauler({ limits, lockers: [bed] })], {
      stowed: [stow(item('sand', 400), 1, bed, { location: far })],
      cases: [loadCase('loaded', { location: far })],
    });
    for (const { location } of checkRig(result)) expect(location.declaration).toBe(RIG);
  });

  test('pass over what has no loads', () => {
    const { rig } = overloaded();
    expect(checkRig({ rig, states: [], motions: [], assumptions: [] })).toEqual([]);
    const [state] = overloaded().states;
    const bare = state && { ...state, quantities: new Map(), units: [], sources: [] };
    expect(checkRig({ rig, states: bare ? [bare] : [], motions: [], assumptions: [] })).toEqual([]);
    expect(checkRig({ rig: { ...rig, units: [hauler({ groups: [] })] }, states: [], motions: [], assumptions: [] })).toEqual([]);
  });
});

describe('assumptions', () => {
  const assumed = (text: string, location: ReturnType<typeof at>) => ({
    text,
    basis: 'the middle of the body',
    location,
  });

  test('are noted once, where they were made', () => {
    const one = assumed('height of fridge not stated: 0.72 m taken', at(RIG, 44));
    const result = { ...rigResult([truck()]), assumptions: [one, { ...one }] };
    expect(
      [...assumptions.check(result)].map(({ severity, message, location }) => [severity, message, location]),
    ).toEqual([
      ['information', 'height of fridge not stated: 0.72 m taken. Basis: the middle of the body.', at(RIG, 44)],
    ]);
  });

  test('what every computation takes is no note', () => {
    const general = { ...assumed('the coupling lets the unit roll', at(RIG, 1)), general: true };
    expect([...assumptions.check({ ...rigResult([truck()]), assumptions: [general] })]).toEqual([]);
  });

  test("a unit's own are left to the unit, those that only the rig makes are noted at its name", () => {
    const own = assumed('track not stated: 1.5 m taken', at(TRUCK, 7));
    const joint = assumed('hitch height left out', at(HAULER, 8));
    const vehicle = truck({ assumptions: [own], groups: [axle('front', 0, at(TRUCK)), axle('rear', -3.2, at(TRUCK))] });
    const result = { ...rigResult([vehicle, hauler()]), assumptions: [own, joint] };
    const [finding, ...others] = assumptions.check(result);
    expect(others).toEqual([]);
    expect(finding?.location).toEqual(at(RIG, 1));
    expect(finding?.related).toEqual([{ location: at(HAULER, 8), message: 'not stated here' }]);
    const alone = rigResult([vehicle], { standalone: true, location: vehicle.location });
    expect([...assumptions.check({ ...alone, assumptions: [own] })].map(({ location }) => location)).toEqual([
      at(TRUCK, 7),
    ]);
  });
});
