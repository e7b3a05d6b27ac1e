import { type Cell, type Column, renderTable } from './table.ts';
import type { Paint } from './terminal.ts';
import { displayWidth, wrap } from './text.ts';

/** A table one column of which holds words that may be broken to fit. */
export interface FittedTable {
  readonly columns: readonly Column[];
  readonly heads: readonly (readonly Cell[])[];
  readonly rows: readonly (readonly Cell[])[];
  /** Index of the column of words. */
  readonly words: number;
  /** Columns of the terminal that words are not broken into fewer than. */
  readonly narrowest: number;
  readonly indent: string;
  /** A row over several lines, for terminals that the table does not fit on. */
  readonly stacked: (row: readonly Cell[]) => readonly string[];
}

/** A table whose words are broken to fit, or where that does not do, each row over several lines. No lines without rows. */
export function renderFitted(
  { columns, heads, rows, words, narrowest, indent, stacked }: FittedTable,
  { paint, width }: { readonly paint: Paint; readonly width: number },
): string[] {
  if (rows.length === 0) return [];
  const bare = [...heads, ...rows].map((cells) => cells.map((cell, index) => (index === words ? { text: '' } : cell)));
  const others = Math.max(...renderTable(columns, bare, (_, text) => text, indent).map(displayWidth));
  // The last column is not padded: without its words the gap before it is gone too.
  const gap = words === columns.length - 1 ? GAP : 0;
  const room = width - others - gap;
  if (room < narrowest) return rows.flatMap(stacked);
  return renderTable(columns, [...heads, ...rows.flatMap((cells) => broken(cells, words, room))], paint, indent);
}

/** Columns between two columns of a table. */
const GAP = 2;

/** A row, and rows below it for what is left of its words. */
function broken(cells: readonly Cell[], words: number, room: number): Cell[][] {
  const text = cells[words]?.text ?? '';
  const lead = text.slice(0, text.length - text.trimStart().length);
  const [first = '', ...others] = wrap(text.trim(), room, lead, `${lead}  `);
  const before = new Array<Cell>(words).fill({ text: '' });
  return [
    cells.map((cell, index) => (index === words ? { ...cell, text: first } : cell)),
    ...others.map((text): Cell[] => [...before, { text }]),
  ];
}
