import { expect, test } from 'vitest';
import { code, enumerate, paragraphs, plain, table } from '../../../language/services/markdown.ts';

test('a table keeps its cells whatever is in them', () => {
  const text = table(
    [
      { head: 'item', align: 'left' },
      { head: 'mass', align: 'right' },
    ],
    [['a|b', '1\n2']],
  );
  expect(text).toBe('| item | mass |\n| :--- | ---: |\n| a\\|b | 1 2 |');
});

test('a table without rows is nothing', () => {
  expect(table([{ head: 'item', align: 'left' }], [])).toBe('');
});

test('markup in plain words is escaped, code keeps its quotes closed', () => {
  expect(plain('<b>gas_bottle</b> *')).toBe('\\<b\\>gas\\_bottle\\</b\\> \\*');
  expect(code('a`b')).toBe('`ab`');
});

test('lists of words', () => {
  expect(enumerate([])).toBe('');
  expect(enumerate(['a'])).toBe('a');
  expect(enumerate(['a', 'b', 'c'])).toBe('a, b and c');
  expect(enumerate(['a', 'b', 'c'], 2)).toBe('a, b and 1 more');
});

test('paragraphs leave out what is not there', () => {
  expect(paragraphs('a', undefined, '', 'b')).toBe('a\n\nb');
});
