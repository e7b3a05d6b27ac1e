import { TYRES } from '../../diagnostics/markets/tyres.ts';
import type { AxleGroup, UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { Limited, LimitRule } from '../limits/limit-rule.ts';
import { groupSubject, withinSentence } from '../subjects.ts';
import { derated, heaviestTyre, heaviestTyreBeyond, inDeratingMarket, isPassengerTyre } from '../tyre-rating.ts';

/** Passenger tyres under a trailer where no text of the market derates them. */
export const passengerTyresOnTrailer: LimitRule<'passenger-tyres-on-trailer'> = {
  key: 'passenger-tyres-on-trailer',
  definition: TYRES['passenger-tyres-on-trailer'],
  markets: 'everywhere',
  assess: ({ rig }) => {
    if (rig.standalone || inDeratingMarket(rig)) return [];
    const trailers = rig.units.filter(({ kind }) => kind === 'trailer');
    return trailers.flatMap((unit) => unit.groups.flatMap((group) => assessGroup(unit, group)));
  },
};

function assessGroup(unit: UnitModel, group: AxleGroup): Limited[] {
  const { tyres } = group;
  if (tyres?.capacity === undefined || tyres.count < 1 || !isPassengerTyre(tyres)) return [];
  const limit = derated(tyres.capacity);
  const load = heaviestTyre(unit, group, tyres.count);
  return [
    {
      kind: 'limited',
      subject: `Passenger tyres of ${withinSentence(groupSubject(unit, group))}`,
      quantity: 'the load on the heaviest wheel’s tyres, each,',
      sense: 'at most',
      dimension: MASS,
      limitName: 'the capacity of one divided by 1.10',
      location: tyres.location,
      compare: (state) => {
        const value = load(state);
        return value === undefined ? undefined : { value, limit };
      },
      excess: (state) => heaviestTyreBeyond(unit, group, tyres.count, limit, state),
    },
  ];
}
