import type { Influence, MassSource } from '../influence.ts';
import { rectangularDeviation } from '../uncertainty.ts';
import type { Position } from '../vector.ts';

/** Standard deviations of a mass (kg) and of its place (m along each axis); what is not given counts as exact. */
export interface Spread {
  readonly mass?: number;
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
}

/**
 * A mass of a weighing; the same `id` in several weighings is one thing and is off by the same amount in all of them.
 */
export interface WeighedSource<S = string> extends MassSource<S> {
  readonly spread?: Spread;
}

/**
 * One reading of a scale. Only what the scale read, not what was computed from other readings: a total that is printed
 * as the sum of the axles is no reading of its own.
 */
export interface Observation<S = string> {
  /** The load that the scale weighs. All observations of one reconciliation count units alike (`renumberInfluence`). */
  readonly influence: Influence;
  /** All masses there were when it was weighed, tares as the file has them among them. */
  readonly sources: readonly WeighedSource<S>[];
  /** kg */
  readonly reading: number;
  /**
   * Standard deviation of the scale, kg, above 0; `deviationOfResolution` where no more than that is known. Errors of
   * readings count as independent: a scale that is off by the same share in all of them goes unnoticed.
   */
  readonly deviation: number;
}

/**
 * The tare of a unit, as the file has it and as it is in `sources` (as one source or as many with this sum and centre).
 */
export interface TareGuess {
  /** Index of its unit. */
  readonly unit: number;
  /** kg */
  readonly mass: number;
  readonly centre: Position;
  /** How uncertain the file says it is. Used for the predictions only: the fit asks the readings alone. */
  readonly spread?: Spread;
}

/**
 * Standard deviation (kg) of a scale known by its resolution (kg) only: an error evenly spread over one step, d/√12.
 */
export function deviationOfResolution(resolution: number): number {
  return rectangularDeviation(resolution / 2);
}
