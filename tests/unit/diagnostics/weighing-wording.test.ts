import { expect, test } from 'vitest';
import { changeWords, placeEstimate } from '../../../language/diagnostics/weighing-wording.ts';

test.each([
  [-0.3004, 'y', '300 mm ± 12 mm right'],
  [0.3004, 'y', '300 mm ± 12 mm left'],
  [-0.0001, 'y', '0 mm ± 12 mm left'],
  [0.0001, 'x', '0 mm ± 12 mm back'],
  [0.4, 'x', '400 mm ± 12 mm ahead'],
  [-0.4, 'z', '400 mm ± 12 mm down'],
] as const)('a place of %d m along %s is %s', (value, axis, text) => {
  expect(placeEstimate({ value, standardError: 0.0123 }, axis, 'metric')).toBe(text);
});

test.each([
  ['mass', -60, 2, 'by november Cart weighs 60 kg ± 2 kg less than by october'],
  ['x', -0.2, 0.01, 'by november the tare of Cart has its centre 200 mm ± 10 mm further back than by october'],
  ['z', 0.2, 0.01, 'by november the tare of Cart has its centre 200 mm ± 10 mm further up than by october'],
] as const)('a change of %s by %d is told from the one slip to the other', (figure, value, standardError, text) => {
  const change = { unit: 'Cart', figure, one: 'october', other: 'november', change: { value, standardError } };
  expect(changeWords(change, 'metric')).toBe(text);
});
