import { describe, expect, test } from 'vitest';
import { renderTable } from '../../../server/cli/table.ts';
import { lineWidth, painter, plain } from '../../../server/cli/terminal.ts';
import { counted, displayWidth, listed, oneLine, pad, printable, wrap } from '../../../server/cli/text.ts';

describe('text from files', () => {
  test('can neither colour nor steer the terminal', () => {
    expect(printable('a\u001b[31mb\u0000c\u007fd\u009b2Je\r\u202ef')).toBe(
      'a\u241b[31mb\u2400c\u2421d\ufffd2Je\u240d\ufffdf',
    );
    expect(printable('tab\tline\nend')).toBe('tab\tline\nend');
    expect(oneLine('two\n   lines')).toBe('two lines');
  });

  test.each([
    ['1 934 kg', 8],
    ['1\u202f934 kg', 8],
    ['Größe', 5],
    ['Gro\u0308sse', 6],
    ['拖车', 4],
    ['🚐 van', 6],
    ['\ufeffitem', 4],
  ])('%s takes its columns', (text, width) => {
    expect(displayWidth(text)).toBe(width);
    expect(displayWidth(pad(text, 20, 'left'))).toBe(20);
    expect(pad(text, 20, 'right').endsWith(text)).toBe(true);
  });

  test('wraps at spaces, never at the no-break spaces of numbers', () => {
    expect(wrap('mass of awning not stated: 1\u202f934 kg taken', 30, '- ', '  ')).toEqual([
      '- mass of awning not stated:',
      '  1\u202f934 kg taken',
    ]);
    expect(wrap('unbreakable_name_that_is_long x', 10, '', '')).toEqual(['unbreakable_name_that_is_long', 'x']);
    expect(wrap('', 10, '- ', '  ')).toEqual(['- ']);
  });

  test('counts and lists in words', () => {
    expect([counted(1, 'error'), counted(0, 'error'), counted(2, 'axle')]).toEqual(['1 error', '0 errors', '2 axles']);
    expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'])]).toEqual([
      '',
      'a',
      'a and b',
      'a, b and c',
    ]);
  });
});

describe('tables', () => {
  const columns = [{ align: 'left' }, { align: 'right' }, { align: 'left' }] as const;

  test('are as wide as their content and end without spaces', () => {
    const rows = [
      [{ text: '' }, { text: 'load' }],
      [{ text: 'front axle' }, { text: '1\u202f280 kg' }, { text: '' }],
      [{ text: '拖车' }, { text: '98 kg' }, { text: 'over' }],
    ];
    expect(renderTable(columns, rows, plain, '> ')).toEqual([
      '>                 load',
      '> front axle  1\u202f280 kg',
      '> 拖车           98 kg  over',
    ]);
  });

  test('are aligned with colours as without', () => {
    const rows = [
      [{ text: 'a', style: 'error' } as const, { text: '1' }],
      [{ text: 'long' }, { text: '22' }],
    ];
    const paint = painter('always', { write: () => undefined, isTerminal: false }, {});
    const coloured = renderTable(columns, rows, paint);
    expect(coloured[0]).toBe('\u001b[31ma   \u001b[39m   1');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the colours are what is taken off.
    expect(coloured.map((line) => line.replace(/\u001b\[\d+m/g, ''))).toEqual(renderTable(columns, rows, plain));
  });
});

describe('terminals', () => {
  const output = (isTerminal: boolean, columns?: number) => ({ write: () => undefined, isTerminal, columns });
  const red = '\u001b[31mx\u001b[39m';

  test.each([
    ['auto on a terminal', 'auto', true, {}, red],
    ['auto elsewhere', 'auto', false, {}, 'x'],
    ['auto with NO_COLOR', 'auto', true, { NO_COLOR: '1' }, 'x'],
    ['auto with an empty NO_COLOR', 'auto', true, { NO_COLOR: '' }, red],
    ['auto on a dumb terminal', 'auto', true, { TERM: 'dumb' }, 'x'],
    ['always, whatever else', 'always', false, { NO_COLOR: '1' }, red],
    ['never, whatever else', 'never', true, {}, 'x'],
  ] as const)('colours: %s', (_, choice, isTerminal, environment, shown) => {
    expect(painter(choice, output(isTerminal), environment)('error', 'x')).toBe(shown);
  });

  test('lines are as long as the terminal within reason', () => {
    expect([undefined, 20, 80, 300].map((columns) => lineWidth(output(true, columns)))).toEqual([100, 60, 80, 100]);
  });
});
