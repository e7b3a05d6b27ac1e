import { blendInfluences, type Influence } from '../mechanics/influence.ts';
import { lessOf, moreOf } from '../rules/goal.ts';
import { helpFor } from '../rules/moves.ts';
import type { StateResult } from './state.ts';

/**
 * What would bring a computed quantity to a limit (SI), as one sentence with a leading space; empty where nothing is
 * known to help. Loads and the coupling share are linear in the masses; other quantities get no advice.
 */
export function adviceFor(state: StateResult, quantity: string, limit: number, direction: 'less' | 'more'): string {
  const goal = goalInfluence(state, quantity, limit);
  const value = state.quantities.get(quantity)?.value;
  if (goal === undefined || value === undefined) return '';
  const excess = Math.abs(value - limit) * goal.scale;
  const { influence, told } = goal;
  const help = helpFor(state, direction === 'less' ? lessOf(influence, excess, told) : moreOf(influence, excess, told));
  return help === undefined ? '' : ` ${help}`;
}

interface GoalInfluence {
  /** kg per kg of mass at a place; zero in sum at the limit. */
  readonly influence: Influence;
  /** kg per unit of the quantity. */
  readonly scale: number;
  /** The load in which the effect is told. */
  readonly told: Influence;
}

/** A load that is zero at the limit: the quantity itself, or for a share the coupling load less that share of the mass. */
function goalInfluence(state: StateResult, quantity: string, limit: number): GoalInfluence | undefined {
  if (!quantity.endsWith('.coupling.share')) {
    const influence = state.quantities.get(quantity)?.influence;
    return influence && { influence, scale: 1, told: influence };
  }
  const unit = quantity.slice(0, -'.coupling.share'.length);
  const load = state.quantities.get(`${unit}.coupling.load`)?.influence;
  const mass = state.quantities.get(`${unit}.mass`);
  if (load === undefined || mass?.influence === undefined) return undefined;
  return { influence: blendInfluences(load, 1, mass.influence, -limit), scale: mass.value, told: load };
}
