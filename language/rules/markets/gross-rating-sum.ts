import { listed } from '../../diagnostics/wording.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import type { Assessment } from '../limits/limit-rule.ts';
import { grossToWrite, limitToWrite, seatsToWrite } from '../limits/to-write.ts';
import { grossRating, OCCUPANT, unloadedWeight, unstated } from './certified-weights.ts';

/** What a text counts beside unloaded weight, cargo and occupants. */
export interface Counted {
  /** Words for it in the list of what is counted; may be empty. */
  readonly text: string;
  /** kg */
  readonly water: number;
}

/** kg that a gross rating has to cover. */
export function leastGrossRating(masses: {
  readonly unloaded: number;
  readonly cargo: number;
  readonly seats: number;
  readonly water?: number;
}): number {
  return masses.unloaded + masses.cargo + OCCUPANT * masses.seats + (masses.water ?? 0);
}

/** The gross rating of a unit against its unloaded weight with propane, its cargo, 68 kg for each seat, and what is counted. */
export function grossRatingAtLeast(unit: UnitModel, { text, water }: Counted, system: DisplaySystem): Assessment[] {
  const { name, kind, limits, seats } = unit;
  const quantity = 'its gross rating (GVWR)';
  const gross = grossRating(unit);
  if (gross === undefined) return [unstated(name, quantity, grossToWrite(unit, system))];
  if (kind === 'vehicle' && seats.length === 0) {
    return [unstated(name, quantity, seatsToWrite(unit, system))];
  }
  const cargo = limits.CCC;
  const unloaded = unloadedWeight(unit);
  const limit = leastGrossRating({ unloaded, cargo: cargo?.value ?? 0, seats: seats.length, water });
  const counted = [
    'its unloaded weight with full propane',
    ...(cargo === undefined ? [] : ['its CCC']),
    ...(text === '' ? [] : [text]),
    ...(kind === 'vehicle' ? [`${OCCUPANT} kg for each of its ${seats.length} seats`] : []),
  ];
  const open = unstated(name, `${quantity} with its cargo`, limitToWrite(unit, 'CCC', system));
  return [
    {
      kind: 'limited',
      subject: name,
      quantity,
      sense: 'at least',
      dimension: MASS,
      limitName: counted.length < 2 ? counted.join('') : `the sum of ${listed(counted)}`,
      fixed: true,
      related: [{ location: gross.location, message: 'the gross rating (GVWR)' }],
      compare: () => ({ value: gross.value, limit }),
    },
    ...(cargo === undefined ? [open] : []),
  ];
}
