import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { grossToWrite, limitToWrite, typeToWrite } from '../limits/to-write.ts';
import { cargoCapacity, grossRating, isRecreational, unloadedWeight, unstated } from './certified-weights.ts';

/** The capacity on the label of a motor home or recreation vehicle trailer is what its gross rating leaves. */
export const cargoCapacityLabel: LimitRule<'cargo-capacity-overstated'> = {
  key: 'cargo-capacity-overstated',
  definition: UNITED_STATES['cargo-capacity-overstated'],
  markets: ['US'],
  assess: ({ rig }) => rig.units.flatMap((unit) => assessUnit(unit, systemOfRig(rig))),
};

function assessUnit(unit: UnitModel, system: DisplaySystem): Assessment[] {
  const { name, kind, limits, vehicleType } = unit;
  const limit = kind === 'vehicle' ? 'OCCC' : 'CCC';
  const quantity = `the ${limit} on its label`;
  if (vehicleType === undefined) return [unstated(name, quantity, typeToWrite(unit))];
  if (!isRecreational(unit)) return [];
  const gross = grossRating(unit);
  if (gross === undefined) return [unstated(name, quantity, grossToWrite(unit, system))];
  const stated = limits[limit];
  if (stated === undefined) return [unstated(name, quantity, limitToWrite(unit, limit, system))];
  const capacity = cargoCapacity(gross.value, unloadedWeight(unit));
  return [
    {
      kind: 'limited',
      subject: name,
      quantity,
      sense: 'at most',
      dimension: MASS,
      limitName: 'what its GVWR leaves above its unloaded weight with full propane',
      fixed: true,

      compare: () => ({ value: stated.value, limit: capacity }),
      related: [
        { location: stated.location, message: `the ${limit} on the label` },
        { location: gross.location, message: 'the gross rating (GVWR)' },
      ],
    },
  ];
}
