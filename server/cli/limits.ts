import type { Levels, StatedLevel } from '../../language/levels/level.ts';
import { formatLimited } from '../../language/rules/limits/check-limits.ts';
import type { LimitRow, Standing } from '../../language/rules/limits/table.ts';
import { tallyLimits, tallyText } from '../../language/rules/limits/tally.ts';
import type { DisplaySystem } from '../../language/units/display.ts';
import { placeText } from './check.ts';
import { renderFitted } from './fitted-table.ts';
import type { FoundRig } from './rigs.ts';
import type { Cell, Column } from './table.ts';
import type { Paint } from './terminal.ts';
import { displayWidth, listed, oneLine, wrap } from './text.ts';
import { type AskedUnits, inUnitsOf } from './units.ts';

/** What the table says, and what it does not say. */
export const LIMITS_NOTE =
  'This says which figures of the files were compared with which limit of which text, on level ground in the cases of ' +
  'the files. It does not say that a rig is legal: other texts may bind it, and texts change.';

/** The limits of a rig, with the levels of rules that bind it. */
export interface FoundLimits {
  readonly found: FoundRig;
  /** None where its loads cannot be computed. */
  readonly rows: readonly LimitRow[];
  readonly levels: Levels;
}

export interface LimitsOptions {
  readonly units: DisplaySystem;
  readonly paint: Paint;
  /** Columns that no line goes beyond where it can be broken. */
  readonly width: number;
}

/** The limits of rigs, text by text: what was compared, what could not be, what is turned off. */
export function renderLimits(
  rigs: readonly FoundLimits[],
  options: Omit<LimitsOptions, 'units'> & AskedUnits,
): string[] {
  return rigs.flatMap((rig, index) => [
    ...(index > 0 ? [''] : []),
    ...renderRig(rig, inUnitsOf(rig.found.result.rig, options)),
  ]);
}

/** Rules of the rig's limits that are turned off, each once. */
export function turnedOffRules({ rows, levels }: FoundLimits): readonly StatedLevel[] {
  const codes = new Set(rows.map(({ code }) => code));
  return [...levels.values()].filter(({ code, level }) => level === 'off' && codes.has(code));
}

function renderRig(limits: FoundLimits, options: LimitsOptions): string[] {
  const { found, rows } = limits;
  const heading = headingLines(found, options);
  if (found.result.states.length === 0) {
    return [...heading, ...wrap('No loads: `rigwright check` says what is missing.', options.width, '  ', '  ')];
  }
  return [
    ...heading,
    ...textsOf(rows).flatMap((text) => ['', ...renderText(text, limits, options)]),
    '',
    ...wrap(`${tallyText(tallyLimits(rows))}.`, options.width, '  ', '  '),
    ...turnedOffLines(limits, options),
  ];
}

function headingLines({ result: { rig }, kind, document, start }: FoundRig, { paint, width }: LimitsOptions): string[] {
  const name = `${kind} ${oneLine(rig.name)}`;
  const title = rig.title === undefined ? '' : ` "${oneLine(rig.title)}"`;
  const place = placeText(document, start);
  const markets = rig.markets.length > 0 ? wrap(`in ${rig.markets.join(', ')}`, width, '  ', '  ') : [];
  const isNarrow = displayWidth(`${name}${title}  ${place}`) > width;
  const head = paint('heading', name) + title;
  const lines = isNarrow ? [head, `  ${paint('dim', place)}`] : [`${head}  ${paint('dim', place)}`];
  return [...lines, ...markets];
}

/** `Coupling of TourerB, the coupling load`. A quantity that goes on in a sentence ends in a comma. */
function figureName({ subject, quantity }: LimitRow): string {
  return `${subject}, ${quantity.replace(/,$/, '')}`;
}

/** Rows of one text, in the order of the table. */
interface LimitText {
  readonly heading: string;
  readonly rows: readonly LimitRow[];
}

function textsOf(rows: readonly LimitRow[]): LimitText[] {
  const texts = new Map<string, LimitRow[]>();
  for (const row of rows) {
    const heading = textHeading(row);
    const own = texts.get(heading);
    if (own === undefined) texts.set(heading, [row]);
    else own.push(row);
  }
  return [...texts].map(([heading, own]) => ({ heading, rows: own }));
}

/** `StVZO § 44(3): regulation, DE`. */
function textHeading({ text, authority, markets }: LimitRow): string {
  const force = text.startsWith(authority) ? [] : [authority];
  const notes = [...force, ...(markets === 'everywhere' ? [] : markets)];
  return oneLine(notes.length === 0 ? text : `${text}: ${notes.join(', ')}`);
}

const INDENT = '    ';
const COLUMNS: readonly Column[] = [
  { align: 'left' }, // code
  { align: 'left' }, // subject and quantity
  { align: 'right' }, // value
  { align: 'left' }, // limit
  { align: 'right' }, // margin
  { align: 'left' }, // case
  { align: 'left' }, // verdict
];
const HEADS: readonly Cell[] = ['', '', 'figure', 'limit', 'margin', 'worst in', ''].map((text) => ({
  text,
  style: 'dim',
}));

/** Columns that the names of figures are not broken into fewer than. */
const NARROWEST_NAME = 18;
const NAME = 1;

function renderText({ heading, rows }: LimitText, limits: FoundLimits, options: LimitsOptions): string[] {
  const { paint, width } = options;
  const standing = rows.flatMap((row) =>
    row.outcome.verdict === 'open' ? [] : [standingCells(row, row.outcome, limits, options)],
  );
  return [
    ...wrap(heading, width, '  ', '  ').map((line) => paint('heading', line)),
    ...renderStanding(standing, options),
    ...rows.flatMap((row) => openLines(row, width)),
  ];
}

function renderStanding(rows: readonly (readonly Cell[])[], options: LimitsOptions): string[] {
  const stackedRow = (cells: readonly Cell[]) => stacked(cells, options);
  const fitted = { columns: COLUMNS, heads: [HEADS], rows, words: NAME, narrowest: NARROWEST_NAME, indent: INDENT };
  return renderFitted({ ...fitted, stacked: stackedRow }, options);
}

function standingCells(row: LimitRow, outcome: Standing, { levels }: FoundLimits, { units }: LimitsOptions): Cell[] {
  const { value, limit, margin, sense, state, verdict } = outcome;
  const format = (figure: number) => formatLimited(outcome, figure, units);
  const isOff = levels.get(row.code)?.level === 'off';
  const style: Pick<Cell, 'style'> = verdict === 'broken' ? { style: 'error' } : {};
  return [
    { text: row.code, style: 'dim' },
    { text: oneLine(figureName(row)) },
    { text: format(value), ...style },
    { text: `${sense} ${format(limit)}` },
    { text: format(margin), ...style },
    { text: oneLine(state.replace(/^case /, '')) },
    { text: isOff ? `${verdict}, turned off` : verdict, ...style },
  ];
}

/** A row over several lines, for terminals that a table does not fit on. */
function stacked(
  [code, what, value, limit, margin, state, verdict]: readonly Cell[],
  { width, paint }: LimitsOptions,
): string[] {
  const text = (cell: Cell | undefined) => cell?.text ?? '';
  const where = text(state) === '' ? '' : `, worst in ${text(state)}`;
  const figures = `${text(value)}, ${text(limit)}, margin ${text(margin)}${where}`;
  const lines = wrap(`${text(code)} ${text(what)} ${figures}: ${text(verdict)}`, width, INDENT, `${INDENT}  `);
  const { style } = verdict ?? {};
  return style === undefined ? lines : lines.map((line) => paint(style, line));
}

function openLines(row: LimitRow, width: number): string[] {
  const { outcome } = row;
  if (outcome.verdict !== 'open') return [];
  const text = `${row.code} ${figureName(row)}: could not be checked; missing: ${outcome.missing}`;
  return wrap(oneLine(text), width, INDENT, `${INDENT}  `);
}

function turnedOffLines(limits: FoundLimits, { width }: LimitsOptions): string[] {
  const rules = turnedOffRules(limits);
  if (rules.length === 0) return [];
  const text = listed(rules.map(({ code, reason }) => `${code} (${reason.trim()})`));
  return wrap(oneLine(`Turned off: ${text}.`), width, '  ', '  ');
}
