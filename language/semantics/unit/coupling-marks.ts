import { KNOWN_CLASSES, parseCouplingClass } from '../../catalogue/coupling-classes.ts';
import { type CouplingMarks, FORCE_MARKS, type ForceMark, type StatedForce } from '../coupling-marks.ts';
import { readMeasured } from '../measured.ts';
import type { Limit } from '../model.ts';
import { locate, report } from '../scope.ts';
import { contextOf, type UnitDraft, type UnitEntry } from './draft.ts';

/** Words for the permitted vertical load; they mean the same, so that a line has one of them. */
const VERTICAL_LOAD = ['rating', 'S', 'U'] as const;

/** The permitted vertical load of a coupling or hitch: its rating, or as marked. */
export function readRating(draft: UnitDraft, entry: UnitEntry): Limit | undefined {
  const { keywords, what } = entry.read;
  const stated = VERTICAL_LOAD.filter((word) => keywords.has(word));
  const [word, second] = stated;
  const value = word && keywords.get(word)?.[0];
  if (word === undefined || value === undefined) return undefined;
  const again = second && keywords.get(second)?.[0];
  if (again !== undefined) {
    report(draft.scope, 'repeated-part', { part: 'the vertical load', head: what }, locate(entry.line, again));
  }
  const wanted = { what: `the ${nameOf(word)} of ${what}`, kinds: ['mass'], sign: 'positive' } as const;
  const measured = readMeasured(value, wanted, contextOf(draft, entry));
  return measured && { value: measured.value, location: locate(entry.line, value) };
}

const nameOf = (word: string): string => (word === 'rating' ? word : `${word} value`);

/** What else is marked on a coupling or hitch. */
export function readMarks(draft: UnitDraft, entry: UnitEntry): CouplingMarks {
  const marked = readClass(draft, entry);
  const forces: Partial<Record<ForceMark, StatedForce>> = {};
  for (const mark of FORCE_MARKS) {
    const value = entry.read.keywords.get(mark)?.[0];
    if (value === undefined) continue;
    const wanted = { what: `${mark} of ${entry.read.what}`, kinds: ['force'], sign: 'positive' } as const;
    const measured = readMeasured(value, wanted, contextOf(draft, entry));
    if (measured !== undefined) forces[mark] = { value: measured.value, location: locate(entry.line, value) };
  }
  return { forces, ...(marked === undefined ? {} : { class: marked }) };
}

function readClass(draft: UnitDraft, entry: UnitEntry): CouplingMarks['class'] {
  const value = entry.read.keywords.get('class')?.[0];
  const [text, second] = value?.factors ?? [];
  if (value === undefined || text === undefined) return undefined;
  const location = locate(entry.line, value);
  if (text.kind !== 'text' || second !== undefined) {
    const wanted = 'a class between quotes, such as "A50-X" or "III"';
    report(draft.scope, 'wrong-kind', { name: 'This', found: 'no text', wanted }, location);
    return undefined;
  }
  const found = parseCouplingClass(text.text.value);
  if (found !== undefined) return { ...found, marking: text.text.value, location };
  report(draft.scope, 'coupling-class-unknown', { marking: text.text.value, known: KNOWN_CLASSES }, location);
  return undefined;
}
