/** One axle: where it is, how wide, and how stiff. */
export interface Axle {
  /** m in the unit's frame. */
  readonly x: number;
  /** Distance between the wheel centre planes, m. */
  readonly track: number;
  /** Vertical rate of the axle, both sides together, N/m. */
  readonly rate?: number;
}

/**
 * Axles that belong together. Equalised: one support at the mean of their places, equal loads. Independent: each axle
 * is a support of its own on its springs. A single axle is the same either way.
 */
export interface AxleGroup {
  readonly axles: readonly Axle[];
  readonly suspension: 'equalised' | 'independent';
}

/** A joint between two units, on the plane of symmetry: m in the unit's frame, z above the level ground. */
export interface CouplingPoint {
  readonly x: number;
  readonly z: number;
}

/** A rigid unit: a vehicle or a trailer. */
export interface Unit {
  /** Axle groups, front to rear. */
  readonly groups: readonly AxleGroup[];
  /** Where it is coupled to the unit ahead; absent on a vehicle. */
  readonly coupling?: CouplingPoint;
  /** Whether that coupling carries vertical load; false for a full trailer, whose drawbar is hinged. */
  readonly couplingCarries: boolean;
  /** Where the next unit is coupled. */
  readonly hitch?: CouplingPoint;
  /**
   * Fraction of this unit's own longitudinal demand, when it has to be held back, that its own tyres carry. Not
   * negative; above 1 a trailer brakes more than itself and stretches the drawbar. Nothing on a vehicle, which takes
   * what is left.
   */
  readonly brakeShare: number;
}

/**
 * A device between the first and the second unit that turns the vehicle's nose down and the trailer's nose up with one
 * moment: given as that moment (N m), or by the share of the front axle group's load, lost to the trailer on level
 * ground, that it restores.
 */
export type WeightDistribution =
  | { readonly kind: 'moment'; readonly moment: number }
  | { readonly kind: 'restored'; readonly share: number };

/** Units coupled in a row, from the front. The first is a vehicle, or a trailer standing alone on its coupling. */
export interface Combination {
  readonly units: readonly Unit[];
  readonly weightDistribution?: WeightDistribution;
}

/** A quasi-static state of motion: grade as rise over run, uphill positive; deceleration in m/s², braking positive. */
export interface Field {
  readonly grade: number;
  readonly deceleration: number;
}

/** Standing, or at constant speed, on level ground. */
export const LEVEL: Field = { grade: 0, deceleration: 0 };

/** Standard acceleration of free fall, m/s², exact (ISO 80000-3). */
export const STANDARD_GRAVITY = 9.80665;
