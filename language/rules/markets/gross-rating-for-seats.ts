import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { grossRatingAtLeast } from './gross-rating-sum.ts';

/** A gross rating covers the unloaded weight, the cargo and an occupant for every seat: United States. */
export const grossRatingForSeats: LimitRule<'GVWR-below-seats-and-cargo'> = {
  key: 'GVWR-below-seats-and-cargo',
  definition: UNITED_STATES['GVWR-below-seats-and-cargo'],
  markets: ['US'],
  assess: ({ rig }) => rig.units.flatMap((unit) => assessUnit(unit, systemOfRig(rig))),
};

/** A recreation vehicle trailer has the label of S9.3, which asks the same of it. */
function assessUnit(unit: UnitModel, system: DisplaySystem): Assessment[] {
  return unit.vehicleType === 'recreation_trailer' ? [] : grossRatingAtLeast(unit, { text: '', water: 0 }, system);
}
