import type { Field } from '../mechanics/combination.ts';
import { type Influence, massInfluence, sumInfluences } from '../mechanics/influence.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../mechanics/statics.ts';
import { toMechanics } from './combination.ts';
import type { RigModel, UnitModel } from './model.ts';

/** Gives every load of some units, coupled in a row, its stable dotted name. */
export function nameInfluences(
  rigUnits: readonly UnitModel[],
  { units }: SupportSolution,
): ReadonlyMap<string, Influence> {
  const named = new Map<string, Influence>();
  const count = rigUnits.length;
  const add = (name: string, influence: Influence | undefined) => {
    if (influence !== undefined) named.set(name, influence);
  };
  rigUnits.forEach((unit, index) => {
    const loads = units[index];
    if (loads === undefined) return;
    add(`${unit.name}.mass`, massInfluence(count, [index]));
    add(`${unit.name}.coupling.load`, loads.coupling);
    add(`${unit.name}.coupling.drawbar`, loads.drawbar);
    add(`${unit.name}.hitch.load`, units[index + 1]?.coupling);
    add(
      `${unit.name}.axles_total`,
      sumInfluences(
        count,
        loads.groups.map(({ load }) => load),
      ),
    );
    unit.groups.forEach((group, position) => {
      const groupLoads = loads.groups[position];
      if (groupLoads === undefined) return;
      const name = `${unit.name}.${group.name}`;
      add(`${name}.load`, groupLoads.load);
      add(
        `${name}.left`,
        sumInfluences(
          count,
          groupLoads.axles.map(({ left }) => left),
        ),
      );
      add(
        `${name}.right`,
        sumInfluences(
          count,
          groupLoads.axles.map(({ right }) => right),
        ),
      );
      if (groupLoads.axles.length < 2) return;
      groupLoads.axles.forEach((axle, order) => {
        add(`${name}.axle${order + 1}.load`, axle.load);
        add(`${name}.axle${order + 1}.left`, axle.left);
        add(`${name}.axle${order + 1}.right`, axle.right);
      });
    });
  });
  add(
    'rig.mass',
    massInfluence(
      count,
      rigUnits.map((_, index) => index),
    ),
  );
  return named;
}

/** Load of the vehicle's first axle group without its trailers in the same state of motion; undefined without vehicle or trailer. */
export function soloFrontLoad(rig: RigModel, field: Field): Influence | undefined {
  const [vehicle] = rig.units;
  if (vehicle?.kind !== 'vehicle' || rig.units.length < 2) return undefined;
  const solution = solveSupports(toMechanics([vehicle]), field);
  const load = isStaticsProblem(solution) ? undefined : solution.units[0]?.groups[0]?.load;
  // The other units' masses count nothing here; the influence is padded to the rig's number of units.
  return (
    load &&
    sumInfluences(rig.units.length, [
      {
        constant: load.constant,
        units: rig.units.map((_, index) => load.units[index] ?? { one: 0, x: 0, y: 0, z: 0, xy: 0 }),
      },
    ])
  );
}
