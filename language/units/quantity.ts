import type { Dimension } from './dimension.ts';
import {
  DIMENSIONLESS,
  dimensionName,
  divide as divideDimensions,
  multiply as multiplyDimensions,
  sameDimension,
} from './dimension.ts';
import type { ParsedUnit } from './parse-unit.ts';
import { toSI } from './parse-unit.ts';

export type { NumberProblem } from './number.ts';
export { parseNumber, readNumber } from './number.ts';

/**
 * A number with a dimension.
 * - `value`: in SI (m, kg, s, rad and what derives from them), always finite.
 * - `unit`: the printed spelling of the unit the author wrote, for display only.
 */
export interface Quantity {
  readonly value: number;
  readonly dimension: Dimension;
  readonly unit?: string;
}

/** Two quantities that cannot be combined; names both dimensions. */
export interface DimensionMismatch {
  readonly kind: 'dimension mismatch';
  readonly operation: 'add' | 'subtract' | 'compare';
  readonly left: Dimension;
  readonly right: Dimension;
}

/** A result that is no finite number. */
export interface NotFinite {
  readonly kind: 'overflow' | 'division by zero';
}

export type QuantityProblem = DimensionMismatch | NotFinite;

/** Tells a quantity from a problem. */
export function isQuantity(result: Quantity | QuantityProblem): result is Quantity {
  return 'value' in result;
}

/** An amount of a unit as the author wrote it; an overflow where the SI value is no finite number. */
export function quantity(amount: number, unit: ParsedUnit): Quantity | NotFinite {
  return finite(toSI(amount, unit), unit.dimension, unit.text);
}

/** A number without a unit. */
export function plainNumber(value: number): Quantity | NotFinite {
  return finite(value, DIMENSIONLESS);
}

/** The sum; keeps the left unit. Adjacent parts of a compound measure (`11 ft 3 in`) are added with it. */
export function add(a: Quantity, b: Quantity): Quantity | QuantityProblem {
  if (!sameDimension(a.dimension, b.dimension)) return mismatch('add', a, b);
  return finite(a.value + b.value, a.dimension, a.unit ?? b.unit);
}

export function subtract(a: Quantity, b: Quantity): Quantity | QuantityProblem {
  if (!sameDimension(a.dimension, b.dimension)) return mismatch('subtract', a, b);
  return finite(a.value - b.value, a.dimension, a.unit ?? b.unit);
}

/** The product. A plain factor scales and keeps the other's unit; otherwise no unit is kept. */
export function multiply(a: Quantity, b: Quantity): Quantity | NotFinite {
  const unit = isPlain(b) ? (a.unit ?? b.unit) : isPlain(a) ? b.unit : undefined;
  return finite(a.value * b.value, multiplyDimensions(a.dimension, b.dimension), unit);
}

/** The quotient a/b. A plain divisor scales and keeps the unit; otherwise no unit is kept. */
export function divide(a: Quantity, b: Quantity): Quantity | NotFinite {
  if (b.value === 0) return { kind: 'division by zero' };
  const unit = isPlain(b) && !isPlain(a) ? a.unit : undefined;
  return finite(a.value / b.value, divideDimensions(a.dimension, b.dimension), unit);
}

export function negate(a: Quantity): Quantity {
  return { ...a, value: 0 - a.value };
}

/** Negative, zero or positive as a is less than, equal to or greater than b. */
export function compare(a: Quantity, b: Quantity): number | DimensionMismatch {
  if (!sameDimension(a.dimension, b.dimension)) return mismatch('compare', a, b);
  return Math.sign(a.value - b.value);
}

const OPERATION_TEXT: Readonly<Record<DimensionMismatch['operation'], (left: string, right: string) => string>> = {
  add: (left, right) => `${right} cannot be added to ${left}`,
  subtract: (left, right) => `${right} cannot be subtracted from ${left}`,
  compare: (left, right) => `${left} cannot be compared with ${right}`,
};

/** A problem as a clause without capital or full stop, naming both dimensions where there are two. */
export function describeProblem(problem: QuantityProblem): string {
  if (problem.kind === 'dimension mismatch') {
    return OPERATION_TEXT[problem.operation](dimensionName(problem.left), dimensionName(problem.right));
  }
  return problem.kind === 'overflow' ? 'the result is too large a number' : 'division by zero';
}

const isPlain = (q: Quantity): boolean => sameDimension(q.dimension, DIMENSIONLESS);

function mismatch(operation: DimensionMismatch['operation'], a: Quantity, b: Quantity): DimensionMismatch {
  return { kind: 'dimension mismatch', operation, left: a.dimension, right: b.dimension };
}

/** Leaves the key `unit` out where there is none, so that equal quantities are deeply equal. */
function finite(value: number, dimension: Dimension, unit?: string): Quantity | NotFinite {
  if (!Number.isFinite(value)) return { kind: 'overflow' };
  const positiveZero = value + 0;
  return unit === undefined ? { value: positiveZero, dimension } : { value: positiveZero, dimension, unit };
}
