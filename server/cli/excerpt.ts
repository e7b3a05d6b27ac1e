import { displayWidth, printable } from './text.ts';
import type { CheckedDocument } from './workspace.ts';

/** The line of the source that a diagnostic is about, and carets under what it means. */
export interface Excerpt {
  readonly line: number;
  readonly source: string;
  readonly carets: string;
}

const TAB = '  ';
/** Columns before the marked part of a line that is cut for its length. */
const LEAD = 24;
const ELLIPSIS = '…';

/**
 * The line in which `start` stands, cut to `width` columns around the marked part; the mark ends with the line at the
 * latest. Undefined where the line holds nothing to show.
 */
export function excerpt(document: CheckedDocument, start: number, end: number, width: number): Excerpt | undefined {
  const { text } = document;
  const lineStart = text.lastIndexOf('\n', start - 1) + 1;
  const lineEnd = endOfLine(text, start);
  const visible = (from: number, to: number): string =>
    printable(text.slice(from, to).replace('\ufeff', '')).replaceAll('\t', TAB);
  const before = visible(lineStart, start);
  const marked = visible(start, Math.min(end, lineEnd));
  const after = visible(start + (Math.min(end, lineEnd) - start), lineEnd);
  if ((before + marked + after).trim() === '') return undefined;

  const indent = /^ */.exec(before)?.[0].length ?? 0;
  const fits = displayWidth(before + marked + after) - indent <= width;
  const lead = fits ? before.slice(indent) : cutFront(before.slice(indent));
  const room = width - displayWidth(lead);
  const shown = cutBack(marked, room);
  return {
    line: document.place(start).line,
    source: (lead + shown + cutBack(after, room - displayWidth(shown))).trimEnd(),
    carets: ' '.repeat(displayWidth(lead)) + '^'.repeat(Math.max(1, displayWidth(shown))),
  };
}

function endOfLine(text: string, offset: number): number {
  const newline = text.indexOf('\n', offset);
  const end = newline < 0 ? text.length : newline;
  return end > offset && text[end - 1] === '\r' ? end - 1 : end;
}

const cutFront = (text: string): string => (text.length > LEAD ? ELLIPSIS + text.slice(-LEAD) : text);

function cutBack(text: string, width: number): string {
  if (displayWidth(text) <= width) return text;
  return width <= 0 ? '' : text.slice(0, width - 1) + ELLIPSIS;
}
