import type { UnitModel } from '../model.ts';

/** Something of a unit, or everything, that can stand on a scale by itself. */
export interface Weighable {
  /** Full name: `Hauler.axles.left`, `Hauler`, `total`. */
  readonly name: string;
  /** Name without that of the unit; absent for what is no part of one. */
  readonly short?: string;
  /** Name of the computed load. */
  readonly quantity: string;
}

/** The name by which a slip gives everything that stands on the scale. */
export const TOTAL = 'total';

/** What can be weighed of units that stand coupled up, or of a unit alone. */
export function weighables(units: readonly UnitModel[]): readonly Weighable[] {
  const alone = units.length === 1;
  return [
    ...units.flatMap((unit) => [
      ...supports(unit),
      // Of a unit alone the coupling stands on the scale too.
      { name: unit.name, quantity: alone ? `${unit.name}.mass` : `${unit.name}.axles_total` },
    ]),
    { name: TOTAL, quantity: 'rig.mass' },
  ];
}

/** What can be weighed of a unit alone that stands with one end raised: its supports as they are, and all of it. */
export function weighablesRaised(unit: UnitModel): readonly Weighable[] {
  return weighables([unit]).filter(({ quantity }) => !/\.(?:left|right)$|\.axle\d+\.load$/.test(quantity));
}

function supports(unit: UnitModel): readonly Weighable[] {
  const carried = unit.coupling !== undefined && unit.coupling.kind !== 'drawbar';
  return [
    ...(carried ? [weighable(unit, 'coupling', 'load')] : []),
    ...unit.groups.flatMap(({ name, axles }) => [
      weighable(unit, name, 'load'),
      ...sides(unit, name),
      ...(axles.length < 2
        ? []
        : axles.flatMap((_, index) => {
            const axle = `${name}.axle${index + 1}`;
            return [weighable(unit, axle, 'load'), ...sides(unit, axle)];
          })),
    ]),
  ];
}

function sides(unit: UnitModel, support: string): readonly Weighable[] {
  return ['left', 'right'].map((side) => ({
    ...weighable(unit, support, side),
    short: `${support}.${side}`,
    name: `${unit.name}.${support}.${side}`,
  }));
}

function weighable(unit: UnitModel, support: string, figure: string): Weighable {
  return { name: `${unit.name}.${support}`, short: support, quantity: `${unit.name}.${support}.${figure}` };
}
