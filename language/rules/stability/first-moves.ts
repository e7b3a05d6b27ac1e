import {
  type SourceSensitivity,
  type StabilityResult,
  sensitivitiesOf,
} from '../../semantics/stability/evaluate-stability.ts';
import type { Source } from '../../semantics/state.ts';
import { easiestFirst, isMovable, worthProposing } from './ease.ts';

/** What is gained at the intended speed by moving one thing, or by taking it off; derivatives, for small changes. */
export interface FirstMove {
  readonly source: Source;
  /** Index of its unit in the rig. */
  readonly unit: number;
  /** kg */
  readonly mass: number;
  /** The direction in which it adds damping. */
  readonly direction: 'ahead' | 'back';
  /** Damping ratio gained per 100 mm in that direction; positive. */
  readonly damping: number;
  /** Zero-damping speed gained per 100 mm in that direction, m/s; undefined where there is none in the range looked at. */
  readonly zeroDampingSpeed?: number;
  /** Per kg taken off it: damping ratio, and m/s of the zero-damping speed; below 0 where its mass does good. */
  readonly perKilogram: { readonly damping: number; readonly zeroDampingSpeed?: number };
}

/** m; what moves are told per. */
export const STEP = 0.1;

/**
 * What to move first for damping at `speed` m/s, at most `most`: what gains a fair share of the greatest gain, items before
 * tanks before fittings, of a kind the greatest gain per 100 mm first. Fittings only where nothing else gains a fair
 * share of what they do (`worthProposing`). From exact derivatives; what gains nothing is left out. Empty where nothing
 * swings at that speed. `within` is the index of a unit: what is in the others is left out before anything is compared.
 */
export function firstMoves(
  result: StabilityResult,
  speed: number,
  most: number,
  within?: number,
): readonly FirstMove[] {
  const moves = allMoves(result, speed).filter(({ unit }) => within === undefined || unit === within);
  return worthProposing(moves, rankOf).slice(0, most);
}

/** All moves that gain anything, in the same order, fittings among them too. */
export function rankedMoves(result: StabilityResult, speed: number): readonly FirstMove[] {
  return easiestFirst(allMoves(result, speed), rankOf);
}

const rankOf = ({ source, damping }: FirstMove) => ({ kind: source.kind, name: source.name, gain: damping });

function allMoves(result: StabilityResult, speed: number): FirstMove[] {
  const { sources } = result.state;
  return sensitivitiesOf(result, speed).flatMap((sensitivity, index) => {
    const unit = sources[index]?.unit ?? 0;
    const move = isMovable(sensitivity.source.kind) ? moveOf(sensitivity, unit) : undefined;
    return move === undefined ? [] : [move];
  });
}

function moveOf({ source, mass, damping, zeroDampingSpeed }: SourceSensitivity, unit: number): FirstMove | undefined {
  const gain = Math.abs(damping.x) * STEP;
  if (!(gain > 0) || !Number.isFinite(gain)) return undefined;
  const sign = damping.x > 0 ? 1 : -1;
  return {
    source,
    unit,
    mass,
    direction: sign > 0 ? 'ahead' : 'back',
    damping: gain,
    perKilogram: {
      damping: 0 - damping.mass,
      ...(zeroDampingSpeed ? { zeroDampingSpeed: 0 - zeroDampingSpeed.mass } : {}),
    },
    ...(zeroDampingSpeed ? { zeroDampingSpeed: sign * zeroDampingSpeed.x * STEP } : {}),
  };
}
