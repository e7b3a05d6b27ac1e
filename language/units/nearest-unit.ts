import { distance } from 'fastest-levenshtein';
import type { Dimension } from './dimension.ts';
import { ACCELERATION, FORCE, PRESSURE, sameDimension } from './dimension.ts';
import { parseUnit } from './parse-unit.ts';
import type { UnitDefinition } from './unit-table.ts';
import { UNITS } from './unit-table.ts';

/** Known units that the trade uses loosely for another dimension, with the unit that is meant then. */
const LOOSE_USE: readonly { readonly text: string; readonly wanted: Dimension; readonly meant: string }[] = [
  { text: 'lb', wanted: FORCE, meant: 'lbf' },
  { text: 'kg', wanted: FORCE, meant: 'kgf' },
  { text: 'lb/in²', wanted: PRESSURE, meant: 'psi' },
  { text: 'g', wanted: ACCELERATION, meant: 'gn' },
];

/** Scales with an offset: no unit of this language is near them, however alike the spelling (`degC`, `deg`). */
const TEMPERATURE = /^(?:°|º|deg(?:rees?)?)?\s*(?:[CFK]|celsius|fahrenheit|kelvin|centigrade)$/i;

const CANDIDATES: readonly { readonly spelling: string; readonly unit: UnitDefinition }[] = UNITS.flatMap((unit) =>
  [unit.symbol, ...unit.synonyms].map((spelling) => ({ spelling: spelling.toLowerCase(), unit })),
);

/**
 * The printed spelling of the unit that was probably meant by a text which is no unit, or which is one of another
 * dimension than wanted; undefined where none is near. Letter case does not count. A unit of the wanted dimension is
 * preferred over a nearer one of another dimension.
 */
export function nearestUnit(text: string, wanted?: Dimension): string | undefined {
  const written = text.trim();
  const known =
    parseUnit(written) ?? parseUnit(written.replace(/\s*([·*./])\s*|\s+/g, (_, operator) => operator ?? '·'));
  if (known !== undefined) {
    if (wanted === undefined || sameDimension(known.dimension, wanted)) return known.text;
    return LOOSE_USE.find((use) => use.text === known.text && sameDimension(use.wanted, wanted))?.meant;
  }
  if (written === '' || TEMPERATURE.test(written)) return undefined;
  return (wanted && nearestAmong(written, (unit) => sameDimension(unit.dimension, wanted))) ?? nearestAmong(written);
}

function nearestAmong(text: string, accepts: (unit: UnitDefinition) => boolean = () => true): string | undefined {
  const lower = text.toLowerCase();
  // A single letter is one edit away from every other letter: only its other case counts as near.
  let best = lower.length === 1 ? 1 : Math.max(1, Math.floor(lower.length / 3)) + 1;
  let nearest: string | undefined;
  for (const { spelling, unit } of CANDIDATES) {
    if (Math.abs(spelling.length - lower.length) >= best || !accepts(unit)) continue;
    const edits = distance(lower, spelling);
    if (edits < best) {
      best = edits;
      nearest = unit.symbol;
    }
  }
  return nearest;
}
