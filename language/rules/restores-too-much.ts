import { finding } from '../diagnostics/create.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { StateResult } from '../semantics/state.ts';
import { limitPlace, ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, levelStates, quantityOf, ROUNDING, worstOf } from './states.ts';

/** A weight-distribution device that puts more on the front axle than the trailer takes off, on level ground. */
export const restoresTooMuch: Rule = {
  keys: ['restores-too-much'],
  *check(result) {
    const vehicle = result.rig.units[0];
    const front = vehicle?.groups[0];
    const device = result.rig.weightDistribution ?? vehicle?.weightDistribution;
    if (vehicle?.kind !== 'vehicle' || front === undefined || device === undefined) return;
    const gainedIn = (state: StateResult): number | undefined => {
      const lost = quantityOf(state, `${vehicle.name}.${front.name}.lost`);
      const load = quantityOf(state, `${vehicle.name}.${front.name}.load`);
      return lost === undefined || load === undefined || lost >= 1 ? undefined : (-load * lost) / (1 - lost);
    };
    const worst = worstOf(levelStates(result), gainedIn, ROUNDING);
    if (worst === undefined) return;
    const { state, by: gained } = worst;
    const share = device.kind === 'restored' ? device.share : undefined;
    const place = ownPlace(result, device.location, limitPlace(result, state));
    const parameters = { unit: vehicle.name, share, gained, ...breachOf(worst) };
    yield finding('restores-too-much', LOADS['restores-too-much'], parameters, place, [
      ...pointAt(place, device.location, 'weight-distribution device'),
    ]);
  },
};
