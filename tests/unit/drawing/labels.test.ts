import { describe, expect, test } from 'vitest';
import { placeLabels } from '../../../language/drawing/labels.ts';
import { textWidth } from '../../../language/drawing/words.ts';
import { defined } from './rigs.ts';

const FRAME = { left: 0, right: 400, top: 0, bottom: 300 };
const beside = (x: number, y: number, words: string) =>
  ({ at: { x, y }, role: 'label', text: words, where: 'beside' }) as const;

type Placed = ReturnType<typeof placeLabels>[number];

function areaOf({ at, text, anchor }: Placed) {
  const width = textWidth(text, 'label');
  const left = at.x - (anchor === 'middle' ? width / 2 : anchor === 'end' ? width : 0);
  return { left, right: left + width, top: at.y - 10, bottom: at.y };
}

describe('labels by their points', () => {
  test('keep off each other, off marked points and off obstacles', () => {
    const points = [beside(100, 100, 'homebound'), beside(104, 102, 'departing'), beside(190, 100, 'midway')];
    const obstacles = [
      { x: 120, y: 85 },
      { x: 60, y: 100 },
    ];
    const areas = placeLabels(points, FRAME, obstacles).map(areaOf);
    for (const [index, a] of areas.entries()) {
      for (const b of areas.slice(index + 1)) {
        expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
      }
      for (const { x, y } of [...points.map(({ at }) => at), ...obstacles]) {
        expect(x > a.left && x < a.right && y > a.top && y < a.bottom).toBe(false);
      }
    }
  });

  test('stand inside the frame, to the left of a point at its right edge', () => {
    const label = defined(placeLabels([beside(395, 150, 'homebound')], FRAME)[0]);
    expect(label.anchor).toBe('end');
    expect(areaOf(label).right).toBeLessThanOrEqual(400);
  });

  test('stand somewhere where nothing is free', () => {
    const full = Array.from({ length: 80 }, (_, index) => ({ x: (index % 10) * 40, y: Math.floor(index / 10) * 40 }));
    const crowded = full.flatMap(({ x, y }) => [
      { x, y },
      { x: x + 20, y: y + 12 },
      { x: x + 20, y: y - 12 },
    ]);
    expect(placeLabels([beside(100, 100, 'homebound')], FRAME, crowded)).toHaveLength(1);
  });
});
