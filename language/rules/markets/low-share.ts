import type { RigResult, StateResult } from '../../semantics/state.ts';
import { behindAxles } from '../rear-heavy.ts';
import { levelStates, quantityOf, type Worst, worstOf } from '../states.ts';
import { usualShare } from '../usual-share.ts';
import { usualShareIn } from './coupling-bands.ts';
import { isLowByRule } from './coupling-load-minimum.ts';

/** A share of a millionth beyond is rounding. */
export const SHARE_ROUNDING = 1e-6;

/** Whether a trailer that lifts its hitch, is rear-heavy or breaks a road rule is told so, which says more than its share. */
export function isToldAsWorse(state: StateResult, index: number): boolean {
  const unit = state.rig.units[index];
  const share = unit && quantityOf(state, `${unit.name}.coupling.share`);
  if (unit === undefined || share === undefined || share < 0 || (behindAxles(state, index) ?? 0) > 0) return true;
  return isLowByRule(state, unit);
}

/**
 * The states in which the coupling of a trailer carries less than is usual, if in one of them it carries less than is
 * usual anywhere; undefined otherwise.
 */
export function shareLowAnywhere(result: RigResult, index: number): (Worst & { readonly limit: number }) | undefined {
  const unit = result.rig.units[index];
  const anywhere = unit && usualShare(unit)?.least;
  const limit = unit && usualShareIn(result.rig, unit)?.least;
  if (unit === undefined || anywhere === undefined || limit === undefined) return undefined;
  const missing = (state: StateResult) => {
    const share = quantityOf(state, `${unit.name}.coupling.share`);
    return share === undefined || isToldAsWorse(state, index) ? undefined : limit - share;
  };
  const worst = worstOf(levelStates(result), missing, SHARE_ROUNDING);
  return worst !== undefined && limit - worst.by < anywhere - SHARE_ROUNDING ? { ...worst, limit } : undefined;
}
