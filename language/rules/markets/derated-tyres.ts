import { UNITED_STATES } from '../../diagnostics/markets/united-states.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { AxleGroup, RigModel, UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { axleRatingToWrite, typeToWrite } from '../limits/to-write.ts';
import { groupSubject, withinSentence } from '../subjects.ts';
import { derated, deratesPassengerTyres, isPassengerTyre } from '../tyre-rating.ts';
import { unstated } from './certified-weights.ts';

/** Passenger tyres on a trailer or truck: their ratings, each divided by 1.10, add up to the rating of their axle. */
export const deratedTyres: LimitRule<'derated-tyres-below-rating'> = {
  key: 'derated-tyres-below-rating',
  definition: UNITED_STATES['derated-tyres-below-rating'],
  markets: ['US', 'CA'],
  assess: ({ rig }) => assessRig(rig),
};

function assessRig(rig: RigModel): Assessment[] {
  const system = systemOfRig(rig);
  return rig.units.flatMap((unit) => unit.groups.flatMap((group) => assessGroup(unit, group, system)));
}

function assessGroup(unit: UnitModel, group: AxleGroup, system: DisplaySystem): Assessment[] {
  const { tyres, rating } = group;
  if (tyres?.capacity === undefined || !isPassengerTyre(tyres) || unit.vehicleType === 'passenger_car') return [];
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the sum of their capacities, each divided by 1.10,';
  if (!deratesPassengerTyres(unit)) return [unstated(subject, quantity, typeToWrite(unit))];
  if (rating === undefined) return [unstated(subject, quantity, axleRatingToWrite(unit, group, system))];
  const value = tyres.count * derated(tyres.capacity);
  return [
    {
      kind: 'limited',
      subject,
      quantity,
      sense: 'at least',
      dimension: MASS,
      limitName: 'the rating of the axle',
      fixed: true,
      location: rating.location,
      compare: () => ({ value, limit: rating.value }),
      related: [{ location: tyres.location, message: 'the tyres' }],
    },
  ];
}
