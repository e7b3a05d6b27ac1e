import type { Axle } from '../../mechanics/combination.ts';
import type { Value } from '../../syntax/tree.ts';
import { formatLength } from '../../units/display.ts';
import { flagOf, readStatement, resolveSpec } from '../arguments.ts';
import { systemOf } from '../display-system.ts';
import { loneReference } from '../expressions.ts';
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
  const count = AXLE_COUNTS[flagOf(read, 'arrangement') ?? 'single'];
  const { x, lost } = places.of(entry);
  const inner = readBlock(draft, entry);
  const spacing = readLength(draft, entry, 'spacing');
  if (x === undefined) {
    if (!draft.broken && lost !== true)
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
  const rating = readRating(draft, entry, inner.get('rating'));
  const tyres = readGroupTyres(draft, entry, inner.get('tyres'), dual, count);
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
    ...(read.flags.has('springing') ? { airSuspension: true } : {}),
    location: locate(line, line.statement.name ?? line.statement.head),
    ...(rating ? { rating } : {}),
    ...(tyres ? { tyres } : {}),
  };
}

/** The rating of a group, stated inline or in its block. */
function readRating(draft: UnitDraft, entry: UnitEntry, inner: UnitEntry | undefined): Limit | undefined {
  const value = entry.read.keywords.get('rating')?.[0] ?? inner?.read.values[0];
  if (value === undefined) return undefined;
  const wanted = { what: `the rating of ${entry.read.what}`, kinds: ['mass'], sign: 'positive' } as const;
  const measured = readMeasured(value, wanted, contextOf(draft, entry));
  return measured && { value: measured.value, location: locate(entry.line, value) };
}

/** The tyres of a group, stated inline or in its block. */
function readGroupTyres(
  draft: UnitDraft,
  entry: UnitEntry,
  inner: UnitEntry | undefined,
  dual: boolean,
  axles: number,
): Tyres | undefined {
  const context = contextOf(draft, entry);
  const inline = entry.read.keywords.get('tyres')?.[0];
  if (inline !== undefined) {
    const inflation = entry.read.at.find(({ factors }) => loneReference(factors[0]) === undefined);
    return readTyres(inline, { inflation, reference: referenceOf(entry) }, { isTwin: dual, axles }, context);
  }
  const value = inner?.read.values[0];
  if (inner === undefined || value === undefined) return undefined;
  const isTwin = dual || inner.read.flags.has('mounting');
  const pressures = { inflation: inner.read.at[0], reference: referenceOf(inner) ?? referenceOf(entry) };
  return readTyres(value, pressures, { isTwin, axles }, context);
}

const referenceOf = ({ read }: UnitEntry): Value | undefined => read.keywords.get('reference_pressure')?.[0];

/** The lines of the group's block by their keyword; what the line of the group itself says is not said again. */
function readBlock(draft: UnitDraft, entry: UnitEntry): ReadonlyMap<string, UnitEntry> {
  const lines = new Map<string, UnitEntry>();
  const { keywords } = entry.read;
  for (const statement of entry.line.statement.block?.statements ?? []) {
    const line = { ...entry.line, statement };
    const spec = resolveSpec(line, 'axles', entry.read.what, draft.scope);
    if (spec === undefined) continue;
    const { keyword } = spec;
    const said = lines.has(keyword) || (keyword === 'rating' || keyword === 'tyres' ? keywords.has(keyword) : false);
    if (said) {
      const parts = { part: `'${keyword}'`, head: entry.read.what };
      report(draft.scope, 'repeated-part', parts, locate(line, statement.head));
    } else lines.set(keyword, { read: readStatement(line, spec, draft.scope), spec, line, name: keyword });
  }
  return lines;
}

function assumeTrack(draft: UnitDraft, entry: UnitEntry, name: string): number {
  assume(
    draft.scope,
    `track of ${name} not stated: ${formatLength(USUAL_TRACK, systemOf(draft.scope.declaration))} taken`,
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
