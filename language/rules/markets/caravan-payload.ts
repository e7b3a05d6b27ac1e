import { EUROPEAN_UNION } from '../../diagnostics/markets/european-union.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { massInRunningOrder } from '../../semantics/running-order.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { limitToWrite, outlineToWrite } from '../limits/to-write.ts';

/** kg for each berth, for each metre of body and for every caravan. */
const EACH = 10;
const EVERY = 30;

/** EN 1645-2: the user payload that a caravan leaves. */
export const caravanPayload: LimitRule<'caravan-payload'> = {
  key: 'caravan-payload',
  definition: EUROPEAN_UNION['caravan-payload'],
  markets: ['EU', 'UK'],
  assess: ({ rig }) =>
    rig.units.filter(({ kind }) => kind === 'trailer').map((unit) => payloadOf(unit, systemOfRig(rig))),
};

/** kg of user payload for so many berths and a body of a length in m. */
export function leastCaravanPayload(berths: number, length: number): number {
  return EACH * length + EACH * berths + EVERY;
}

function payloadOf(unit: UnitModel, system: DisplaySystem): Assessment {
  const { name, berths, body, limits } = unit;
  const figure = { subject: name, quantity: 'the user payload' };
  const open = (missing: string): Assessment => ({ kind: 'unstated', ...figure, missing });
  if (berths === undefined) return open(`the berths of ${name}, if it is a caravan (berths 2)`);
  if (body === undefined) return open(outlineToWrite(unit, system));
  if (limits.ATM === undefined) return open(limitToWrite(unit, 'ATM', system));
  const value = limits.ATM.value - massInRunningOrder(unit);
  const limit = leastCaravanPayload(berths, body.front - body.rear);
  return {
    kind: 'limited',
    ...figure,
    sense: 'at least',
    dimension: MASS,
    limitName: `what its ${berths === 1 ? 'berth' : `${berths} berths`} and its length ask for`,
    location: limits.ATM.location,
    fixed: true,
    compare: () => ({ value, limit }),
  };
}
