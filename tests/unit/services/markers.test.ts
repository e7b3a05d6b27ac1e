import { expect, test } from 'vitest';
import { analyseMarked, readMarks } from './markers.ts';

test('marks are taken out and their offsets are those of the text without marks', () => {
  expect(readMarks('tow |Tru‹ck›')).toEqual({ text: 'tow Truck', carets: [4], ranges: [{ start: 7, end: 9 }] });
});

test('ranges may nest; the inner one comes first', () => {
  expect(readMarks('‹a‹b›c›').ranges).toEqual([
    { start: 1, end: 2 },
    { start: 0, end: 3 },
  ]);
});

test('an unbalanced mark is an error of the test', () => {
  expect(() => readMarks('a›')).toThrow(/without ‹/);
  expect(() => readMarks('‹a')).toThrow(/without ›/);
});

test('offsets count UTF-16 units', () => {
  expect(analyseMarked('# 🚚\n|item').offset).toBe(5);
});
