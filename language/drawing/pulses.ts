import { STANDARD_GRAVITY } from '../mechanics/combination.ts';
import { dampingFromAmplitudes, findPeaks, type Peak } from '../mechanics/stability/amplitudes.ts';
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
  /** Turning points of that articulation once the pulse is over, rad. */
  readonly peaks: readonly Peak[];
  /** Damping ratio from their amplitudes as ISO 9815 evaluates them; undefined where there are fewer than three. */
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
const MOST_PEAKS = 6;
/** Smaller amplitudes, over the greatest, are not read: nobody could measure them. */
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
    return isStabilityProblem(response) ? undefined : { pulse, response, read, ...readPeaks(response, read) };
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

function readPeaks(response: Response, read: number): Pick<PulseResponse, 'peaks' | 'damping'> {
  const values = response.articulation[read] ?? new Float64Array(0);
  const rates = response.articulationRate[read] ?? new Float64Array(0);
  const greatest = values.reduce((most, each) => Math.max(most, Math.abs(each)), 0);
  const peaks = findPeaks(response.times, values, rates, DURATION)
    .slice(SKIPPED, SKIPPED + MOST_PEAKS)
    .filter(({ value }) => Math.abs(value) > READABLE * greatest);
  const damping = dampingFromAmplitudes(peaks.map(({ value }) => value));
  return { peaks, ...(damping === undefined ? {} : { damping }) };
}
