import { FONT_SIZE } from './style.ts';

/** Width of a letter over the size of the font, on the safe side of what sans-serif fonts have on average. */
const LETTER = 0.54;

/** px that a text takes, estimated: fonts are not at hand here. */
export function textWidth(words: string, role: keyof typeof FONT_SIZE): number {
  return [...words].length * LETTER * FONT_SIZE[role];
}

/** A text cut with an ellipsis to about `width` px. */
export function fitText(words: string, role: keyof typeof FONT_SIZE, width: number): string {
  const letters = [...words];
  const most = Math.max(1, Math.floor(width / (LETTER * FONT_SIZE[role])));
  return letters.length <= most ? words : `${letters.slice(0, most - 1).join('')}…`;
}

/** Blanks that running text may be broken at: not between a number and its unit, nor inside of a number. */
export const BREAKS = /(?<!\d)[ \t\n]+|[ \t\n]+(?!(?:%|kg|lb|L|gal|mm|in)(?![\p{Letter}\d]))/u;

/** A text broken at blanks into lines of about `width` px; longer words are cut. */
export function breakText(words: string, role: keyof typeof FONT_SIZE, width: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(BREAKS)) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, role) <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(fitText(word, role, width));
  }
  return lines;
}

/**
 * Places for labels that want to stand at `wanted` but need `gap` between each other, inside `least` to `most` as far as
 * they fit (else beyond `most`). In the order of `wanted`; labels keep its order of size.
 */
export function spread(wanted: readonly number[], gap: number, least: number, most: number): number[] {
  const order = wanted.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value || a.index - b.index);
  const places = order.map(({ value }) => value);
  for (let i = 0; i < places.length; i++) {
    places[i] = Math.max(places[i] ?? 0, i === 0 ? least : (places[i - 1] ?? 0) + gap);
  }
  let limit = Math.max(most, least + (places.length - 1) * gap);
  for (let i = places.length - 1; i >= 0; i--) {
    places[i] = Math.min(places[i] ?? 0, limit);
    limit = (places[i] ?? 0) - gap;
  }
  const result = new Array<number>(wanted.length).fill(0);
  for (const [i, { index }] of order.entries()) result[index] = places[i] ?? 0;
  return result;
}
