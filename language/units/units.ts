import type { Dimension } from './dimension.ts';
import { sameDimension } from './dimension.ts';
import type { UnitDefinition } from './unit-table.ts';
import { UNITS } from './unit-table.ts';

export { nearestUnit } from './nearest-unit.ts';
export type { ParsedUnit, UnitMatch } from './parse-unit.ts';
export { fromSI, isUnitWord, parseUnit, toSI, UNIT_PATTERN, unitAt } from './parse-unit.ts';
export type { UnitDefinition } from './unit-table.ts';
export { UNITS } from './unit-table.ts';

/** The table's units of a dimension, the commonest first; empty where the table has none. */
export function unitsOf(dimension: Dimension): readonly UnitDefinition[] {
  return UNITS.filter((unit) => sameDimension(unit.dimension, dimension));
}
