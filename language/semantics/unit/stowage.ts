import { formatMass } from '../../units/display.ts';
import { systemOf } from '../display-system.ts';
import { capital, readMeasured } from '../measured.ts';
import type { BodyOutline, Limit, Locker, Seat } from '../model.ts';
import { DRIVER } from '../running-order.ts';
import { assume, locate, report } from '../scope.ts';
import { stepOf } from './directions.ts';
import { contextOf, entriesOf, type UnitDraft, type UnitEntry } from './draft.ts';
import { readDrag } from './drag.ts';
import { readExtents } from './extents.ts';
import type { Heights } from './heights.ts';
import { centreOf, readSize } from './parts.ts';
import type { PartialPlace, Places } from './places.ts';

/** Outline of the body, from its `body` line. */
export function readBody(draft: UnitDraft): BodyOutline | undefined {
  const entry = entriesOf(draft, 'body')[0];
  if (entry === undefined) return undefined;
  const extents = readExtents(draft, entry);
  const along = extents.find(({ axis }) => axis === 'x');
  const up = extents.find(({ axis }) => axis === 'z');
  const across = extents.find(({ axis }) => axis === 'y');
  if (along === undefined) {
    if (!entry.line.statement.broken) {
      report(
        draft.scope,
        'missing-part',
        {
          what: 'The body',
          part: 'its extent along the unit',
          example: 'body from 880 mm to 5680 mm back, width 2040 mm',
        },
        locate(entry.line, entry.line.statement.head),
      );
    }
    return undefined;
  }
  const width = readLength(draft, entry, 'width') ?? (across && across.most - across.least);
  const height = readLength(draft, entry, 'height');
  const bottom = up?.least;
  const top = up?.most ?? (bottom !== undefined && height !== undefined ? bottom + height : undefined);
  const drag = readDrag(draft, entry, {
    width,
    height: height ?? (up && up.most - up.least),
    broken: entry.line.statement.broken || hasUnread(entry, extents.length, { width, height }),
  });
  return {
    front: along.most,
    rear: along.least,
    location: locate(entry.line, entry.line.statement.head),
    ...(width !== undefined ? { width } : {}),
    ...(bottom !== undefined ? { bottom } : {}),
    ...(top !== undefined ? { top } : {}),
    ...(drag ? { drag } : {}),
  };
}

/** Whether the outline says more than could be read of it. */
function hasUnread(
  { read: { keywords } }: UnitEntry,
  extents: number,
  { width, height }: { readonly width?: number; readonly height?: number },
): boolean {
  if ((keywords.get('from')?.length ?? 0) > extents) return true;
  return (keywords.has('width') && width === undefined) || (keywords.has('height') && height === undefined);
}

/** What a line's own words fix about its place beside its distances: the floor of a locker, the side it is on. */
export function fixedPlace(
  draft: UnitDraft,
  entry: UnitEntry,
  body: BodyOutline | undefined,
  wheelbase: number | undefined,
): PartialPlace {
  const { keyword } = entry.spec;
  if (keyword === 'axles' && draft.kind === 'vehicle') {
    if (entry.name === 'front') return { x: 0 };
    if (entry.name === 'rear' && wheelbase !== undefined) return { x: -wheelbase };
    return {};
  }
  if (keyword === 'coupling') return { x: 0, y: 0 };
  if (keyword !== 'locker') return {};
  const z = readFloor(draft, entry);
  const y = sidePlace(draft, entry, body);
  return { ...(z !== undefined ? { z } : {}), ...(y !== undefined ? { y } : {}) };
}

/** Middle of a locker that lies against a side wall of the body; without a width of its own it is that half of the body. */
function sidePlace(draft: UnitDraft, entry: UnitEntry, body: BodyOutline | undefined): number | undefined {
  const { side } = entry.read;
  if (side === undefined || body?.width === undefined) return undefined;
  const y = body.width / 2 - (ownWidth(draft, entry) ?? body.width / 2) / 2;
  return side.text === 'left' ? y : -y;
}

/** Width of a locker as its line states it. */
function ownWidth(draft: UnitDraft, entry: UnitEntry): number | undefined {
  return readSize(draft, entry)?.width ?? readLength(draft, entry, 'width');
}

/** Height of a locker's floor above the road, m. */
function readFloor(draft: UnitDraft, entry: UnitEntry): number | undefined {
  const floor = entry.read.keywords.get('floor')?.[0];
  if (floor === undefined) return undefined;
  const wanted = { what: `the floor of ${entry.read.what}`, kinds: ['length'], sign: 'any' } as const;
  const measured = readMeasured(floor, wanted, contextOf(draft, entry));
  const { direction } = floor;
  if (direction === undefined || (direction.word.text === 'up' && direction.datum === undefined))
    return measured?.value;
  const accepted = "a height above the road, such as 'floor 320 mm up'";
  report(
    draft.scope,
    'unexpected-part',
    { part: 'this direction of its floor', head: entry.read.what, accepted },
    locate(entry.line, direction),
  );
  return undefined;
}

/** Whether a line says in lengths where the thing is across the unit. */
function saysAcross({ read }: UnitEntry): boolean {
  return [...read.directed, ...(read.keywords.get('from') ?? [])].some(
    ({ direction }) => direction !== undefined && stepOf(direction.word.text)?.axis === 'y',
  );
}

/** Reports a side that cannot be found because the body has no width; an error in the line of the body is told there. */
function checkSide(draft: UnitDraft, entry: UnitEntry, body: BodyOutline | undefined): void {
  const { side, what } = entry.read;
  const told = body === undefined ? entriesOf(draft, 'body').length > 0 : statesWidth(draft);
  if (side === undefined || body?.width !== undefined || told || saysAcross(entry)) return;
  report(
    draft.scope,
    'missing-part',
    {
      what: capital(what),
      part: `how far ${side.text} its wall is: the unit has no body width`,
      example: `body from 880 mm to 5680 mm back, width 2040 mm; or from 420 mm to 1020 mm ${side.text}`,
    },
    locate(entry.line, side),
  );
}

/** Whether the line of the body has a width, even one that cannot be read. */
function statesWidth(draft: UnitDraft): boolean {
  return entriesOf(draft, 'body').some(({ read, line }) => read.keywords.has('width') || line.statement.broken);
}

export function readLockers(
  draft: UnitDraft,
  places: Places,
  heights: Heights,
  body: BodyOutline | undefined,
): Locker[] {
  return entriesOf(draft, 'locker').flatMap((entry) => {
    const centre = centreOf(draft, entry, places, heights);
    if (centre === undefined) return [];
    const { read, line } = entry;
    const extents = readExtents(draft, entry);
    const span = (axis: 'x' | 'y' | 'z') => {
      const extent = extents.find((candidate) => candidate.axis === axis);
      return extent && extent.most - extent.least;
    };
    checkSide(draft, entry, body);
    const holdsValue = read.keywords.get('holds')?.[0];
    const measured =
      holdsValue &&
      readMeasured(
        holdsValue,
        { what: `what ${read.what} holds`, kinds: ['mass'], sign: 'positive' },
        contextOf(draft, entry),
      );
    const holds: Limit | undefined = holdsValue &&
      measured && { value: measured.value, location: locate(line, holdsValue) };
    const size = readSize(draft, entry);
    const length = size?.length ?? span('x');
    const width =
      ownWidth(draft, entry) ?? span('y') ?? (read.side && body?.width !== undefined ? body.width / 2 : undefined);
    const height = size?.height ?? readLength(draft, entry, 'height') ?? span('z');
    const { statement } = line;
    return [
      {
        name: entry.name,
        centre,
        location: locate(line, statement.name ?? statement.head),
        ...(read.text ? { title: read.text.value } : {}),
        ...(statement.documentation ? { documentation: statement.documentation } : {}),
        ...(length !== undefined ? { length } : {}),
        ...(width !== undefined ? { width } : {}),
        ...(height !== undefined ? { height } : {}),
        ...(holds ? { holds } : {}),
      },
    ];
  });
}

export function readSeats(draft: UnitDraft, places: Places, heights: Heights): Seat[] {
  const assumed: string[] = [];
  const seats = entriesOf(draft, 'seat').flatMap((entry) => {
    const { read, line } = entry;
    const centre = centreOf(draft, entry, places, heights);
    const placeTolerance = places.of(entry).tolerance;
    const [value] = read.values;
    const stated =
      value &&
      readMeasured(
        value,
        { what: `the mass of ${read.what}`, kinds: ['mass'], sign: 'not negative', tolerance: true },
        contextOf(draft, entry),
      );
    if (value === undefined) assumed.push(entry.name);
    if (centre === undefined || (value !== undefined && stated === undefined)) return [];
    const { statement } = line;
    return [
      {
        name: entry.name,
        mass: stated?.value ?? DRIVER,
        centre,
        ...(stated?.tolerance === undefined ? {} : { tolerance: stated.tolerance }),
        ...(placeTolerance ? { placeTolerance } : {}),
        location: locate(line, statement.name ?? statement.head),
        ...(read.text ? { title: read.text.value } : {}),
      },
    ];
  });
  if (assumed.length > 0) {
    assume(
      draft.scope,
      `mass on ${assumed.join(', ')} of ${draft.name} not stated: ${formatMass(DRIVER, systemOf(draft.scope.declaration))} taken`,
      'the driver of the mass in running order, (EU) 1230/2012 (from memory)',
      locate(draft.header, draft.header.statement.name ?? draft.header.statement.head),
    );
  }
  return seats;
}

function readLength(draft: UnitDraft, entry: UnitEntry, keyword: 'width' | 'height'): number | undefined {
  const value = entry.read.keywords.get(keyword)?.[0];
  return (
    value &&
    readMeasured(
      value,
      { what: `the ${keyword} of ${entry.read.what}`, kinds: ['length'], sign: 'positive' },
      contextOf(draft, entry),
    )?.value
  );
}
