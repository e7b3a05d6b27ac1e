import { COUPLINGS } from '../diagnostics/couplings.ts';
import { finding } from '../diagnostics/create.ts';
import { moreOf } from './goal.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, quantityOf, ROUNDING, worstOf } from './states.ts';
import { carriesLoad } from './subjects.ts';

/** Couplings that are pulled up, on level ground, on grades and while braking. */
export const couplingNegative: Rule = {
  keys: ['coupling-negative'],
  *check(result) {
    for (const [index, { name, coupling }] of result.rig.units.entries()) {
      if (coupling === undefined || !carriesLoad(coupling)) continue;
      const load = `${name}.coupling.load`;
      const worst = worstOf(result.states, (state) => -(quantityOf(state, load) ?? 0), ROUNDING);
      if (worst === undefined) continue;
      const { state, by } = worst;
      const influence = influenceOf(state, [load]);
      const help = influence && helpFor(state, { ...moreOf(influence, by), of: 'coupling load' });
      const ahead = result.rig.units[index - 1];
      const hitch = ahead === undefined ? 'its coupling' : `the hitch of ${ahead.name}`;
      const place = limitPlace(result, state);
      const parameters = { trailer: name, hitch, load: -by, ...breachOf(worst, help) };
      yield finding('coupling-negative', COUPLINGS['coupling-negative'], parameters, place, [
        ...pointAt(place, coupling.location, `coupling of ${name}`),
        ...contributors(state, influence, { sign: -1 }),
      ]);
    }
  },
};
