import type { PlaceTolerance } from '../mechanics/envelope.ts';
import type { Position } from '../mechanics/vector.ts';
import type { CountedReference, Reference } from '../syntax/tree.ts';
import { parseNumber } from '../units/quantity.ts';
import type { ReadStatement } from './arguments.ts';
import { loneReference } from './expressions.ts';
import { isUnreadable } from './left-out.ts';
import { MOST_COUNTED, type ReadingContext, readMeasured, type Wanted } from './measured.ts';
import type { Item, Locker, Stowed, UnitModel } from './model.ts';
import { nameOf, reportUnknown, resolveEntity } from './names.ts';
import { locate, report } from './scope.ts';
import { stepOf } from './unit/directions.ts';

/** Where a `stow` line puts things: a unit, perhaps a locker of it. */
interface Stowage {
  readonly unit: number;
  readonly locker?: Locker;
}

/** Reads `stow 2 x gas_bottle, awning in TourerB.boot`. */
export function readStow(read: ReadStatement, units: readonly UnitModel[], context: ReadingContext): Stowed[] {
  const { scope, line } = context;
  const where = read.names.get('in')?.[0]?.reference;
  if (where === undefined) {
    if (!line.statement.broken)
      report(
        scope,
        'missing-part',
        { what: 'stow', part: 'where', example: 'stow awning in Tourer.boot' },
        locate(line, line.statement.head),
      );
    return [];
  }
  const second = read.names.get('in')?.[1];
  if (second !== undefined) {
    const accepted = 'one place; write a line for each';
    report(scope, 'unexpected-part', { part: 'second place', head: 'stow', accepted }, locate(line, second));
  }
  const stowage = findStowage(where, units, context);
  const stated = stowage && readPlace(read, units[stowage.unit], context);
  return line.statement.objects.flatMap((object) => {
    const entity = resolveEntity(scope, line, object.reference, 'item', 'item');
    const count = readItemCount(object, context);
    if (entity === undefined || count === undefined || stowage === undefined || stated === undefined) return [];
    const base = stowage.locker?.centre;
    const { place, tolerance } = stated;
    const x = place.x ?? base?.x;
    if (x === undefined) {
      const example = `stow ${entity.item.name} in ${nameOf(where)} at 1200 mm back, 500 mm up`;
      report(scope, 'missing-place', { what: `${entity.item.name} in ${nameOf(where)}`, example }, locate(line, where));
      return [];
    }
    const half = (entity.item.size?.height ?? 0) / 2;
    const centre: Position = { x, y: place.y ?? base?.y ?? 0, z: place.z ?? (base?.z ?? 0) + half };
    return [
      {
        item: entity.item,
        count,
        unit: stowage.unit,
        centre,
        location: locate(line, object),
        ...(stowage.locker ? { locker: stowage.locker } : {}),
        ...(tolerance ? { placeTolerance: tolerance } : {}),
      },
    ];
  });
}

function readItemCount({ count }: CountedReference, { scope, line }: ReadingContext): number | undefined {
  if (count === undefined) return 1;
  const value = parseNumber(count.number.text);
  if (
    value === undefined ||
    count.unit !== undefined ||
    !Number.isInteger(value) ||
    value < 1 ||
    value > MOST_COUNTED
  ) {
    report(
      scope,
      'not-whole',
      { what: 'The count', found: `${count.number.text}${count.unit ? ` ${count.unit.text}` : ''}` },
      locate(line, count),
    );
    return undefined;
  }
  return value;
}

function findStowage(reference: Reference, units: readonly UnitModel[], context: ReadingContext): Stowage | undefined {
  const path = reference.path.map(({ text }) => text);
  const [first = '', ...others] = path;
  const unit = units.findIndex(({ name }) => name === first);
  if (unit >= 0) {
    if (others.length === 0) return { unit };
    const locker = units[unit]?.lockers.find(({ name }) => name === others.join('.'));
    if (locker !== undefined) return { unit, locker };
    if (isUnreadable(reference, units, context.line, context.scope)) return undefined;
    const lockers = units[unit]?.lockers.map(({ name }) => `${first}.${name}`) ?? [];
    if (units[unit]?.computable !== false || lockers.length > 0)
      reportUnknown(context.scope, context.line, reference, `locker of ${first}`, lockers);
    return undefined;
  }
  const found = units.flatMap(({ lockers }, index) =>
    lockers.filter(({ name }) => name === path.join('.')).map((locker) => ({ unit: index, locker })),
  );
  if (found.length === 1) return found[0];
  if (found.length === 0 && isUnreadable(reference, units, context.line, context.scope)) return undefined;
  const all = units.flatMap(({ name, lockers }) => [name, ...lockers.map((locker) => `${name}.${locker.name}`)]);
  reportUnknown(
    context.scope,
    context.line,
    reference,
    found.length > 1 ? 'single locker (name the unit too)' : 'unit or locker of this rig',
    all,
  );
  return undefined;
}

/** A place as far as a line states it, m; with the half widths of its tolerances. */
interface StatedPlace {
  readonly place: Partial<Position>;
  readonly tolerance?: PlaceTolerance;
}

/** The place a line states, in the frame of a finished unit; named things of the unit may be its datum. */
function readPlace(read: ReadStatement, unit: UnitModel | undefined, context: ReadingContext): StatedPlace | undefined {
  const { scope, line } = context;
  const place: { -readonly [K in keyof Position]?: Position[K] } = {};
  const tolerance: { -readonly [K in keyof Position]?: Position[K] } = {};
  let complete = true;
  for (const value of read.at) {
    const reference = loneReference(value.factors[0]);
    const base = reference && thingPlace(reference, unit, context);
    if (base === undefined) complete = false;
    else Object.assign(place, base);
    if (reference === undefined) {
      report(
        scope,
        'unexpected-part',
        {
          part: 'place without a direction',
          head: 'stow',
          accepted: "distances with 'back', 'left', 'up' …, or the name of a thing",
        },
        locate(line, value),
      );
    }
  }
  for (const value of read.directed) {
    const { direction } = value;
    const step = direction && stepOf(direction.word.text);
    if (direction === undefined || step === undefined) continue;
    const from = direction.datum === undefined ? 0 : thingPlace(direction.datum, unit, context)?.[step.axis];
    const wanted: Wanted = { what: 'the place', kinds: ['length'], sign: 'any', tolerance: true };
    const distance = readMeasured(value, wanted, context);
    if (direction.datum !== undefined && from === undefined && thingNamed(direction.datum, unit) !== undefined) {
      const what = nameOf(direction.datum);
      const example = 'stow awning in Tourer at 1200 mm back, 500 mm up';
      report(scope, 'missing-part', { what, part: 'a height to count from', example }, locate(line, direction.datum));
    }
    if (from === undefined || distance === undefined) complete = false;
    else {
      place[step.axis] = from + step.sign * distance.value;
      if (distance.tolerance !== undefined) tolerance[step.axis] = distance.tolerance;
    }
  }
  if (!complete) return undefined;
  return { place, ...(Object.keys(tolerance).length > 0 ? { tolerance } : {}) };
}

function thingPlace(
  reference: Reference,
  unit: UnitModel | undefined,
  context: ReadingContext,
): Partial<Position> | undefined {
  const found = thingNamed(reference, unit);
  if (found === undefined) {
    const known = placesIn(unit).keys();
    reportUnknown(context.scope, context.line, reference, `thing of ${unit?.name ?? 'the unit'}`, known);
  }
  return found;
}

function thingNamed(reference: Reference, unit: UnitModel | undefined): Partial<Position> | undefined {
  return placesIn(unit).get(nameOf(reference));
}

type Places = ReadonlyMap<string, Partial<Position>>;

const NO_PLACES: Places = new Map();
const placesOf = new WeakMap<UnitModel, Places>();

/** The places of the named things of a finished unit, gathered once. */
function placesIn(unit: UnitModel | undefined): Places {
  if (unit === undefined) return NO_PLACES;
  let places = placesOf.get(unit);
  if (places === undefined) {
    places = gatherPlaces(unit);
    placesOf.set(unit, places);
  }
  return places;
}

function gatherPlaces(unit: UnitModel): Places {
  const places = new Map<string, Partial<Position>>();
  for (const { name: part, body } of unit.parts) places.set(part, body.centre);
  for (const thing of [...unit.tanks, ...unit.lockers, ...unit.seats]) places.set(thing.name, thing.centre);
  for (const group of unit.groups) places.set(group.name, { x: group.x, y: 0 });
  if (unit.coupling !== undefined) places.set('coupling', { x: unit.coupling.x, y: 0, z: unit.coupling.z });
  if (unit.hitch !== undefined) places.set('hitch', { x: unit.hitch.x, y: 0, z: unit.hitch.z });
  return places;
}

/** Names of items, for `absent`. */
export function itemNames(stowed: readonly Stowed[]): readonly string[] {
  return [...new Set(stowed.map(({ item }: { item: Item }) => item.name))];
}
