import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../language/diagnostics/catalogue.ts';
import { COUPLINGS } from '../../../language/diagnostics/couplings.ts';
import { EXTENTS } from '../../../language/diagnostics/extents.ts';
import { GEOMETRY } from '../../../language/diagnostics/geometry.ts';
import { LEVEL_LINES } from '../../../language/diagnostics/levels.ts';
import { LOADS } from '../../../language/diagnostics/loads.ts';
import { MARKET_TEXTS } from '../../../language/diagnostics/markets/index.ts';
import { NAMES } from '../../../language/diagnostics/names.ts';
import { QUANTITIES } from '../../../language/diagnostics/quantities.ts';
import { RATINGS } from '../../../language/diagnostics/ratings.ts';
import { REACH } from '../../../language/diagnostics/reach.ts';
import { REQUIREMENTS } from '../../../language/diagnostics/requirements.ts';
import { STABILITY } from '../../../language/diagnostics/stability.ts';
import { SYNTAX } from '../../../language/diagnostics/syntax.ts';
import { WEIGHINGS } from '../../../language/diagnostics/weighing.ts';
import { WEIGHING_LINES } from '../../../language/diagnostics/weighing-lines.ts';
import type { Diagnostic } from '../../../language/index.ts';
import { catalogueEntries } from '../../../language/reference/diagnostic-pages.ts';
import { exampleDiagnostics, exampleText } from '../../../language/reference/example-workspace.ts';

/** Codes of each file of the catalogue. */
const RANGES = [
  ['syntax', SYNTAX, /^RW1\d\d$/],
  ['names', NAMES, /^RW2\d\d$/],
  ['quantities', QUANTITIES, /^RW3\d\d$/],
  ['geometry', GEOMETRY, /^RW4[0-7]\d$/],
  ['extents', EXTENTS, /^RW4[89]\d$/],
  ['loads', LOADS, /^RW5[0-7]\d$/],
  ['requirements', REQUIREMENTS, /^RW5[89]\d$/],
  ['couplings', COUPLINGS, /^RW6\d\d$/],
  ['stability', STABILITY, /^RW7\d\d$/],
  ['reach', REACH, /^RW90\d$/],
  ['markets', MARKET_TEXTS, /^RW8[0-8]\d$/],
  ['ratings', RATINGS, /^RW54\d$/],
  ['levels', LEVEL_LINES, /^RW89\d$/],
  ['lines of weighings', WEIGHING_LINES, /^RW95[0-2]$/],
  ['weighings', WEIGHINGS, /^RW95[3-9]$|^RW96\d$/],
] as const;

/** Further codes that an example cannot do without: a full list, the error that leaves a line out. */
const COMPANIONS: Readonly<Record<string, readonly string[]>> = {
  'readings-impossible': ['RW954'],
  'reading-contradicts': ['RW954'],
  'slips-disagree': ['RW954'],
  'more-diagnostics': ['RW112'],
  'loads-incomplete': ['RW301'],
};

const entries = catalogueEntries();

describe('the codes of the catalogue', () => {
  test.each(RANGES)('%s have codes of their range', (_, definitions, range) => {
    const codes = Object.values(definitions).map(({ code }) => code);
    expect(codes.length).toBeGreaterThan(0);
    expect(codes.filter((code) => !range.test(code))).toEqual([]);
  });

  test('every entry is of one of these files', () => {
    const known = RANGES.flatMap(([, definitions]) => Object.keys(definitions));
    expect(Object.keys(CATALOGUE).toSorted()).toEqual(known.toSorted());
  });

  test('no code is used twice', () => {
    const codes = entries.map(([, { code }]) => code);
    expect(codes.filter((code, index) => codes.indexOf(code) !== index)).toEqual([]);
  });
});

describe.each(entries)('%s', (key, definition) => {
  const { code, severity, title, meaning, mend, mended } = definition;
  const example = exampleText(key, definition.example);
  const allowed = [code, ...(COMPANIONS[key] ?? [])];

  test('says what it is, what it means and what to do', () => {
    expect(['error', 'warning', 'information']).toContain(severity);
    for (const text of [title, meaning, mend, example, mended]) expect(text.trim()).not.toBe('');
    expect(title).not.toMatch(/[.!]$/);
    for (const text of [meaning, mend]) expect(text).toMatch(/\.$/);
  });

  test('its example brings it out, and nothing else', () => {
    const found = exampleDiagnostics(key, example);
    expect(found.map((diagnostic) => diagnostic.code)).toContain(code);
    expect(found.filter((diagnostic) => diagnostic.code === code && diagnostic.key !== key)).toEqual([]);
    expect(serious(found, key).filter((diagnostic) => !allowed.includes(diagnostic.code))).toEqual([]);
  });

  test('the mended example is free of it, and of anything else', () => {
    const found = exampleDiagnostics(key, mended);
    expect(found.filter((diagnostic) => diagnostic.code === code)).toEqual([]);
    expect(serious(found, key)).toEqual([]);
  });
});

/** Rigs that show something about loads may be poor in stability: that is looked at where it is the subject. */
function serious(found: readonly Diagnostic[], subject: string): Diagnostic[] {
  return found.filter(
    ({ severity, key }) => severity !== 'information' && (key in STABILITY ? subject in STABILITY : true),
  );
}
