import type { StabilityResult } from '../../semantics/stability/evaluate-stability.ts';
import type { Attempt } from './attempts.ts';
import { LEAST_DAMPING, NEUTRAL, onTheLevel, swingsFirst } from './results.ts';
import { motionOf, trialTrain, understeerOf } from './trial.ts';

/**
 * Tells whether an attempt brings no fault to any of the results of one load, at `speed` m/s: none folds that did not, none
 * that folds oversteers more, none swings with less than the recommended damping that had it, none that has less loses
 * any, and on the level no vehicle turns from understeer to oversteer.
 */
export function harmless(results: readonly StabilityResult[], speed: number): (attempt: Attempt) => boolean {
  const before = results.map((result) => ({
    result,
    motion: motionOf(result.built.train, speed),
    understeer: understeerOf(result.built.train, speed) ?? 0,
  }));
  return ({ source, distance }) =>
    before.every(({ result, motion, understeer }) => {
      const train = trialTrain(result.built, source, distance);
      const moved = motionOf(train, speed);
      if (motion === undefined || moved === undefined) return true;
      const steers = understeerOf(train, speed) ?? 0;
      if (onTheLevel(result) && understeer >= NEUTRAL && steers < NEUTRAL) return false;
      if (motion.folds) return swingsFirst(result) || steers >= understeer;
      return !moved.folds && moved.damping >= Math.min(motion.damping, LEAST_DAMPING);
    });
}
