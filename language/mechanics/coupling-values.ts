/**
 * Characteristic values of coupling devices by UN Regulation No. 55, 2.11: the clause and the formulas from memory, that
 * for fifth wheels read second-hand. Masses in kg, forces in N, lengths in m.
 */

/** Acceleration of gravity as the regulation takes it, m/s². */
export const REGULATION_GRAVITY = 9.81;

/** Equivalent vertical acceleration at the coupling, m/s²: by the suspension of the tow vehicle's rear axle [from memory]. */
export const VERTICAL_ACCELERATION = { air: 1.8, other: 2.4 } as const;

/** Of the longitudinal force, the share that a fifth wheel is designed for. */
const FIFTH_WHEEL_SHARE = 0.6;

/**
 * D = g·T·R/(T+R), N, of a tow vehicle of permissible mass T and a trailer of permissible mass R [from
 * memory]. 0 where one of them is 0. Symmetric in both and below g·min(T, R).
 */
export function dValue(vehicle: number, trailer: number): number {
  return REGULATION_GRAVITY * reducedMass(vehicle, trailer);
}

/**
 * Dc = g·T·C/(T+C), N, of a tow vehicle of permissible mass T and a centre-axle trailer that puts C on the road with its
 * axles when coupled and laden to its permissible mass [from memory].
 */
export function dcValue(vehicle: number, axles: number): number {
  return REGULATION_GRAVITY * reducedMass(vehicle, axles);
}

/** A body of `length` m carried `distance` m behind its coupling on the middle of its axles. */
export interface CentreAxleTrailer {
  /** C, kg: what the axles put on the road. */
  readonly axles: number;
  /** X, m: length of the loading area. */
  readonly length: number;
  /** L, m: from the drawbar eye to the middle of the axles. */
  readonly distance: number;
}

/**
 * V = a·(X²/L²)·C, N, where X²/L² counts as 1 at least [from memory]. `acceleration` is one of
 * {@link VERTICAL_ACCELERATION}. Infinite where L is 0.
 */
export function vValue(acceleration: number, { axles, length, distance }: CentreAxleTrailer): number {
  return acceleration * Math.max(1, (length / distance) ** 2) * axles;
}

/**
 * D = 0.6·g·T·R/(T+R−U), N, of a tow vehicle of permissible mass T and a semi-trailer of permissible mass R that puts U on
 * the fifth wheel (T includes U) [read second-hand].
 */
export function fifthWheelDValue(vehicle: number, trailer: number, imposed: number): number {
  return (FIFTH_WHEEL_SHARE * REGULATION_GRAVITY * vehicle * trailer) / (vehicle + trailer - imposed);
}

/**
 * The inverse of D and of Dc: the mass R = D·T/(g·T−D), kg, at which a tow vehicle of permissible mass T needs the value
 * `force`, N. Infinite where the value suffices for any.
 */
export function greatestTrailerMass(force: number, vehicle: number): number {
  const spare = REGULATION_GRAVITY * vehicle - force;
  return spare > 0 ? (force * vehicle) / spare : Number.POSITIVE_INFINITY;
}

/**
 * Forces, N, that coupling and drawbar of a trailer of aggregate mass `mass` kg withstand in the tests of ADR 62/02 [read]:
 * longitudinal 9.81·ATM, vertical half of that.
 */
export function drawbarTestLoads(mass: number): { readonly longitudinal: number; readonly vertical: number } {
  const longitudinal = REGULATION_GRAVITY * mass;
  return { longitudinal, vertical: longitudinal / 2 };
}

function reducedMass(one: number, other: number): number {
  return one + other > 0 ? (one * other) / (one + other) : 0;
}
