import type { Reference } from '../../syntax/tree.ts';
import { loneReference } from '../expressions.ts';
import { readMeasured } from '../measured.ts';
import { describeCircle, nameOf, reportUnknown } from '../names.ts';
import { inOrder, wayBack } from '../ordering.ts';
import { locate, report } from '../scope.ts';
import { type Axis, stepOf } from './directions.ts';
import { contextOf, type UnitDraft, type UnitEntry } from './draft.ts';
import { readExtents } from './extents.ts';
import type { Heights } from './heights.ts';

/** Lines whose places may have tolerances: what has a mass of its own. */
const TOLERANCED: ReadonlySet<string> = new Set(['fitting', 'panel', 'member', 'tare', 'tank', 'seat']);

/** A place as far as it is stated: m in the unit's frame; with the half widths of its tolerances. */
export interface PartialPlace {
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
  readonly tolerance?: { readonly x?: number; readonly y?: number; readonly z?: number };
  /** An error that has been reported leaves it without the place it states, or without that of what it is counted from. */
  readonly lost?: boolean;
}

const AXIS_WORDS: Readonly<Record<Axis, string>> = { x: 'along the unit', y: 'across the unit', z: 'up' };

/** Finds places of the named things of a unit, each once; things placed from each other are followed. */
export interface Places {
  of(entry: UnitEntry): PartialPlace;
  /** Things are placed from each other in a circle (reported): loads would be wrong. */
  readonly circular: () => boolean;
}

export function createPlaces(
  draft: UnitDraft,
  datums: ReadonlyMap<string, PartialPlace>,
  heights: Heights,
  fixed: (entry: UnitEntry) => PartialPlace,
): Places {
  const known = new Map<UnitEntry, PartialPlace>();
  let circles = false;

  /** Settles what the entry is counted from first, so that no length of chain exhausts the stack. */
  const of = (entry: UnitEntry): PartialPlace => {
    if (!known.has(entry)) {
      for (const { members, circular } of inOrder([entry], unsettled)) {
        if (circular) reportCircle(members);
        for (const member of members) known.set(member, circular ? { lost: true } : resolve(member));
      }
    }
    return known.get(entry) ?? {};
  };

  /** What an entry is counted from: its group and the things its line names. */
  const bases = (entry: UnitEntry): UnitEntry[] => {
    const placing = [...entry.read.directed, ...(entry.read.keywords.get('from') ?? [])];
    const references = [
      ...entry.read.at.flatMap(({ factors }) => loneReference(factors[0]) ?? []),
      ...placing.flatMap(({ direction }) =>
        direction?.datum !== undefined && stepOf(direction.word.text) !== undefined ? [direction.datum] : [],
      ),
    ];
    return [...(entry.group ? [entry.group] : []), ...references.flatMap((name) => entryOf(entry, name) ?? [])];
  };
  const unsettled = (entry: UnitEntry): UnitEntry[] => bases(entry).filter((base) => !known.has(base));

  const reportCircle = (members: readonly UnitEntry[]): void => {
    circles = true;
    const first = members.reduce((a, b) => (draft.entries.indexOf(b) < draft.entries.indexOf(a) ? b : a));
    const cycle = describeCircle((wayBack(first, unsettled) ?? []).map(({ name }) => name));
    const { statement } = first.line;
    report(draft.scope, 'place-cycle', { cycle }, locate(first.line, statement.name ?? statement.head));
  };

  const entryOf = (entry: UnitEntry, reference: Reference): UnitEntry | undefined => {
    const name = nameOf(reference);
    for (let { group } = entry; group !== undefined; group = group.group) {
      const found = draft.byName.get(`${group.name}.${name}`);
      if (found !== undefined) return found;
    }
    return draft.byName.get(name);
  };

  const thing = (entry: UnitEntry, reference: Reference): PartialPlace | undefined => {
    const found = entryOf(entry, reference);
    if (found !== undefined) return of(found);
    const name = nameOf(reference);
    const datum = datums.get(name);
    if (datum !== undefined) return datum;
    reportUnknown(draft.scope, entry.line, reference, 'thing of this unit', [...draft.byName.keys(), ...datums.keys()]);
    return undefined;
  };

  /** Where distances along an axis start: at a named thing, else at the group. Undefined where its place is not known. */
  const startOf = (
    entry: UnitEntry,
    datum: Reference | undefined,
    axis: Axis,
    origin: PartialPlace,
  ): number | undefined => {
    if (datum === undefined) return origin[axis] ?? 0;
    const place = thing(entry, datum);
    const known = place?.[axis];
    if (known !== undefined || place === undefined || place.lost === true || axis === 'x') return known;
    return axis === 'z' ? heights.take(nameOf(datum)) : 0;
  };

  const resolve = (entry: UnitEntry): PartialPlace => {
    const { read } = entry;
    const context = contextOf(draft, entry);
    const origin = entry.group === undefined ? {} : of(entry.group);
    const place: { -readonly [K in Axis]?: number } = {};
    const tolerance: { -readonly [K in Axis]?: number } = {};
    let base: PartialPlace = {};
    let lost = origin.lost === true;
    const set = (axis: Axis, value: number, half: number | undefined, span: { start: number; end: number }) => {
      if (place[axis] !== undefined) {
        report(
          draft.scope,
          'repeated-direction',
          { what: read.what, axis: AXIS_WORDS[axis] },
          locate(entry.line, span),
        );
        return;
      }
      place[axis] = value;
      if (half !== undefined) tolerance[axis] = half;
    };
    for (const value of read.at) {
      const reference = loneReference(value.factors[0]);
      if (reference === undefined) {
        if (entry.spec.keyword === 'axles') continue; // the pressure of the tyres
        report(
          draft.scope,
          'unexpected-part',
          {
            part: 'place without a direction',
            head: read.what,
            accepted: "distances with 'back', 'ahead', 'left', 'right', 'up' or 'down', or the name of a thing",
          },
          locate(entry.line, value),
        );
        lost = true;
      } else {
        base = thing(entry, reference) ?? { lost: true };
        lost ||= base.lost === true;
      }
    }
    for (const value of read.directed) {
      const direction = value.direction;
      const step = direction && stepOf(direction.word.text);
      if (direction === undefined || step === undefined) continue; // `on`: a reading, not a place
      const from = startOf(entry, direction.datum, step.axis, origin);
      const distance = readMeasured(
        value,
        {
          what: `the place of ${read.what}`,
          kinds: ['length'],
          sign: 'any',
          tolerance: TOLERANCED.has(entry.spec.keyword),
        },
        context,
      );
      if (from === undefined || distance === undefined) lost = true;
      else set(step.axis, from + step.sign * distance.value, distance.tolerance, value);
    }
    const extents = readExtents(draft, entry);
    lost ||= extents.length < (read.keywords.get('from')?.length ?? 0);
    for (const { axis, least, most, datum, value } of extents) {
      const from = startOf(entry, datum, axis, origin);
      if (from === undefined) lost = true;
      else set(axis, from + (standsOn(entry, axis) ? least : (least + most) / 2), undefined, value);
    }
    const merged = { ...withoutTolerance(origin), ...withoutTolerance(base), ...fixed(entry), ...place };
    return {
      ...merged,
      ...(Object.keys(tolerance).length > 0 ? { tolerance } : {}),
      ...(lost ? { lost } : {}),
    };
  };

  return { of, circular: () => circles };
}

/** The place of a locker is the middle of its floor, which things stand on: the lower end of an extent upward. */
function standsOn({ spec }: UnitEntry, axis: Axis): boolean {
  return spec.keyword === 'locker' && axis === 'z';
}

/** Places that have a name without a line of their own: the axles that `wheelbase` gives, the trailer's datum. */
export function impliedPlaces(
  kind: 'vehicle' | 'trailer',
  wheelbase: number | undefined,
): ReadonlyMap<string, PartialPlace> {
  if (kind === 'trailer') return new Map([['coupling', { x: 0, y: 0 }]]);
  const front: [string, PartialPlace] = ['front', { x: 0, y: 0 }];
  return new Map(wheelbase === undefined ? [front] : [front, ['rear', { x: -wheelbase, y: 0 }]]);
}

function withoutTolerance({ x, y, z }: PartialPlace): PartialPlace {
  return { ...(x !== undefined ? { x } : {}), ...(y !== undefined ? { y } : {}), ...(z !== undefined ? { z } : {}) };
}
