import { BREAKS } from '../../language/drawing/words.ts';

/** Control characters but tab and newline, and those that turn the direction of writing. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what it looks for.
const UNPRINTABLE = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;
const CONTROL_PICTURES = 0x2400;

/**
 * Text from a file, safe to print: control characters become visible signs, so that a file can neither move the cursor
 * nor colour the terminal. Every character keeps its place.
 */
export function printable(text: string): string {
  return text.replace(UNPRINTABLE, (character) => {
    const code = character.charCodeAt(0);
    return code < 32 ? String.fromCharCode(CONTROL_PICTURES + code) : code === 127 ? '\u2421' : '\ufffd';
  });
}

/** As `printable`, in one line: names of files and messages. */
export function oneLine(text: string): string {
  return printable(text).replace(/\s*\n\s*/g, ' ');
}

const graphemes = new Intl.Segmenter(undefined, { granularity: 'grapheme' });
const WIDE =
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\p{Emoji_Presentation}\uff01-\uff60]/u;
const INVISIBLE = /^[\p{Mark}\p{Default_Ignorable_Code_Point}\ufeff]+$/u;

/** Columns that a text takes on a terminal: East Asian wide characters and emoji take two (Unicode annex 11). */
export function displayWidth(text: string): number {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: ASCII is the common case.
  if (/^[\u0000-\u007f]*$/.test(text)) return text.length;
  let width = 0;
  for (const { segment } of graphemes.segment(text)) width += INVISIBLE.test(segment) ? 0 : WIDE.test(segment) ? 2 : 1;
  return width;
}

/** Fills up with spaces to a width: behind the text, or before it. */
export function pad(text: string, width: number, side: 'left' | 'right'): string {
  const fill = ' '.repeat(Math.max(0, width - displayWidth(text)));
  return side === 'left' ? text + fill : fill + text;
}

/**
 * Breaks running text at spaces, none between a number and its unit, into lines of at most `width` columns; further lines are
 * indented by `hanging`.
 */
export function wrap(text: string, width: number, first: string, hanging: string): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(BREAKS)) {
    if (!empty && displayWidth(line) + 1 + displayWidth(word) > width) {
      lines.push(line);
      line = hanging;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}

/** `1 error`, `3 errors`. */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${count} ${count === 1 ? singular : plural}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[], joiner = 'and'): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${joiner} ${last}`;
}
