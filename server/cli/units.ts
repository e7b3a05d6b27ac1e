import { systemOfRig } from '../../language/semantics/display-system.ts';
import type { RigModel } from '../../language/semantics/model.ts';
import type { DisplaySystem } from '../../language/units/display.ts';

/** How a rig is printed, with units if the command line asks for some. */
export type AskedStyle<Style extends { readonly units: DisplaySystem }> = Omit<Style, 'units'> & {
  readonly units?: DisplaySystem | undefined;
};

/** The units to print a rig in: those asked for, or else those of its market or of its own lines, as everywhere. */
export function unitsFor(rig: RigModel, asked: DisplaySystem | undefined): DisplaySystem {
  return asked ?? systemOfRig(rig);
}
