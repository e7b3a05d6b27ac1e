import { blendInfluences, evaluateLoadValue, type Influence } from '../mechanics/influence.ts';
import type { StateResult } from '../semantics/state.ts';
import { type Goal, lessOf } from './goal.ts';
import { influenceOf } from './states.ts';

/**
 * How far the coupling load (kg) of a trailer is beyond so large a share of its mass, as a function of all masses: positive where
 * it is more than that at most, or less than that at least.
 */
export function shareBeyond(
  state: StateResult,
  trailer: string,
  sense: 'at most' | 'at least',
  share: number,
): Influence | undefined {
  const load = influenceOf(state, [`${trailer}.coupling.load`]);
  const mass = influenceOf(state, [`${trailer}.mass`]);
  const sign = sense === 'at most' ? 1 : -1;
  return load && mass && blendInfluences(load, sign, mass, -sign * share);
}

/** What brings the share on a coupling back to so much, told in kg of coupling load. */
export function shareGoal(
  state: StateResult,
  trailer: string,
  sense: 'at most' | 'at least',
  share: number,
): Goal | undefined {
  const load = influenceOf(state, [`${trailer}.coupling.load`]);
  const beyond = shareBeyond(state, trailer, sense, share);
  if (load === undefined || beyond === undefined) return undefined;
  const by = evaluateLoadValue(beyond, state.sources);
  return { ...lessOf(beyond, by, load), of: 'coupling load', wanted: sense === 'at most' ? 'less' : 'more' };
}
