import type { Expression, Measure, Reference, Span } from '../syntax/tree.ts';
import { type Dimension, dimensionName } from '../units/dimension.ts';
import {
  add,
  divide,
  isQuantity,
  multiply,
  negate,
  plainNumber,
  type Quantity,
  type QuantityProblem,
  quantity,
  readNumber,
  subtract,
} from '../units/quantity.ts';
import { nearestUnit, type ParsedUnit, parseUnit } from '../units/units.ts';
import { type Line, locate, report, type Scope } from './scope.ts';

/** Finds the quantity a name stands for; reports and returns undefined where it stands for none. */
export type NameLookup = (reference: Reference) => Quantity | undefined;

export interface ExpressionContext {
  readonly scope: Scope;
  readonly line: Pick<Line, 'declaration' | 'uri'>;
  readonly names: NameLookup;
  /** The dimension asked for, so that an unknown unit gets a fitting suggestion. */
  readonly wanted?: Dimension;
  /** Unit of the numbers that have none: in `900 x 450 x 240 mm` the last one serves all. */
  readonly sharedUnit?: ParsedUnit;
}

/** Computes an expression in SI. Undefined when it has no value; what is wrong with it has then been reported. */
export function evaluateExpression(expression: Expression, context: ExpressionContext): Quantity | undefined {
  switch (expression.kind) {
    case 'quantity':
      return evaluateMeasures(expression.measures, context);
    case 'reference':
      return context.names(expression.reference);
    case 'text':
      report(
        context.scope,
        'wrong-kind',
        { name: `"${expression.text.value}"`, found: 'text', wanted: 'a quantity' },
        locate(context.line, expression),
      );
      return undefined;
    case 'sum': {
      let sum: Quantity | undefined;
      for (const { negative, operand } of expression.terms) {
        const value = evaluateExpression(operand, context);
        if (value === undefined) return undefined;
        const next: Quantity | QuantityProblem =
          sum === undefined ? (negative ? negate(value) : value) : negative ? subtract(sum, value) : add(sum, value);
        if (!isQuantity(next)) return problem(next, expression, context);
        sum = next;
      }
      return sum;
    }
    case 'product': {
      let product: Quantity | undefined;
      for (const { divide: divides, operand } of expression.factors) {
        const value = evaluateExpression(operand, context);
        if (value === undefined) return undefined;
        const next: Quantity | QuantityProblem =
          product === undefined ? value : divides ? divide(product, value) : multiply(product, value);
        if (!isQuantity(next)) return problem(next, expression, context);
        product = next;
      }
      return product;
    }
  }
}

function evaluateMeasures(measures: readonly Measure[], context: ExpressionContext): Quantity | undefined {
  let sum: Quantity | undefined;
  for (const measure of measures) {
    const value = evaluateMeasure(measure, context);
    if (value === undefined) return undefined;
    const next = sum === undefined ? value : add(sum, value);
    if (!isQuantity(next)) return problem(next, measure, context);
    sum = next;
  }
  return sum;
}

function evaluateMeasure(measure: Measure, context: ExpressionContext): Quantity | undefined {
  const { scope, line } = context;
  const number = readNumber(measure.number.text);
  if (typeof number !== 'number') {
    if (number.kind === 'overflow') {
      report(scope, 'too-large', { text: measure.number.text }, locate(line, measure.number));
    } else {
      const hint =
        number.kind === 'malformed' ? `expected ${number.expected}` : `${number.kind}; expected ${number.expected}`;
      report(scope, 'not-a-number', { text: measure.number.text, hint }, locate(line, measure.number));
    }
    return undefined;
  }
  const unit = measure.unit === undefined ? context.sharedUnit : parseUnit(measure.unit.text);
  if (measure.unit !== undefined && unit === undefined) {
    const nearest = nearestUnit(measure.unit.text, context.wanted);
    report(
      scope,
      'unknown-unit',
      { unit: measure.unit.text, ...(nearest ? { nearest } : {}) },
      locate(line, measure.unit),
    );
    return undefined;
  }
  const result = unit === undefined ? plainNumber(number) : quantity(number, unit);
  return isQuantity(result) ? result : problem(result, measure, context);
}

function problem(found: QuantityProblem, span: Span, context: ExpressionContext): undefined {
  const location = locate(context.line, span);
  if (found.kind === 'dimension mismatch') {
    const { operation, left, right } = found;
    report(
      context.scope,
      'mixed-dimensions',
      { operation, left: dimensionName(left), right: dimensionName(right) },
      location,
    );
  } else if (found.kind === 'overflow') report(context.scope, 'too-large', { text: 'The result' }, location);
  else report(context.scope, 'division-by-zero', {}, location);
  return undefined;
}

/** Whether an expression is a number without any unit or name: it may take the unit of its neighbour. */
export function isBareNumber(expression: Expression): boolean {
  return expression.kind === 'quantity' && expression.measures.every((measure) => measure.unit === undefined);
}

/** The last unit written in an expression. */
export function lastUnit(expression: Expression | undefined): ParsedUnit | undefined {
  if (expression?.kind !== 'quantity') return undefined;
  const text = expression.measures[expression.measures.length - 1]?.unit?.text;
  return text === undefined ? undefined : parseUnit(text);
}

/** The single name an expression consists of. */
export function loneReference(expression: Expression | undefined): Reference | undefined {
  return expression?.kind === 'reference' ? expression.reference : undefined;
}

/** All names that an expression uses, in the order written. */
export function referencesIn(expression: Expression | undefined): Reference[] {
  switch (expression?.kind) {
    case 'reference':
      return [expression.reference];
    case 'sum':
      return expression.terms.flatMap(({ operand }) => referencesIn(operand));
    case 'product':
      return expression.factors.flatMap(({ operand }) => referencesIn(operand));
    default:
      return [];
  }
}
