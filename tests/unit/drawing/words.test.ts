import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clipCurve, valueAt } from '../../../language/drawing/clip.ts';
import { breakText, fitText, spread, textWidth } from '../../../language/drawing/words.ts';

describe('labels', () => {
  test('stay where they want to be when there is room', () => {
    expect(spread([30, 10, 80], 15, 0, 100)).toEqual([30, 10, 80]);
    expect(spread([50, 50, 52], 15, 0, 100)).toEqual([50, 65, 80]);
    expect(spread([95, 96], 15, 0, 100)).toEqual([85, 100]);
  });

  test('keep their distance and their order, whatever they want', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -50, max: 150 }), { maxLength: 12 }), (wanted) => {
        const places = spread(wanted, 10, 0, 100);
        const order = wanted
          .map((value, i) => ({ value, place: places[i] ?? Number.NaN }))
          .sort((a, b) => a.place - b.place);
        for (const [i, each] of order.slice(1).entries()) {
          expect(each.place - (order[i]?.place ?? Number.NaN)).toBeGreaterThanOrEqual(10 - 1e-9);
          expect(each.value).toBeGreaterThanOrEqual(order[i]?.value ?? Number.NaN);
        }
        for (const place of places) expect(place).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  test('are cut and broken to a width', () => {
    expect(fitText('short', 'label', 200)).toBe('short');
    const cut = fitText('a'.repeat(100), 'label', 200);
    expect(cut).toMatch(/^a+…$/);
    expect(textWidth(cut, 'label')).toBeLessThanOrEqual(200);
    const lines = breakText('one two three four five six seven', 'caption', 80);
    expect(lines.join(' ')).toBe('one two three four five six seven');
    for (const each of lines) expect(textWidth(each, 'caption')).toBeLessThanOrEqual(80);
    expect(lines.length).toBeGreaterThan(1);
  });
});

describe('a clipped curve', () => {
  test('ends and begins on the border', () => {
    const points = [0, 2, -2, 0].map((y, x) => ({ x, y }));
    expect(clipCurve(points, { least: -1, most: 1 }).filter(({ y }) => Number.isFinite(y))).toEqual([
      { x: 0, y: 0 },
      { x: 0.5, y: 1 },
      { x: 1.25, y: 1 },
      { x: 1.75, y: -1 },
      { x: 2.5, y: -1 },
      { x: 3, y: 0 },
    ]);
  });

  test('has values between its points, and none in gaps', () => {
    const points = [
      { x: 0, y: 1 },
      { x: 1, y: 3 },
      { x: 2, y: Number.NaN },
      { x: 3, y: 5 },
    ];
    expect(valueAt(points, 0.5)).toBe(2);
    expect(valueAt(points, 1.5)).toBeUndefined();
    expect(valueAt(points, 4)).toBeUndefined();
    expect(valueAt(points, Number.NaN)).toBeUndefined();
  });
});
