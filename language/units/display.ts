import type { Dimension } from './dimension.ts';
import {
  ACCELERATION,
  ANGLE,
  AREA,
  baseUnits,
  CORNERING_STIFFNESS,
  DAMPING_RATE,
  DENSITY,
  DIMENSIONLESS,
  dimensionKey,
  FORCE,
  FREQUENCY,
  INERTIA,
  LENGTH,
  MASS,
  MASS_PER_AREA,
  MASS_PER_LENGTH,
  MOMENT,
  PRESSURE,
  ROTARY_DAMPING,
  ROTARY_STIFFNESS,
  SPEED,
  SPRING_RATE,
  sameDimension,
  TIME,
  VOLUME,
  YAW_RATE,
} from './dimension.ts';
import { fromSI, parseUnit } from './parse-unit.ts';
import type { Quantity } from './quantity.ts';

/**
 * Presentation of numbers. Rounding happens here and nowhere else.
 * Three significant digits, but never fewer than all digits before the point; no trailing zeros; a narrow no-break
 * space (U+202F) between groups of three; an ordinary space before the unit; `-` as the minus. What is printed for a
 * number reads back with `parseNumber`, apart from its sign.
 */

/** Which customary units a figure is shown in where the author wrote none. */
export type DisplaySystem = 'metric' | 'US';

/** Stands for a value that is not finite: neither `NaN` nor `Infinity` is ever shown. */
export const NO_FIGURE = '—';

const GROUP_SEPARATOR = '\u202f';
const SIGNIFICANT_DIGITS = 3;

/** The units shown by default: metric, US. */
const SHOWN: readonly (readonly [Dimension, string, string])[] = [
  [LENGTH, 'mm', 'in'],
  [MASS, 'kg', 'lb'],
  [TIME, 's', 's'],
  [ANGLE, 'deg', 'deg'],
  [AREA, 'm²', 'ft²'],
  [VOLUME, 'L', 'gal'],
  [SPEED, 'km/h', 'mph'],
  [ACCELERATION, 'm/s²', 'ft/s²'],
  [FORCE, 'N', 'lbf'],
  [PRESSURE, 'kPa', 'psi'],
  [MOMENT, 'N·m', 'lbf·ft'],
  [DENSITY, 'kg/L', 'lb/gal'],
  [MASS_PER_AREA, 'kg/m²', 'lb/ft²'],
  [MASS_PER_LENGTH, 'kg/m', 'lb/ft'],
  [SPRING_RATE, 'N/mm', 'lbf/in'],
  [DAMPING_RATE, 'N·s/m', 'N·s/m'],
  [INERTIA, 'kg·m²', 'lb·ft²'],
  [FREQUENCY, 'Hz', 'Hz'],
  [YAW_RATE, 'deg/s', 'deg/s'],
  [CORNERING_STIFFNESS, 'N/deg', 'lbf/deg'],
  [ROTARY_STIFFNESS, 'N·m/deg', 'lbf·ft/deg'],
  [ROTARY_DAMPING, 'N·m·s/rad', 'N·m·s/rad'],
];

const SHOWN_BY_KEY: ReadonlyMap<string, Readonly<Record<DisplaySystem, string>>> = new Map(
  SHOWN.map(([dimension, metric, US]) => [dimensionKey(dimension), { metric, US }]),
);

/** The unit a dimension is shown in by default; the empty string for a plain number. */
export function displayUnit(dimension: Dimension, system: DisplaySystem = 'metric'): string {
  return SHOWN_BY_KEY.get(dimensionKey(dimension))?.[system] ?? baseUnits(dimension);
}

/**
 * A bare number, rounded to a number of significant digits (1–15) but to no coarser step than 1, and to at most so many
 * decimals (0–15, no limit unless given).
 */
export function formatNumber(value: number, significant = SIGNIFICANT_DIGITS, maximumDecimals?: number): string {
  if (!Number.isFinite(value)) return NO_FIGURE;
  const size = Math.abs(value);
  const decimals = maximumDecimals === undefined ? Number.POSITIVE_INFINITY : clamp(maximumDecimals, 0, 15);
  const nearest = roundForDisplay(size, clamp(significant, 1, 15), decimals);
  // Close to the largest float, rounding up would overflow.
  const rounded = Number.isFinite(nearest) ? nearest : size;
  if (rounded === 0) return '0';
  const sign = value < 0 ? '-' : '';
  if (rounded < 1e-6 || rounded >= 1e15) return sign + rounded.toExponential().replace('e+', 'e');
  // The shortest decimal that reads back as the rounded value: no trailing zeros, no exponent in this range.
  const [whole = '0', fraction] = String(rounded).split('.');
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, GROUP_SEPARATOR);
  return sign + (fraction === undefined ? grouped : `${grouped}.${fraction}`);
}

function roundForDisplay(size: number, digits: number, decimals: number): number {
  if (size >= 1e15) return Number(size.toPrecision(digits));
  if (size >= 10 ** digits) return Math.round(size);
  // One rounding only: by decimals where they are the coarser limit, else by significant digits.
  return Number(size < 10 ** (digits - 1 - decimals) ? size.toFixed(decimals) : size.toPrecision(digits));
}

const clamp = (value: number, lowest: number, highest: number): number =>
  Math.min(highest, Math.max(lowest, Math.round(value)));

/** How a quantity is rounded and, where nothing else says so, which system's unit shows it. */
export interface DisplayOptions {
  readonly significant?: number;
  readonly maximumDecimals?: number;
  readonly system?: DisplaySystem;
}

/**
 * A quantity in the preferred unit if that fits its dimension, else in the unit the author wrote, else in the default
 * of the system (metric unless said otherwise). A plain number without a unit is shown bare.
 */
export function formatQuantity(q: Quantity, preferredUnit?: string, options: DisplayOptions = {}): string {
  const { significant, maximumDecimals, system } = options;
  const unit = [preferredUnit, q.unit, displayUnit(q.dimension, system)]
    .map((text) => parseUnit(text ?? ''))
    .find((parsed) => parsed !== undefined && sameDimension(parsed.dimension, q.dimension));
  if (unit !== undefined) return `${formatNumber(fromSI(q.value, unit), significant, maximumDecimals)} ${unit.text}`;
  return `${formatNumber(q.value, significant, maximumDecimals)} ${baseUnits(q.dimension)}`.trimEnd();
}

/**
 * A computed SI value of a dimension in the default unit of a system: `formatValue(450e3, PRESSURE)` is `450 kPa`.
 * At most three decimals, so that a residue of floating-point arithmetic shows as 0.
 */
export function formatValue(value: number, dimension: Dimension, system: DisplaySystem = 'metric'): string {
  return formatQuantity({ value, dimension }, undefined, { maximumDecimals: 3, system });
}

/** A mass in kg as `1 934 kg` or `4 264 lb`. */
export function formatMass(kilograms: number, system: DisplaySystem = 'metric'): string {
  return formatValue(kilograms, MASS, system);
}

const METRES_PER_FOOT = 0.3048;

/** Mass times distance in kg·m as `52 kg·m` or `376 lb·ft`. */
export function formatMassMoment(moment: number, system: DisplaySystem = 'metric'): string {
  return system === 'US' ? `${formatMass(moment / METRES_PER_FOOT, system)}·ft` : `${formatMass(moment, system)}·m`;
}

/** A length in m as `3 205 mm` or `126 in`. */
export function formatLength(metres: number, system: DisplaySystem = 'metric'): string {
  return formatValue(metres, LENGTH, system);
}

/** A share (0.095) as a percentage with at most one decimal (`9.5 %`). */
export function formatShare(share: number): string {
  return formatQuantity({ value: share, dimension: DIMENSIONLESS }, '%', { maximumDecimals: 1 });
}
