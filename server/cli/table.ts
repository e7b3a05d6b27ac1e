import type { Paint, Style } from './terminal.ts';
import { displayWidth, pad } from './text.ts';

export interface Cell {
  readonly text: string;
  readonly style?: Style;
}

export interface Column {
  /** Side that the texts of the column are flush with. */
  readonly align: 'left' | 'right';
}

/** Space between two columns. */
const GAP = '  ';

/** Lines of a table whose columns are as wide as their content. Cells missing at the end of a row are empty. */
export function renderTable(
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  paint: Paint,
  indent = '',
): string[] {
  const widths = columns.map((_, index) => Math.max(0, ...rows.map((row) => displayWidth(row[index]?.text ?? ''))));
  return rows.map((row) => {
    const last = row.findLastIndex((cell) => cell.text !== '');
    const cells = row.slice(0, last + 1).map((cell, index) => {
      const align = columns[index]?.align ?? 'left';
      const filled = index === last && align === 'left' ? cell.text : pad(cell.text, widths[index] ?? 0, align);
      return cell.style === undefined ? filled : paint(cell.style, filled);
    });
    return (indent + cells.join(GAP)).trimEnd();
  });
}
