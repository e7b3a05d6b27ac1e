import { findFluid } from '../catalogue/fluids.ts';
import type { Tank, UnitModel } from './model.ts';

/** kg; the driver, (EU) 1230/2012 (from memory). */
export const DRIVER = 75;

/** How full the fuel tanks are at least, (EU) 1230/2012 Art. 2. */
const FUEL_LEVEL = 0.9;

/** kg; the empty unit as weighed, specified or rolled up. */
export function tareOf({ parts }: UnitModel): number {
  return parts.reduce((sum, { body }) => sum + body.mass, 0);
}

/**
 * kg; mass in running order, (EU) 1230/2012 Art. 2: of a vehicle its tare with the driver and with its fuel tanks 90 % full,
 * of a trailer its tare. Tanks of petrol and diesel count as fuel tanks; other liquids count where the tare has them.
 */
export function massInRunningOrder(unit: UnitModel): number {
  if (unit.kind === 'trailer') return tareOf(unit);
  const fuel = unit.tanks.filter(isFuelTank).reduce((sum, tank) => sum + tank.empty + FUEL_LEVEL * tank.content, 0);
  return tareOf(unit) + fuel + DRIVER;
}

function isFuelTank({ fluid }: Tank): boolean {
  return findFluid(fluid.name)?.drives === true;
}
