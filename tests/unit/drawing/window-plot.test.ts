import { describe, expect, test } from 'vitest';
import type { Drawing, Line } from '../../../language/drawing/drawing.ts';
import { svgOf } from '../../../language/drawing/svg.ts';
import { windowPlot } from '../../../language/drawing/window-plot.ts';
import { textWidth } from '../../../language/drawing/words.ts';
import { windowWords } from '../../../language/rules/window/words.ts';
import { openWindow, PLAIN, textOf } from '../../laws/window-rigs.ts';
import { defined } from './rigs.ts';
import { curvesOf, marksOf, rulers, shapesOf, textsOf, wordsOf } from './shapes.ts';
import { elementsOf } from './xml.ts';

const PLAN = { fresh: 2600, waste: 4700, spare: 3600, crates: 1600, tare: 3180, rating: 1390, share: 4, height: 0 };
const { window } = openWindow(textOf(PLAN), ['fresh', 'waste']);
const drawing = windowPlot(window, 'metric', 'Weigh it.');

const linesOf = (picture: Drawing, role: Line['role']): Line[] =>
  shapesOf(picture).filter((shape): shape is Line => shape.shape === 'line' && shape.role === role);

/** The rectangle of all levels, as the ends of its border say. */
function frameOf(picture = drawing) {
  const ends = linesOf(picture, 'axis').flatMap(({ from, to }) => [from, to]);
  const left = Math.min(...ends.map(({ x }) => x));
  const right = Math.max(...ends.map(({ x }) => x));
  const top = Math.min(...ends.map(({ y }) => y));
  // Ticks reach below the frame.
  const bottom = Math.max(...linesOf(picture, 'grid').map(({ to }) => to.y));
  return { left, right, top, bottom };
}

describe('the drawing of a window', () => {
  test('read with a ruler has the corners of the model, each side with a number', () => {
    const { x, y } = rulers(drawing, frameOf());
    const curves = curvesOf(drawing, 'curve');
    expect(window.sides.length).toBeGreaterThan(1);
    expect(curves).toHaveLength(window.sides.length);
    for (const [index, side] of window.sides.entries()) {
      const { points, series } = defined(curves[index]);
      expect(series).toBe(index);
      for (const [at, corner] of side.corners.entries()) {
        expect(x(defined(points[at]).x)).toBeCloseTo(100 * corner.u, 6);
        expect(y(defined(points[at]).y)).toBeCloseTo(100 * corner.v, 6);
      }
      // On the side, and in the list of limits.
      expect(textsOf(drawing).filter(({ text }) => text === String(index + 1))).toHaveLength(2);
    }
  });

  test('hatches what is outside of the window and nothing inside', () => {
    const frame = frameOf();
    const { x, y } = rulers(drawing, frame);
    const hatches = linesOf(drawing, 'hatch').filter(({ to }) => to.x <= frame.right + 1e-9);
    expect(hatches.length).toBeGreaterThan(10);
    const breaks = (u: number, v: number) => window.borders.some(({ a, b, c }) => a * u + b * v + c > -0.01);
    for (const { from, to } of hatches) {
      const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
      expect(breaks(x(middle.x) / 100, y(middle.y) / 100)).toBe(true);
    }
    // Some hatch is near every point outside, and none near a point well inside.
    const near = (u: number, v: number) =>
      hatches.some(({ from, to }) => {
        const [px, py] = [frame.left + u * (frame.right - frame.left), frame.bottom - v * (frame.bottom - frame.top)];
        const distance = Math.abs(px + py - from.x - from.y) / Math.SQRT2;
        return distance < 8 && px > from.x - 8 && px < to.x + 8;
      });
    let [inside, outside] = [0, 0];
    for (let u = 0.05; u < 1; u += 0.05) {
      for (let v = 0.05; v < 1; v += 0.05) {
        const most = Math.max(...window.borders.map(({ a, b, c }) => (a * u + b * v + c) / Math.hypot(a, b)));
        if (most > 0.03) {
          outside++;
          expect(near(u, v)).toBe(true);
        } else if (most < -0.04) {
          inside++;
          expect(near(u, v)).toBe(false);
        }
      }
    }
    expect(Math.min(inside, outside)).toBeGreaterThan(10);
  });

  test('has the named cases as points with their names, and axes with units', () => {
    const { x, y } = rulers(drawing, frameOf());
    const dots = marksOf(drawing, 'dot').map(({ at }) => [Math.round(x(at.x)), Math.round(y(at.y))]);
    expect(dots).toContainEqual([100, 0]);
    expect(dots).toContainEqual([20, 80]);
    const words = wordsOf(drawing);
    expect(words).toEqual(
      expect.arrayContaining(['out', 'home', 'every limit holds', 'fresh, % of 95 L', 'waste, % of 70 L']),
    );
  });

  test('says the rules that the words say, and the caution', () => {
    const { rules, verdict } = windowWords(window, 'metric');
    const caption = textsOf(drawing)
      .filter(({ role }) => role === 'caption')
      .map(({ text }) => text)
      .join(' ');
    for (const { rule } of rules) expect(caption).toContain(rule);
    expect(caption).toContain(verdict);
    expect(caption).toContain('Weigh it.');
  });

  test('is a well-formed SVG that says for those who do not see it what it shows', () => {
    const elements = elementsOf(svgOf(drawing));
    expect(elements[1]).toMatchObject({ name: 'title', text: 'Trip: operating window of fresh and waste' });
    expect(elements[2]?.text).toContain(defined(windowWords(window, 'metric').rules[0]).rule);
    expect(elements.filter(({ name }) => name === 'title').map(({ text }) => text)).toContain(
      'Hatched: some limit can be broken',
    );
  });

  test('keeps everything on its paper, and labels apart', () => {
    const texts = textsOf(drawing);
    for (const { at } of texts) {
      expect(at.x).toBeGreaterThanOrEqual(0);
      expect(at.x).toBeLessThanOrEqual(drawing.width);
      expect(at.y).toBeLessThanOrEqual(drawing.height);
    }
    const places = texts.map(({ at, anchor }) => `${at.x} ${at.y} ${anchor}`);
    expect(new Set(places).size).toBe(places.length);
  });

  test('of a bent side names its ends alone, and keeps labels off each other and off its number', () => {
    const bent = openWindow(textOf({ ...PLAN, rating: 1500, height: 720 }), ['fresh', 'waste']).window;
    const side = defined(bent.sides.find(({ corners }) => corners.length > 3));
    const picture = windowPlot(bent);
    const labels = textsOf(picture).filter(({ text }) => /^[\d.]+ %, [\d.]+ %$/.test(text));
    const ends = new Set(bent.sides.flatMap(({ corners }) => [corners[0], corners.at(-1)]));
    expect(side.corners.some((corner) => !ends.has(corner))).toBe(true);
    expect(labels).toHaveLength(ends.size);
    const numbers = textsOf(picture).filter(
      ({ text, at }) => /^\d$/.test(text) && at.x < 590 && at.x > 70 && at.y < 520,
    );
    const inside = textsOf(picture).filter(({ text }) => text === 'every limit holds');
    const boxes = [...labels, ...inside, ...numbers.filter(({ anchor }) => anchor === 'middle')].map((each) => {
      const width = textWidth(each.text, 'label');
      const left = each.at.x - (each.anchor === 'middle' ? width / 2 : each.anchor === 'end' ? width : 0);
      return { left, right: left + width, top: each.at.y - 9, bottom: each.at.y + 1 };
    });
    expect(boxes.length).toBeGreaterThan(4);
    for (const [index, a] of boxes.entries()) {
      for (const b of boxes.slice(index + 1)) {
        expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
      }
    }
  });

  test('says what holds inside of the window only, and off the numbers of its sides', () => {
    let [said, unsaid] = [0, 0];
    for (let rating = 1240; rating <= 1420; rating += 6) {
      for (const [share, state] of [[4], [6], [7.5], [6, 'out'], [7.5, 'out'], [9, 'home']] as const) {
        const options = { ...PLAIN, ...(state === undefined ? {} : { case: state }) };
        const narrow = openWindow(textOf({ ...PLAN, rating, share }), ['fresh', 'waste'], options).window;
        if (narrow.corners.length === 0 || narrow.sides.length === 0) continue;
        const picture = windowPlot(narrow);
        const numbers = textsOf(picture).filter(
          ({ text, at, anchor }) => anchor === 'middle' && /^\d$/.test(text) && at.y < 520,
        );
        for (const label of textsOf(picture).filter(({ text }) => /%, /.test(text) && text.length < 16)) {
          const width = textWidth(label.text, 'remark') * (label.anchor === 'end' ? -1 : 1);
          const [left, right] =
            label.anchor === 'middle' ? [-width / 2, width / 2] : [Math.min(0, width), Math.max(0, width)];
          for (const { at } of numbers) {
            const isBeside = at.x + 4 < label.at.x + left || at.x - 4 > label.at.x + right;
            expect(isBeside || Math.abs(at.y - label.at.y) > 9).toBe(true);
          }
        }
        const words = textsOf(picture).find(({ text }) => text === 'every limit holds');
        if (words === undefined) {
          unsaid++;
          continue;
        }
        said++;
        const { x, y } = rulers(picture, frameOf(picture));
        const half = textWidth(words.text, 'label') / 2;
        for (const dx of [-half, half]) {
          for (const dy of [-9, 0]) {
            const [u, v] = [x(words.at.x + dx) / 100, y(words.at.y + dy) / 100];
            expect(narrow.borders.every(({ a, b, c }) => a * u + b * v + c <= 1e-6)).toBe(true);
          }
        }
        for (const { at } of numbers) {
          expect(Math.abs(at.x - words.at.x) > half + 3 || Math.abs(at.y - words.at.y) > 9).toBe(true);
        }
      }
    }
    expect(said).toBeGreaterThan(10);
    expect(unsaid).toBeGreaterThan(0);
  });

  test('of no window is hatched all over and says so', () => {
    const none = openWindow(textOf({ ...PLAN, rating: 1000 }), ['fresh', 'waste']).window;
    const picture = windowPlot(none);
    expect(none.corners).toEqual([]);
    expect(curvesOf(picture, 'curve')).toEqual([]);
    expect(wordsOf(picture)).toContain('no window: nothing here holds every limit');
    expect(linesOf(picture, 'hatch').length).toBeGreaterThan(linesOf(drawing, 'hatch').length / 2);
    expect(wordsOf(picture).join(' ')).toContain('RW502 Axle group of Tourer');
  });

  test('shows gallons and pieces where these are asked for', () => {
    const { window: pieces } = openWindow(textOf(PLAN), ['crate', 'waste'], { ...PLAIN, practice: true });
    const words = wordsOf(windowPlot(pieces, 'US'));
    expect(words).toContain('crate, pieces on board');
    // 70 L / 3.785411784 L (NIST SP 811) = 18.49 gal.
    expect(words).toContain('waste, % of 18.5 gal');
  });
});
