import { finding } from '../diagnostics/create.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { StateResult } from '../semantics/state.ts';
import { lessOf } from './goal.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, levelStates, quantityOf, worstOf } from './states.ts';

/** Share of the load of the front axle that a trailer may take off. Common practice, no source. */
export const MOST_LOST = 0.2;

/** From here on the axle lifts, which is a finding of its own. */
const LIFTS = 1;

/** What the trailer takes off the front axle of the vehicle, on level ground. */
export const steeringAxleLightened: Rule = {
  keys: ['steering-axle-lightened'],
  *check(result) {
    const vehicle = result.rig.units[0];
    const front = vehicle?.groups[0];
    if (vehicle?.kind !== 'vehicle' || front === undefined) return;
    const lostIn = (state: StateResult) => {
      const share = quantityOf(state, `${vehicle.name}.${front.name}.lost`);
      return share === undefined || share >= LIFTS ? undefined : share;
    };
    const worst = worstOf(levelStates(result), lostIn, MOST_LOST);
    if (worst === undefined) return;
    const { state, by: share } = worst;
    const left = quantityOf(state, `${vehicle.name}.${front.name}.load`) ?? 0;
    const lost = (left * share) / (1 - share);
    const onHitch = influenceOf(state, [`${vehicle.name}.hitch.load`]);
    const tooMuch = (quantityOf(state, `${vehicle.name}.hitch.load`) ?? 0) * (1 - MOST_LOST / share);
    const help = onHitch && helpFor(state, { ...lessOf(onHitch, tooMuch), of: 'coupling load' });
    const place = limitPlace(result, state);
    const parameters = { unit: vehicle.name, lost, share, left, most: MOST_LOST, ...breachOf(worst, help) };
    yield finding('steering-axle-lightened', LOADS['steering-axle-lightened'], parameters, place, [
      ...pointAt(place, vehicle.hitch?.location, `hitch of ${vehicle.name}`),
      ...contributors(state, onHitch),
    ]);
  },
};
