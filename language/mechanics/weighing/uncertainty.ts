import { Matrix } from 'ml-matrix';
import { influenceAt, type UnitInfluence } from '../influence.ts';
import type { Observation, Spread, TareGuess } from './observation.ts';

/** What moves a load by one standard deviation of a mass or of one coordinate of its place: kg, first order. */
export interface Shifts {
  readonly mass: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

type Placed = Pick<TareGuess, 'unit' | 'mass' | 'centre'>;

const NONE: UnitInfluence = { one: 0, x: 0, y: 0, z: 0, xy: 0 };

function shiftsOf({ influence }: Observation<unknown>, placed: Placed, spread: Spread): Shifts {
  const { unit, mass, centre } = placed;
  const own = influence.units[unit] ?? NONE;
  return {
    mass: influenceAt(influence, unit, centre) * (spread.mass ?? 0),
    x: mass * (own.x + own.xy * centre.y) * (spread.x ?? 0),
    y: mass * (own.y + own.xy * centre.x) * (spread.y ?? 0),
    z: mass * own.z * (spread.z ?? 0),
  };
}

/** Variance (kg²) of a load from the stated spreads of tares. */
export function varianceFromTares(observation: Observation<unknown>, tares: readonly TareGuess[]): number {
  let variance = 0;
  for (const tare of tares) {
    const { mass, x, y, z } = shiftsOf(observation, tare, tare.spread ?? {});
    variance += mass ** 2 + x ** 2 + y ** 2 + z ** 2;
  }
  return variance;
}

/**
 * Covariance (kg²) of the loads of observations from the stated spreads of their sources. One thing (`id`) is off alike
 * in all of them; different things, and mass and coordinates of one, are independent.
 */
export function covarianceFromSources<S>(observations: readonly Observation<S>[]): Matrix {
  const shifts = new Map<S, Map<number, number[]>>();
  for (const [row, observation] of observations.entries()) {
    for (const source of observation.sources) {
      if (source.spread === undefined) continue;
      const { mass, x, y, z } = shiftsOf(observation, source, source.spread);
      const ofSource = shifts.get(source.id) ?? new Map<number, number[]>();
      const before = ofSource.get(row) ?? [0, 0, 0, 0];
      ofSource.set(
        row,
        [mass, x, y, z].map((value, index) => value + (before[index] ?? 0)),
      );
      shifts.set(source.id, ofSource);
    }
  }
  const covariance = Matrix.zeros(observations.length, observations.length);
  for (const ofSource of shifts.values()) {
    for (const [i, a] of ofSource) {
      for (const [j, b] of ofSource) {
        const common = a.reduce((sum, value, index) => sum + value * (b[index] ?? 0), 0);
        covariance.set(i, j, covariance.get(i, j) + common);
      }
    }
  }
  return covariance;
}
