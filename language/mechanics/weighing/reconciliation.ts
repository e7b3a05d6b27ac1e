/** Why a reading is left out of everything. */
export type Refusal =
  /** No scale is exact: its standard deviation has to be at least `LEAST_DEVIATION`. */
  | 'deviation-too-small'
  /** The reading, its deviation, a mass or an influence is not a number, or beyond `GREATEST_VALUE`. */
  | 'out-of-range';

/** A reading that was left out. */
export interface RefusedReading {
  readonly refused: Refusal;
}

/** A reading beside what the file says and beside the best that other tares could do. Masses in kg. */
export interface UsedReading {
  readonly refused?: undefined;
  /** The load as the file stands. */
  readonly predicted: number;
  /** Its standard deviation, first order, from the stated spreads of masses, places and tares. */
  readonly predictedDeviation: number;
  /** reading − predicted */
  readonly residual: number;
  /** |residual| is more than `COVERAGE` standard deviations of scale and prediction together. */
  readonly beyondTolerance: boolean;
  /** The load with the tares fitted to all readings. */
  readonly fitted: number;
  /** reading − fitted */
  readonly fittedResidual: number;
  /**
   * How far the other readings check this one, 0–1: the information they leave on an error of it, over that if the
   * tares were known. For independent readings the redundancy number of least squares, which add up to the degrees of
   * freedom.
   */
  readonly redundancy: number;
  /**
   * Residual after the fit in its standard deviations (normally distributed, if all is well); absent if nothing checks
   * it.
   */
  readonly standardised?: number;
}

export type ReadingResult = UsedReading | RefusedReading;

/** An estimated value and its standard error, in the same unit. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

/** Mass (kg) or one coordinate (m) of a tare. */
export interface TareQuantity {
  /** As the file has it. */
  readonly filed: number;
  /** As the readings have it; what they do not determine keeps the file's value. */
  readonly value: number;
  /** Of `value`; absent where the readings do not determine it. */
  readonly standardError?: number;
}

/**
 * Readings that a unit lacks: its whole mass (`total`); one end apart from the rest, axle or coupling (`longitudinal`);
 * left and right apart (`lateral`); one end raised (`height`).
 */
export type MissingReading = 'total' | 'longitudinal' | 'lateral' | 'height';

/** The mass that the file does not list (negative: that it lists in excess), and where it must be. */
export interface UnlistedMass {
  /** kg */
  readonly mass: Estimate;
  /**
   * Its centre, m in the unit's frame, as far as the readings determine it. A ratio, first order: with a mass of only a
   * few standard errors the true interval is longer on the side away from the tare's centre.
   */
  readonly x?: Estimate;
  readonly y?: Estimate;
  readonly z?: Estimate;
}

/** What the readings say of one tare. */
export interface TareResult {
  readonly unit: number;
  readonly mass: TareQuantity;
  readonly x: TareQuantity;
  readonly y: TareQuantity;
  readonly z: TareQuantity;
  /** What more would have to be read to determine mass and centre, in this order; empty where all is determined. */
  readonly missing: readonly MissingReading[];
  /** Present where the change of mass is determined and more than `SIGNIFICANCE` standard errors. */
  readonly unlisted?: UnlistedMass;
}

/** Readings that cannot all be right, whatever the tares are. */
export interface Contradiction {
  /**
   * Indices of the observations of which one is off; several where the readings cannot tell them apart, worst first.
   */
  readonly suspects: readonly number[];
  /** Whether the others agree once the first suspect is left out. */
  readonly othersAgree: boolean;
}

/** Readings against a file. Never holds a number that is not finite. */
export interface Reconciliation {
  /** One for each observation, in their order. */
  readonly readings: readonly ReadingResult[];
  /** One for each tare, in their order. */
  readonly tares: readonly TareResult[];
  /** Readings used less combinations of tare components determined. */
  readonly degreesOfFreedom: number;
  /** Weighted sum of squares of the residuals after the fit. */
  readonly chiSquare: number;
  /**
   * A-posteriori scale √(chi square / degrees of freedom), about 1 if deviations are as stated; absent without
   * redundancy.
   */
  readonly scale?: number;
  /**
   * What all standard errors have been multiplied with: the scale where it is above 1, otherwise 1. They never get
   * smaller than the stated deviations warrant.
   */
  readonly standardErrorFactor: number;
  /**
   * Whether the readings agree with each other as well as their deviations promise: neither chi square nor a
   * standardised residual is beyond what chance exceeds once in a thousand times. Untested without redundancy.
   */
  readonly agreement: 'agree' | 'disagree' | 'untested';
  readonly contradiction?: Contradiction;
}

/** Combined standard deviations within which file and reading are said to agree: about 95 % (GUM, k = 2). */
export const COVERAGE = 2;

/** Standard errors from which on a mass is called unlisted. */
export const SIGNIFICANCE = 2;

/** kg; below this a stated deviation is a mistake. */
export const LEAST_DEVIATION = 1e-6;

/** kg, m, and what is made of them. */
export const GREATEST_VALUE = 1e12;
