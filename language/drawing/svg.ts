import { line as lineGenerator } from 'd3-shape';
import type { Drawing, Group, Point, Shape } from './drawing.ts';
import { ATTRIBUTES, lookOf, STYLE_SHEET } from './style.ts';

/**
 * A drawing as one SVG document (SVG 1.1 elements), the same text for the same drawing. It holds no script, refers to
 * nothing outside of itself and stands alone or inside a page; texts are escaped.
 */
export function svgOf({ name, width, height, title, description, groups }: Drawing): string {
  const id = name.replace(/[^A-Za-z0-9_-]/g, (character) => `_${character.codePointAt(0)?.toString(16) ?? ''}`);
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="0 0 ${figure(width)} ${figure(height)}" ` +
      `width="${figure(width)}" height="${figure(height)}" role="img" ` +
      `aria-labelledby="${id}-title ${id}-description" font-family="sans-serif">`,
    `<title id="${id}-title">${escapeText(title)}</title>`,
    `<desc id="${id}-description">${escapeText(description)}</desc>`,
    `<style>${STYLE_SHEET}</style>`,
    `<rect class="paper" width="100%" height="100%" ${ATTRIBUTES.paper}/>`,
    ...groups.flatMap(groupLines),
    '</svg>',
  ];
  return `${lines.join('\n')}\n`;
}

function groupLines({ title, shapes }: Group): string[] {
  return [
    '<g>',
    ...(title === undefined ? [] : [`<title>${escapeText(title)}</title>`]),
    ...shapes.map(element),
    '</g>',
  ];
}

function element(shape: Shape): string {
  const look = lookAttributes(shape);
  switch (shape.shape) {
    case 'line':
      return (
        `<line x1="${figure(shape.from.x)}" y1="${figure(shape.from.y)}" ` +
        `x2="${figure(shape.to.x)}" y2="${figure(shape.to.y)}" ${look}/>`
      );
    case 'curve':
      return `<path d="${pathOf(shape.points)}" ${look}/>`;
    case 'rectangle':
      return (
        `<rect x="${figure(shape.at.x)}" y="${figure(shape.at.y)}" ` +
        `width="${figure(shape.width)}" height="${figure(shape.height)}" ${look}/>`
      );
    case 'dot':
      return `<circle cx="${figure(shape.at.x)}" cy="${figure(shape.at.y)}" r="${MARK}" ${look}/>`;
    case 'cross':
      return `<path d="${crossAt(shape.at)}" ${look}/>`;
    case 'text':
      return (
        `<text x="${figure(shape.at.x)}" y="${figure(shape.at.y)}" text-anchor="${shape.anchor}" ${look}>` +
        `${escapeText(shape.text)}</text>`
      );
  }
}

/** px; half the size of a mark. */
const MARK = 4;

function lookAttributes({ shape, role, series }: Shape): string {
  if (series === undefined) return `class="${role}" ${ATTRIBUTES[role]}`;
  const { colour, dashes } = lookOf(series);
  const isDashed = dashes !== '' && shape !== 'dot' && shape !== 'cross';
  return `class="${role} series-${colour}" ${ATTRIBUTES[role]}${isDashed ? ` stroke-dasharray="${dashes}"` : ''}`;
}

const generator = lineGenerator<Point>()
  .defined(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))
  .x(({ x }) => x)
  .y(({ y }) => y)
  .digits(2);

const pathOf = (points: readonly Point[]): string => generator([...points]) ?? '';

function crossAt({ x, y }: Point): string {
  const [left, right, top, bottom] = [x - MARK, x + MARK, y - MARK, y + MARK].map(figure);
  return `M${left},${top}L${right},${bottom}M${left},${bottom}L${right},${top}`;
}

/** A coordinate to a hundredth of a px. */
const figure = (value: number): string => String(Math.round(value * 100) / 100 || 0);

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** What XML 1.0 forbids (control characters, halves of pairs) and what turns the direction of writing. */
const UNFIT =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what it looks for.
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufffe\uffff]|\p{Surrogate}/gu;

/** Text for the content of an element or for an attribute in double quotes. */
export function escapeText(text: string): string {
  return text.replace(UNFIT, '\ufffd').replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}
