import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { REACH } from '../diagnostics/reach.ts';
import { isWithinLevels } from '../semantics/envelope/reachable-levels.ts';
import type { CaseModel, Reachable } from '../semantics/model.ts';
import { levelOf } from '../semantics/sources.ts';
import type { RigResult } from '../semantics/state.ts';
import { ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';

/** Named cases in which a tank is outside the levels that the author calls reachable, each tank of a case once. */
export const caseUnreachable: Rule = {
  keys: ['case-unreachable'],
  *check(result) {
    const { reachable, cases } = result.rig;
    if (reachable === undefined) return;
    for (const state of cases) yield* checkCase(result, state, reachable);
  },
};

function* checkCase(result: RigResult, state: CaseModel, reachable: Reachable): Iterable<Finding> {
  for (const unit of result.rig.units) {
    for (const tank of unit.tanks) {
      const name = `${unit.name}.${tank.name}`;
      const stated = reachable.levels.get(name);
      if (!state.levels.has(name) && state.levelsInError?.has(name)) continue;
      const level = levelOf(unit, tank, state);
      if (stated === undefined || isWithinLevels(level, stated)) continue;
      const place = ownPlace(result, state.levels.get(name)?.location, state.location);
      const parameters = { case: state.name, tank: name, level, reachable: stated };
      const related = pointAt(place, stated.location, `what is reachable of ${name}`);
      yield finding('case-unreachable', REACH['case-unreachable'], parameters, place, related);
    }
  }
}
