import { describe, expect, test } from 'vitest';
import { type Drawing, line, mark, text } from '../../../language/drawing/drawing.ts';
import { DARK, LIGHT, lookOf } from '../../../language/drawing/style.ts';
import { escapeText, svgOf } from '../../../language/drawing/svg.ts';
import { elementsOf } from './xml.ts';

const drawing = (changes: Partial<Drawing> = {}): Drawing => ({
  name: 'plain',
  width: 200,
  height: 100,
  title: 'A title',
  description: 'What it shows',
  groups: [
    {
      title: 'a group',
      shapes: [
        line('zero', { x: 0, y: 10 }, { x: 200, y: 10 }),
        {
          shape: 'curve',
          role: 'curve',
          series: 1,
          points: [
            { x: 1, y: 2 },
            { x: 2.7156, y: 4 },
          ],
        },
        { shape: 'rectangle', role: 'growing', at: { x: 1, y: 2 }, width: 3, height: 4 },
        mark('dot', { x: 5, y: 6 }, 0),
        mark('cross', { x: 5, y: 6 }, 0),
        text('label', 7, 8, 'words'),
      ],
    },
  ],
  ...changes,
});

describe('an SVG', () => {
  test('is well-formed, has its size, a title and a description that it names', () => {
    const elements = elementsOf(svgOf(drawing()));
    const [root, title, description] = elements;
    expect(root).toMatchObject({
      name: 'svg',
      attributes: { xmlns: 'http://www.w3.org/2000/svg', viewBox: '0 0 200 100', role: 'img' },
    });
    expect(title).toMatchObject({ name: 'title', text: 'A title' });
    expect(description).toMatchObject({ name: 'desc', text: 'What it shows' });
    expect(root?.attributes['aria-labelledby']).toBe(`${title?.attributes.id} ${description?.attributes.id}`);
  });

  test('has an element a shape, in their order', () => {
    const elements = elementsOf(svgOf(drawing()));
    const group = elements.findIndex(({ name }) => name === 'g');
    expect(elements.slice(group).map(({ name }) => name)).toEqual([
      'g',
      'title',
      'line',
      'path',
      'rect',
      'circle',
      'path',
      'text',
    ]);
    expect(elements.find(({ name }) => name === 'path')?.attributes.d).toBe('M1,2L2.72,4');
    expect(elements.at(-1)).toMatchObject({ text: 'words', attributes: { x: '7', y: '8', 'text-anchor': 'start' } });
  });

  test('is the same text for the same drawing, with no script and nothing from outside', () => {
    const svg = svgOf(drawing());
    expect(svgOf(drawing())).toBe(svg);
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(/<script|href|url\(|@import|https?:|\son\w+=/i);
  });

  test('interrupts a curve where a coordinate is no number', () => {
    const points = [1, 2, Number.NaN, 4, 5].map((x) => ({ x, y: x }));
    const svg = svgOf(drawing({ groups: [{ shapes: [{ shape: 'curve', role: 'curve', points }] }] }));
    expect(svg).toContain('d="M1,1L2,2M4,4L5,5"');
    expect(svg).not.toContain('NaN');
  });

  test('escapes whatever a file calls things', () => {
    const hostile = `</text><script>alert("1")</script>&'\u0000\u001b\ud800\u202e`;
    const name = '"><script>';
    const svg = svgOf(
      drawing({
        name,
        title: hostile,
        description: hostile,
        groups: [{ title: hostile, shapes: [text('label', 0, 0, hostile)] }],
      }),
    );
    const elements = elementsOf(svg);
    expect(elements.map(({ name: each }) => each)).toEqual([
      'svg',
      'title',
      'desc',
      'style',
      'rect',
      'g',
      'title',
      'text',
    ]);
    expect(elements.at(-1)?.text).toBe(`</text><script>alert("1")</script>&'\ufffd\ufffd\ufffd\ufffd`);
    expect(elements[0]?.attributes['aria-labelledby']).toMatch(/^[\w-]+-title [\w-]+-description$/);
  });

  test('keeps letters of all languages and pairs of surrogates', () => {
    expect(escapeText('Größe 拖车 🚐\t½')).toBe('Größe 拖车 🚐\t½');
  });
});

describe('looks', () => {
  /** Contrast ratio of two colours; WCAG 2.1, definitions of relative luminance and contrast ratio, from memory. */
  function contrast(a: string, b: string): number {
    const luminance = (colour: string) => {
      const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((i) => {
        const value = Number.parseInt(colour.slice(i, i + 2), 16) / 255;
        return value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    };
    const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((first, second) => first - second);
    return (light + 0.05) / (dark + 0.05);
  }

  // WCAG 2.1, success criteria 1.4.3 (text 4.5 : 1) and 1.4.11 (graphical objects 3 : 1), from memory.
  test.each([
    ['light', LIGHT],
    ['dark', DARK],
  ])('stand out from %s paper', (_, { ink, paper, growing, curves }) => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast(ink, paper)).toBeGreaterThan(4.5);
    for (const colour of [growing, ...curves]) expect(contrast(colour, paper)).toBeGreaterThan(3);
  });

  test('of 36 series differ, those of the first six in colour and in dashes', () => {
    const looks = Array.from({ length: 36 }, (_, i) => lookOf(i));
    expect(new Set(looks.map(({ colour, dashes }) => `${colour} ${dashes}`)).size).toBe(36);
    expect(new Set(looks.slice(0, 6).map(({ colour }) => colour)).size).toBe(6);
    expect(new Set(looks.slice(0, 6).map(({ dashes }) => dashes)).size).toBe(6);
  });

  test('follow the colours of the system and of the page around, and need none of them', () => {
    const svg = svgOf(drawing());
    expect(svg).toContain('@media (prefers-color-scheme:dark)');
    expect(svg).toContain('@media (forced-colors:active)');
    expect(svg).toContain('var(--drawing-ink,');
    // Without a style sheet, everything has the colour of the text.
    const bare = elementsOf(svg).filter(({ name }) => ['line', 'path', 'text'].includes(name));
    for (const { attributes } of bare) expect([attributes.stroke, attributes.fill]).toContain('currentColor');
  });
});
