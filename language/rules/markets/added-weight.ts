import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { grossToWrite, limitToWrite, typeToWrite } from '../limits/to-write.ts';
import { addedWeight, grossRating, isRecreational, unstated } from './certified-weights.ts';

const SHARE = 0.015;
/** kg; 100 lb */
const MOST = 45.4;

/** Weight added to a motor home or recreation vehicle trailer that its labels do not know of. */
export const addedWeightLabel: LimitRule<'added-weight-unlabelled'> = {
  key: 'added-weight-unlabelled',
  definition: UNITED_STATES['added-weight-unlabelled'],
  markets: ['US'],
  assess: ({ rig }) => rig.units.flatMap((unit) => assessUnit(unit, systemOfRig(rig))),
};

/** kg that may be added to a unit of this gross rating before its labels have to be corrected. */
export function mostUnlabelled(gross: number): number {
  return Math.min(SHARE * gross, MOST);
}

function assessUnit(unit: UnitModel, system: DisplaySystem): Assessment[] {
  const { name, limits, vehicleType } = unit;
  const quantity = 'the weight added since it was certified';
  if (vehicleType === undefined) return [unstated(name, quantity, typeToWrite(unit))];
  if (!isRecreational(unit)) return [];
  const gross = grossRating(unit);
  if (gross === undefined) return [unstated(name, quantity, grossToWrite(unit, system))];
  const added = addedWeight(unit);
  if (added === undefined) {
    return [unstated(name, quantity, limitToWrite(unit, 'UVW', system))];
  }
  return [
    {
      kind: 'limited',
      subject: name,
      quantity,
      sense: 'at most',
      dimension: MASS,
      limitName: 'the lesser of 1.5 % of its GVWR and 45.4 kg (100 lb)',
      fixed: true,
      compare: () => ({ value: added, limit: mostUnlabelled(gross.value) }),
      related:
        limits.UVW === undefined
          ? []
          : [{ location: limits.UVW.location, message: 'the unloaded weight as certified' }],
    },
  ];
}
