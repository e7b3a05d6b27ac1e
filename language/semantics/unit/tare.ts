import { boxInertia, type Inertia, zeroInertia } from '../../mechanics/inertia.ts';
import type { Value } from '../../syntax/tree.ts';
import { INERTIA } from '../../units/dimension.ts';
import { formatLength, formatMass, formatValue } from '../../units/display.ts';
import { systemOf } from '../display-system.ts';
import { readMeasured } from '../measured.ts';
import type { AxleGroup, BodyOutline, Part } from '../model.ts';
import { nameOf } from '../names.ts';
import { assume, locate, report } from '../scope.ts';
import { missing } from './axles.ts';
import { contextOf, entriesOf, type UnitDraft, type UnitEntry } from './draft.ts';
import type { Heights } from './heights.ts';
import { readTolerance } from './parts.ts';
import type { Places } from './places.ts';
import { placeByReadings } from './readings.ts';

/** Mass and place along the unit of a tare, however it was stated. */
interface TareMass {
  readonly mass: number;
  readonly x: number;
  /** Half width given with ± behind the mass or the readings, kg. */
  readonly tolerance?: number;
}

/** The tare of a unit as one mass, or undefined where the unit is a roll-up of its parts. */
export function readTare(
  draft: UnitDraft,
  places: Places,
  heights: Heights,
  groups: readonly AxleGroup[],
  body: BodyOutline | undefined,
): Part | undefined {
  const entry = entriesOf(draft, 'tare')[0];
  if (entry === undefined) return undefined;
  const readings = entry.read.directed.filter((value) => value.direction?.word.text === 'on');
  const found = readings.length > 0 ? fromReadings(draft, entry, readings, groups) : fromPlace(draft, entry, places);
  if (found === undefined) return undefined;
  const { y, z } = places.of(entry);
  const centre = { x: found.x, y: y ?? 0, z: z ?? heights.take('tare') };
  const tolerance = readTolerance(draft, entry, found.mass) ?? found.tolerance;
  const placeTolerance = places.of(entry).tolerance;
  return {
    name: 'tare',
    kind: 'tare',
    body: { mass: found.mass, centre, inertia: readInertia(draft, entry, found, groups, body) },
    location: locate(entry.line, entry.line.statement.head),
    ...(tolerance !== undefined ? { tolerance } : {}),
    ...(placeTolerance ? { placeTolerance } : {}),
  };
}

function fromPlace(draft: UnitDraft, entry: UnitEntry, places: Places): TareMass | undefined {
  const [value] = entry.read.values;
  const word = entry.line.statement.head.text;
  if (value === undefined) {
    missing(draft, entry, 'its mass', `${word} 1385 kg at 3205 mm back, 720 mm up`);
    return undefined;
  }
  const mass = readMeasured(
    value,
    { what: 'the tare', kinds: ['mass'], sign: 'positive', tolerance: true },
    contextOf(draft, entry),
  );
  const { x } = places.of(entry);
  if (x === undefined) {
    unclear(
      draft,
      entry,
      `it says a mass but not where it acts; add a place ('at 3205 mm back') or readings ('1260 kg on ${draft.kind === 'trailer' ? 'axles, 125 kg on coupling' : 'front, 940 kg on rear'}')`,
    );
    return undefined;
  }
  return mass && { mass: mass.value, x, ...(mass.tolerance === undefined ? {} : { tolerance: mass.tolerance }) };
}

/** `1260 kg on axles, 125 kg on coupling`: one reading for each support gives mass and place by moments. */
function fromReadings(
  draft: UnitDraft,
  entry: UnitEntry,
  readings: readonly Value[],
  groups: readonly AxleGroup[],
): TareMass | undefined {
  const onCoupling = draft.kind === 'trailer' && !groups.some(({ steered }) => steered);
  const needed = new Set([...groups.map(({ name }) => name), ...(onCoupling ? ['coupling'] : [])]);
  if (groups.length === 0) return undefined; // reported as a unit without axles
  const context = contextOf(draft, entry);
  let mass = 0;
  let tolerance: number | undefined;
  const read = new Map<string, number>();
  for (const value of readings) {
    const datum = value.direction?.datum;
    const name = datum === undefined ? '' : nameOf(datum);
    if (!needed.has(name) || read.has(name)) {
      unclear(
        draft,
        entry,
        !needed.has(name)
          ? `'${name}' is no support of it; its supports are ${[...needed].join(', ')}`
          : `'${name}' has two readings`,
        value,
      );
      return undefined;
    }
    const reading = readMeasured(
      value,
      {
        what: `the reading on ${name}`,
        kinds: ['mass'],
        sign: name === 'coupling' ? 'any' : 'not negative',
        tolerance: true,
      },
      context,
    );
    if (reading === undefined) return undefined;
    mass += reading.value;
    read.set(name, reading.value);
    if (reading.tolerance !== undefined) tolerance = (tolerance ?? 0) + reading.tolerance;
  }
  const left = [...needed].filter((name) => !read.has(name));
  if (left.length > 0) {
    if (!draft.broken) unclear(draft, entry, `a reading is missing: on ${left.join(', on ')}`);
    return undefined;
  }
  if (!(mass > 0)) {
    unclear(draft, entry, 'its readings add up to nothing');
    return undefined;
  }
  const place = placeByReadings(groups, onCoupling, read);
  if (place === undefined) return undefined;
  const { worst } = place;
  if (Math.abs(worst.read - worst.computed) > Math.max(LEAST_CONTRADICTION, CONTRADICTION * mass)) {
    unclear(
      draft,
      entry,
      `its readings do not go with its springs: ${formatMass(worst.read)} read on ${worst.name}, ${formatMass(worst.computed)} computed; correct a reading or a rate, or give a mass and its place`,
    );
    return undefined;
  }
  return { mass, x: place.x, ...(tolerance === undefined ? {} : { tolerance }) };
}

/** How far a reading may be from what the others and the springs make of it: kg, and as a share of the mass. */
const LEAST_CONTRADICTION = 1;
const CONTRADICTION = 0.005;

function unclear(
  draft: UnitDraft,
  entry: UnitEntry,
  problem: string,
  span: { start: number; end: number } = entry.line.statement.head,
): void {
  if (!entry.line.statement.broken)
    report(draft.scope, 'unclear-tare', { unit: draft.name, problem }, locate(entry.line, span));
}

/** Yaw inertia about the own centre of gravity: stated, by radius of gyration, or estimated and listed as such. */
function readInertia(
  draft: UnitDraft,
  entry: UnitEntry,
  { mass, x }: TareMass,
  groups: readonly AxleGroup[],
  body: BodyOutline | undefined,
): Inertia {
  const context = contextOf(draft, entry);
  const stated = entry.read.keywords.get('inertia')?.[0];
  const gyration = entry.read.keywords.get('gyration')?.[0];
  const box = boxOf(mass, body);
  if (stated !== undefined) {
    const read = readMeasured(
      stated,
      { what: `the yaw inertia of ${draft.name}`, kinds: ['moment of inertia'], sign: 'positive' },
      context,
    );
    if (read !== undefined) return { ...box, zz: read.value };
  }
  if (gyration !== undefined) {
    const read = readMeasured(
      gyration,
      { what: `the radius of gyration of ${draft.name}`, kinds: ['length'], sign: 'positive' },
      context,
    );
    if (read !== undefined) return { ...box, zz: mass * read.value ** 2 };
  }
  const { radius, basis } = estimateGyration(draft.kind, x, groups, body);
  const system = systemOf(draft.scope.declaration);
  const inertia = formatValue(mass * radius ** 2, INERTIA, system);
  assume(
    draft.scope,
    `yaw inertia of the tare of ${draft.name} not stated: radius of gyration ${formatLength(radius, system)} taken (${inertia})`,
    basis,
    locate(entry.line, entry.line.statement.head),
  );
  return { ...box, zz: mass * radius ** 2 };
}

function boxOf(mass: number, body: BodyOutline | undefined): Inertia {
  if (body?.width === undefined || body.bottom === undefined || body.top === undefined) return zeroInertia();
  return boxInertia(mass, { length: body.front - body.rear, width: body.width, height: body.top - body.bottom });
}

/** Yaw radius of gyration, m, where the file does not say it. */
function estimateGyration(
  kind: 'vehicle' | 'trailer',
  x: number,
  groups: readonly AxleGroup[],
  body: BodyOutline | undefined,
): { radius: number; basis: string } {
  if (body !== undefined) {
    const length = body.front - body.rear;
    return {
      radius: Math.sqrt((length ** 2 + (body.width ?? 0) ** 2) / 12),
      basis: 'estimated as a uniform box of the body outline',
    };
  }
  const front = groups[0]?.x ?? 0;
  const rear = groups[groups.length - 1]?.x ?? 0;
  if (kind === 'vehicle') {
    const product = (front - x) * (x - rear);
    if (product > 0)
      return {
        radius: Math.sqrt(product),
        basis:
          'estimated from the distances a, b of the axles from the centre of gravity: k² = a·b (common practice, no source)',
      };
  }
  return {
    radius: 0.3 * Math.max(Math.abs(rear), 1),
    basis: 'estimated as 0.3 of the distance from the coupling to the rear axle (common practice, no source)',
  };
}
