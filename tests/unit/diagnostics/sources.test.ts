import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, test } from 'vitest';
import type { Authority, DiagnosticDefinition } from '../../../language/diagnostics/define.ts';
import { catalogueEntries, diagnosticPage } from '../../../language/reference/diagnostic-pages.ts';

/** How sources name the texts of states and of the United Nations. */
const REGULATION = /\bCFR\b|\bUN Regulations?\b|\(EU\)|\bStVZO\b|\bADR\b|Safety Regulations|road rule/;

/** Whether an entry rests on a regulation; practice that is only compared with one does not. */
function namesRegulation({ source = '', authority }: DiagnosticDefinition<never>): boolean {
  return authority === 'regulation' || (REGULATION.test(source) && !source.startsWith('common practice'));
}

/**
 * Codes that tests in tests/published speak of: in what they call or compare, or in the remark directly above a test. A
 * remark about nothing is no check.
 */
const checked = new Set(
  globSync('tests/published/*.test.ts').flatMap((file) => {
    const text = readFileSync(file, 'utf8');
    const remarks = [...text.matchAll(/((?:^ *\/\/.*\n)+) *(?:test|it|describe|expect)\b/gm)].map(
      ([, remark = '']) => remark,
    );
    const statements = text.replace(/^\s*(?:\/\/|\*|\/\*).*$/gm, '');
    return [...remarks, statements].flatMap((part) => part.match(/\bRW\d{3}\b/g) ?? []);
  }),
);
const entries = catalogueEntries();
const regulated = entries.filter(([, definition]) => namesRegulation(definition));

describe('entries that rest on a regulation', () => {
  test('are there', () => {
    expect(regulated.length).toBeGreaterThan(5);
    expect(regulated.map(([, { code }]) => code)).toContain('RW801');
  });

  test('are checked against it: a test in tests/published has the code in it, or in the remark above it', () => {
    const unchecked = regulated.filter(([, { code }]) => !checked.has(code));
    expect(unchecked.map(([key, { code }]) => `${code} ${key}`)).toEqual([]);
  });

  test('name it, or say what stands for it', () => {
    expect(regulated.filter(([, { source }]) => source === undefined || source.trim() === '')).toEqual([]);
  });
});

describe.each(entries)('the page of %s', (_, definition) => {
  const page = diagnosticPage(definition.code) ?? '';
  const { source, authority, caution } = definition;

  test('is there, and shows source, authority and caution', () => {
    expect(page).toMatch(new RegExp(`^# ${definition.code}: `));
    expect(page.includes('\n## Source\n')).toBe(source !== undefined || authority !== undefined);
    if (source !== undefined) expect(page).toContain(source.slice(1));
    if (authority !== undefined) expect(page).toContain(`\nAuthority: ${AUTHORITY_WORDS[authority]}`);
    if (caution !== undefined) expect(page.split('\n## Caution\n')[1]).toContain(caution);
  });
});

const AUTHORITY_WORDS: Readonly<Record<Authority, string>> = {
  plate: 'a plate',
  regulation: 'a regulation',
  recommendation: 'a published recommendation',
  'common practice': 'common practice',
};
