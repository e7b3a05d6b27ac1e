import type { Measure, Word } from '../../syntax/tree.ts';
import { baseUnits, dimensionName, sameDimension } from '../../units/dimension.ts';
import { displayUnit, formatNumber, formatQuantity } from '../../units/display.ts';
import { add, isQuantity, type Quantity, quantity, readNumber } from '../../units/quantity.ts';
import { parseUnit, UNITS } from '../../units/units.ts';
import { code, enumerate, paragraphs } from '../markdown.ts';

/** Digits shown of a converted number: enough to check a factor by. */
const SIGNIFICANT = 6;

/** A number with its unit, or several that add up: the value in SI and in the other system's unit. */
export function measureHover(measures: readonly Measure[], sharedUnit: Word | undefined): string | undefined {
  let sum: Quantity | undefined;
  for (const measure of measures) {
    const read = readMeasure(measure, sharedUnit);
    if (read === undefined) return undefined;
    const next = sum === undefined ? read : add(sum, read);
    if (!isQuantity(next)) return undefined;
    sum = next;
  }
  return sum && quantityWords(sum, measures.length > 1);
}

function readMeasure(measure: Measure, sharedUnit: Word | undefined): Quantity | undefined {
  const number = readNumber(measure.number.text);
  const unit = parseUnit(measure.unit?.text ?? sharedUnit?.text ?? '');
  if (typeof number !== 'number' || unit === undefined) return undefined;
  const read = quantity(number, unit);
  return isQuantity(read) ? read : undefined;
}

/** `2 600 mm = 2.6 m = 102 in`: as written, in SI, in the other systems where they differ. */
export function quantityWords(written: Quantity, isSum = false): string {
  const options = { significant: SIGNIFICANT };
  const base = baseUnits(written.dimension);
  const inBase = `${formatNumber(written.value, SIGNIFICANT)} ${base}`.trimEnd();
  const systems = (['metric', 'US'] as const).map((system) => displayUnit(written.dimension, system));
  const shown = [
    formatQuantity(written, undefined, options),
    ...systems.map((unit) => formatQuantity(written, unit || undefined, options)),
    inBase,
  ];
  const [first = '', ...others] = new Set(shown);
  const kind = dimensionName(written.dimension);
  return `**${first}**${others.map((text) => ` = ${text}`).join('')} (${kind}${isSum ? ', added up' : ''})`;
}

/** A unit: what it measures and what one of it is in SI. */
export function unitOfMeasureHover(text: string): string | undefined {
  const unit = parseUnit(text);
  if (unit === undefined) return undefined;
  const entry = UNITS.find(({ symbol }) => symbol === unit.text);
  const base = baseUnits(unit.dimension);
  const value = `1 ${unit.text} = ${formatNumber(unit.factor, 12)} ${base}`.trimEnd();
  const readAlso = entry?.synonyms ?? [];
  return paragraphs(
    `${code(unit.text)} — unit of ${dimensionName(unit.dimension)}: ${value}.`,
    readAlso.length > 0 ? `Also read: ${enumerate(readAlso.map(code), 8)}.` : undefined,
    entry && `Source of the factor: ${entry.source}.`,
    othersLike(unit.text),
  );
}

/** Other units of the same kind of quantity. */
function othersLike(symbol: string): string | undefined {
  const own = UNITS.find((unit) => unit.symbol === symbol);
  if (own === undefined) return undefined;
  const others = UNITS.filter((unit) => unit !== own && sameDimension(unit.dimension, own.dimension));
  return others.length > 0
    ? `Other units: ${enumerate(
        others.map((unit) => code(unit.symbol)),
        8,
      )}.`
    : undefined;
}
