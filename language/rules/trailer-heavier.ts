import { finding } from '../diagnostics/create.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { StateResult } from '../semantics/state.ts';
import { limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, levelStates, quantityOf, ROUNDING, worstOf } from './states.ts';

/** What is towed, against the mass of the vehicle that tows it. */
export const trailerHeavier: Rule = {
  keys: ['trailer-heavier'],
  *check(result) {
    const [vehicle, trailer] = result.rig.units;
    if (vehicle?.kind !== 'vehicle' || trailer === undefined) return;
    const massOf = (state: StateResult) => quantityOf(state, `${vehicle.name}.mass`) ?? Number.POSITIVE_INFINITY;
    const towedOf = (state: StateResult) => (quantityOf(state, 'rig.mass') ?? 0) - massOf(state);
    const worst = worstOf(levelStates(result), (state) => towedOf(state) - massOf(state), ROUNDING);
    if (worst === undefined) return;
    const { state } = worst;
    const place = limitPlace(result, state);
    const parameters = {
      vehicle: vehicle.name,
      mass: massOf(state),
      towed: towedOf(state),
      ...breachOf(worst),
    };
    yield finding('trailer-heavier', LOADS['trailer-heavier'], parameters, place, [
      ...pointAt(place, vehicle.location, vehicle.name),
      ...pointAt(place, trailer.location, trailer.name),
    ]);
  },
};
