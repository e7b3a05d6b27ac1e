import { finding } from '../../diagnostics/create.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import { pointAt } from '../places.ts';
import { adviseSteering } from './help.ts';
import { basisOf, casePlace, highestSpeed, lowestOf, NEUTRAL, onTheLevel } from './results.ts';
import type { StabilityRule } from './rule.ts';

/** A tow vehicle that understeers alone and oversteers with what it tows, on the level road. */
export const oversteers: StabilityRule = {
  keys: ['vehicle-oversteers'],
  *check(stability) {
    const { rig, results } = stability;
    const [vehicle] = rig.units;
    const turned = results.filter((each) => onTheLevel(each) && (each.alone?.understeer ?? -1) >= 0);
    const worst = lowestOf(turned, ({ handling }) => handling?.understeer, NEUTRAL);
    if (worst === undefined || vehicle === undefined) return;
    const { result, by: gradient, also } = worst;
    const place = casePlace(stability, result);
    const critical = result.handling?.criticalSpeed;
    const parameters = {
      vehicle: vehicle.name,
      gradient,
      alone: result.alone?.understeer ?? 0,
      ...(critical !== undefined && critical <= highestSpeed(result) ? { criticalSpeed: critical } : {}),
      ...basisOf(stability),
      state: result.label,
      also,
      help: adviseSteering(stability, result),
    };
    yield finding('vehicle-oversteers', STABILITY['vehicle-oversteers'], parameters, place, [
      ...pointAt(place, vehicle.hitch?.location, `hitch of ${vehicle.name}`),
    ]);
  },
};
