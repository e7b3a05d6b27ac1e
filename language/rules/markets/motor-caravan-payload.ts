import { EUROPEAN_UNION } from '../../diagnostics/markets/european-union.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { DRIVER, massInRunningOrder } from '../../semantics/running-order.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { AMOUNTS, limitToWrite, outlineToWrite } from '../limits/to-write.ts';

/** kg for each occupant and each metre of length. */
const EACH = 10;

/** European Union: the payload a motor caravan has to leave for what its occupants bring along. */
export const motorCaravanPayload: LimitRule<'motor-caravan-payload'> = {
  key: 'motor-caravan-payload',
  definition: EUROPEAN_UNION['motor-caravan-payload'],
  markets: ['EU'],
  assess: ({ rig }) =>
    rig.units.filter(({ kind }) => kind === 'vehicle').map((unit) => payloadOf(unit, systemOfRig(rig))),
};

/** kg that a motor caravan has to leave for `occupants`, the driver among them, and a length in m. */
export function leastMotorCaravanPayload(occupants: number, length: number): number {
  return EACH * (occupants + length);
}

function payloadOf(unit: UnitModel, system: DisplaySystem): Assessment {
  const { name, berths, seats, body, limits } = unit;
  const figure = { subject: name, quantity: 'the payload left' };
  const open = (missing: string): Assessment => ({ kind: 'unstated', ...figure, missing });
  if (berths === undefined) return open(`the berths of ${name}, if it is a motor caravan (berths 4)`);
  if (seats.length === 0) return open(`the seats of ${name} (seat driver ${AMOUNTS.seatPlace[system]})`);
  if (body === undefined) return open(outlineToWrite(unit, system));
  if (limits.GVM === undefined) return open(limitToWrite(unit, 'GVM', system));
  const value = limits.GVM.value - massInRunningOrder(unit) - DRIVER * (seats.length - 1);
  const limit = leastMotorCaravanPayload(seats.length, body.front - body.rear);
  return {
    kind: 'limited',
    ...figure,
    sense: 'at least',
    dimension: MASS,
    limitName: `what its ${seats.length} seats and its length ask for`,
    location: limits.GVM.location,
    fixed: true,
    compare: () => ({ value, limit }),
  };
}
