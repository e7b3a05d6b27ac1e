import { AUSTRALIA } from '../../diagnostics/markets/australia.ts';
import { tareOf } from '../../semantics/running-order.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { towedLimit, towOf } from './towed.ts';

/** Times the unladen mass of the vehicle. */
const BRAKED = 1.5;
const UNBRAKED = 1;

/** South Australia: what a vehicle may tow for which there is no figure of its maker. */
export const towingWithoutFigure: LimitRule<'towing-without-figure'> = {
  key: 'towing-without-figure',
  definition: AUSTRALIA['towing-without-figure'],
  markets: ['AU'],
  assess: ({ rig }) => {
    const tow = towOf(rig);
    if (tow === undefined) return [];
    const { vehicle, trailers, unbraked, braked } = tow;
    const { towing, towing_unbraked: withoutBrakes } = vehicle.limits;
    if (towing !== undefined || withoutBrakes !== undefined) return [];
    const tare = tareOf(vehicle);
    const location = vehicle.location;
    const all = { limitName: `1.5 times the unladen mass of ${vehicle.name}`, location };
    const each = { limitName: `the unladen mass of ${vehicle.name}`, location };
    return [
      ...(braked ? [towedLimit(trailers, mostTowed(tare, true), all)] : []),
      ...(unbraked.length > 0 ? [towedLimit(unbraked, mostTowed(tare, false), each)] : []),
    ];
  },
};

/** kg that a vehicle of an unladen mass in kg may tow. */
export function mostTowed(unladen: number, braked: boolean): number {
  return (braked ? BRAKED : UNBRAKED) * unladen;
}
