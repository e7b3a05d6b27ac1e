import { findFluid, nearestFluid } from '../../catalogue/fluids.ts';
import type { TankShape } from '../../mechanics/tank.ts';
import { DENSITY, VOLUME } from '../../units/dimension.ts';
import { formatShare, formatValue } from '../../units/display.ts';
import { flagOf } from '../arguments.ts';
import { systemOf } from '../display-system.ts';
import { capital, type Measured, readMeasured, type Wanted } from '../measured.ts';
import type { LevelRange, Tank } from '../model.ts';
import { nameOf, reportUnknown, resolveEntity } from '../names.ts';
import { assume, locate, report, type Scope } from '../scope.ts';
import { missing } from './axles.ts';
import { contextOf, entriesOf, type UnitDraft, type UnitEntry } from './draft.ts';
import type { Heights } from './heights.ts';
import { centreOf, readSize, readTolerance } from './parts.ts';
import type { Places } from './places.ts';

/** A stated capacity may exceed the volume of the stated size by this share: walls, roundings. */
const VOLUME_SLACK = 0.02;

export function readTanks(draft: UnitDraft, places: Places, heights: Heights): Tank[] {
  return entriesOf(draft, 'tank').flatMap((entry) => readTank(draft, entry, places, heights) ?? []);
}

function readTank(draft: UnitDraft, entry: UnitEntry, places: Places, heights: Heights): Tank | undefined {
  const { read, line } = entry;
  const context = contextOf(draft, entry);
  const [value] = read.values;
  const centre = centreOf(draft, entry, places, heights);
  const placeTolerance = places.of(entry).tolerance;
  const fluid = readFluid(draft, entry);
  const shape = readShape(draft, entry);
  const emptyValue = read.keywords.get('empty')?.[0];
  const empty =
    emptyValue &&
    readMeasured(
      emptyValue,
      { what: `the empty mass of ${read.what}`, kinds: ['mass'], sign: 'not negative' },
      context,
    );
  const level = readLevel(draft, entry);
  if (value === undefined) {
    missing(draft, entry, 'its content when full', `${read.what} 95 L of water at 2600 mm back`);
    return undefined;
  }
  const content = readMeasured(
    value,
    { what: `the content of ${read.what}`, kinds: ['volume', 'mass'], sign: 'positive', tolerance: true },
    context,
  );
  if (content === undefined || centre === undefined || fluid === undefined) return undefined;
  const full = content.kind === 'volume' ? content.value * fluid.density : content.value;
  const tolerance = readTolerance(draft, entry, full) ?? massTolerance(content, fluid.density);
  const byVolume = content.kind === 'volume';
  const capacity = byVolume ? content.value : content.value / fluid.density;
  const inside = volumeOf(shape);
  if (inside !== undefined && capacity > inside * (1 + VOLUME_SLACK)) {
    report(
      draft.scope,
      'out-of-range',
      {
        what: capital(`the content of ${read.what}`),
        wanted: `at most what its size holds, ${formatValue(inside, VOLUME)}`,
        found: formatValue(capacity, VOLUME),
      },
      locate(line, value),
    );
  }
  const { statement } = line;
  // A content given as a mass is the rated fill; the vessel's head space is then already left.
  const { maximumFill, ...rated } = fluid;
  return {
    name: entry.name,
    fluid: byVolume && maximumFill !== undefined ? { ...rated, maximumFill } : rated,
    capacity,
    content: capacity * fluid.density,
    ...(tolerance !== undefined ? { tolerance } : {}),
    ...(placeTolerance ? { placeTolerance } : {}),
    empty: empty?.value ?? 0,
    shape,
    centre,
    location: locate(line, statement.name ?? statement.head),
    ...(read.text ? { title: read.text.value } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
    ...(level ? { level } : {}),
  };
}

/** The tolerance given with ± behind the content, kg. */
function massTolerance({ kind, tolerance }: Measured, density: number): number | undefined {
  return tolerance === undefined ? undefined : kind === 'volume' ? tolerance * density : tolerance;
}

function readFluid(draft: UnitDraft, entry: UnitEntry): Tank['fluid'] | undefined {
  const reference = entry.read.names.get('of')?.[0]?.reference;
  if (reference === undefined) {
    const water = findFluid('water');
    if (water === undefined) return undefined;
    assume(
      draft.scope,
      `fluid of ${entry.read.what} of ${draft.name} not stated: water, ${formatValue(water.density, DENSITY, systemOf(draft.scope.declaration))}, taken`,
      water.source,
      locate(entry.line, entry.line.statement.name ?? entry.line.statement.head),
    );
    return { name: 'water', density: water.density, source: water.source };
  }
  const name = nameOf(reference);
  const declared = draft.scope.find(entry.line.uri, name);
  const builtIn = findFluid(name);
  if (declared === undefined && builtIn !== undefined) {
    const { density, source, maximumFill } = builtIn;
    return { name: builtIn.name, density, source, ...(maximumFill !== undefined ? { maximumFill } : {}) };
  }
  if (declared === undefined) {
    const nearest = nearestFluid(name);
    reportUnknown(draft.scope, entry.line, reference, 'fluid', [
      ...(nearest ? [nearest] : []),
      ...draft.scope.visibleNames(entry.line.uri),
    ]);
    return undefined;
  }
  const entity = resolveEntity(draft.scope, entry.line, reference, 'fluid', 'fluid');
  return entity && { name: entity.name, density: entity.density, source: 'stated in the file' };
}

function readShape(draft: UnitDraft, entry: UnitEntry): TankShape {
  const context = contextOf(draft, entry);
  const size = readSize(draft, entry);
  const read = (keyword: 'diameter' | 'length' | 'height'): number | undefined => {
    const value = entry.read.keywords.get(keyword)?.[0];
    return (
      value &&
      readMeasured(
        value,
        { what: `the ${keyword} of ${entry.read.what}`, kinds: ['length'], sign: 'positive' },
        context,
      )?.value
    );
  };
  const [diameter, length, height] = [read('diameter'), read('length'), read('height')];
  const kind = flagOf(entry.read, 'shape');
  const orientation = flagOf(entry.read, 'orientation');
  const turned = entry.read.flags.get('orientation');
  if (turned !== undefined && kind !== 'lying') {
    const accepted = `'lying ${turned.text}' with a diameter and a length`;
    report(
      draft.scope,
      'unexpected-part',
      { part: `'${turned.text}' alone`, head: entry.read.what, accepted },
      locate(entry.line, turned),
    );
  }
  if (size !== undefined) return { kind: 'box', size };
  if (kind === undefined && diameter === undefined) return { kind: 'point' };
  const isLying = kind === undefined ? length !== undefined && height === undefined : kind === 'lying';
  const span = isLying ? length : height;
  const spanName = isLying ? 'length' : 'height';
  const example = `${entry.read.what} … ${isLying ? 'lying' : 'upright'} diameter 300 mm ${spanName} 500 mm`;
  if (diameter === undefined || span === undefined) {
    missing(draft, entry, `diameter and ${spanName} of the round tank`, example);
    return { kind: 'point' };
  }
  if (isLying && kind === undefined) missing(draft, entry, "'lying' beside its diameter and length", example);
  return isLying
    ? { kind: 'lying-cylinder', diameter, length: span, axis: orientation === 'lengthwise' ? 'x' : 'y' }
    : { kind: 'upright-cylinder', diameter, height: span };
}

function volumeOf(shape: TankShape): number | undefined {
  switch (shape.kind) {
    case 'box':
      return shape.size.length * shape.size.width * shape.size.height;
    case 'upright-cylinder':
      return (Math.PI / 4) * shape.diameter ** 2 * shape.height;
    case 'lying-cylinder':
      return (Math.PI / 4) * shape.diameter ** 2 * shape.length;
    case 'point':
      return undefined;
  }
}

function readLevel(draft: UnitDraft, entry: UnitEntry): LevelRange | undefined {
  const value = entry.read.keywords.get('level')?.[0];
  const read = value && readMeasured(value, levelWanted(`the level of ${entry.read.what}`), contextOf(draft, entry));
  return value && read && toLevel(read, locate(entry.line, value), entry.read.what, draft.scope);
}

/** What is asked of a written level; whether a tank can have it is for `toLevel` to say. */
export function levelWanted(what: string): Wanted {
  return { what, kinds: ['ratio'], sign: 'any', range: true, tolerance: true };
}

/** A share of a millionth more than full is rounding. */
const ROUNDING = 1e-6;

/**
 * A level or range of levels, its ends in order and from empty to full: nothing is computed from levels that no tank can have.
 * Ends the other way round are reported, and read as they are meant; a level below empty is reported. One above full is kept as
 * `overfull`, for the rule that tells it. A level with a tolerance is a range.
 */
export function toLevel(
  { value, upTo = value, tolerance = 0 }: Pick<Measured, 'value' | 'upTo' | 'tolerance'>,
  location: LevelRange['location'],
  tank: string,
  scope: Scope,
): LevelRange {
  const what = `The level of ${tank}`;
  const bottom = Math.min(value, upTo);
  const top = Math.max(value, upTo);
  const least = possible(bottom - tolerance);
  const most = possible(top + tolerance);
  if (bottom < 0) {
    report(scope, 'out-of-range', { what, wanted: 'zero or more', found: formatShare(bottom) }, location);
  } else if (upTo < value) {
    report(scope, 'range-backwards', { what, least: formatShare(bottom), most: formatShare(top) }, location);
  }
  return { value: (least + most) / 2, least, most, location, ...(top > 1 + ROUNDING ? { overfull: top } : {}) };
}

function possible(level: number): number {
  return Math.min(1, Math.max(0, level));
}
