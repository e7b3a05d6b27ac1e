import type { Analysis } from '../../semantics/analysis.ts';
import type { Declaration, Expression, Measure, Span, Statement, Value, Word } from '../../syntax/tree.ts';
import { counterpartOf, lastPlaceOf, type Rewritten, rewritten } from '../../units/counterpart.ts';
import { sameDimension } from '../../units/dimension.ts';
import { formatNumber } from '../../units/display.ts';
import type { ParsedUnit } from '../../units/parse-unit.ts';
import { fromSI, toSI } from '../../units/parse-unit.ts';
import { parseNumber } from '../../units/quantity.ts';
import { parseUnit } from '../../units/units.ts';
import { placeAt } from '../nodes.ts';
import { editOf, type Fix } from './fix.ts';

/**
 * Writes the quantity at a range in the other system's usual unit, with as many digits as read back as what was written;
 * numbers that one unit serves are rewritten together. Nothing for units that both systems share.
 */
export function rewriteInOtherUnit(analysis: Analysis, uri: string, range: Span): readonly Fix[] {
  const place = placeAt(analysis, uri, range.start);
  const statement = place?.path.at(-1)?.statement;
  if (place === undefined || statement === undefined) return [];
  const { declaration, start } = place.placed;
  const asked = { start: range.start - start, end: range.end - start };
  const groups = groupsOf(statement);
  const found = groups.find(({ measures }) => measures.some((sum) => holds(spanOf(sum), asked)));
  if (found === undefined || mayRunTogether(declaration.text, found, groups)) return [];
  return rewriteGroup(analysis, declaration, found) ?? [];
}

/** Measures that add up, such as `11 ft 3 in`; at least one. */
type Sum = readonly [Measure, ...Measure[]];

/** Sums that one unit serves, in text order. */
interface Group {
  readonly measures: readonly Sum[];
  /** Of the sum that has none of its own. */
  readonly shared?: Word;
}

const spanOf = (sum: Sum): Span => ({ start: sum[0].start, end: (sum.at(-1) ?? sum[0]).end });
const holds = (outer: Span, inner: Span): boolean => outer.start <= inner.start && inner.end <= outer.end;

function groupsOf({ expression, comparison, arguments: all }: Statement): readonly Group[] {
  const bare = [expression, comparison?.least, comparison?.most].flatMap((each) => each ?? []);
  return [
    ...bare.flatMap(sumsIn).map(alone),
    ...all.flatMap((argument) => (argument.kind === 'value' ? groupsOfValue(argument.value) : [])),
  ];
}

const alone = (sum: Sum): Group => ({ measures: [sum] });

function groupsOfValue({ factors, upTo, tolerance }: Value): readonly Group[] {
  const parts = [...factors, ...(upTo ? [upTo] : [])];
  const rest = tolerance ? sumsIn(tolerance).map(alone) : [];
  const last = parts.at(-1);
  const without = parts.filter((part) => sumsIn(part).some(hasNoUnit));
  if (without.length === 0) return [...parts.flatMap(sumsIn).map(alone), ...rest];
  // Arithmetic without a unit may be a plain factor; the unit then is not known to serve it.
  const sums = [...without, ...(last ? [last] : [])].map(soleSum);
  const shared = last && soleSum(last)?.at(-1)?.unit;
  const known = sums.flatMap((sum) => (sum === undefined ? [] : [sum]));
  const own = parts
    .filter((part) => part !== last && !without.includes(part))
    .flatMap(sumsIn)
    .map(alone);
  if (shared === undefined || known.length < sums.length) return [...own, ...rest];
  return [...own, { measures: known, shared }, ...rest];
}

/** Whether a quantity has a neighbour across blanks only: in another unit it might add up with it (`1 m 400 mm`). */
function mayRunTogether(text: string, group: Group, groups: readonly Group[]): boolean {
  const spans = groups.flatMap(({ measures }) => measures.map(spanOf));
  const touches = (a: Span, b: Span): boolean => a.end <= b.start && text.slice(a.end, b.start).trim() === '';
  return group.measures.map(spanOf).some((own) => spans.some((other) => touches(own, other) || touches(other, own)));
}

const hasNoUnit = (sum: Sum): boolean => sum.every(({ unit }) => unit === undefined);

/** The measures of an expression that is nothing else. */
function soleSum(expression: Expression): Sum | undefined {
  return expression.kind === 'quantity' ? sumsIn(expression)[0] : undefined;
}

function sumsIn(expression: Expression): readonly Sum[] {
  switch (expression.kind) {
    case 'quantity': {
      const [first, ...others] = expression.measures;
      return first === undefined ? [] : [[first, ...others]];
    }
    case 'sum':
      return expression.terms.flatMap(({ operand }) => sumsIn(operand));
    case 'product':
      return expression.factors.flatMap(({ operand }) => sumsIn(operand));
    default:
      return [];
  }
}

interface Reading {
  /** In `unit`. */
  readonly amount: number;
  readonly lastPlace: number;
  readonly unit: ParsedUnit;
}

/** A sum in the unit of its first measure; its last place is the finest of its measures. */
function read(sum: Sum, shared: Word | undefined): Reading | undefined {
  const unit = parseUnit(sum[0].unit?.text ?? shared?.text ?? '');
  if (unit === undefined) return undefined;
  let amount = 0;
  let lastPlace = Number.POSITIVE_INFINITY;
  for (const measure of sum) {
    const own = parseUnit(measure.unit?.text ?? shared?.text ?? '');
    const number = parseNumber(measure.number.text);
    if (own === undefined || number === undefined || !sameDimension(own.dimension, unit.dimension)) return undefined;
    const inUnit = (value: number): number => fromSI(toSI(value, own), unit);
    amount += inUnit(number);
    lastPlace = Math.min(lastPlace, inUnit(lastPlaceOf(measure.number.text)));
  }
  return { amount, lastPlace, unit };
}

interface Written {
  readonly reading: Reading;
  readonly result: Rewritten;
}

function rewriteGroup(analysis: Analysis, declaration: Declaration, group: Group): readonly Fix[] | undefined {
  const { measures, shared } = group;
  const readings = measures.flatMap((sum) => read(sum, shared) ?? []);
  const [first] = readings;
  const other = first && counterpartOf(first.unit);
  if (other === undefined || readings.length < measures.length) return undefined;
  const all = readings.flatMap((reading): readonly Written[] => {
    const result = rewritten(reading.amount, reading.lastPlace, reading.unit, other);
    return result === undefined ? [] : [{ reading, result }];
  });
  const edits = measures.flatMap((sum, index) => {
    const text = all[index]?.result.number;
    if (text === undefined) return [];
    const unit = hasNoUnit(sum) ? '' : ` ${other.text}`;
    return editOf(analysis, declaration, spanOf(sum), text + unit) ?? [];
  });
  if (edits.length < measures.length) return undefined;
  return [{ title: titleOf(all, other), edits, kind: 'rewrite' }];
}

function titleOf(all: readonly Written[], other: ParsedUnit): string {
  const unit = all[0]?.reading.unit.text ?? '';
  const text = all.map(({ result }) => result.number).join(' x ');
  const back = all.map(({ reading, result }) => readBack(reading, result)).join(' x ');
  const isExact = all.every(({ result }) => result.isExact);
  return `Write as ${text} ${other.text} (${isExact ? 'exactly' : 'reads back as'} ${back} ${unit})`;
}

/** Shown to a hundredth of the last place that was written: what was lost is seen there, if anywhere. */
function readBack({ amount, lastPlace }: Reading, result: Rewritten): string {
  if (result.isExact) return formatNumber(amount, 15, 6);
  return formatNumber(result.readBack, 15, Math.max(0, Math.ceil(-Math.log10(lastPlace))) + 2);
}
