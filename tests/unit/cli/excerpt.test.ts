import { describe, expect, test } from 'vitest';
import { excerpt } from '../../../server/cli/excerpt.ts';
import { displayWidth } from '../../../server/cli/text.ts';
import { checkedDocument } from '../../../server/cli/workspace.ts';

/** The excerpt for the text between the brackets. */
function shown(marked: string, width = 60) {
  const start = marked.indexOf('[');
  const end = marked.indexOf(']') - 1;
  const text = marked.replace('[', '').replace(']', '');
  return excerpt(checkedDocument('file:///a.rig', 'a.rig', text), start, end, width);
}

describe('an excerpt', () => {
  test('shows the line without its indentation and carets under what is meant', () => {
    expect(shown('trailer T {\n    tare [1385] kg\n}\n')).toEqual({
      line: 2,
      source: 'tare 1385 kg',
      carets: '     ^^^^',
    });
  });

  test.each([
    ['CRLF', 'item a [1 kg]\r\nitem b\r\n', { line: 1, source: 'item a 1 kg', carets: '       ^^^^' }],
    ['several lines', 'rig R [{\n  tow X\n}]\n', { line: 1, source: 'rig R {', carets: '      ^' }],
    ['nothing at all, between two words', 'item a []1 kg', { line: 1, source: 'item a 1 kg', carets: '       ^' }],
    ['the end of a line', 'item a[]\n', { line: 1, source: 'item a', carets: '      ^' }],
    ['tabs', '\titem\ta [1 kg]', { line: 1, source: 'item  a 1 kg', carets: '        ^^^^' }],
    ['wide characters', 'item "拖车" [1 kg]', { line: 1, source: 'item "拖车" 1 kg', carets: '            ^^^^' }],
    ['a byte order mark', '\ufeff[item] a 1 kg', { line: 1, source: 'item a 1 kg', carets: '^^^^' }],
    [
      'control characters',
      'item a[\u0000\u001b] 1 kg',
      { line: 1, source: 'item a\u2400\u241b 1 kg', carets: '      ^^' },
    ],
  ])('of %s', (_, marked, expected) => {
    expect(shown(marked)).toEqual(expected);
  });

  test('is left out where there is nothing to show', () => {
    expect(shown('item a 1 kg\n\n[]\n')).toBeUndefined();
    expect(shown('[]')).toBeUndefined();
  });

  test.each([
    ['a long line before', `item a ${'# '.repeat(400)}[here]`],
    ['a long line behind', `item [here] ${'# '.repeat(400)}`],
    ['a long mark', `item [${'x'.repeat(5000)}] 1 kg`],
    ['all of it', `${'a '.repeat(300)}[${'x'.repeat(300)}]${' b'.repeat(300)}`],
  ])('is cut to the width: %s', (_, marked) => {
    const found = shown(marked, 60);
    expect(displayWidth(found?.source ?? '')).toBeLessThanOrEqual(60);
    expect(displayWidth(found?.carets ?? '')).toBeLessThanOrEqual(60);
    const caret = found?.carets.indexOf('^') ?? -1;
    expect(found?.source.slice(caret, caret + 4)).toMatch(/^(here|xxxx)$/);
  });
});

describe('places', () => {
  test('count lines and columns from 1 as editors do', () => {
    const document = checkedDocument('file:///a.rig', 'a.rig', '\ufeffitem a\r\nitem b\n');
    expect(document.place(1)).toEqual({ line: 1, column: 1 });
    expect(document.place(6)).toEqual({ line: 1, column: 6 });
    expect(document.place(0)).toEqual({ line: 1, column: 1 });
    expect(document.place(9)).toEqual({ line: 2, column: 1 });
    expect(document.place(1000)).toEqual({ line: 3, column: 1 });
  });
});
