import { brokenIn } from '../../rules/reach/breach.ts';
import { type ReachBreach, reachBreaches, reachesOf } from '../../rules/reach/check-reach.ts';
import type { Analysis } from '../../semantics/analysis.ts';
import { reachOfCase } from '../../semantics/envelope/reach.ts';
import type { CaseModel, LevelRange } from '../../semantics/model.ts';
import { levelOf } from '../../semantics/sources.ts';
import type { RigResult } from '../../semantics/state.ts';
import { editOf, type FixEdit, type Fixer, statementOf } from './fix.ts';
import { cutRange, type Range } from './reachable-levels.ts';
import { breachAt } from './reached-case.ts';
import { levelText, stateOf, tankName } from './reached-state.ts';

/**
 * Narrows the range that a case states of one tank to levels with which the limit of a finding holds in it, and every other limit
 * that its ranges break; nothing where no tank does it alone, where several would, or where the case does not state it as a range
 * in this document.
 */
export const narrowCase: Fixer = (analysis, uri, diagnostic) => {
  const found = breachAt(analysis, uri, diagnostic);
  const state = found?.breach.reach.case;
  if (found === undefined || found.breach.kind !== 'range' || state === undefined) return [];
  const { result, breach } = found;
  const holding = result.rig.units.flatMap((unit) =>
    unit.tanks.flatMap((tank) => {
      const full = `${unit.name}.${tank.name}`;
      const range = holdingRange(result, breach, state, full, levelOf(unit, tank, state));
      return range === undefined ? [] : [{ full, name: tankName(result.rig, unit, tank), range }];
    }),
  );
  const [only, ...others] = holding;
  if (only === undefined || others.length > 0) return [];
  const levels = `${levelText(only.range.least)} to ${levelText(only.range.most)}`;
  const edit = restated(analysis, state.levels.get(only.full), levels);
  if (edit?.uri !== uri) return [];
  const title = `State the level of ${only.name} as ${levels} in case ${state.name}; the limit then holds in it`;
  return [{ title, edits: [edit], diagnostic }];
};

/** The widest range with which the limit holds in the case, and every other limit of weight that its ranges break. */
function holdingRange(
  result: RigResult,
  breach: ReachBreach,
  state: CaseModel,
  tank: string,
  now: LevelRange,
): Range | undefined {
  const loads = reachesOf(result)?.loads;
  if (now.least === now.most || loads === undefined) return undefined;
  const broken = reachBreaches(result).filter(
    (each) => each === breach || (each.kind === 'range' && each.reach.case === state && each.limit.weight === 'limit'),
  );
  return cutRange(now, { least: now.most, most: now.least }, (range) => {
    const level = { ...range, value: (range.least + range.most) / 2, location: now.location };
    const narrowed: CaseModel = { ...state, levels: new Map([...state.levels, [tank, level]]) };
    const named = stateOf(result, narrowed);
    if (named === undefined) return false;
    const reach = reachOfCase(result, narrowed);
    return broken.every(({ limit }) => brokenIn(limit.limited, reach, reach.free, [named], loads) === undefined);
  });
}

/** In place of the range in the line of the case; a level with a tolerance says how well it is known, and is left alone. */
function restated(analysis: Analysis, written: LevelRange | undefined, levels: string): FixEdit | undefined {
  if (written === undefined) return undefined;
  const { declaration, span } = written.location;
  const [argument] = statementOf(declaration, span)?.arguments ?? [];
  if (argument?.kind !== 'value' || argument.value.upTo === undefined || argument.value.tolerance !== undefined) {
    return undefined;
  }
  return editOf(analysis, declaration, span, levels);
}
