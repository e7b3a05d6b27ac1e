import { type Influence, massInfluence, sumInfluences } from '../mechanics/influence.ts';
import type { SupportSolution } from '../mechanics/statics.ts';
import type { UnitModel } from './model.ts';

/** A load with its stable dotted name. */
export interface NamedInfluence {
  readonly name: string;
  readonly influence: Influence;
}

/** Gives every load of some units, coupled in a row, its stable dotted name. */
export function nameInfluences(rigUnits: readonly UnitModel[], { units }: SupportSolution): NamedInfluence[] {
  const named: NamedInfluence[] = [];
  const count = rigUnits.length;
  const add = (name: string, influence: Influence | undefined) => {
    if (influence !== undefined) named.push({ name, influence });
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
