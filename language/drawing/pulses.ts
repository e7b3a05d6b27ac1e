import { STANDARD_GRAVITY } from '../mechanics/combination.ts';
import { dampingFromPeaks, findPeaks, type Peak } from '../mechanics/stability/amplitudes.ts';
import type { Mode } from '../mechanics/stability/modes.ts';
import { isStabilityProblem } from '../mechanics/stability/problems.ts';
import { type Pulse, type Response, respond } from '../mechanics/stability/response.ts';
import type { StabilityResult } from '../semantics/stability/evaluate-stability.ts';
import { type MotionAt, motionAt } from '../semantics/stability/motion-at.ts';

/** How a rig answers to a pulse, and the damping read off the swing that follows. */
export interface PulseResponse {
  readonly pulse: Pulse;
  readonly response: Response;
  /** Index of the articulation that swings most: the one read. */
  readonly read: number;
  /** Successive turning points of that articulation once the pulse is over, to one side and to the other in turn, rad. */
  readonly peaks: readonly Peak[];
  /**
   * Damping ratio from the amplitudes between them, as ISO 9815 evaluates successive amplitudes: measured from peak to
   * peak, so that what settles beside the swing does not count. Undefined where there are fewer than four peaks, or where
   * the swings do not shrink (or grow) evenly: then it is not one swing that is seen.
   */
  readonly damping?: number;
}

/** Both pulses at one speed. */
export interface PulseResponses {
  readonly motion: MotionAt;
  readonly push: PulseResponse;
  readonly steer: PulseResponse;
}

/** s; half a sine. */
const DURATION = 0.5;
/** Of the first trailer's weight. */
const PUSH = 0.1;
/** rad at the steered wheels. */
const STEER = Math.PI / 180;
const STEP = 0.01;
/** s shown, within reason: until little of the swing is left, or until it has grown as much; less where it folds. */
const SHORTEST = { swinging: 4, folding: 2 };
const LONGEST = 12;
const GROWN = { swinging: 50, folding: 10 };
/** The first turning point after the pulse is still bent by motions that settle. */
const SKIPPED = 1;
/** Three give one ratio of swings; a fourth tells whether the next one is the same. */
export const LEAST_PEAKS = 4;
const MOST_PEAKS = 6;
/** Greatest over least of the ratios of successive swings that are taken as those of one swing. A choice of this tool. */
const EVEN = 1.15;
/** Smaller amplitudes, over the greatest angle, are not read, nor what follows them: nobody could measure them. */
const READABLE = 2e-3;

/** The responses of a rig to a push at its first trailer and to a turn of the steering; undefined where there is none. */
export function pulseResponses(result: StabilityResult, speed: number): PulseResponses | undefined {
  const { train, bodies } = result.built;
  const motion = motionAt(result, speed);
  if (motion === undefined) return undefined;
  const { mode } = motion;
  const unit = bodies[1] ?? 1;
  const weight = (train.units[unit]?.mass ?? 0) * STANDARD_GRAVITY;
  const end = durationOf(motion);
  const read = mode === undefined ? unit - 1 : mostArticulated(mode);
  const common = { duration: DURATION, shape: 'half-sine' } as const;
  const answer = (pulse: Pulse): PulseResponse | undefined => {
    const response = respond(train, speed, pulse, { end, step: STEP });
    if (isStabilityProblem(response)) return undefined;
    const values = response.articulation[read] ?? new Float64Array(0);
    const rates = response.articulationRate[read] ?? new Float64Array(0);
    return { pulse, response, read, ...readPeaks(response.times, values, rates, DURATION) };
  };
  const push = answer({ ...common, kind: 'lateral-force', unit, amount: roundAmount(PUSH * weight) });
  const steer = answer({ ...common, kind: 'steer', amount: STEER });
  return push === undefined || steer === undefined ? undefined : { motion, push, steer };
}

/** Index of the articulation that is greatest in a mode. */
function mostArticulated({ yaw }: Mode): number {
  const angles = yaw.slice(1).map(({ real, imaginary }, i) => {
    const ahead = yaw[i] ?? { real: 0, imaginary: 0 };
    return Math.hypot(real - ahead.real, imaginary - ahead.imaginary);
  });
  return Math.max(0, angles.indexOf(Math.max(...angles)));
}

/** To two digits, so that the pulse can be told in words. */
const roundAmount = (force: number): number => Number(force.toPrecision(2));

function durationOf({ mode, folds, growth }: MotionAt): number {
  const kind = folds ? 'folding' : 'swinging';
  const rate = folds ? growth : Math.abs(mode?.eigenvalue.real ?? 1);
  const enough = DURATION + Math.log(GROWN[kind]) / Math.max(rate, 1e-3);
  return Math.min(LONGEST, Math.max(SHORTEST[kind], Math.ceil(enough)));
}

/**
 * The peaks of a signal given with its rate at even times, once what drives it is over at `from` s, and the damping ratio
 * that they show.
 */
export function readPeaks(
  times: Float64Array,
  values: Float64Array,
  rates: Float64Array,
  from: number,
): Pick<PulseResponse, 'peaks' | 'damping'> {
  const greatest = values.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  const turning = findPeaks(times, values, rates, from).slice(SKIPPED);
  const end = swingsBetween(turning).findIndex((swing) => swing <= READABLE * greatest);
  const peaks = (end < 0 ? turning : turning.slice(0, end + 1)).slice(0, MOST_PEAKS);
  const damping = isOneSwing(peaks) ? dampingFromPeaks(peaks) : undefined;
  return { peaks, ...(damping === undefined ? {} : { damping }) };
}

/** Whether there are enough peaks, and the swings between them shrink or grow evenly. */
function isOneSwing(peaks: readonly Peak[]): boolean {
  const swings = swingsBetween(peaks);
  const ratios = swings.slice(1).map((swing, i) => (swings[i] ?? 0) / swing);
  return peaks.length >= LEAST_PEAKS && Math.max(...ratios) <= EVEN * Math.min(...ratios);
}

/** From each peak to the next one, rad. */
export function swingsBetween(peaks: readonly Peak[]): number[] {
  return peaks.slice(1).map(({ value }, i) => Math.abs(value - (peaks[i]?.value ?? 0)));
}
