import type { Dimension } from './dimension.ts';
import { type DisplaySystem, displayUnit, formatQuantity } from './display.ts';
import { fromSI, parseUnit } from './parse-unit.ts';

/**
 * Presentation of what is known within limits only: a standard error has two significant digits, and what it belongs to
 * no more decimals than its first digit has; neither is rounded to a coarser step than 1.
 */

const ERROR_DIGITS = 2;

/** A standard error or deviation in the default unit of a system: `7.8 kg`. */
export function formatError(value: number, dimension: Dimension, system: DisplaySystem = 'metric'): string {
  return formatQuantity({ value, dimension }, undefined, { significant: ERROR_DIGITS, maximumDecimals: 3, system });
}

/** `2 008 kg`, or with a standard error of 0.3 kg `2 008.4 kg`. */
export function formatWithin(
  value: number,
  standardError: number,
  dimension: Dimension,
  system: DisplaySystem = 'metric',
): string {
  return toDecimals(value, decimalsOf(inUnit(standardError, dimension, system)), dimension, system);
}

/** A difference and the tolerance it is held against, to the same step: a tenth where the tolerance is 1 or more. */
export function formatAgainst(
  value: number,
  tolerance: number,
  dimension: Dimension,
  system: DisplaySystem = 'metric',
): string {
  return toDecimals(value, decimalsOf(inUnit(tolerance, dimension, system)) + 1, dimension, system);
}

const ALL_DIGITS = 15;
const MOST_DECIMALS = 3;

function toDecimals(value: number, decimals: number, dimension: Dimension, system: DisplaySystem): string {
  const maximumDecimals = Math.min(MOST_DECIMALS, decimals);
  return formatQuantity({ value, dimension }, undefined, { significant: ALL_DIGITS, maximumDecimals, system });
}

/** Decimals of the first digit of a number; none from 1 on. */
function decimalsOf(value: number): number {
  return value > 0 && value < 1 ? Math.ceil(-Math.log10(value)) : 0;
}

function inUnit(value: number, dimension: Dimension, system: DisplaySystem): number {
  const unit = parseUnit(displayUnit(dimension, system));
  return unit === undefined ? value : fromSI(value, unit);
}
