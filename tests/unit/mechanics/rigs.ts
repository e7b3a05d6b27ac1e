import type { Axle, Combination, Field, Unit } from '../../../language/mechanics/combination.ts';
import { LEVEL } from '../../../language/mechanics/combination.ts';
import { evaluateLoadValue, type Influence, type MassSource } from '../../../language/mechanics/influence.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../../../language/mechanics/statics.ts';

/** A two-axle vehicle, front axle at 0. */
export function vehicle(wheelbase: number, overhang: number, hitchHeight = 0.45): Unit {
  return {
    groups: [group('equalised', [{ x: 0 }]), group('equalised', [{ x: -wheelbase }])],
    couplingCarries: false,
    hitch: { x: -wheelbase - overhang, z: hitchHeight },
    brakeShare: 1,
  };
}

/** A trailer on one group of axles, coupling at 0. */
export function trailer(
  suspension: 'equalised' | 'independent',
  axles: readonly (Partial<Axle> & { readonly x: number })[],
  more: Partial<Unit> = {},
): Unit {
  return {
    groups: [group(suspension, axles)],
    coupling: { x: 0, z: 0.45 },
    couplingCarries: true,
    brakeShare: 1,
    ...more,
  };
}

export function group(
  suspension: 'equalised' | 'independent',
  axles: readonly (Partial<Axle> & { readonly x: number })[],
) {
  return { suspension, axles: axles.map((axle) => ({ track: 1.8, ...axle })) };
}

export function mass(unit: number, kg: number, x: number, y = 0, z = 0.7): MassSource {
  return { id: `${kg} kg`, unit, mass: kg, centre: { x, y, z } };
}

export function solve(combination: Combination, field: Field = LEVEL): SupportSolution {
  const solution = solveSupports(combination, field);
  if (isStaticsProblem(solution)) throw new Error(`no solution: ${JSON.stringify(solution)}`);
  return solution;
}

/** Every load of a combination as a number, kg. */
export function loadsOf(combination: Combination, sources: readonly MassSource[], field: Field = LEVEL) {
  const load = (influence: Influence | undefined) =>
    influence === undefined ? Number.NaN : evaluateLoadValue(influence, sources);
  return solve(combination, field).units.map(({ coupling, drawbar, groups }) => ({
    coupling: load(coupling),
    drawbar: load(drawbar),
    groups: groups.map((each) => load(each.load)),
    axles: groups.flatMap(({ axles }) => axles.map((axle) => load(axle.load))),
    left: groups.flatMap(({ axles }) => axles.map((axle) => load(axle.left))),
    right: groups.flatMap(({ axles }) => axles.map((axle) => load(axle.right))),
  }));
}
