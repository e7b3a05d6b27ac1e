import { amountFigures, amountText, nearestAmount } from '../../language/rules/window/amount.ts';
import type { Chosen } from '../../language/rules/window/choose.ts';
import { windowWords } from '../../language/rules/window/words.ts';
import { rigHeading } from './loads.ts';
import { type Cell, type Column, renderTable } from './table.ts';
import type { Paint } from './terminal.ts';
import { oneLine, wrap } from './text.ts';
import type { FoundWindow } from './window-command.ts';

export interface WindowTextOptions {
  readonly paint: Paint;
  /** Columns that running text is wrapped at. */
  readonly width: number;
}

/** A window as rules that can be printed, its corners in a table, and what has to be known to read them. */
export function renderWindow(asked: FoundWindow, { paint, width }: WindowTextOptions): string[] {
  const { found, window, units } = asked;
  const words = windowWords(window, units);
  const wrapped = (text: string, first = '  ', hanging = first) => wrap(oneLine(text), width, first, hanging);
  return [
    rigHeading(found, paint),
    ...wrapped(`operating window of ${words.heading}`).map((text) => paint('heading', text)),
    '',
    ...wrapped(words.verdict),
    ...words.rules.flatMap(({ rule, limit, worst }, index) => [
      ...wrapped(`${index + 1}  ${rule}`, '  ', '     '),
      ...wrapped(limit, '     ').map((text) => paint('dim', text)),
      ...(worst === undefined ? [] : wrapped(`at the limit ${worst}`, '     ').map((text) => paint('dim', text))),
    ]),
    ...words.conflicts.flatMap((text) => wrapped(text, '  ', '    ').map((each) => paint('error', each))),
    ...cornerTable(asked, paint),
    '',
    ...words.notes.flatMap((note) => wrapped(note)),
  ];
}

/** The corners of a window, counter-clockwise, with the limits that meet there. */
function cornerTable({ window, units }: FoundWindow, paint: Paint): string[] {
  const { corners, axes, sides } = window;
  if (corners.length === 0) return [];
  const dim = (text: string): Cell => ({ text, style: 'dim' });
  const head = [dim('corner'), ...axes.flatMap((axis) => [dim(axis.short), ...figureHeads(axis)]), dim('rules')];
  const columns: Column[] = [
    { align: 'left' },
    ...head.slice(2).map((): Column => ({ align: 'right' })),
    { align: 'left' },
  ];
  const numbers = (side: object | undefined) =>
    sides.flatMap(({ borders }, index) => (borders.some((border) => border === side) ? [index + 1] : []));
  const rows = corners.map((corner, index): Cell[] => {
    const meeting = new Set([...numbers(corners.at(index - 1)?.side), ...numbers(corner.side)]);
    return [
      { text: String(index + 1) },
      ...axes.flatMap((axis, which) => {
        const amount = nearestAmount(axis, which === 0 ? corner.u : corner.v);
        return [amountText(axis, amount), ...amountFigures(axis, amount, units, 'nearest')].map((text) => ({ text }));
      }),
      { text: [...meeting].sort((a, b) => a - b).join(', ') },
    ];
  });
  return ['', ...renderTable(columns, [head, ...rows], paint, '  ')];
}

const figureHeads = ({ kind }: Chosen): Cell[] => (kind === 'tank' ? [{ text: '' }, { text: '' }] : [{ text: '' }]);
