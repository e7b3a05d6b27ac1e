import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { everyAxleRatingToWrite, grossToWrite, limitToWrite, typeToWrite } from '../limits/to-write.ts';
import { axleRatings, grossRating, unstated } from './certified-weights.ts';

/** Axles and hitch together have to be rated for what a recreation vehicle trailer may weigh. */
export const recreationTrailerRatings: LimitRule<'ratings-below-trailer-GVWR'> = {
  key: 'ratings-below-trailer-GVWR',
  definition: UNITED_STATES['ratings-below-trailer-GVWR'],
  markets: ['US'],
  assess: ({ rig }) => rig.units.flatMap((unit) => assessUnit(unit, systemOfRig(rig))),
};

function assessUnit(unit: UnitModel, system: DisplaySystem): Assessment[] {
  if (unit.kind !== 'trailer') return [];
  const { name, vehicleType, limits } = unit;
  const quantity = 'the sum of its axle ratings and its least recommended coupling load';
  if (vehicleType === undefined) return [unstated(name, quantity, typeToWrite(unit))];
  if (vehicleType !== 'recreation_trailer') return [];
  const gross = grossRating(unit);
  if (gross === undefined) return [unstated(name, quantity, grossToWrite(unit, system))];
  const axles = axleRatings(unit);
  if (axles === undefined) return [unstated(name, quantity, everyAxleRatingToWrite(unit, system))];
  const least = limits.coupling_minimum;
  if (least === undefined) {
    return [unstated(name, quantity, limitToWrite(unit, 'coupling_minimum', system))];
  }
  return [
    {
      kind: 'limited',
      subject: name,
      quantity,
      sense: 'at least',
      dimension: MASS,
      limitName: 'its ATM (GVWR)',
      fixed: true,
      location: gross.location,
      compare: () => ({ value: axles + least.value, limit: gross.value }),
      related: [{ location: least.location, message: 'the least recommended coupling load' }],
    },
  ];
}
