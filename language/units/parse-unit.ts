import type { Dimension } from './dimension.ts';
import { DIMENSIONLESS, LENGTH, multiply, power, sameDimension, superscript, TIME } from './dimension.ts';
import type { UnitDefinition } from './unit-table.ts';
import { UNITS } from './unit-table.ts';

/**
 * A unit as it was read.
 * - `factor`: SI units per one of it, positive and finite.
 * - `text`: the one printed spelling; it parses to the same unit again.
 */
export interface ParsedUnit {
  readonly factor: number;
  readonly dimension: Dimension;
  readonly text: string;
}

/** What {@link unitAt} found: the unit's text and its offsets in the source. */
export interface UnitMatch {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

const PLAIN_WORD = /^[A-Za-z°_]+$/;
const POWERED_WORD = /^[A-Za-z]+[²³]$/;
const PRODUCT = '[·⋅*.]';
const EXPONENT = '(?:\\^-?[1-4]|⁻?[¹²³⁴])';

const BY_SPELLING: ReadonlyMap<string, UnitDefinition> = new Map(
  UNITS.flatMap((unit) => [unit.symbol, ...unit.synonyms].map((spelling) => [spelling, unit] as const)),
);

const SPELLINGS = [...BY_SPELLING.keys()];

const wordsWhere = (accepts: (unit: UnitDefinition) => boolean): string[] =>
  SPELLINGS.filter((spelling) => {
    const unit = BY_SPELLING.get(spelling);
    return unit !== undefined && PLAIN_WORD.test(spelling) && accepts(unit);
  });

/** Words that may carry an exponent; only lengths and times take it as a bare digit (`m2`, `s2`). */
const isPlain = (unit: UnitDefinition): boolean =>
  PLAIN_WORD.test(unit.symbol) && !sameDimension(unit.dimension, DIMENSIONLESS);
const takesDigit = (unit: UnitDefinition): boolean =>
  isPlain(unit) && (sameDimension(unit.dimension, LENGTH) || sameDimension(unit.dimension, TIME));
const DIGIT_WORDS = wordsWhere(takesDigit);
const OTHER_WORDS = wordsWhere((unit) => isPlain(unit) && !takesDigit(unit));
/** Words that already are a power (`cc`, `sqft`): they may be a factor, without a further exponent. */
const POWER_WORDS = wordsWhere((unit) => POWERED_WORD.test(unit.symbol));

const FACTOR = [
  `${alternatives(DIGIT_WORDS)}(?:${EXPONENT}|[23])?`,
  `${alternatives(OTHER_WORDS)}${EXPONENT}?`,
  alternatives(POWER_WORDS),
].join('|');

/** Up to four multiplied factors, then up to two divisions by one factor each, so that no reading is ambiguous. */
const EXPRESSION = `(?:${FACTOR})(?:${PRODUCT}(?:${FACTOR})){0,3}(?:/(?:${FACTOR})){0,2}`;
const WHOLE_EXPRESSION = new RegExp(`^(?:${EXPRESSION})$`, 'u');
const FACTORS = /([·⋅*./]?)([A-Za-z°_]+)(?:\^(-?[1-4])|(⁻?)([¹²³⁴])|([23]))?/gu;

/** Spellings that are no expression of single words and therefore hold only as listed (`ft-lb`, `N m`, `kph`, `%`). */
const LISTED_SPELLINGS = SPELLINGS.filter((spelling) => !WHOLE_EXPRESSION.test(spelling));

/**
 * Sticky pattern for the unit after a number; group `unit` is the unit's text, before it optional blanks (space, tab,
 * no-break spaces; never a line break). Set `lastIndex` to where the number ended, or use {@link unitAt}.
 *
 * A unit consists of known unit words (letters A–Z a–z, `°`, `_`), each with an optional exponent (`²` `³` `⁴`, `⁻²`,
 * `^2`, `^-2`; a bare `2` or `3` after a length or time only), joined by `·` `⋅` `*` or `.` and then divided by `/`.
 * It contains no blank and no hyphen, except in the spellings that the table lists so (`ft-lb`, `N m`, `kg m²`).
 * `%` stands alone.
 *
 * Guarantees: what it matches, `parseUnit` reads; it matches nothing or the longest unit text; a match ends where a
 * word ends, so it never takes the beginning of a following word (`95 L of`, `3 in back`, `2 x gas`, `4 kgfoo`).
 * Where a unit and arithmetic without blanks look alike (`5 kg*m`, `5 kg/m`), it is the unit.
 */
export const UNIT_PATTERN: RegExp = new RegExp(
  `[ \\t\\u00a0\\u202f]*(?<unit>%|(?:${alternatives(LISTED_SPELLINGS)}|${EXPRESSION})(?![\\p{L}\\p{N}_]))`,
  'uy',
);

/** The unit that stands at an offset of a source text, after optional blanks; leaves no state behind. */
export function unitAt(source: string, offset: number): UnitMatch | undefined {
  UNIT_PATTERN.lastIndex = offset;
  const match = UNIT_PATTERN.exec(source);
  const text = match?.groups?.unit;
  if (match === null || text === undefined) return undefined;
  const end = match.index + match[0].length;
  return { text, start: end - text.length, end };
}

/** Large enough for every unit a workspace uses; bounded because a server reads malformed text for days. */
const CACHE_LIMIT = 4096;
const cache = new Map<string, ParsedUnit | undefined>();

/**
 * Reads a unit expression, such as `kg`, `km/h`, `kg/m^2`, `kg/m²`, `ft-lb`, `N/deg` or `m/s2`; blanks around it do
 * not matter. Undefined for anything else, among it every temperature. Results are kept, so asking again is a lookup.
 */
export function parseUnit(text: string): ParsedUnit | undefined {
  const known = cache.get(text);
  if (known !== undefined || cache.has(text)) return known;
  const parsed = readUnit(text.trim());
  if (cache.size >= CACHE_LIMIT) cache.clear();
  cache.set(text, parsed);
  return parsed;
}

function readUnit(text: string): ParsedUnit | undefined {
  const listed = BY_SPELLING.get(text);
  if (listed !== undefined) return fromDefinition(listed);
  if (!WHOLE_EXPRESSION.test(text)) return undefined;
  let factor = 1;
  let dimension = DIMENSIONLESS;
  let canonical = '';
  for (const [, operator = '', word = '', caret, minus = '', raised, digit] of text.matchAll(FACTORS)) {
    const unit = BY_SPELLING.get(word);
    if (unit === undefined) return undefined;
    const exponent = exponentOf(caret ?? digit, minus, raised);
    const signed = operator === '/' ? -exponent : exponent;
    factor *= unit.factor ** signed;
    dimension = multiply(dimension, power(unit.dimension, signed));
    canonical += (operator === '' || operator === '/' ? operator : '·') + unit.symbol + superscript(exponent);
  }
  // A composed spelling may be one the table knows (`lbs*ft`, `kg/m^2`): then the table decides.
  const tabled = BY_SPELLING.get(canonical);
  return tabled === undefined ? { factor, dimension, text: canonical } : fromDefinition(tabled);
}

function exponentOf(plain: string | undefined, minus: string, raised: string | undefined): number {
  if (plain !== undefined) return Number(plain);
  if (raised === undefined) return 1;
  const exponent = '¹²³⁴'.indexOf(raised) + 1;
  return minus === '' ? exponent : -exponent;
}

function fromDefinition(unit: UnitDefinition): ParsedUnit {
  return { factor: unit.factor, dimension: unit.dimension, text: unit.symbol };
}

/** Whether a single word, without operators or exponents, is a unit: `kg`, `inches`, `mph`; not `ft-lb`, not `m2`. */
export function isUnitWord(word: string): boolean {
  return PLAIN_WORD.test(word) && BY_SPELLING.has(word);
}

/** An amount of a unit in SI. Divides where the factor is 1/n, so that `880 mm` is the number 0.88 exactly. */
export function toSI(amount: number, unit: Pick<ParsedUnit, 'factor'>): number {
  const divisor = wholeDivisor(unit.factor);
  return divisor === undefined ? amount * unit.factor : amount / divisor;
}

/** How many of a unit an SI value is; the inverse of {@link toSI} up to rounding of the last bit. */
export function fromSI(value: number, unit: Pick<ParsedUnit, 'factor'>): number {
  const divisor = wholeDivisor(unit.factor);
  return divisor === undefined ? value / unit.factor : value * divisor;
}

function wholeDivisor(factor: number): number | undefined {
  if (factor >= 1) return undefined;
  const divisor = Math.round(1 / factor);
  return 1 / divisor === factor ? divisor : undefined;
}

/** A regular-expression group of the given texts, longest first. */
function alternatives(texts: readonly string[]): string {
  const escaped = [...texts]
    .sort((a, b) => b.length - a.length)
    .map((text) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'));
  return `(?:${escaped.join('|')})`;
}
