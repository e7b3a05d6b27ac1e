import type { RigModel } from '../../language/semantics/model.ts';
import type { StateResult } from '../../language/semantics/state.ts';
import { wordFor } from '../../language/services/markets.ts';
import { labelWords } from '../../language/services/ratings.ts';
import { type DisplaySystem, formatMass, formatShare } from '../../language/units/display.ts';
import { isOver, type LoadRow, loadRows, marginOf, movingRows } from './load-rows.ts';
import { type Cell, type Column, renderTable } from './table.ts';
import type { Paint } from './terminal.ts';
import { oneLine } from './text.ts';

/** How numbers are shown, and in which units. */
export interface TableOptions {
  readonly units: DisplaySystem;
  readonly paint: Paint;
}

const WHOLE_RIG = 'whole rig';
const OVER = 'over';
const INDENT = '    ';

const COLUMNS: readonly Column[] = [
  { align: 'left' }, // unit
  { align: 'left' }, // what
  { align: 'right' }, // load
  { align: 'right' }, // rating
  { align: 'left' }, // what the rating is called
  { align: 'right' }, // margin
  { align: 'left' }, // remark
];

/** The loads of a state on level road in the words of the rig's markets, each beside its rating and the margin to it. */
export function renderLoadTable(state: StateResult, { units, paint }: TableOptions): string[] {
  const rows = loadRows(state);
  const head = ['', '', 'load', 'limit', '', 'margin'].map((text): Cell => ({ text, style: 'dim' }));
  const body = rows.flatMap((row, index) => [
    loadCells(row, rows[index - 1], state.rig, units),
    ...shareCells(row, rows[index + 1]),
  ]);
  return renderTable(COLUMNS, [head, ...body], paint, INDENT);
}

function loadCells(row: LoadRow, above: LoadRow | undefined, rig: RigModel, units: DisplaySystem): Cell[] {
  const style: Pick<Cell, 'style'> = isOver(row) ? { style: 'error' } : {};
  const repeats = above?.name === row.name; // the same load, held against another rating
  return [
    unitCell(row, above),
    { text: repeats ? '' : labelWords(row, rig) },
    { text: repeats ? '' : massText(row.load, units), ...style },
    { text: massText(row.rating?.value, units) },
    { text: oneLine(row.rating === undefined ? '' : wordFor(row.rating, rig)) },
    { text: massText(marginOf(row), units), ...style },
    { text: isOver(row) ? OVER : '', ...style },
  ];
}

/** A line of its own below a coupling load and its ratings: its share of the trailer's mass. */
function shareCells({ name, share }: LoadRow, below: LoadRow | undefined): Cell[][] {
  if (share === undefined || below?.name === name) return [];
  return [[{ text: '' }, { text: 'coupling share' }, { text: formatShare(share) }]];
}

/** The unit, where the row above speaks of another. */
function unitCell(row: LoadRow, above: LoadRow | undefined): Cell {
  const repeats = above !== undefined && above.unit === row.unit;
  return { text: repeats ? '' : oneLine(row.unit ?? WHOLE_RIG) };
}

function massText(kilograms: number | undefined, units: DisplaySystem): string {
  return kilograms === undefined ? '' : formatMass(kilograms, units);
}

/** States of motion that are shown side by side; more go into a further table below. */
const MOST_ACROSS = 3;

/**
 * The loads that grade and braking change, one column for each state of motion; no lines where there is none. They are
 * not held against ratings, which are meant for standing on level ground.
 */
export function renderMotionTable(states: readonly StateResult[], options: TableOptions): string[] {
  if (states.length > MOST_ACROSS) {
    return [
      ...renderMotionTable(states.slice(0, MOST_ACROSS), options),
      ...renderMotionTable(states.slice(MOST_ACROSS), options),
    ];
  }
  const moving = states.map(movingRows);
  const [first = []] = moving;
  const rig = states[0]?.rig;
  if (first.length === 0) return [];
  const names = states.map(({ motion }): Cell => ({ text: oneLine(motion.text), style: 'dim' }));
  const body = first.map((row, index): Cell[] => [
    unitCell(row, first[index - 1]),
    { text: rig === undefined ? row.label : labelWords(row, rig) },
    ...moving.map((rows) => ({ text: massText(rows.find(({ name }) => name === row.name)?.load, options.units) })),
  ]);
  const columns: Column[] = [{ align: 'left' }, { align: 'left' }, ...states.map((): Column => ({ align: 'right' }))];
  return renderTable(
    columns,
    [[{ text: 'in motion', style: 'dim' }, { text: '' }, ...names], ...body],
    options.paint,
    INDENT,
  );
}
