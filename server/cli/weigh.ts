import type { RigResult } from '../../language/semantics/state.ts';
import type { JointWeighing } from '../../language/semantics/weighing/joint.ts';
import type { WeighingResult } from '../../language/semantics/weighing/weighing-result.ts';
import {
  differenceRows,
  jointHeading,
  jointSentences,
  type PassRows,
  passRows,
  SCALE_OUTRANKS,
  scaleWords,
  slipSentences,
  slipVerdict,
  tareRows,
} from '../../language/services/weighings.ts';
import type { DisplaySystem } from '../../language/units/display.ts';
import { rigHeading } from './loads.ts';
import type { FoundRig } from './rigs.ts';
import { type Cell, type Column, renderTable } from './table.ts';
import type { Paint } from './terminal.ts';
import { displayWidth, oneLine, wrap } from './text.ts';
import { type AskedStyle, unitsFor } from './units.ts';

/** What the tables say, and what they do not. */
export const WEIGH_NOTE = `${SCALE_OUTRANKS} The tolerance is twice the standard deviation of scale and prediction together. Estimates take the file for right in all but the tares: a mass on board that the file does not list shows as a tare that is off.`;

/** A rig with its slips reconciled. */
export interface FoundWeighings {
  readonly found: FoundRig;
  readonly slips: readonly WeighingResult[];
  /** All of them as one, with those of the units by themselves; undefined where there are not two. */
  readonly joint: JointWeighing | undefined;
}

export interface WeighOptions {
  readonly units: DisplaySystem;
  readonly paint: Paint;
  /** Columns that no line goes beyond where it can be broken. */
  readonly width: number;
}

/** The slips of rigs: every reading beside its prediction, what follows of the tares, and what is missing. */
export function renderWeighings(rigs: readonly FoundWeighings[], options: AskedStyle<WeighOptions>): string[] {
  return rigs.flatMap((rig, index) => [
    ...(index > 0 ? [''] : []),
    ...renderRig(rig, { ...options, units: unitsFor(rig.found.result.rig, options.units) }),
  ]);
}

function renderRig({ found, slips, joint }: FoundWeighings, options: WeighOptions): string[] {
  const { result } = found;
  const { paint, width } = options;
  const heading = wrapHeading(rigHeading(found, paint), found, options);
  if (result.states.length === 0) {
    return [...heading, ...wrap('No loads: `rigwright check` says what is missing.', width, '  ', '  ')];
  }
  if (slips.length === 0)
    return [...heading, ...wrap('No readings of a weighing that can be used.', width, '  ', '  ')];
  return [
    ...heading,
    ...slips.flatMap((slip) => ['', ...renderSlip(result, slip, joint, options)]),
    ...(joint === undefined ? [] : ['', ...renderJoint(joint, options)]),
  ];
}

function renderJoint(joint: JointWeighing, options: WeighOptions): string[] {
  const { units, paint, width } = options;
  return [
    ...wrap(oneLine(jointHeading(joint)), width, '  ', '    ').map((line) => paint('heading', line)),
    ...(joint.disagreement === undefined ? renderTares(joint, 'slips', options) : []),
    '',
    ...jointSentences(joint, units).flatMap((sentence) => wrap(oneLine(sentence), width, '    ', '      ')),
  ];
}

/** A heading that is too long goes without the place of its rig. */
function wrapHeading(heading: string, { result: { rig }, kind }: FoundRig, { paint, width }: WeighOptions): string[] {
  if (displayWidth(heading) <= width) return [heading];
  return wrap(`${kind} ${oneLine(rig.name)}`, width, '', '  ').map((line) => paint('heading', line));
}

function renderSlip(
  result: RigResult,
  slip: WeighingResult,
  joint: JointWeighing | undefined,
  options: WeighOptions,
): string[] {
  const { units, paint, width } = options;
  const { weighing } = slip;
  const title = weighing.title === undefined ? '' : ` "${oneLine(weighing.title)}"`;
  const state = weighing.case === undefined ? '' : `, in case ${oneLine(weighing.case)}`;
  return [
    ...wrap(`weighing ${oneLine(weighing.name)}${title}${state}`, width, '  ', '    ').map((line) =>
      paint('heading', line),
    ),
    ...wrap(slipVerdict(slip), width, '    ', '    '),
    ...wrap(scaleWords(weighing, units), width, '    ', '    '),
    ...renderReadings(passRows(result, slip, units), options),
    ...renderDifferences(slip, options),
    ...renderTares(slip, 'slip', options),
    '',
    ...slipSentences(slip, joint, units).flatMap((sentence) => wrap(oneLine(sentence), width, '    ', '      ')),
  ];
}

const INDENT = '    ';

const READING_COLUMNS: readonly Column[] = [
  { align: 'left' }, // name
  { align: 'right' }, // read
  { align: 'right' }, // computed
  { align: 'right' }, // difference
  { align: 'right' }, // tolerance
  { align: 'left' }, // verdict
];

const READING_HEADS = ['', 'read', 'computed', 'difference', 'tolerance', ''];

const heads = (texts: readonly string[]): Cell[] => texts.map((text) => ({ text, style: 'dim' }));

function renderReadings(passes: readonly PassRows[], options: WeighOptions): string[] {
  const rows = passes.flatMap(({ heading, rows: own }): Cell[][] => [
    [{ text: oneLine(heading), style: 'dim' }],
    ...own.map(({ name, read, computed, difference, tolerance, verdict }): Cell[] => {
      const style: Pick<Cell, 'style'> = verdict === 'agrees' ? {} : { style: 'warning' };
      return [
        { text: `  ${oneLine(name)}` },
        { text: read },
        { text: computed },
        { text: difference, ...style },
        { text: tolerance },
        { text: verdict, ...style },
      ];
    }),
  ]);
  return ['', ...fitted(READING_COLUMNS, [heads(READING_HEADS), ...rows], options)];
}

function renderDifferences(slip: WeighingResult, options: WeighOptions): string[] {
  const rows = differenceRows(slip, options.units);
  if (rows.length === 0) return [];
  const columns: readonly Column[] = [{ align: 'left' }, { align: 'right' }, { align: 'right' }];
  const cells = rows.map(({ quantity, weighed, computed }): Cell[] => [
    { text: `  ${oneLine(quantity)}` },
    { text: weighed },
    { text: computed },
  ]);
  const basis = [...new Set(rows.map(({ name, basis }) => `${name}: ${basis}`))].join('; ');
  return [
    '',
    ...fitted(columns, [heads(['by difference', 'weighed', 'computed']), ...cells], options),
    ...wrap(oneLine(`${basis}.`), options.width, `${INDENT}  `, `${INDENT}  `).map((line) =>
      options.paint('dim', line),
    ),
  ];
}

function renderTares(slip: Pick<WeighingResult, 'tares'>, by: 'slip' | 'slips', options: WeighOptions): string[] {
  const columns: readonly Column[] = [{ align: 'left' }, { align: 'left' }, { align: 'right' }, { align: 'right' }];
  const rows = tareRows(slip, options.units);
  const cells = rows.map(({ unit, what, filed, weighed }, index): Cell[] => [
    { text: rows[index - 1]?.unit === unit ? '' : `  ${oneLine(unit)}` },
    { text: what },
    { text: filed },
    { text: weighed },
  ]);
  return ['', ...fitted(columns, [heads(['tare', '', 'file', by]), ...cells], options)];
}

/** A table, or where it is wider than the terminal each of its rows as running text. */
function fitted(
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  { paint, width }: WeighOptions,
): string[] {
  // What stands alone in a row is a heading: it is no part of the columns.
  const isHeading = (row: readonly Cell[]) => row.length === 1;
  const table = renderTable(
    columns,
    rows.map((row) => (isHeading(row) ? [] : row)),
    (_, text) => text,
    INDENT,
  );
  if (Math.max(...table.map(displayWidth)) <= width) {
    const painted = renderTable(
      columns,
      rows.map((row) => (isHeading(row) ? [] : row)),
      paint,
      INDENT,
    );
    return painted.flatMap((line, index) => {
      const row = rows[index] ?? [];
      return isHeading(row) ? headingLines(row, paint, width) : [line];
    });
  }
  const [names = [], ...body] = rows;
  return body.flatMap((row, index) => {
    if (isHeading(row)) return headingLines(row, paint, width);
    // A row that goes on with what the rows above it speak of says so when it stands alone.
    const subject = body
      .slice(0, index + 1)
      .findLast((above) => !isHeading(above) && above[0]?.text.trim() !== '')?.[0];
    return stacked(names, subject === undefined ? row : [subject, ...row.slice(1)], width);
  });
}

function headingLines([cell]: readonly Cell[], paint: Paint, width: number): string[] {
  return wrap(cell?.text ?? '', width, INDENT, `${INDENT}  `).map((line) => paint(cell?.style ?? 'dim', line));
}

/** `CrewPickup.front: read 1 240 kg, computed 1 232 kg, …`. */
function stacked(names: readonly Cell[], row: readonly Cell[], width: number): string[] {
  const [first, ...others] = row;
  const figures = others.flatMap(({ text }, index) =>
    text === '' ? [] : [`${names[index + 1]?.text ?? ''} ${text}`.trim()],
  );
  return wrap(`${first?.text.trim() ?? ''}: ${figures.join(', ')}`, width, `${INDENT}  `, `${INDENT}    `);
}
