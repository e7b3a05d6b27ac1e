import { TYRES } from '../../diagnostics/markets/tyres.ts';
import { loadAtPressure } from '../../mechanics/tyre-load.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { AxleGroup, RigModel, UnitModel } from '../../semantics/model.ts';
import { MASS, PRESSURE } from '../../units/dimension.ts';
import { formatValue } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { tyresToWrite } from '../limits/to-write.ts';
import { groupSubject, withinSentence } from '../subjects.ts';
import { heaviestTyre, heaviestTyreBeyond, tyreRatingOf } from '../tyre-rating.ts';
import { unstated } from './certified-weights.ts';

/** Exponents that standards use, from memory; the greatest leaves least load below the reference pressure. */
export const PRESSURE_EXPONENTS = { least: 0.5, most: 0.8 } as const;

/** The load of the heaviest wheel's tyres against what they may carry at the pressure they are filled to, estimated. */
export const tyrePressure: LimitRule<'tyre-pressure-low'> = {
  key: 'tyre-pressure-low',
  definition: TYRES['tyre-pressure-low'],
  markets: 'everywhere',
  assess: ({ rig }) => rig.units.flatMap((unit) => unit.groups.flatMap((group) => assessGroup(rig, unit, group))),
};

function assessGroup(rig: RigModel, unit: UnitModel, group: AxleGroup): Assessment[] {
  const { tyres } = group;
  const rating = tyres && tyreRatingOf(rig, unit, tyres);
  if (tyres === undefined || rating === undefined || tyres.count < 1) return [];
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the load on the heaviest wheel’s tyres, each,';
  const { pressure, referencePressure: reference } = tyres;
  const system = systemOfRig(rig);
  const open = (part: 'pressure' | 'reference pressure') => [
    unstated(subject, quantity, tyresToWrite(part, unit, group, system)),
  ];
  if (pressure === undefined) return open('pressure');
  if (reference === undefined) return open('reference pressure');
  const limit = loadAtPressure(rating.capacity, pressure, reference, PRESSURE_EXPONENTS.most);
  const filled = formatValue(pressure, PRESSURE, system);
  const load = heaviestTyre(unit, group, tyres.count);
  return [
    {
      kind: 'limited',
      subject,
      quantity,
      sense: 'at most',
      dimension: MASS,
      limitName: `what one carries at ${filled}, estimated with the exponent ${PRESSURE_EXPONENTS.most}`,
      location: tyres.location,
      compare: (state) => {
        const value = load(state);
        return value === undefined ? undefined : { value, limit };
      },
      excess: (state) => heaviestTyreBeyond(unit, group, tyres.count, limit, state),
    },
  ];
}
