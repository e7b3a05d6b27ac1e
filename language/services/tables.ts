import type { StateResult } from '../semantics/state.ts';
import { type Column, table } from './markdown.ts';

/** One line of a table of cases. */
export interface Row {
  readonly label: string;
  /** SI; undefined where the state has no such figure. */
  readonly value: (state: StateResult) => number | undefined;
  readonly format: (value: number, state: StateResult) => string;
  /** Names of the computed quantities that it is the sum of, where it is one. */
  readonly quantities?: readonly string[];
  /** What stands behind the cases: a limit, a margin. */
  readonly tail?: readonly string[];
}

/** With more different cases than this, a table shows the least and the greatest figure of each line instead. */
const MOST_CASE_COLUMNS = 4;

const NOTHING = '–';

/**
 * A table with a line per figure and a column per case; figures that no case has are left out. Cases that do not differ share a column; of many cases only the
 * extremes are shown, with the case they stand in.
 */
export function caseTable(
  states: readonly StateResult[],
  allRows: readonly Row[],
  tailHeads: readonly string[],
  head = ' ',
): string {
  const rows = allRows.filter((row) => states.some((state) => row.value(state) !== undefined));
  const columns = shareColumns(states, rows);
  const body = columns.length > MOST_CASE_COLUMNS ? extremes(states, rows) : sideBySide(columns, rows);
  const heads = [...body.heads, ...tailHeads];
  return table(
    [{ head, align: 'left' }, ...heads.map((text): Column => ({ head: text, align: 'right' }))],
    rows.map((row, index) => [
      row.label,
      ...(body.lines[index] ?? []),
      ...tailHeads.map((_, tail) => row.tail?.[tail] ?? ''),
    ]),
  );
}

interface CaseColumn {
  readonly names: string[];
  readonly cells: readonly string[];
}

function shareColumns(states: readonly StateResult[], rows: readonly Row[]): readonly CaseColumn[] {
  const columns: CaseColumn[] = [];
  for (const state of states) {
    const cells = rows.map((row) => cellOf(row, state));
    const equal = columns.find((column) => column.cells.every((cell, index) => cell === cells[index]));
    if (equal) equal.names.push(state.case.name);
    else columns.push({ names: [state.case.name], cells });
  }
  return columns;
}

function cellOf(row: Row, state: StateResult): string {
  const value = row.value(state);
  return value === undefined ? NOTHING : row.format(value, state);
}

interface TableBody {
  readonly heads: readonly string[];
  /** By row. */
  readonly lines: readonly (readonly string[])[];
}

function sideBySide(columns: readonly CaseColumn[], rows: readonly Row[]): TableBody {
  const all = columns.length === 1 && (columns[0]?.names.length ?? 0) > 1;
  return {
    heads: columns.map(({ names }) => (all ? 'every case' : names.join(', '))),
    lines: rows.map((_, index) => columns.map(({ cells }) => cells[index] ?? '')),
  };
}

function extremes(states: readonly StateResult[], rows: readonly Row[]): TableBody {
  return {
    heads: ['least', 'greatest'],
    lines: rows.map((row) => {
      const figures = states.flatMap((state) => {
        const value = row.value(state);
        return value === undefined ? [] : [{ value, state }];
      });
      const [least, greatest] = [extreme(figures, -1), extreme(figures, 1)];
      return [least, greatest].map((figure) =>
        figure === undefined ? NOTHING : `${row.format(figure.value, figure.state)} (${figure.state.case.name})`,
      );
    }),
  };
}

interface Figure {
  readonly value: number;
  readonly state: StateResult;
}

function extreme(figures: readonly Figure[], sign: 1 | -1): Figure | undefined {
  return figures.reduce<Figure | undefined>(
    (best, figure) => (best === undefined || sign * (figure.value - best.value) > 0 ? figure : best),
    undefined,
  );
}
