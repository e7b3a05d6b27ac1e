import { systemOfRig } from '../../language/semantics/display-system.ts';
import type { RigModel } from '../../language/semantics/model.ts';
import type { DisplaySystem } from '../../language/units/display.ts';

/** Units that were asked for; those that a reader of each rig expects where none were. */
export interface AskedUnits {
  readonly units?: DisplaySystem | undefined;
}

/** Options for one rig: in the units asked for, else in those of its market, else in those that it is written in. */
export function inUnitsOf<Options extends AskedUnits>(
  rig: RigModel,
  options: Options,
): Options & { readonly units: DisplaySystem } {
  return { ...options, units: options.units ?? systemOfRig(rig) };
}
