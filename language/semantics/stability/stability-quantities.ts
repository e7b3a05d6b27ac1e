import type { CriticalSpeed } from '../../mechanics/stability/sweep.ts';
import { DIMENSIONLESS, type Dimension, FREQUENCY, SPEED } from '../../units/dimension.ts';
import { referencesIn } from '../expressions.ts';
import type { Requirement } from '../model.ts';
import { nameOf } from '../names.ts';
import type { Computed, StateResult } from '../state.ts';
import type { StabilityResult } from './evaluate-stability.ts';

/**
 * Names of what lateral stability comes to, for `require`: the damping ratio and frequency of the least-damped swinging at
 * the intended speed; the speeds at which swinging no longer dies out and at which the rig folds or spins (the highest
 * speed looked at where they lie above it, the lowest where below).
 */
export const STABILITY_QUANTITIES: ReadonlyMap<string, Dimension> = new Map([
  ['rig.damping', DIMENSIONLESS],
  ['rig.swing_frequency', FREQUENCY],
  ['rig.zero_damping_speed', SPEED],
  ['rig.divergence_speed', SPEED],
]);

/** Whether a requirement is about stability, and so waits until that has been looked at. */
export function asksForStability({ expression, comparison }: Requirement): boolean {
  return [expression, comparison.least, comparison.most]
    .flatMap(referencesIn)
    .some((reference) => STABILITY_QUANTITIES.has(nameOf(reference)));
}

/** The state of a result with its stability among the computed quantities, and its road and brakes in the label. */
export function withStability(result: StabilityResult): StateResult {
  const { state, label, mode, sweep } = result;
  const values: Readonly<Record<string, number | undefined>> = {
    'rig.damping': result.damping,
    'rig.swing_frequency': mode?.frequency ?? 0,
    'rig.zero_damping_speed': bounded(result.zeroDamping, sweep.speeds),
    'rig.divergence_speed': bounded(result.divergence, sweep.speeds),
  };
  const quantities = new Map<string, Computed>(state.quantities);
  for (const [name, dimension] of STABILITY_QUANTITIES) {
    const value = values[name];
    if (value !== undefined && Number.isFinite(value)) quantities.set(name, { name, value, dimension });
  }
  return { ...state, label, quantities };
}

function bounded(speed: CriticalSpeed, speeds: Float64Array): number | undefined {
  if (speed.kind === 'at') return speed.speed;
  return speed.kind === 'above' ? speeds[speeds.length - 1] : speeds[0];
}
