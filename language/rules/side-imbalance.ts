import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { LOADS } from '../diagnostics/loads.ts';
import { blendInfluences } from '../mechanics/influence.ts';
import type { AxleGroup, UnitModel } from '../semantics/model.ts';
import type { RigResult, StateResult } from '../semantics/state.ts';
import { lessOf } from './goal.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, levelStates, quantityOf, worstOf } from './states.ts';
import { groupSubject } from './subjects.ts';

/** Difference of the sides over the load of the group. Common practice, no source. */
export const MOST_IMBALANCE = 0.1;
/** From here on a wheel lifts, which is a finding of its own. */
const LIFTS = 1;

/** Left and right wheels of each axle group, on level ground. */
export const sideImbalance: Rule = {
  keys: ['side-imbalance'],
  *check(result) {
    for (const unit of result.rig.units) {
      for (const group of unit.groups) {
        const found = checkGroup(result, unit, group);
        if (found !== undefined) yield found;
      }
    }
  },
};

function checkGroup(result: RigResult, unit: UnitModel, group: AxleGroup): Finding | undefined {
  const prefix = `${unit.name}.${group.name}`;
  const imbalance = (state: StateResult) => {
    const share = quantityOf(state, `${prefix}.imbalance`);
    return share === undefined || share > LIFTS ? undefined : share;
  };
  // The margin keeps a share of just the limit from being reported for its rounding.
  const worst = worstOf(levelStates(result), imbalance, MOST_IMBALANCE + 1e-9);
  if (worst === undefined) return undefined;
  const { state, by: share } = worst;
  const left = quantityOf(state, `${prefix}.left`) ?? 0;
  const right = quantityOf(state, `${prefix}.right`) ?? 0;
  const difference = Math.abs(left - right);
  const [side, other] = left > right ? (['left', 'right'] as const) : (['right', 'left'] as const);
  const heavy = influenceOf(state, [`${prefix}.${side}`]);
  const light = influenceOf(state, [`${prefix}.${other}`]);
  const tilt = heavy && light && blendInfluences(heavy, 1, light, -1);
  const goal = tilt && { ...lessOf(tilt, difference - MOST_IMBALANCE * (left + right)), of: 'difference' };
  const place = limitPlace(result, state);
  const help = goal && helpFor(state, goal);
  const subject = groupSubject(unit, group);
  const parameters = { subject, side, difference, share, most: MOST_IMBALANCE, ...breachOf(worst, help) };
  return finding('side-imbalance', LOADS['side-imbalance'], parameters, place, [
    ...pointAt(place, group.location, subject),
    ...contributors(state, tilt),
  ]);
}
