import type { AxleGroup, RigModel } from '../model.ts';

/** Axle groups whose tyres' cornering stiffness the files do not state: `CrewPickup.front`. */
export function assumedTyres({ units }: RigModel): string[] {
  return units.flatMap(({ name, groups }) => groups.filter(isAssumed).map((group) => `${name}.${group.name}`));
}

/** The units that have such axles. */
export function unitsOnAssumedTyres({ units }: RigModel): string[] {
  return units.filter(({ groups }) => groups.some(isAssumed)).map(({ name }) => name);
}

const isAssumed = ({ tyres }: AxleGroup): boolean => tyres?.cornering === undefined;
