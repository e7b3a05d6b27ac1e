import { FIRST_LOAD_INDEX, LAST_LOAD_INDEX, loadIndexCapacity } from './load-index.ts';

export { FIRST_LOAD_INDEX, LAST_LOAD_INDEX, LOAD_INDEX_CAPACITIES, loadIndexCapacity } from './load-index.ts';

const MILLIMETRES_PER_METRE = 1000;
const METRES_PER_INCH = 0.0254;

/** A speed symbol and the speed it stands for, km/h. */
export interface SpeedSymbolEntry {
  readonly symbol: string;
  readonly kmh: number;
  readonly source: string;
}

const STORED = 'UN Regulations No. 30 and No. 54, speed category symbols';
const MEMORY = `${STORED} (from memory)`;

export const SPEED_SYMBOLS: readonly SpeedSymbolEntry[] = [
  { symbol: 'A1', kmh: 5, source: MEMORY },
  { symbol: 'A2', kmh: 10, source: MEMORY },
  { symbol: 'A3', kmh: 15, source: MEMORY },
  { symbol: 'A4', kmh: 20, source: MEMORY },
  { symbol: 'A5', kmh: 25, source: MEMORY },
  { symbol: 'A6', kmh: 30, source: MEMORY },
  { symbol: 'A7', kmh: 35, source: MEMORY },
  { symbol: 'A8', kmh: 40, source: MEMORY },
  { symbol: 'B', kmh: 50, source: MEMORY },
  { symbol: 'C', kmh: 60, source: MEMORY },
  { symbol: 'D', kmh: 65, source: MEMORY },
  { symbol: 'E', kmh: 70, source: MEMORY },
  { symbol: 'F', kmh: 80, source: MEMORY },
  { symbol: 'G', kmh: 90, source: MEMORY },
  { symbol: 'J', kmh: 100, source: STORED },
  { symbol: 'K', kmh: 110, source: STORED },
  { symbol: 'L', kmh: 120, source: STORED },
  { symbol: 'M', kmh: 130, source: STORED },
  { symbol: 'N', kmh: 140, source: STORED },
  { symbol: 'P', kmh: 150, source: STORED },
  { symbol: 'Q', kmh: 160, source: STORED },
  { symbol: 'R', kmh: 170, source: STORED },
  { symbol: 'S', kmh: 180, source: STORED },
  { symbol: 'T', kmh: 190, source: STORED },
  { symbol: 'U', kmh: 200, source: STORED },
  { symbol: 'H', kmh: 210, source: STORED },
  { symbol: 'V', kmh: 240, source: STORED },
  { symbol: 'W', kmh: 270, source: STORED },
  { symbol: 'Y', kmh: 300, source: STORED },
];

const KMH_BY_SYMBOL: ReadonlyMap<string, number> = new Map(SPEED_SYMBOLS.map(({ symbol, kmh }) => [symbol, kmh]));

/** The speed a symbol stands for in km/h; undefined for an unknown symbol. */
export function speedSymbolKmh(symbol: string): number | undefined {
  return KMH_BY_SYMBOL.get(symbol.toUpperCase());
}

/** The speed a symbol stands for in m/s; undefined for an unknown symbol. */
export function speedSymbol(symbol: string): number | undefined {
  const kmh = speedSymbolKmh(symbol);
  return kmh === undefined ? undefined : kmh / 3.6;
}

/**
 * What a tyre's sidewall says.
 * - `service`: `commercial` for the suffix C and for truck sizes with a load index for twin fitting, `light truck` for
 *   LT, `trailer` for ST, else `passenger`.
 * - `commercial`: whether it is anything but a passenger tyre.
 * - `sectionWidth`, `rim`: nominal, m. `aspect`: section height over width, 0.65 for a marked 65; absent where the
 *   marking has none.
 * - `loadSingle`, `loadDual`: capacity of one tyre in single and in twin fitting, kg.
 * - `maximumSpeed`: m/s.
 */
export interface TyreMarking {
  readonly service: 'passenger' | 'commercial' | 'light truck' | 'trailer';
  readonly commercial: boolean;
  readonly sectionWidth: number;
  readonly aspect?: number;
  readonly construction: 'radial' | 'diagonal' | 'bias belted';
  readonly rim: number;
  readonly loadIndexSingle: number;
  readonly loadIndexDual?: number;
  readonly loadSingle: number;
  readonly loadDual?: number;
  readonly speedSymbol: string;
  readonly maximumSpeed: number;
}

/** Why a marking cannot be read: what stands at `offset` of the text, and what was expected there. */
export interface TyreMarkingProblem {
  readonly kind: 'tyre marking';
  readonly found: string;
  readonly expected: string;
  readonly offset: number;
}

/** One part of a marking; the parts follow each other with optional blanks between. */
interface Part {
  readonly name: string;
  readonly pattern: RegExp;
  readonly expected: string;
  readonly optional: boolean;
}

const REMARK = '(?:\\d{1,2}PR|XL|TL|TT|RF|M\\+S|3PMSF)(?![A-Z0-9])';
const part = (name: string, pattern: string, expected: string, optional = false): Part => ({
  name,
  pattern: new RegExp(`(${pattern})\\s*`, 'y'),
  expected,
  optional,
});

const PARTS: readonly Part[] = [
  part('prefix', 'P|LT|ST', 'P, LT or ST', true),
  part(
    'width',
    '\\d{3}(?!\\d)|\\d{1,2}\\.\\d{2}(?!\\d)',
    'a section width in mm such as 195, or in inches such as 7.00',
  ),
  part('aspect', '/\\s*\\d{2,3}(?!\\d)', 'an aspect ratio such as /65', true),
  part('construction', 'ZR|[RDB-]', 'the construction R, D or B'),
  part('rim', '(?:[1-3]\\d|8|9)(?:\\.5)?(?!\\d)', 'a rim diameter in inches such as 14'),
  part('suffix', 'C|LT|ST', 'C, LT or ST', true),
  part('remarks before', `${REMARK}(?:\\s+${REMARK})*`, 'a ply rating such as 8PR', true),
  part('single', '\\d{2,3}(?!\\d)', 'a load index such as 106'),
  part('dual', '/\\s*\\d{2,3}(?!\\d)', 'a load index for twin fitting such as /104', true),
  part('speed', '[A-Z]\\d?(?![A-Z0-9])', 'a speed symbol such as Q'),
  part('remarks', `${REMARK}(?:\\s+${REMARK})*`, 'a remark such as M+S', true),
];

/**
 * Reads a tyre marking: size and service description, as `195R14C 106/104Q`, `205/60R15 91V`, `185/65 R14 86T`,
 * `LT235/85R16 120/116R`, `7.00R16LT 8PR 117/116L`. Ply ratings and remarks (XL, TL, M+S …) are read over. Letter case
 * does not count. The service description is not optional: without it the tyre's capacity is not known.
 */
export function parseTyreMarking(text: string): TyreMarking | TyreMarkingProblem {
  const marking = text.toUpperCase();
  const start = marking.length - marking.trimStart().length;
  const found = new Map<string, { readonly text: string; readonly offset: number }>();
  let offset = start;
  for (const { name, pattern, expected, optional } of PARTS) {
    pattern.lastIndex = offset;
    const match = pattern.exec(marking);
    const matched = match?.[1];
    if (match === null || matched === undefined) {
      if (optional) continue;
      return problem(text, offset, expected);
    }
    found.set(name, { text: matched, offset });
    offset += match[0].length;
  }
  if (offset < text.length) return problem(text, offset, 'the end of the marking');
  return assemble(text, found);
}

/** Tells a read marking from a problem. */
export function isTyreMarking(result: TyreMarking | TyreMarkingProblem): result is TyreMarking {
  return !('kind' in result);
}

/**
 * The marking with its load indexes raised by `steps`, all else as written; undefined for a marking that cannot be read or
 * where an index would leave the table.
 */
export function raiseLoadIndex(text: string, steps: number): string | undefined {
  const marking = parseTyreMarking(text);
  if (!isTyreMarking(marking)) return undefined;
  const { loadIndexSingle: single, loadIndexDual: dual, speedSymbol: symbol } = marking;
  const raised = [single, ...(dual === undefined ? [] : [dual])].map((index) => index + steps);
  if (raised.some((index) => loadIndexCapacity(index) === undefined)) return undefined;
  const separator = dual === undefined ? '' : '\\s*/\\s*';
  const written = new RegExp(`(?<!\\d)${single}(${separator})${dual ?? ''}(?=\\s*${symbol}(?![A-Z0-9]))`, 'i');
  const result = text.replace(written, (_, between: string) => raised.join(between));
  return result === text && steps !== 0 ? undefined : result;
}

type FoundParts = ReadonlyMap<string, { readonly text: string; readonly offset: number }>;

const CONSTRUCTIONS: Readonly<Record<string, TyreMarking['construction']>> = {
  R: 'radial',
  ZR: 'radial',
  D: 'diagonal',
  '-': 'diagonal',
  B: 'bias belted',
};

function assemble(text: string, found: FoundParts): TyreMarking | TyreMarkingProblem {
  const textOf = (name: string): string => found.get(name)?.text ?? '';
  const numberOf = (name: string): number => Number(textOf(name).replace(/^\/\s*/, ''));
  const offsetOf = (name: string): number => (found.get(name)?.offset ?? 0) + (textOf(name).startsWith('/') ? 1 : 0);

  const loadIndexSingle = numberOf('single');
  const loadSingle = loadIndexCapacity(loadIndexSingle);
  const inTable = `a load index from ${FIRST_LOAD_INDEX} to ${LAST_LOAD_INDEX}`;
  if (loadSingle === undefined) return problem(text, offsetOf('single'), inTable);

  const loadIndexDual = found.has('dual') ? numberOf('dual') : undefined;
  const loadDual = loadIndexDual === undefined ? undefined : loadIndexCapacity(loadIndexDual);
  if (loadIndexDual !== undefined && loadDual === undefined) return problem(text, offsetOf('dual'), inTable);
  if (loadIndexDual !== undefined && loadIndexDual > loadIndexSingle) {
    return problem(text, offsetOf('dual'), `a load index for twin fitting of at most ${loadIndexSingle}`);
  }

  const maximumSpeed = speedSymbol(textOf('speed'));
  if (maximumSpeed === undefined) {
    const known = SPEED_SYMBOLS.map(({ symbol }) => symbol).join(', ');
    return problem(text, offsetOf('speed'), `a speed symbol, one of ${known}`);
  }

  const service = serviceOf(textOf('prefix'), textOf('suffix'), loadIndexDual);
  const width = numberOf('width');
  return {
    service,
    commercial: service !== 'passenger',
    sectionWidth: textOf('width').includes('.') ? width * METRES_PER_INCH : width / MILLIMETRES_PER_METRE,
    ...(found.has('aspect') ? { aspect: numberOf('aspect') / 100 } : {}),
    construction: CONSTRUCTIONS[textOf('construction')] ?? 'radial',
    rim: numberOf('rim') * METRES_PER_INCH,
    loadIndexSingle,
    loadSingle,
    ...(loadIndexDual === undefined ? {} : { loadIndexDual, loadDual }),
    speedSymbol: textOf('speed'),
    maximumSpeed,
  };
}

/** Passenger tyres carry no load index for twin fitting, so a marking that has one is a truck size. */
function serviceOf(prefix: string, suffix: string, loadIndexDual: number | undefined): TyreMarking['service'] {
  const letters = [prefix, suffix];
  if (letters.includes('LT')) return 'light truck';
  if (letters.includes('ST')) return 'trailer';
  return suffix === 'C' || loadIndexDual !== undefined ? 'commercial' : 'passenger';
}

const LONGEST_EXCERPT = 12;

function problem(text: string, offset: number, expected: string): TyreMarkingProblem {
  const rest = text.slice(offset).trimEnd();
  const word = /^\S+/.exec(rest)?.[0].slice(0, LONGEST_EXCERPT) ?? '';
  return { kind: 'tyre marking', found: word === '' ? 'the end of the marking' : `"${word}"`, expected, offset };
}
