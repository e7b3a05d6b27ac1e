import { EUROPEAN_UNION } from '../../diagnostics/markets/european-union.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { limitToWrite } from '../limits/to-write.ts';
import { towableBraked } from './towable-mass.ts';
import { towedLimit, towedUnstated, towOf } from './towed.ts';

/** kg; a vehicle above that which nobody sleeps in is a lorry. */
const HEAVIEST_LIGHT_VEHICLE = 3500;

/** European Union: what passenger cars, motor caravans and light vans may tow with brakes. */
export const towableMassBraked: LimitRule<'towable-mass-braked'> = {
  key: 'towable-mass-braked',
  definition: EUROPEAN_UNION['towable-mass-braked'],
  markets: ['EU'],
  assess: ({ rig }) => {
    const tow = towOf(rig);
    if (tow === undefined || !tow.braked || isLorry(tow.vehicle)) return [];
    const towable = towableBraked(tow.vehicle);
    const { trailers, vehicle } = tow;
    if (towable === undefined) return [towedUnstated(trailers, limitToWrite(vehicle, 'GVM', systemOfRig(rig)))];
    const { limit, limitName, isMakers } = towable;
    return [towedLimit(trailers, limit, { limitName, location: tow.vehicle.location, toldElsewhere: () => isMakers })];
  },
};

function isLorry({ limits, berths }: UnitModel): boolean {
  return (limits.GVM?.value ?? 0) > HEAVIEST_LIGHT_VEHICLE && berths === undefined;
}
