import type { CriticalSpeed } from '../mechanics/stability/sweep.ts';
import type { RigStability, StabilityResult } from '../semantics/stability/evaluate-stability.ts';
import { type MotionAt, motionAt, overallDamping, STILL } from '../semantics/stability/motion-at.ts';
import { SPEED } from '../units/dimension.ts';
import { type DisplaySystem, formatNumber, formatValue } from '../units/display.ts';
import { valueAt } from './clip.ts';
import type { Point } from './drawing.ts';

/** Cases drawn; of more, the least damped. */
const MOST_CASES = 20;

/** One curve: a result, what it is called here, and where it runs (in the speed unit shown). */
export interface Track {
  readonly result: StabilityResult;
  readonly label: string;
  readonly thin: boolean;
  /** What moves at the intended speed, and what all of it comes to. */
  readonly motion: MotionAt | undefined;
  readonly damping: number;
  readonly points: readonly Point[];
}

/**
 * The curves of a rig: its cases on the level, of many the least damped, and the other roads of the case of `worst`; with
 * how many cases are left out.
 */
export function tracksOf(
  { results, speed }: RigStability,
  worst: StabilityResult,
  toShown: (speed: number) => number,
): { readonly tracks: readonly Track[]; readonly left: number } {
  const own = worst.state.case.name;
  const level: Track[] = [];
  const others: Track[] = [];
  for (const result of results) {
    const isLevel = result.scenario.kind === 'level';
    if (!isLevel && result.state.case.name !== own) continue;
    const motion = motionAt(result, speed);
    const label = isLevel ? result.state.case.name : result.scenario.text;
    const points = pointsOf(result, toShown);
    const track = { result, label, thin: !isLevel, motion, damping: overallDamping(motion), points };
    (isLevel ? level : others).push(track);
  }
  const least = [...level].sort((a, b) => a.damping - b.damping).slice(0, MOST_CASES);
  return {
    tracks: [...level.filter((each) => least.includes(each)), ...others],
    left: level.length - least.length,
  };
}

/**
 * Interrupted where nothing swings, and where the rig folds or spins while what still swings dies out: it ends at the
 * divergence speed.
 */
function pointsOf({ sweep, divergence }: StabilityResult, toShown: (speed: number) => number): Point[] {
  const swinging = Array.from(sweep.speeds, (speed, i) => ({
    x: toShown(speed),
    y: (sweep.frequency[i] ?? 0) > 0 ? (sweep.damping[i] ?? Number.NaN) : Number.NaN,
  }));
  const points = swinging.map(({ x, y }, i) => ({ x, y: (sweep.growth[i] ?? 0) > 0 && y >= 0 ? Number.NaN : y }));
  const end = divergence.kind === 'at' ? toShown(divergence.speed) : Number.NaN;
  const last = valueAt(swinging, end);
  return last === undefined ? points : [...points, { x: end, y: last }].sort((a, b) => a.x - b.x);
}

/** At the intended speed, and from where it is unstable: `0.283; grows from 118 km/h`. */
export function figuresOf({ motion, result: { zeroDamping, divergence } }: Track, system: DisplaySystem): string {
  const { mode, folds } = motion ?? STILL;
  return [
    folds ? 'folds' : mode === undefined ? 'no swing' : formatNumber(mode.damping, 3, 3),
    ...criticalText(zeroDamping, 'grows', system),
    ...criticalText(divergence, 'folds', system),
  ].join('; ');
}

function criticalText(speed: CriticalSpeed, verb: string, system: DisplaySystem): string[] {
  if (speed.kind === 'above') return [];
  return [speed.kind === 'below' ? `${verb} at any speed` : `${verb} from ${formatValue(speed.speed, SPEED, system)}`];
}
