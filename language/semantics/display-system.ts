import { lex, UnitToken } from '../syntax/tokens.ts';
import type { Declaration } from '../syntax/tree.ts';
import { LENGTH, MASS, sameDimension } from '../units/dimension.ts';
import type { DisplaySystem } from '../units/display.ts';
import { parseUnit, UNITS } from '../units/units.ts';
import type { RigModel } from './model.ts';

/** Symbols of the US customary lengths and masses. */
const US_UNITS: ReadonlySet<string> = new Set(
  UNITS.filter(
    ({ system, dimension }) => system === 'US' && (sameDimension(dimension, LENGTH) || sameDimension(dimension, MASS)),
  ).map(({ symbol }) => symbol),
);

const systems = new WeakMap<Declaration, DisplaySystem | 'none'>();

/**
 * The units a reader of a declaration expects: those of its market if it names only the US, else those that most of
 * its own lengths and masses are written in.
 */
export function systemOf(declaration: Declaration, markets: readonly string[] = []): DisplaySystem {
  if (markets.length > 0) return markets.every((market) => market === 'US') ? 'US' : 'metric';
  return writtenIn(declaration) ?? 'metric';
}

/** Undefined where it has no lengths and masses of its own, or as many of either. */
function writtenIn(declaration: Declaration): DisplaySystem | undefined {
  let system = systems.get(declaration);
  if (system === undefined) {
    system = systemWritten(declaration.text) ?? 'none';
    systems.set(declaration, system);
  }
  return system === 'none' ? undefined : system;
}

function systemWritten(text: string): DisplaySystem | undefined {
  let customary = 0;
  let metric = 0;
  for (const { image, tokenType } of lex(text).tokens) {
    const unit = tokenType === UnitToken ? parseUnit(image) : undefined;
    if (unit === undefined) continue;
    if (US_UNITS.has(unit.text)) customary++;
    else if (sameDimension(unit.dimension, LENGTH) || sameDimension(unit.dimension, MASS)) metric++;
  }
  if (customary === metric) return undefined;
  return customary > metric ? 'US' : 'metric';
}

/** The units that a reader of a rig expects; where it has no lengths and masses of its own, those of its first unit. */
export function systemOfRig({ location, markets, units }: RigModel): DisplaySystem {
  if (markets.length > 0) return systemOf(location.declaration, markets);
  const [first] = units;
  return writtenIn(location.declaration) ?? (first === undefined ? 'metric' : systemOf(first.location.declaration));
}
