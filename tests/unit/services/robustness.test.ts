import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Analysis } from '../../../language/index.ts';
import { completions, definition, documentSymbols, hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { YARD } from './yard.ts';

/** Asks everything at one offset; what is answered must lie in the text, around the offset. */
function askAt(analysis: Analysis, text: string, offset: number): void {
  const shown = hover(analysis, URI, offset);
  if (shown !== undefined) {
    expect(shown.markdown).not.toBe('');
    expect(shown.markdown).not.toMatch(/NaN|Infinity|undefined/);
    expect(shown.start).toBeLessThanOrEqual(offset);
    expect(shown.end).toBeGreaterThanOrEqual(offset);
  }
  for (const { start, end } of definition(analysis, URI, offset)) {
    expect(start).toBeLessThanOrEqual(end);
    expect(end).toBeLessThanOrEqual(text.length);
  }
  for (const { start, end, label } of completions(analysis, URI, offset)) {
    expect(label).not.toBe('');
    expect(start).toBeLessThanOrEqual(offset);
    expect(end).toBeGreaterThanOrEqual(offset);
    expect(end).toBeLessThanOrEqual(text.length);
  }
}

test('every offset of a whole file can be asked about', () => {
  const { analysis } = analyseMarked(YARD);
  for (let offset = 0; offset <= YARD.length; offset += 3) askAt(analysis, YARD, offset);
});

test('at the end of every beginning of a file', () => {
  for (let length = 0; length <= YARD.length; length += 13) {
    const text = YARD.slice(0, length);
    const { analysis } = analyseMarked(text);
    askAt(analysis, text, length);
    documentSymbols(analysis, URI);
  }
});

test('in text with pieces taken out, put twice or replaced', () => {
  const place = fc.nat({ max: YARD.length });
  const insert = fc.constantFrom(
    '',
    '{',
    '}',
    '"',
    '\r\n',
    ' x ',
    '.',
    '1e999 kg',
    '\u0000',
    '<<<<<<< ours\n',
    'rig ',
    ', ',
    '## ',
  );
  fc.assert(
    fc.property(place, place, insert, (from, to, text) => {
      const source = YARD.slice(0, Math.min(from, to)) + text + YARD.slice(Math.max(from, to));
      const { analysis } = analyseMarked(source.replaceAll('|', ''));
      for (const offset of [0, Math.min(from, to), Math.min(from, to) + text.length, source.length]) {
        askAt(analysis, source, Math.min(offset, source.length));
      }
      documentSymbols(analysis, URI);
    }),
    { numRuns: 60 },
  );
});

test.each([
  ['a cycle of variants', 'variant A of B { }\nvariant B of A { }\nrig R {\n  haul A\n  stow x in A.b\n}\n'],
  ['a cycle of named quantities', 'let a = b\nlet b = a\n'],
  ['carriage returns', YARD.replaceAll('\n', '\r\n')],
  ['a merge conflict', `<<<<<<< ours\n${YARD}=======\n${YARD}>>>>>>> theirs\n`],
  ['nothing but an opening', 'trailer T {'],
  ['deep nesting', `trailer T {${' group g {'.repeat(80)}`],
])('%s', (_, text) => {
  const source = text.replaceAll('|', '');
  const { analysis } = analyseMarked(source);
  for (let offset = 0; offset <= source.length; offset += 7) askAt(analysis, source, offset);
  documentSymbols(analysis, URI);
});
