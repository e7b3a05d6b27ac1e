import { LEVEL, type Unit } from '../../mechanics/combination.ts';
import type { Influence } from '../../mechanics/influence.ts';
import { isStaticsProblem, solveSupports } from '../../mechanics/statics.ts';
import type { AxleGroup } from '../model.ts';

/** Where a unit's mass acts according to the scale, and the reading that goes with it least. */
export interface ReadPlace {
  /** m in the unit's frame. */
  readonly x: number;
  readonly worst: { readonly name: string; readonly read: number; readonly computed: number };
}

/**
 * The place along the unit from which its supports carry what the scale read (kg, by support), by least squares: exact
 * for two supports, and for more as near as their springs allow. Undefined where statics has no answer.
 */
export function placeByReadings(
  groups: readonly AxleGroup[],
  onCoupling: boolean,
  readings: ReadonlyMap<string, number>,
): ReadPlace | undefined {
  const unit: Unit = {
    groups: groups.map(({ axles, suspension }) => ({ axles, suspension })),
    couplingCarries: onCoupling,
    brakeShare: 0,
    ...(onCoupling ? { coupling: { x: 0, z: 0 } } : {}),
  };
  const solution = solveSupports({ units: [unit] }, LEVEL);
  const loads = isStaticsProblem(solution) ? undefined : solution.units[0];
  if (loads === undefined) return undefined;
  const influences = new Map<string, Influence | undefined>([
    ['coupling', loads.coupling],
    ...groups.map((group, index): [string, Influence | undefined] => [group.name, loads.groups[index]?.load]),
  ]);
  const mass = [...readings.values()].reduce((sum, reading) => sum + reading, 0);
  const lines = [...readings].flatMap(([name, read]) => {
    const influence = influences.get(name);
    const own = influence?.units[0];
    if (influence === undefined || own === undefined) return [];
    return [{ name, read, slope: mass * own.x, rest: influence.constant + mass * own.one }];
  });
  const square = lines.reduce((sum, { slope }) => sum + slope * slope, 0);
  if (!(square > 0)) return undefined;
  const x = lines.reduce((sum, { slope, read, rest }) => sum + slope * (read - rest), 0) / square;
  const compared = lines.map(({ name, read, slope, rest }) => ({ name, read, computed: rest + slope * x }));
  const worst = compared.reduce((a, b) => (Math.abs(b.read - b.computed) > Math.abs(a.read - a.computed) ? b : a));
  return Number.isFinite(x) ? { x, worst } : undefined;
}
