import type { CaseModel, LevelRange, RigModel, Tank, UnitModel } from '../model.ts';
import { levelOf } from '../sources.ts';

/** The levels that a tank can have, and who says so. */
export interface ReachableLevels {
  readonly least: number;
  readonly most: number;
  /**
   * The block of reachable states, the tank's own line, or nobody: then it is from empty to as full as its fluid allows. Only the
   * cases where the line of the block has an error.
   */
  readonly from: 'reachable' | 'tank' | 'nobody' | 'cases';
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
  const name = `${unit.name}.${tank.name}`;
  const stated = rig.reachable?.levels.get(name);
  if (stated !== undefined) return { least: stated.least, most: stated.most, from: 'reachable' };
  const ends = cases.map((state) => levelOf(unit, tank, state));
  const [lower, upper] = [Math.min(...ends.map(({ least }) => least)), Math.max(...ends.map(({ most }) => most))];
  if (rig.reachable?.levelsInError.has(name) && ends.length > 0) return { least: lower, most: upper, from: 'cases' };
  const own = tank.level !== undefined && tank.level.least < tank.level.most ? tank.level : undefined;
  const { least, most } = own ?? { least: 0, most: tank.fluid.maximumFill ?? 1 };
  const widenedBy = cases.find((state) => {
    const level = levelOf(unit, tank, state);
    return level.least < least || level.most > most;
  });
  return {
    least: Math.min(least, lower),
    most: Math.max(most, upper),
    from: own === undefined ? 'nobody' : 'tank',
    ...(widenedBy ? { widenedBy } : {}),
  };
}

/** A share of a millionth more is rounding. */
const ROUNDING = 1e-6;

/** Whether all levels that a case states of a tank are among those that a block states as reachable. */
export function isWithinLevels(level: LevelRange, stated: LevelRange): boolean {
  return level.least >= stated.least - ROUNDING && level.most <= stated.most + ROUNDING;
}

/** Whether everything that a case states is reachable: an author's block may leave some of it out. */
export function isReachable({ units, reachable }: RigModel, state: CaseModel): boolean {
  return units.every((unit) =>
    unit.tanks.every((tank) => {
      const stated = reachable?.levels.get(`${unit.name}.${tank.name}`);
      return stated === undefined || isWithinLevels(levelOf(unit, tank, state), stated);
    }),
  );
}
