import type { Expression, Span, Value } from '../syntax/tree.ts';
import type { QuantityKind, Sign } from '../syntax/vocabulary.ts';
import { DIMENSIONLESS, dimensionName, sameDimension } from '../units/dimension.ts';
import { formatQuantity } from '../units/display.ts';
import type { Quantity } from '../units/quantity.ts';
import { nearestUnit, type ParsedUnit } from '../units/units.ts';
import { evaluateExpression, isBareNumber, lastUnit, type NameLookup } from './expressions.ts';
import { KIND_DIMENSIONS, KIND_UNITS } from './kinds.ts';
import { type Line, locate, report, type Scope } from './scope.ts';

/** A quantity as stated, in SI, checked for dimension and sign. */
export interface Measured {
  readonly value: number;
  readonly kind: QuantityKind;
  /** Unit the author wrote, for display. */
  readonly unit?: string;
  /** Other end of a range. */
  readonly upTo?: number;
  /** Half width of a tolerance given with ±, SI. */
  readonly tolerance?: number;
  readonly span: Span;
}

export interface Wanted {
  /** How messages speak of the value: "the mass of item awning". */
  readonly what: string;
  readonly kinds: readonly QuantityKind[];
  readonly sign: Sign;
  readonly range?: boolean;
  /** Whether a tolerance with ± means anything to it. */
  readonly tolerance?: boolean;
}

export interface ReadingContext {
  readonly scope: Scope;
  readonly line: Line;
  readonly names: NameLookup;
}

/** Reads a value that is one quantity, or a range or tolerance of it. What does not fit is reported. */
export function readMeasured(value: Value, wanted: Wanted, context: ReadingContext): Measured | undefined {
  const { scope, line } = context;
  const [first, second] = value.factors;
  if (first === undefined) return undefined;
  if (second !== undefined) {
    report(
      scope,
      'unexpected-part',
      { part: "second factor behind 'x'", head: wanted.what, accepted: 'one quantity' },
      locate(line, second),
    );
    return undefined;
  }
  return readParts(value, first, wanted, context);
}

/** Reads `2 x 4.5 kg` or `4.5 kg`: a count of the thing `counted` and a quantity. */
export function readCounted(
  value: Value,
  counted: string,
  wanted: Wanted,
  context: ReadingContext,
): { count: number; measured: Measured } | undefined {
  const [first, second, third] = value.factors;
  if (first === undefined) return undefined;
  if (second === undefined || third !== undefined) {
    const measured = readMeasured(value, wanted, context);
    return measured && { count: 1, measured };
  }
  const count = readCount(first, `The count of ${counted}`, context);
  const measured = readParts(value, second, wanted, context);
  return count === undefined || measured === undefined ? undefined : { count, measured };
}

/** Reads a list of lengths such as `900 x 450 x 240 mm`; a unit at the end serves the numbers before it. */
export function readLengths(
  value: Value,
  what: string,
  parts: readonly number[],
  context: ReadingContext,
): number[] | undefined {
  const { scope, line } = context;
  if (!parts.includes(value.factors.length)) {
    const wanted = `${parts.join(' or ')} lengths joined by 'x'`;
    report(scope, 'out-of-range', { what, wanted, found: `${value.factors.length}` }, locate(line, value));
    return undefined;
  }
  const more = value.upTo ?? value.tolerance;
  if (more !== undefined) {
    const part = value.upTo === undefined ? 'tolerance' : 'range';
    report(scope, 'unexpected-part', { part, head: what, accepted: 'lengths' }, locate(line, more));
    return undefined;
  }
  const shared = lastUnit(value.factors[value.factors.length - 1]);
  const lengths: number[] = [];
  for (const factor of value.factors) {
    const read = readExpression(factor, { what, kinds: ['length'], sign: 'positive' }, context, shared);
    if (read === undefined) return undefined;
    lengths.push(read.value);
  }
  return lengths;
}

/** Largest count of like things. */
export const MOST_COUNTED = 10_000;

export function readCount(expression: Expression, what: string, context: ReadingContext): number | undefined {
  const quantity = evaluateExpression(expression, { ...context, wanted: DIMENSIONLESS });
  if (quantity === undefined) return undefined;
  const whole = sameDimension(quantity.dimension, DIMENSIONLESS) && quantity.unit === undefined;
  if (!whole || !Number.isInteger(quantity.value) || quantity.value < 1 || quantity.value > MOST_COUNTED) {
    report(context.scope, 'not-whole', { what, found: formatQuantity(quantity) }, locate(context.line, expression));
    return undefined;
  }
  return quantity.value;
}

function readParts(value: Value, first: Expression, wanted: Wanted, context: ReadingContext): Measured | undefined {
  const { scope, line } = context;
  const shared = lastUnit(value.upTo);
  const measured = readExpression(first, wanted, context, shared);
  if (measured === undefined) return undefined;
  let result = measured;
  if (value.upTo !== undefined) {
    if (!wanted.range) {
      report(
        scope,
        'unexpected-part',
        { part: 'range', head: wanted.what, accepted: 'one quantity' },
        locate(line, value.upTo),
      );
      return undefined;
    }
    const upTo = readExpression(value.upTo, { ...wanted, kinds: [measured.kind] }, context);
    if (upTo === undefined) return undefined;
    result = { ...result, upTo: upTo.value };
  }
  if (value.tolerance !== undefined && wanted.tolerance !== true) {
    const parts = {
      part: 'tolerance',
      head: wanted.what,
      accepted: wanted.range ? 'one quantity or a range' : 'one quantity',
    };
    report(scope, 'unexpected-part', parts, locate(line, value.tolerance));
  } else if (value.tolerance !== undefined) {
    const tolerance = readExpression(
      value.tolerance,
      { what: `the tolerance of ${wanted.what}`, kinds: [measured.kind, 'ratio'], sign: 'not negative' },
      context,
    );
    if (tolerance !== undefined) {
      const relative = tolerance.kind === 'ratio' && measured.kind !== 'ratio';
      result = { ...result, tolerance: relative ? tolerance.value * Math.abs(measured.value) : tolerance.value };
    }
  }
  return { ...result, span: { start: value.start, end: value.end } };
}

/** SI. Nothing of a rig is larger, and what is computed from such numbers still is a number. */
const LARGEST = 1e12;

/** Computes an expression and checks it against what is wanted. */
export function readExpression(
  expression: Expression,
  wanted: Wanted,
  context: ReadingContext,
  sharedUnit?: ParsedUnit,
): Measured | undefined {
  const { scope, line } = context;
  const preferred = wanted.kinds[0] ?? 'number';
  const quantity = evaluateExpression(expression, {
    ...context,
    wanted: KIND_DIMENSIONS[preferred],
    ...(sharedUnit && isBareNumber(expression) ? { sharedUnit } : {}),
  });
  if (quantity === undefined) return undefined;
  if (Math.abs(quantity.value) > LARGEST) {
    report(scope, 'too-large', { text: formatQuantity(quantity) }, locate(line, expression));
    return undefined;
  }
  const kind = wanted.kinds.find((candidate) => sameDimension(KIND_DIMENSIONS[candidate], quantity.dimension));
  if (kind === undefined) {
    reportKind(quantity, expression, wanted, context);
    return undefined;
  }
  const signed = wanted.sign === 'any' || (wanted.sign === 'positive' ? quantity.value > 0 : quantity.value >= 0);
  if (!signed) {
    const needed = wanted.sign === 'positive' ? 'more than zero' : 'zero or more';
    report(
      scope,
      'out-of-range',
      { what: capital(wanted.what), wanted: needed, found: formatQuantity(quantity) },
      locate(line, expression),
    );
    return undefined;
  }
  return { value: quantity.value, kind, ...(quantity.unit ? { unit: quantity.unit } : {}), span: expression };
}

function reportKind(quantity: Quantity, expression: Expression, wanted: Wanted, context: ReadingContext): void {
  const location = locate(context.line, expression);
  const what = capital(wanted.what);
  if (isBareNumber(expression)) {
    const units = `${wanted.kinds.map((kind) => KIND_UNITS[kind]).join('; ')}.`;
    report(context.scope, 'missing-unit', { what, number: formatQuantity(quantity), units }, location);
    return;
  }
  const names = [...new Set(wanted.kinds.map(kindName))];
  report(
    context.scope,
    'dimension-mismatch',
    {
      what,
      wanted: names.join(' or '),
      found: `${dimensionName(quantity.dimension)} (${formatQuantity(quantity)})`,
      ...meantBy(expression, wanted),
    },
    location,
  );
}

/** `a mass`; a share is asked for in per cent, although a plain number can stand for it. */
const kindName = (kind: QuantityKind): string =>
  kind === 'ratio' ? 'a share in %' : dimensionName(KIND_DIMENSIONS[kind]);

/** A lone measure in a unit that the trade uses loosely (`800 lb` for a force), with the unit that is meant. */
function meantBy(expression: Expression, { kinds: [kind, ...others] }: Wanted): { readonly meant?: string } {
  if (expression.kind !== 'quantity' || kind === undefined || others.length > 0) return {};
  const [measure, ...more] = expression.measures;
  if (measure?.unit === undefined || more.length > 0) return {};
  const unit = nearestUnit(measure.unit.text, KIND_DIMENSIONS[kind]);
  return unit === undefined ? {} : { meant: `${measure.number.text} ${unit}` };
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
