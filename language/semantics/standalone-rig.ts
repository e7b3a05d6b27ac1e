import type { Assumption, RigModel, UnitModel } from './model.ts';

/** A unit looked at alone, as a rig of its own. */
export function standaloneRig(unit: UnitModel, assumptions: readonly Assumption[] = []): RigModel {
  return {
    name: unit.name,
    standalone: true,
    markets: [],
    units: [unit],
    occupants: [],
    stowed: [],
    cases: unit.cases,
    weighings: unit.weighings,
    requirements: unit.requirements,
    assumptions,
    location: unit.location,
    levels: unit.levels,
    ...(unit.reachable ? { reachable: unit.reachable } : {}),
    ...(unit.title !== undefined ? { title: unit.title } : {}),
    ...(unit.documentation !== undefined ? { documentation: unit.documentation } : {}),
  };
}
