import type { Axle } from '../../mechanics/combination.ts';
import type { Value } from '../../syntax/tree.ts';
import { flagOf, readStatement, resolveSpec } from '../arguments.ts';
import { capital, readMeasured } from '../measured.ts';
import type { AxleGroup, Limit, Tyres } from '../model.ts';
import { assume, locate, report } from '../scope.ts';
import { contextOf, entriesOf, type UnitDraft, type UnitEntry } from './draft.ts';
import type { Places } from './places.ts';
import { readTyres } from './tyres.ts';

const AXLE_COUNTS = { single: 1, tandem: 2, tri: 3 } as const;

/** Track taken where none is stated, m. Only the split between left and right depends on it. */
const USUAL_TRACK = 1.5;

/** Wheelbase and track of a `wheelbase` line, m. */
export interface WheelbaseLine {
  readonly length: number;
  readonly track?: number;
  readonly entry: UnitEntry;
}

export function readWheelbase(draft: UnitDraft): WheelbaseLine | undefined {
  const entry = entriesOf(draft, 'wheelbase')[0];
  if (entry === undefined) return undefined;
  const context = contextOf(draft, entry);
  const [value] = entry.read.values;
  if (value === undefined) {
    missing(draft, entry, 'its length', 'wheelbase 3200 mm, track 1680 mm');
    return undefined;
  }
  const length = readMeasured(value, { what: 'the wheelbase', kinds: ['length'], sign: 'positive' }, context);
  const track = readLength(draft, entry, 'track');
  return length && { length: length.value, entry, ...(track !== undefined ? { track } : {}) };
}

/** Axle groups from front to rear. */
export function readAxleGroups(draft: UnitDraft, places: Places, wheelbase: WheelbaseLine | undefined): AxleGroup[] {
  const groups = entriesOf(draft, 'axles').flatMap((entry) => readGroup(draft, entry, places, wheelbase) ?? []);
  if (wheelbase !== undefined) {
    for (const [name, x] of [
      ['front', 0],
      ['rear', -wheelbase.length],
    ] as const) {
      if (entriesOf(draft, 'axles').some((entry) => entry.name === name)) continue;
      const track = wheelbase.track ?? assumeTrack(draft, wheelbase.entry, name);
      groups.push({
        name,
        axles: [{ x, track }],
        x,
        suspension: 'independent',
        steered: name === 'front',
        location: locate(wheelbase.entry.line, wheelbase.entry.line.statement),
      });
    }
  }
  groups.sort((a, b) => b.x - a.x);
  if (draft.kind === 'vehicle' && groups.length > 1) {
    return groups.map((group, index) => (index === 0 ? { ...group, steered: true } : group));
  }
  return groups;
}

function readGroup(
  draft: UnitDraft,
  entry: UnitEntry,
  places: Places,
  wheelbase: WheelbaseLine | undefined,
): AxleGroup | undefined {
  const { read, line, name } = entry;
  const context = contextOf(draft, entry);
  const count = AXLE_COUNTS[flagOf(read, 'arrangement') ?? 'single'];
  const { x } = places.of(entry);
  const spacing = readLength(draft, entry, 'spacing');
  if (x === undefined) {
    if (!draft.broken)
      report(
        draft.scope,
        'missing-place',
        {
          what: capital(read.what),
          example: `${line.statement.head.text}${line.statement.name ? ` ${name}` : ''} at 3420 mm back`,
        },
        locate(line, line.statement.head),
      );
    return undefined;
  }
  if (count > 1 && spacing === undefined) {
    if (!read.keywords.has('spacing')) missing(draft, entry, 'the spacing of its axles', 'spacing 820 mm');
    return undefined;
  }
  const track = readLength(draft, entry, 'track') ?? wheelbase?.track ?? assumeTrack(draft, entry, name);
  const rate = readKeyword(draft, entry, 'rate', 'spring rate');
  const axles: Axle[] = Array.from({ length: count }, (_, index) => ({
    x: x + ((count - 1) / 2 - index) * (spacing ?? 0),
    track,
    ...(rate !== undefined ? { rate } : {}),
  }));
  const dual = read.flags.has('mounting');
  const rating = readRating(draft, entry);
  const tyres = readGroupTyres(draft, entry, dual, count);
  let suspension = flagOf(read, 'suspension');
  if (suspension === undefined) {
    suspension = count > 1 ? 'equalised' : 'independent';
    if (count > 1)
      assume(
        draft.scope,
        `suspension of ${name} not stated: equalised taken`,
        'rule of the language: axles of a group share its load equally unless it is independent',
        locate(line, line.statement.head),
      );
  }
  return {
    name,
    axles,
    x,
    suspension,
    steered: read.flags.has('steering'),
    location: locate(line, line.statement.name ?? line.statement.head),
    ...(rating ? { rating } : {}),
    ...(tyres ? { tyres } : {}),
  };

  function readRating(unit: UnitDraft, group: UnitEntry): Limit | undefined {
    const inline = group.read.keywords.get('rating')?.[0];
    const inner = blockLine(unit, group, 'rating');
    const value = inline ?? inner?.read.values[0];
    if (value === undefined) return undefined;
    const measured = readMeasured(
      value,
      { what: `the rating of ${group.read.what}`, kinds: ['mass'], sign: 'positive' },
      context,
    );
    return measured && { value: measured.value, location: locate(line, value) };
  }
}

/** The tyres of a group, stated inline or in its block. */
function readGroupTyres(draft: UnitDraft, entry: UnitEntry, dual: boolean, axles: number): Tyres | undefined {
  const context = contextOf(draft, entry);
  const inline = entry.read.keywords.get('tyres')?.[0];
  if (inline !== undefined) return readTyres(inline, entry.read.at[0], dual, axles * (dual ? 4 : 2), context);
  const inner = blockLine(draft, entry, 'tyres');
  const value = inner?.read.values[0];
  if (inner === undefined || value === undefined) return undefined;
  const twin = dual || inner.read.flags.has('mounting');
  return readTyres(value, inner.read.at[0], twin, axles * (twin ? 4 : 2), context);
}

/** A line of the group's block. */
function blockLine(draft: UnitDraft, entry: UnitEntry, keyword: string): UnitEntry | undefined {
  for (const statement of entry.line.statement.block?.statements ?? []) {
    const line = { ...entry.line, statement };
    const spec = resolveSpec(line, 'axles', `axles ${entry.name}`, draft.scope);
    if (spec?.keyword === keyword) return { read: readStatement(line, spec, draft.scope), spec, line, name: keyword };
  }
  return undefined;
}

function assumeTrack(draft: UnitDraft, entry: UnitEntry, name: string): number {
  assume(
    draft.scope,
    `track of ${name} not stated: ${USUAL_TRACK * 1000} mm taken`,
    'rule of the language: only the split between left and right depends on it',
    locate(entry.line, entry.line.statement.head),
  );
  return USUAL_TRACK;
}

function readLength(draft: UnitDraft, entry: UnitEntry, keyword: 'track' | 'spacing'): number | undefined {
  return readKeyword(draft, entry, keyword, 'length');
}

function readKeyword(
  draft: UnitDraft,
  entry: UnitEntry,
  keyword: 'track' | 'spacing' | 'rate',
  kind: 'length' | 'spring rate',
): number | undefined {
  const value: Value | undefined = entry.read.keywords.get(keyword)?.[0];
  return (
    value &&
    readMeasured(
      value,
      { what: `the ${keyword} of ${entry.read.what}`, kinds: [kind], sign: 'positive' },
      contextOf(draft, entry),
    )?.value
  );
}

export function missing(draft: UnitDraft, entry: UnitEntry, part: string, example: string): void {
  if (entry.line.statement.broken) return;
  report(
    draft.scope,
    'missing-part',
    { what: capital(entry.read.what), part, example },
    locate(entry.line, entry.line.statement.name ?? entry.line.statement.head),
  );
}
