import { boxInertia, type Inertia, rodInertia, zeroInertia } from '../../mechanics/inertia.ts';
import { combine } from '../../mechanics/mass.ts';
import type { Position, Size } from '../../mechanics/vector.ts';
import type { Value } from '../../syntax/tree.ts';
import { flagOf, type ReadStatement } from '../arguments.ts';
import { lastUnit } from '../expressions.ts';
import {
  capital,
  type ReadingContext,
  readCount,
  readCounted,
  readExpression,
  readLengths,
  readMeasured,
} from '../measured.ts';
import type { Part } from '../model.ts';
import { resolveEntity } from '../names.ts';
import { locate, report } from '../scope.ts';
import { missing } from './axles.ts';
import { contextOf, entriesOf, type UnitDraft, type UnitEntry } from './draft.ts';
import { readExtents } from './extents.ts';
import type { Heights } from './heights.ts';
import type { Places } from './places.ts';

/** What one line of parts weighs: `count` pieces of `each` kg, every piece of this size. */
interface Pieces {
  readonly count: number;
  readonly each: number;
  readonly size?: Size;
  readonly inertia: Inertia;
  /** Half width given with ± behind the mass, kg, of all pieces together. */
  readonly tolerance?: number;
}

/** Fittings, panels and members, as masses with a place. */
export function readParts(draft: UnitDraft, places: Places, heights: Heights): Part[] {
  return draft.entries.flatMap((entry) => {
    const { keyword } = entry.spec;
    if (keyword !== 'fitting' && keyword !== 'panel' && keyword !== 'member') return [];
    const pieces =
      keyword === 'fitting'
        ? readFitting(draft, entry)
        : keyword === 'panel'
          ? readPanel(draft, entry)
          : readMember(draft, entry);
    const centre = centreOf(draft, entry, places, heights);
    if (pieces === undefined || centre === undefined) return [];
    const { statement } = entry.line;
    const mass = pieces.count * pieces.each;
    const tolerance = readTolerance(draft, entry, mass) ?? pieces.tolerance;
    const placeTolerance = places.of(entry).tolerance;
    return [
      {
        name: entry.name,
        kind: keyword,
        body: { mass, centre, inertia: pieces.inertia },
        location: locate(entry.line, statement.name ?? statement.head),
        ...(entry.read.text ? { title: entry.read.text.value } : {}),
        ...(statement.documentation ? { documentation: statement.documentation } : {}),
        ...(pieces.size ? { size: pieces.size } : {}),
        ...(pieces.count > 1 ? { count: pieces.count } : {}),
        ...(tolerance !== undefined ? { tolerance } : {}),
        ...(placeTolerance ? { placeTolerance } : {}),
      },
    ];
  });
}

/** The growth allowance, as a mass at the centre of gravity of the parts. */
export function readGrowth(draft: UnitDraft, parts: readonly Part[]): Part[] {
  const entry = entriesOf(draft, 'growth')[0];
  const value = entry?.read.values[0];
  if (entry === undefined) return [];
  if (value === undefined) {
    missing(draft, entry, 'its share', 'growth 3 %');
    return [];
  }
  const share = readMeasured(
    value,
    { what: 'the growth allowance', kinds: ['ratio'], sign: 'not negative' },
    contextOf(draft, entry),
  );
  const sum = combine(parts.map(({ body }) => body));
  if (share === undefined || sum.centre === undefined) return [];
  const body = { mass: sum.mass * share.value, centre: sum.centre, inertia: scaleInertia(sum.inertia, share.value) };
  return [{ name: 'growth', kind: 'growth', body, location: locate(entry.line, entry.line.statement.head) }];
}

/** The place of a thing of a unit; a missing place along the unit is reported, a missing height is noted. */
export function centreOf(draft: UnitDraft, entry: UnitEntry, places: Places, heights: Heights): Position | undefined {
  const { x, y, z, lost } = places.of(entry);
  if (x === undefined) {
    if (!entry.line.statement.broken && lost !== true) {
      const { statement } = entry.line;
      report(
        draft.scope,
        'missing-place',
        { what: capital(entry.read.what), example: `${entry.read.what} … at 2350 mm back` },
        locate(entry.line, statement.name ?? statement.head),
      );
    }
    return undefined;
  }
  return { x, y: y ?? 0, z: z ?? heights.take(entry.name) };
}

/** Half width of the mass tolerance of an entry, kg. */
export function readTolerance(draft: UnitDraft, entry: UnitEntry, mass: number): number | undefined {
  return readToleranceOf(entry.read, mass, contextOf(draft, entry));
}

/** Half width of the mass tolerance, kg, from `tolerance 2 %` or `tolerance 1 kg`. */
export function readToleranceOf(read: ReadStatement, mass: number, context: ReadingContext): number | undefined {
  const value = read.keywords.get('tolerance')?.[0];
  if (value === undefined) return undefined;
  const wanted = { what: `the tolerance of ${read.what}`, kinds: ['ratio', 'mass'], sign: 'not negative' } as const;
  const tolerance = readMeasured(value, wanted, context);
  return tolerance && (tolerance.kind === 'ratio' ? tolerance.value * mass : tolerance.value);
}

function readFitting(draft: UnitDraft, entry: UnitEntry): Pieces | undefined {
  const [value] = entry.read.values;
  if (value === undefined) {
    missing(draft, entry, 'its mass', `${entry.read.what} 12 kg at 300 mm back`);
    return undefined;
  }
  const context = contextOf(draft, entry);
  const read = readCounted(
    value,
    entry.read.what,
    { what: `the mass of ${entry.read.what}`, kinds: ['mass'], sign: 'positive', tolerance: true },
    context,
  );
  const size = readSize(draft, entry);
  if (read === undefined) return undefined;
  const { count, measured } = read;
  const inertia = size ? scaleInertia(boxInertia(measured.value, size), count) : zeroInertia();
  const tolerance = measured.tolerance === undefined ? {} : { tolerance: measured.tolerance * count };
  return { count, each: measured.value, inertia, ...tolerance, ...(size ? { size } : {}) };
}

export function readSize(draft: UnitDraft, entry: UnitEntry): Size | undefined {
  return readSizeOf(entry.read, contextOf(draft, entry));
}

/** Outer size from `size length x width x height`. */
export function readSizeOf(read: ReadStatement, context: ReadingContext): Size | undefined {
  const value = read.keywords.get('size')?.[0];
  const lengths = value && readLengths(value, `The size of ${read.what}`, [3], context);
  const [length, width, height] = lengths ?? [];
  return length !== undefined && width !== undefined && height !== undefined ? { length, width, height } : undefined;
}

function readPanel(draft: UnitDraft, entry: UnitEntry): Pieces | undefined {
  const context = contextOf(draft, entry);
  const [value] = entry.read.values;
  const perArea = readMaterial(draft, entry, 'massPerArea', 'a mass per area (kg/m²)');
  if (value === undefined) {
    missing(draft, entry, 'its length and width', `${entry.read.what} 4800 x 2040 mm of sandwich_30`);
    return undefined;
  }
  const [first, ...others] = value.factors;
  const counted = value.factors.length === 3 && first !== undefined;
  const count = counted ? readCount(first, `The count of ${entry.read.what}`, context) : 1;
  const sides: Value = counted ? { ...value, factors: others } : value;
  const [a, b] = readLengths(sides, `${capital(entry.read.what)}`, [2], context) ?? [];
  if (perArea === undefined || count === undefined || a === undefined || b === undefined) return undefined;
  const orientation = flagOf(entry.read, 'orientation') ?? 'flat';
  const size: Size =
    orientation === 'flat'
      ? { length: a, width: b, height: 0 }
      : orientation === 'lengthwise'
        ? { length: a, width: 0, height: b }
        : { length: 0, width: a, height: b };
  const each = perArea * a * b;
  return { count, each, size, inertia: scaleInertia(boxInertia(each, size), count) };
}

function readMember(draft: UnitDraft, entry: UnitEntry): Pieces | undefined {
  const context = contextOf(draft, entry);
  const perLength = readMaterial(draft, entry, 'massPerLength', 'a mass per length (kg/m)');
  const [value] = entry.read.values;
  const extents = readExtents(draft, entry);
  let count: number | undefined = 1;
  let length: number | undefined;
  if (value !== undefined) {
    const [first, second] = value.factors;
    if (first !== undefined && second !== undefined) {
      count = readCount(first, `The count of ${entry.read.what}`, context);
      length = readExpression(
        second,
        { what: `the length of ${entry.read.what}`, kinds: ['length'], sign: 'positive' },
        context,
        lastUnit(second),
      )?.value;
    } else
      length = readMeasured(
        value,
        { what: `the length of ${entry.read.what}`, kinds: ['length'], sign: 'positive' },
        context,
      )?.value;
  } else if (extents[0] !== undefined) length = extents[0].most - extents[0].least;
  else {
    missing(draft, entry, 'its length', `${entry.read.what} 4200 mm of channel_100`);
    return undefined;
  }
  if (perLength === undefined || count === undefined || length === undefined) return undefined;
  const each = perLength * length;
  const across = flagOf(entry.read, 'orientation') === 'crosswise' || (value === undefined && extents[0]?.axis === 'y');
  const span: Position = across ? { x: 0, y: length, z: 0 } : { x: length, y: 0, z: 0 };
  return { count, each, inertia: scaleInertia(rodInertia(each, span), count) };
}

function readMaterial(
  draft: UnitDraft,
  entry: UnitEntry,
  property: 'massPerArea' | 'massPerLength',
  wanted: string,
): number | undefined {
  const reference = entry.read.names.get('of')?.[0]?.reference;
  if (reference === undefined) {
    missing(draft, entry, 'its material', `${entry.read.what} … of sandwich_30`);
    return undefined;
  }
  const material = resolveEntity(draft.scope, entry.line, reference, 'material', 'material');
  if (material === undefined) return undefined;
  const value = material[property];
  if (value === undefined) {
    report(
      draft.scope,
      'wrong-kind',
      { name: material.name, found: `a material without ${wanted}`, wanted: `a material with ${wanted}` },
      locate(entry.line, reference),
    );
  }
  return value;
}

/** Inertia of `factor` times the mass in the same shape and place. */
export function scaleInertia(inertia: Inertia, factor: number): Inertia {
  const { xx, yy, zz, xy, xz, yz } = inertia;
  return { xx: xx * factor, yy: yy * factor, zz: zz * factor, xy: xy * factor, xz: xz * factor, yz: yz * factor };
}
