import { FLUIDS } from '../catalogue/fluids.ts';
import { FIRST_LOAD_INDEX, LOAD_INDEX_CAPACITIES } from '../catalogue/load-index.ts';
import { CONCEPTS, MARKET_TERMS, MARKETS, type Term } from '../catalogue/markets.ts';
import { SPEED_SYMBOLS } from '../catalogue/tyres.ts';
import { type Column, code, table } from '../services/markdown.ts';
import { formatNumber, formatShare } from '../units/display.ts';
import { COMPUTED_NAMES, type ComputedName } from './computed-names.ts';

const words = (head: string): Column => ({ head, align: 'left' });
const figures = (head: string): Column => ({ head, align: 'right' });

/** The built-in fluids. */
export function fluidTable(): string {
  return table(
    [words('Fluid'), words('Also read'), figures('kg/L'), figures('Range'), figures('Filled to'), words('Source')],
    FLUIDS.map(({ name, synonyms, density, range, maximumFill, source, note }) => [
      code(name),
      synonyms.map(code).join(', '),
      litre(density),
      range === undefined ? '' : range.map(litre).join(' to '),
      maximumFill === undefined ? '' : formatShare(maximumFill),
      note === undefined ? source : `${source}. ${note}`,
    ]),
  );
}

/** What the markets call the things that the language has one name for; markets with the same words share a column. */
export function termTable(): string {
  const columns = [...new Set(MARKETS.map(({ name }) => MARKET_TERMS[name]))];
  const heads = columns.map((terms) =>
    MARKETS.flatMap(({ name }) => (MARKET_TERMS[name] === terms ? name : [])).join(', '),
  );
  return table(
    [words('In the language'), ...heads.map(words)],
    CONCEPTS.map((concept) => [concept, ...columns.map((terms) => termWords(terms[concept]))]),
  );
}

function termWords(term: Term | undefined): string {
  if (term === undefined) return '–';
  return term.short === term.full ? term.short : `${term.short}, ${term.full}`;
}

/** kg/m³ as kg/L, with every digit the catalogue has. */
function litre(density: number): string {
  return formatNumber(density / 1000, 6);
}

const ROW = 10;

/** Load capacity of one tyre, kg, by load index: a row for each ten. */
export function loadIndexTable(): string {
  const last = FIRST_LOAD_INDEX + LOAD_INDEX_CAPACITIES.length - 1;
  const firstRow = Math.floor(FIRST_LOAD_INDEX / ROW);
  const rows = Array.from({ length: Math.floor(last / ROW) - firstRow + 1 }, (_, index) => firstRow + index);
  const digits = Array.from({ length: ROW }, (_, digit) => digit);
  return table(
    [words('Index'), ...digits.map((digit) => figures(`+${digit}`))],
    rows.map((row) => [
      String(row * ROW),
      ...digits.map((digit) => String(LOAD_INDEX_CAPACITIES[row * ROW + digit - FIRST_LOAD_INDEX] ?? '')),
    ]),
  );
}

/** Speed symbols with the speed each stands for. */
export function speedSymbolTable(): string {
  return table(
    [words('Symbol'), figures('km/h'), words('Source')],
    SPEED_SYMBOLS.map(({ symbol, kmh, source }) => [code(symbol), String(kmh), source]),
  );
}

const MEASURES: Readonly<Record<ComputedName['measure'], string>> = {
  mass: 'a mass',
  length: 'a length',
  'moment of inertia': 'a moment of inertia',
  share: 'a share in %',
};

/** What can be asked about in a `require` line. */
export function computedNameTable(): string {
  return table(
    [words('Name'), words('Is'), words('Meaning')],
    COMPUTED_NAMES.map(({ pattern, measure, documentation }) => [code(pattern), MEASURES[measure], documentation]),
  );
}
