import type { CaseModel, RigModel, Tank, UnitModel } from '../model.ts';
import { levelOf } from '../sources.ts';

/** The levels that a tank can have, and who says so. */
export interface ReachableLevels {
  readonly least: number;
  readonly most: number;
  /** The block of reachable states, the tank's own line, or nobody: then it is from empty to as full as its fluid allows. */
  readonly from: 'reachable' | 'tank' | 'nobody';
  /** The case that has a level outside of what the tank's line says, or fuller than its fluid allows, and so adds to it. */
  readonly widenedBy?: CaseModel;
}

/** The levels of a tank in all reachable states; those of the cases are among them unless the author's block leaves them out. */
export function reachableLevels(
  rig: RigModel,
  unit: UnitModel,
  tank: Tank,
  cases: readonly CaseModel[],
): ReachableLevels {
  const stated = rig.reachable?.levels.get(`${unit.name}.${tank.name}`);
  if (stated !== undefined) return { least: stated.least, most: stated.most, from: 'reachable' };
  const own = tank.level !== undefined && tank.level.least < tank.level.most ? tank.level : undefined;
  const { least, most } = own ?? { least: 0, most: tank.fluid.maximumFill ?? 1 };
  const widenedBy = cases.find((state) => {
    const level = levelOf(unit, tank, state);
    return level.least < least || level.most > most;
  });
  const ends = cases.map((state) => levelOf(unit, tank, state));
  return {
    least: Math.min(least, ...ends.map((level) => level.least)),
    most: Math.max(most, ...ends.map((level) => level.most)),
    from: own === undefined ? 'nobody' : 'tank',
    ...(widenedBy ? { widenedBy } : {}),
  };
}
