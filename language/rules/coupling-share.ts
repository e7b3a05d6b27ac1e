import { COUPLINGS } from '../diagnostics/couplings.ts';
import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import type { UnitModel } from '../semantics/model.ts';
import type { RigResult, StateResult } from '../semantics/state.ts';
import { marketShare } from './markets/coupling-bands.ts';
import { isHighByRule } from './markets/coupling-load-maximum.ts';
import { SHARE_ROUNDING, shareLowAnywhere } from './markets/low-share.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { shareGoal } from './share-goal.ts';
import { breachOf, influenceOf, levelStates, quantityOf, type Worst, worstOf } from './states.ts';
import { usualShare } from './usual-share.ts';

/**
 * Share of the trailer's mass on its coupling, on level ground; rear-heavy and lifting trailers are left to those rules.
 * Where the practice of the rig's markets names a band, a rule of the market speaks of it, and this one only of less than
 * is usual anywhere.
 */
export const couplingShare: Rule = {
  keys: ['coupling-share-low', 'coupling-share-high'],
  *check(result) {
    for (const [index, unit] of result.rig.units.entries()) {
      const band = usualShare(unit);
      if (band === undefined) continue;
      const low = shareLowAnywhere(result, index);
      if (low !== undefined) yield describe('coupling-share-low', result, unit, low.limit, low, -1);
      if (marketShare(result.rig, unit) === undefined) yield* tooHigh(result, unit, band.most);
    }
  },
};

function* tooHigh(result: RigResult, unit: UnitModel, limit: number): Iterable<Finding> {
  const excess = (state: StateResult) =>
    isHighByRule(state, unit) ? undefined : (quantityOf(state, `${unit.name}.coupling.share`) ?? 0) - limit;
  const worst = worstOf(levelStates(result), excess, SHARE_ROUNDING);
  if (worst !== undefined) yield describe('coupling-share-high', result, unit, limit, worst, 1);
}

function describe(
  key: 'coupling-share-low' | 'coupling-share-high',
  result: RigResult,
  unit: UnitModel,
  limit: number,
  worst: Worst,
  sign: 1 | -1,
): Finding {
  const { state, by } = worst;
  const load = quantityOf(state, `${unit.name}.coupling.load`) ?? 0;
  const place = limitPlace(result, state);
  const goal = shareGoal(state, unit.name, sign > 0 ? 'at most' : 'at least', limit);
  const help = goal && helpFor(state, goal);
  const share = limit + sign * by;
  return finding(key, COUPLINGS[key], { trailer: unit.name, load, share, limit, ...breachOf(worst, help) }, place, [
    ...pointAt(place, unit.coupling?.location, `coupling of ${unit.name}`),
    ...contributors(state, influenceOf(state, [`${unit.name}.coupling.load`]), { sign }),
  ]);
}
