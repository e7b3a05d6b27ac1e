import { type Crossing, findCrossings } from './crossings.ts';
import { type Equations, equationsOf } from './equations.ts';
import { SWINGING } from './modes.ts';
import { findSpeedProblem, type StabilityProblem } from './problems.ts';
import { type Sample, type Sampler, samplerOf } from './samples.ts';
import { trackerOf } from './tracking.ts';
import type { Train } from './train.ts';

/** A speed that something begins at, or where it lies beyond the range looked at. */
export type CriticalSpeed =
  | { readonly kind: 'at'; readonly speed: number }
  /** It holds at the lowest speed looked at already. */
  | { readonly kind: 'below' }
  /** Not reached up to the highest speed looked at. */
  | { readonly kind: 'above' };

/** A train over a range of speeds; arrays have one entry a speed. */
export interface SpeedSweep {
  /** m/s, rising. */
  readonly speeds: Float64Array;
  /** Least damping ratio of all swinging modes; 1 where nothing swings. */
  readonly damping: Float64Array;
  /** Frequency of that mode, Hz; 0 where nothing swings. */
  readonly frequency: Float64Array;
  /** Greatest real part of all eigenvalues, 1/s: above 0 something grows. */
  readonly growth: Float64Array;
  /** Where stability changes, by rising speed. */
  readonly crossings: readonly Crossing[];
  /** Lowest speed above which a swinging motion grows. */
  readonly zeroDamping: CriticalSpeed;
  /** Lowest speed above which the train leaves its course without swinging: also where a growing swing becomes a fold. */
  readonly divergence: CriticalSpeed;
}

/** Range of speeds, m/s, and how many are looked at, evenly spread. */
export interface SpeedRange {
  readonly least: number;
  readonly most: number;
  readonly points: number;
}

/** Of an interval between two samples: to a few micrometres per hour. */
const HALVINGS = 40;

/**
 * A train over a range of speeds, with every speed in it at which stability changes. Never throws.
 */
export function sweepSpeeds(train: Train, range: SpeedRange): SpeedSweep | StabilityProblem {
  const equations = equationsOf(train);
  return 'problem' in equations ? equations : sweepEquations(equations, range);
}

/** The same from equations made before. */
export function sweepEquations(equations: Equations, range: SpeedRange): SpeedSweep | StabilityProblem {
  const { least, most, points } = range;
  const problem = findSpeedProblem(least) ?? findSpeedProblem(most);
  if (problem !== undefined) return problem;
  if (!(most > least) || !Number.isInteger(points) || points < 2) return { problem: 'speed-out-of-range' };
  const tracker = trackerOf(equations);
  const samples: Sample[] = [];
  for (let i = 0; i < points; i++) {
    const sample = tracker(least + ((most - least) * i) / (points - 1));
    if (sample === undefined) return { problem: 'overflow' };
    samples.push(sample);
  }
  const sampler = samplerOf(equations);
  const crossings = findCrossings(sampler, samples);
  return { ...curves(samples), crossings, ...criticalSpeeds(sampler, samples, crossings) };
}

function curves(samples: readonly Sample[]): Pick<SpeedSweep, 'speeds' | 'damping' | 'frequency' | 'growth'> {
  const speeds = new Float64Array(samples.length);
  const damping = new Float64Array(samples.length).fill(1);
  const frequency = new Float64Array(samples.length);
  const growth = new Float64Array(samples.length);
  for (const [i, { speed, real, imaginary }] of samples.entries()) {
    speeds[i] = speed;
    growth[i] = real[0] ?? 0;
    for (let k = 0; k < real.length; k++) {
      const re = real[k] ?? 0;
      const im = imaginary[k] ?? 0;
      const magnitude = Math.sqrt(re * re + im * im);
      if (im <= SWINGING * magnitude || -re >= magnitude * (damping[i] ?? 1)) continue;
      damping[i] = -re / magnitude;
      frequency[i] = im / (2 * Math.PI);
    }
  }
  return { speeds, damping, frequency, growth };
}

function criticalSpeeds(
  sampler: Sampler,
  samples: readonly Sample[],
  crossings: readonly Crossing[],
): Pick<SpeedSweep, 'zeroDamping' | 'divergence'> {
  return {
    zeroDamping: criticalSpeed(sampler, samples, crossings, true),
    divergence: criticalSpeed(sampler, samples, crossings, false),
  };
}

/**
 * The lowest speed at which something grows while it swings, or without. It begins where an eigenvalue crosses the imaginary
 * axis, or where one that grows already changes its kind: a pair meets and parts on the real axis, or the other way round.
 */
function criticalSpeed(
  sampler: Sampler,
  samples: readonly Sample[],
  crossings: readonly Crossing[],
  swinging: boolean,
): CriticalSpeed {
  const index = samples.findIndex((sample) => grows(sample, swinging));
  if (index === 0) return { kind: 'below' };
  const crossed = crossings.find((each) => each.swinging === swinging && each.growsAbove)?.speed;
  const [before, after] = [samples[index - 1], samples[index]];
  if (before === undefined || after === undefined || (crossed !== undefined && crossed <= after.speed)) {
    return crossed === undefined ? { kind: 'above' } : { kind: 'at', speed: crossed };
  }
  return { kind: 'at', speed: changeOfKind(sampler, before.speed, after.speed, swinging) };
}

function grows({ growing, imaginary }: Sample, swinging: boolean): boolean {
  for (let i = 0; i < growing; i++) if ((imaginary[i] ?? 0) > 0 === swinging) return true;
  return false;
}

/** Halves the interval until both ends are one speed. */
function changeOfKind(sampler: Sampler, from: number, to: number, swinging: boolean): number {
  let [low, high] = [from, to];
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    const sample = sampler(middle);
    if (sample === undefined) return high;
    if (grows(sample, swinging)) high = middle;
    else low = middle;
  }
  return high;
}
