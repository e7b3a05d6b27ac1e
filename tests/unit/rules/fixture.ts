import type { Location } from '../../../language/diagnostics/finding.ts';
import { pointBody } from '../../../language/mechanics/mass.ts';
import { evaluateRig } from '../../../language/semantics/evaluate.ts';
import type {
  AxleGroup,
  CaseModel,
  Item,
  Locker,
  Part,
  RigModel,
  Stowed,
  Tank,
  UnitModel,
} from '../../../language/semantics/model.ts';
import type { RigResult } from '../../../language/semantics/state.ts';
import type { Declaration } from '../../../language/syntax/tree.ts';

/** Rigs written out as values, not read from a file: what the rules are tried on. */

export const declared = (text: string): Declaration => ({ text, problems: [] });

export const RIG = declared('rig');
export const TRUCK = declared('truck');
export const HAULER = declared('hauler');
export const ITEMS = declared('items');

export const at = (declaration: Declaration, start = 0): Location => ({ declaration, span: { start, end: start + 1 } });

export function tare(mass: number, x: number, location: Location, z = 0.6): Part {
  return { name: 'tare', kind: 'tare', body: pointBody(mass, { x, y: 0, z }), location };
}

export function axle(name: string, x: number, location: Location, more: Partial<AxleGroup> = {}): AxleGroup {
  const axles = more.axles ?? [{ x, track: 1.5 }];
  return { name, axles, x, suspension: 'equalised', steered: false, location, ...more };
}

/** A vehicle of 2120 kg, 1180 kg of it on the front axle; wheelbase 3.2 m, hitch 1.15 m behind. */
export function truck(more: Partial<UnitModel> = {}): UnitModel {
  return {
    kind: 'vehicle',
    name: 'Truck',
    groups: [axle('front', 0, at(TRUCK, 10)), axle('rear', -3.2, at(TRUCK, 20))],
    hitch: { kind: 'ball', x: -4.35, z: 0.43, location: at(TRUCK, 30) },
    brakes: 'overrun',
    parts: [tare(2120, (-940 * 3.2) / 2120, at(TRUCK, 40))],
    tanks: [],
    lockers: [],
    seats: [],
    unreadable: [],
    limits: {},
    requirements: [],
    cases: [],
    weighings: [],
    assumptions: [],
    computable: true,
    location: at(TRUCK, 1),
    levels: [],
    ...more,
  };
}

/** A trailer of 240 kg on one axle 2.6 m behind its coupling, which carries 240 · 0.2 / 2.6 kg. */
export function hauler(more: Partial<UnitModel> = {}): UnitModel {
  return {
    kind: 'trailer',
    name: 'Hauler',
    groups: [axle('axles', -2.6, at(HAULER, 10))],
    coupling: { kind: 'ball', x: 0, z: 0.43, location: at(HAULER, 20) },
    brakes: 'overrun',
    parts: [tare(240, -2.4, at(HAULER, 40))],
    tanks: [],
    lockers: [],
    seats: [],
    unreadable: [],
    limits: {},
    requirements: [],
    cases: [],
    weighings: [],
    assumptions: [],
    computable: true,
    location: at(HAULER, 1),
    levels: [],
    ...more,
  };
}

export function locker(name: string, x: number, more: Partial<Locker> = {}): Locker {
  return { name, centre: { x, y: 0, z: 0.5 }, location: at(HAULER, 50), ...more };
}

/** A point tank of water. */
export function tank(name: string, content: number, x: number, more: Partial<Tank> = {}): Tank {
  return {
    name,
    fluid: { name: 'water', density: 1000, source: 'test' },
    capacity: content / 1000,
    content,
    empty: 0,
    shape: { kind: 'point' },
    centre: { x, y: 0, z: 0.5 },
    location: at(HAULER, 60),
    ...more,
  };
}

export function item(name: string, mass: number, more: Partial<Item> = {}): Item {
  return { name, mass, tags: [], location: at(ITEMS), ...more };
}

export function stow(thing: Item, unit: number, where: Locker, more: Partial<Stowed> = {}): Stowed {
  const z = where.centre.z + (thing.size?.height ?? 0) / 2;
  return { item: thing, count: 1, unit, locker: where, centre: { ...where.centre, z }, location: at(RIG, 70), ...more };
}

export function loadCase(name: string, more: Partial<CaseModel> = {}): CaseModel {
  return { name, levels: new Map(), absent: new Set(), stowed: [], location: at(RIG, 80), ...more };
}

export const level = (value: number, location = at(RIG, 90)) => ({ value, least: value, most: value, location });

/** A rig of these units, in a case `loaded` unless said otherwise, with its states. */
export function rigResult(units: readonly UnitModel[], more: Partial<RigModel> = {}): RigResult {
  const result = evaluateRig({
    name: 'Delivery',
    standalone: false,
    markets: [],
    units,
    occupants: [],
    stowed: [],
    weighings: [],
    cases: [loadCase('loaded')],
    requirements: [],
    assumptions: [],
    location: at(RIG, 1),
    levels: [],
    ...more,
  });
  if ('problem' in result) throw new Error(`no loads: ${result.problem}`);
  return result;
}
