import type { Limit, Tank, UnitModel } from '../../semantics/model.ts';
import type { Unstated } from '../limits/limit-rule.ts';

/** kg counted for each designated seating position: 49 CFR 571.110, 567.4; MVSR s. 5.2. */
export const OCCUPANT = 68;

/** Fluids that a vehicle runs on and propane: counted in the unloaded weight when full (49 CFR 571.3, 571.110 S4.3.5). */
const OPERATING_FLUIDS: ReadonlySet<string> = new Set(['diesel', 'petrol', 'LPG', 'AUS32']);

/** Water to drink and to wash with; waste water is another fluid. */
const FRESH_WATER = 'water';

/** Whether the content of a tank counts in the unloaded weight. */
export function isOperating({ fluid }: Tank): boolean {
  return OPERATING_FLUIDS.has(fluid.name);
}

/** Whether a tank holds fresh or hot water. */
export function isFreshWater({ fluid }: Tank): boolean {
  return fluid.name === FRESH_WATER;
}

/** kg in a tank that is as full as it may be. */
export function fullContent({ content, fluid }: Tank): number {
  return content * (fluid.maximumFill ?? 1);
}

/** kg of the unit as it stands in the file, with full tanks of what it runs on and of propane, all others empty. */
export function unloadedAsBuilt({ parts, tanks }: Pick<UnitModel, 'parts' | 'tanks'>): number {
  const built = parts.reduce((sum, { body }) => sum + body.mass, 0);
  return tanks.reduce((sum, tank) => sum + tank.empty + (isOperating(tank) ? fullContent(tank) : 0), built);
}

/** kg on the label where it is stated, else as the unit stands in the file. */
export function unloadedWeight(unit: UnitModel): number {
  return unit.limits.UVW?.value ?? unloadedAsBuilt(unit);
}

/** kg that the unit weighs more than its label says; negative where it weighs less, undefined without a label. */
export function addedWeight(unit: UnitModel): number | undefined {
  const certified = unit.limits.UVW?.value;
  return certified === undefined ? undefined : unloadedAsBuilt(unit) - certified;
}

/** kg that may be loaded on a unit of a gross rating: what its unloaded weight and what was added since leave of it. */
export function cargoCapacity(gross: number, unloaded: number, added = 0): number {
  return gross - unloaded - added;
}

/** The gross vehicle weight rating: GVM of a vehicle, ATM of a trailer. */
export function grossRating({ kind, limits }: UnitModel): Limit | undefined {
  return kind === 'vehicle' ? limits.GVM : limits.ATM;
}

/** kg that the axle ratings add up to; undefined where one is not stated. */
export function axleRatings({ groups }: Pick<UnitModel, 'groups'>): number | undefined {
  let sum = 0;
  for (const { rating } of groups) {
    if (rating === undefined) return undefined;
    sum += rating.value;
  }
  return groups.length === 0 ? undefined : sum;
}

/** Whether a unit is certified as a motor home or a recreation vehicle trailer. */
export function isRecreational({ vehicleType }: UnitModel): boolean {
  return vehicleType === 'motor_home' || vehicleType === 'recreation_trailer';
}

/** A row that says what the file has to say. */
export function unstated(subject: string, quantity: string, missing: string): Unstated {
  return { kind: 'unstated', subject, quantity, missing };
}
