import { marketNamed } from '../../language/catalogue/markets.ts';
import { LABEL_HEADING, type LabelRow } from '../../language/label/label.ts';
import { formatValue } from '../../language/units/display.ts';
import type { FoundLabel } from './labels.ts';
import { type Cell, type Column, renderTable } from './table.ts';
import type { Paint } from './terminal.ts';
import { oneLine, wrap } from './text.ts';

export interface LabelTextOptions {
  readonly paint: Paint;
  /** Columns that running text is wrapped at. */
  readonly width: number;
}

const COLUMNS: readonly Column[] = [
  { align: 'left' }, // term
  { align: 'left' }, // value
  { align: 'left' }, // number of the note
];

/** The drafts one below the other, each with its sources as notes. */
export function renderLabels(labels: readonly FoundLabel[], options: LabelTextOptions): string[] {
  return labels.flatMap((label, index) => [...(index > 0 ? [''] : []), ...renderLabel(label, options)]);
}

function renderLabel({ unit, market, rows, incomplete }: FoundLabel, { paint, width }: LabelTextOptions): string[] {
  const title = unit.title === undefined ? '' : ` "${oneLine(unit.title)}"`;
  const place = marketNamed(market)?.title ?? market;
  const sources = [...new Set(rows.map(noteOf))];
  const cells = rows.map((row): Cell[] => [
    { text: row.term },
    valueCell(row, market === 'US'),
    { text: `[${sources.indexOf(noteOf(row)) + 1}]`, style: 'dim' },
  ]);
  return [
    paint('heading', LABEL_HEADING),
    `${paint('heading', `${unit.kind} ${oneLine(unit.name)}`)}${title}, ${place}`,
    ...renderTable(COLUMNS, cells, paint, '  '),
    ...incomplete.flatMap((text) => wrap(`incomplete: ${oneLine(text)}`, width, '  ', '  ')),
    ...sources.flatMap((source, index) => wrap(`[${index + 1}] ${source}`, width, '  ', '      ')),
  ];
}

const noteOf = ({ source, authority }: LabelRow): string => `${authority}: ${source}`;

/** In the United States both in customary and in metric units. */
function valueCell({ value, text, missing, dimension }: LabelRow, both: boolean): Cell {
  if (value === undefined) {
    return missing === undefined ? { text: oneLine(text ?? '') } : { text: `missing: ${missing}`, style: 'warning' };
  }
  const metric = formatValue(value, dimension);
  return { text: both ? `${metric} (${formatValue(value, dimension, 'US')})` : metric };
}
