import { readCount } from '../measured.ts';
import { locate, report } from '../scope.ts';
import { missing } from './axles.ts';
import { contextOf, entriesOf, type UnitDraft } from './draft.ts';

/** The sleeping places of a unit: a whole number from 1, or undefined where none or none that can be read is stated. */
export function readBerths(draft: UnitDraft): number | undefined {
  const entry = entriesOf(draft, 'berths')[0];
  if (entry === undefined) return undefined;
  const [value] = entry.read.values;
  const [count, ...more] = value?.factors ?? [];
  if (value === undefined || count === undefined) {
    missing(draft, entry, 'how many there are', 'berths 2');
    return undefined;
  }
  const [beyond = value.upTo ?? value.tolerance] = more;
  if (beyond !== undefined) {
    const parameters = { part: 'more than one number', head: 'berths', accepted: 'one number' };
    report(draft.scope, 'unexpected-part', parameters, locate(entry.line, beyond));
    return undefined;
  }
  return readCount(count, 'The number of berths', contextOf(draft, entry));
}

/** Whether a vehicle is stated to be an off-road vehicle. */
export function readOffRoad(draft: UnitDraft): boolean {
  return entriesOf(draft, 'off_road').length > 0;
}
