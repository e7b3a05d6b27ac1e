import { finding } from '../../diagnostics/create.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { pointAt } from '../places.ts';
import { helpUndersteer } from './help.ts';
import { basisOf, casePlace, highestSpeed, lowestOf, onTheLevel } from './results.ts';
import type { StabilityRule } from './rule.ts';

/**
 * Nearer to neutral than 0.05 degrees per g is no oversteer (rad per m/s²). Tyres that are assumed to suit the load of
 * their axle always come out there.
 */
const NEUTRAL = (-0.05 * Math.PI) / 180 / STANDARD_GRAVITY;

/** A tow vehicle that understeers alone and oversteers with what it tows, on the level road. */
export const oversteers: StabilityRule = {
  keys: ['vehicle-oversteers'],
  *check(stability) {
    const { rig, speed, results } = stability;
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
      help: helpUndersteer(result, speed),
    };
    yield finding('vehicle-oversteers', STABILITY['vehicle-oversteers'], parameters, place, [
      ...pointAt(place, vehicle.hitch?.location, `hitch of ${vehicle.name}`),
    ]);
  },
};
