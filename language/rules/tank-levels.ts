import { finding } from '../diagnostics/create.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { CaseModel, LevelRange, Tank } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import { ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';

/** A share of a millionth more is rounding. */
const ROUNDING = 1e-6;

/** The highest level of each tank that a case, the reachable states or, in a unit alone, the tank itself states. */
export const tankLevels: Rule = {
  keys: ['tank-overfull', 'tank-above-fill'],
  *check(result) {
    for (const { name: unit, tanks } of result.rig.units) {
      for (const tank of tanks) {
        const name = `${unit}.${tank.name}`;
        const found = checkTank(result, name, tank);
        if (found !== undefined) yield found;
      }
    }
  },
};

interface StatedLevel {
  readonly level: LevelRange;
  /** `case departing`, `the reachable states`; empty for the level that the tank states. */
  readonly state: string;
  readonly case?: CaseModel;
}

/** The finding for the highest level; later mentions of the same are left to it. */
function checkTank(result: RigResult, name: string, tank: Tank): Finding | undefined {
  let highest: StatedLevel | undefined;
  for (const stated of statedLevels(result, name, tank)) {
    if (highest === undefined || writtenMost(stated.level) > writtenMost(highest.level)) highest = stated;
  }
  if (highest === undefined) return undefined;
  const { level, state } = highest;
  const written = writtenMost(level);
  const place = ownPlace(result, level.location, highest.case?.location);
  const related = pointAt(place, tank.location, name);
  if (written > 1 + ROUNDING) {
    return finding('tank-overfull', LOADS['tank-overfull'], { tank: name, level: written, state }, place, related);
  }
  const { name: fluid, maximumFill: most, source } = tank.fluid;
  if (most === undefined || level.most <= most + ROUNDING) return undefined;
  const parameters = { tank: name, fluid, level: level.most, most, source, state };
  return finding('tank-above-fill', LOADS['tank-above-fill'], parameters, place, related);
}

/** The highest level as the author wrote it: computed with is at most a full tank. */
function writtenMost({ most, overfull }: LevelRange): number {
  return overfull ?? most;
}

function statedLevels(result: RigResult, name: string, tank: Tank): StatedLevel[] {
  const levels: StatedLevel[] = [];
  for (const each of result.rig.cases) {
    const level = each.levels.get(name);
    if (level !== undefined) levels.push({ level, state: `case ${each.name}`, case: each });
  }
  const reachable = result.rig.reachable?.levels.get(name);
  if (reachable !== undefined) levels.push({ level: reachable, state: 'the reachable states' });
  // A rig speaks of the levels of its own cases; what a tank states is checked in its unit.
  if (result.rig.standalone && tank.level !== undefined) levels.push({ level: tank.level, state: '' });
  return levels;
}
