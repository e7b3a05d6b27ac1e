import { KIND_UNITS } from '../semantics/kinds.ts';
import { kindWords } from '../services/hover/words.ts';
import { code, paragraphs, table } from '../services/markdown.ts';
import type { QuantityKind } from '../syntax/vocabulary.ts';
import { baseUnits, type Dimension, dimensionKey, dimensionName, sameDimension } from '../units/dimension.ts';
import { UNITS, type UnitDefinition } from '../units/unit-table.ts';
import { capital } from './text.ts';

/** A way to write a number, and what it is. */
export const NUMBER_FORMS: readonly (readonly [written: string, value: number])[] = [
  ['1850', 1850],
  ['3.5', 3.5],
  ['.5', 0.5],
  ['1_850', 1850],
  ['1e3', 1000],
  ['3/4', 0.75],
  ['3 3/4', 3.75],
];

/** Spellings that could be read in two ways: what they are read as, and what they are not. */
export const CLEAR_SPELLINGS: readonly (readonly [spelling: string, unit: string, not: string])[] = [
  ['g', 'g', 'the acceleration of gravity, which is `gn`'],
  ['t', 't', 'a ton'],
  ['ton', 'ton', 'a tonne, or the long ton of 2240 lb'],
  ['m', 'm', 'a minute or a mile'],
  ['min', 'min', 'a minimum or an inch'],
  ['gal', 'gal', 'the imperial gallon, which is `impgal`'],
  ['oz', 'oz', 'a fluid ounce'],
  ['lb', 'lb', 'a pound-force, which is `lbf`'],
  ['kg', 'kg', 'a kilogram-force, which is `kgf`'],
  ['ft-lb', 'lbf·ft', 'a length times a mass'],
  ['lb/in', 'lbf/in', 'a mass per length'],
  ['lb/ft', 'lb/ft', 'a force per length'],
  ['lb/ft²', 'lb/ft²', 'a pressure'],
];

/** Numbers as they may be written. */
export function numberTable(): string {
  return table(
    [
      { head: 'Written', align: 'left' },
      { head: 'Value', align: 'right' },
    ],
    NUMBER_FORMS.map(([written, value]) => [code(written), String(value)]),
  );
}

/** What a kind of value is in: usual units for each. */
export function kindTable(): string {
  return table(
    [
      { head: 'Value', align: 'left' },
      { head: 'Usual units', align: 'left' },
    ],
    Object.entries(KIND_UNITS).flatMap(([kind, units]) => (isKind(kind) ? [[capital(kindWords(kind)), units]] : [])),
  );
}

function isKind(text: string): text is QuantityKind {
  return text in KIND_UNITS;
}

export function spellingTable(): string {
  return table(
    [
      { head: 'Written', align: 'left' },
      { head: 'Read as', align: 'left' },
      { head: 'Not as', align: 'left' },
    ],
    CLEAR_SPELLINGS.map(([spelling, unit, not]) => [code(spelling), unitName(unit), not]),
  );
}

function unitName(symbol: string): string {
  const unit = UNITS.find((candidate) => candidate.symbol === symbol);
  return unit === undefined ? code(symbol) : `${code(symbol)}, ${dimensionName(unit.dimension)}`;
}

/** Every unit by dimension, with its factor to SI. */
export function unitTables(): string {
  const byDimension = new Map<string, UnitDefinition[]>();
  for (const unit of UNITS) {
    const key = dimensionKey(unit.dimension);
    byDimension.set(key, [...(byDimension.get(key) ?? []), unit]);
  }
  return paragraphs(
    ...[...byDimension.values()].map((units) => {
      const dimension = units[0]?.dimension;
      return dimension && paragraphs(`### ${headingOf(dimension)}`, unitTable(units, dimension));
    }),
  );
}

function headingOf(dimension: Dimension): string {
  return capital(dimensionName(dimension).replace(/^an? /, ''));
}

function unitTable(units: readonly UnitDefinition[], dimension: Dimension): string {
  const si = siSymbol(dimension);
  return table(
    [
      { head: 'Unit', align: 'left' },
      { head: 'Also read', align: 'left' },
      { head: si === '' ? 'Value' : `In ${si}`, align: 'right' },
      { head: 'System', align: 'left' },
      { head: 'Source of the factor', align: 'left' },
    ],
    units.map(({ symbol, synonyms, factor, system, source }) => [
      code(symbol),
      synonyms.map(code).join(', '),
      String(factor),
      system,
      source,
    ]),
  );
}

/** The unit of the table whose factor is 1, or the base units. */
function siSymbol(dimension: Dimension): string {
  const coherent = UNITS.find((unit) => unit.factor === 1 && sameDimension(unit.dimension, dimension));
  return coherent?.symbol ?? baseUnits(dimension);
}
