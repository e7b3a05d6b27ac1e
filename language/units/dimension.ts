/**
 * Dimensions are types: every quantity carries one, and sums and comparisons need equal ones.
 *
 * Angle is a base dimension here, although the SI treats the radian as the number one. A cornering stiffness (N/rad)
 * and a force (N), or a rotary stiffness (N·m/rad) and a moment (N·m), are different facts on a specification sheet,
 * and writing one where the other belongs has to be an error that names both. The price: a radius times an angle is
 * m·rad, not m; the language has no formula that needs it. A percentage is a plain number, so a grade of `8 %` is
 * dimensionless and a grade of `4 deg` is an angle.
 */

/** Exponents of length, mass, time and angle: small integers, all 0 for a plain number. */
export type Dimension = readonly [length: number, mass: number, time: number, angle: number];

export const DIMENSIONLESS: Dimension = [0, 0, 0, 0];
export const LENGTH: Dimension = [1, 0, 0, 0];
export const MASS: Dimension = [0, 1, 0, 0];
export const TIME: Dimension = [0, 0, 1, 0];
export const ANGLE: Dimension = [0, 0, 0, 1];
export const AREA: Dimension = [2, 0, 0, 0];
export const VOLUME: Dimension = [3, 0, 0, 0];
export const SPEED: Dimension = [1, 0, -1, 0];
export const ACCELERATION: Dimension = [1, 0, -2, 0];
export const FORCE: Dimension = [1, 1, -2, 0];
export const PRESSURE: Dimension = [-1, 1, -2, 0];
export const MOMENT: Dimension = [2, 1, -2, 0];
export const DENSITY: Dimension = [-3, 1, 0, 0];
export const MASS_PER_AREA: Dimension = [-2, 1, 0, 0];
export const MASS_PER_LENGTH: Dimension = [-1, 1, 0, 0];
/** Force per length, N/m. */
export const SPRING_RATE: Dimension = [0, 1, -2, 0];
/** Force per speed, N·s/m. */
export const DAMPING_RATE: Dimension = [0, 1, -1, 0];
/** Mass moment of inertia, kg·m². */
export const INERTIA: Dimension = [2, 1, 0, 0];
export const FREQUENCY: Dimension = [0, 0, -1, 0];
/** Angle per time, rad/s. */
export const YAW_RATE: Dimension = [0, 0, -1, 1];
/** Lateral force per slip angle, N/rad. */
export const CORNERING_STIFFNESS: Dimension = [1, 1, -2, -1];
/** Moment per angle, N·m/rad. */
export const ROTARY_STIFFNESS: Dimension = [2, 1, -2, -1];
/** Moment per angular velocity, N·m·s/rad. */
export const ROTARY_DAMPING: Dimension = [2, 1, -1, -1];

const NAMES: readonly (readonly [Dimension, string])[] = [
  [DIMENSIONLESS, 'a plain number'],
  [LENGTH, 'a length'],
  [MASS, 'a mass'],
  [TIME, 'a time'],
  [ANGLE, 'an angle'],
  [AREA, 'an area'],
  [VOLUME, 'a volume'],
  [SPEED, 'a speed'],
  [ACCELERATION, 'an acceleration'],
  [FORCE, 'a force'],
  [PRESSURE, 'a pressure'],
  [MOMENT, 'a moment'],
  [DENSITY, 'a density'],
  [MASS_PER_AREA, 'a mass per area'],
  [MASS_PER_LENGTH, 'a mass per length'],
  [SPRING_RATE, 'a spring rate'],
  [DAMPING_RATE, 'a damping rate'],
  [INERTIA, 'a moment of inertia'],
  [FREQUENCY, 'a frequency'],
  [YAW_RATE, 'a yaw rate'],
  [CORNERING_STIFFNESS, 'a cornering stiffness'],
  [ROTARY_STIFFNESS, 'a rotary stiffness'],
  [ROTARY_DAMPING, 'a rotary damping'],
];

const NAME_BY_KEY: ReadonlyMap<string, string> = new Map(NAMES.map(([d, name]) => [dimensionKey(d), name]));

/** A string that is equal exactly for equal dimensions; for use as a map key. */
export function dimensionKey(d: Dimension): string {
  return `${d[0]} ${d[1]} ${d[2]} ${d[3]}`;
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a === b || (a[0] === b[0] && a[1] === b[1] && a[2] === b[2] && a[3] === b[3]);
}

/** The dimension of a product. */
export function multiply(a: Dimension, b: Dimension): Dimension {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]];
}

/** The dimension of a quotient a/b. */
export function divide(a: Dimension, b: Dimension): Dimension {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]];
}

/** The dimension of a whole power. */
export function power(d: Dimension, exponent: number): Dimension {
  // The `+ 0` turns a negative zero into zero, so that equal dimensions are also deeply equal.
  return [d[0] * exponent + 0, d[1] * exponent + 0, d[2] * exponent + 0, d[3] * exponent + 0];
}

/** A dimension in words, with its article (`a length`); one without a name as base units (`kg·m⁻⁵`). */
export function dimensionName(d: Dimension): string {
  return NAME_BY_KEY.get(dimensionKey(d)) ?? baseUnits(d);
}

/** The SI base units of a dimension as a unit expression (`kg·m⁻²`); the empty string for a plain number. */
export function baseUnits(d: Dimension): string {
  const parts: readonly (readonly [string, number])[] = [
    ['kg', d[1]],
    ['m', d[0]],
    ['s', d[2]],
    ['rad', d[3]],
  ];
  return parts
    .filter(([, exponent]) => exponent !== 0)
    .map(([symbol, exponent]) => symbol + superscript(exponent))
    .join('·');
}

const SUPERSCRIPTS: ReadonlyMap<string, string> = new Map(
  [...'0123456789-'].map((c, index) => [c, [...'⁰¹²³⁴⁵⁶⁷⁸⁹⁻'][index] ?? c]),
);

/** A whole exponent in superscript characters; the empty string for 1. */
export function superscript(exponent: number): string {
  return exponent === 1 ? '' : [...String(exponent)].map((c) => SUPERSCRIPTS.get(c) ?? c).join('');
}
