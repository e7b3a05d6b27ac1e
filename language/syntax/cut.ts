/**
 * The light scanner: cuts a document into its top-level declarations without parsing them.
 *
 * A declaration starts on its own line with a declaration keyword, outside any braces; `##` lines directly above belong
 * to it. A declaration keyword in the first column starts a new declaration even inside braces, so that one missing `}`
 * costs one declaration and never hides the others. The pieces cover the text without gap or overlap.
 */

/** Keywords that start a declaration. None of them may begin a statement inside a block except those of `ALSO_INSIDE`. */
export const DECLARATION_KEYWORDS: ReadonlySet<string> = new Set([
  'use',
  'let',
  'item',
  'fluid',
  'material',
  'tyre',
  'vehicle',
  'trailer',
  'variant',
  'rig',
  'rule',
]);

/** Those that may begin a statement inside a block too. */
const ALSO_INSIDE: ReadonlySet<string> = new Set(['let', 'rule']);

/** Whether a line of the text is a merge-conflict marker. */
export type ConflictLine = 'ours' | 'base' | 'theirs' | 'end';

const HASH = 35;
const QUOTE = 34;
const OPEN = 123;
const CLOSE = 125;
const NEWLINE = 10;
const RETURN = 13;
const SPACE = 32;
const TAB = 9;
const BYTE_ORDER_MARK = 0xfeff;

/** Reads the conflict marker that starts at `offset`, which must be the start of a line. */
export function conflictLineAt(text: string, offset: number): ConflictLine | undefined {
  const code = text.charCodeAt(offset);
  if (code !== 60 && code !== 61 && code !== 62 && code !== 124) return undefined;
  const marker = String.fromCharCode(code).repeat(7);
  if (!text.startsWith(marker, offset)) return undefined;
  const next = text.charCodeAt(offset + 7);
  const ends = Number.isNaN(next) || next === NEWLINE || next === 13 || next === SPACE;
  if (!ends) return undefined;
  return code === 60 ? 'ours' : code === 62 ? 'end' : code === 124 ? 'base' : 'theirs';
}

/**
 * End of the part of a conflict that is not analysed: from a `|||||||` or `=======` line to the end of the `>>>>>>>`
 * line. Without a closing line only the marker's own line is passed over.
 */
export function conflictEnd(text: string, offset: number): number {
  const closing = text.indexOf('\n>>>>>>>', offset);
  return lineEnd(text, closing < 0 ? offset : closing + 1);
}

function lineEnd(text: string, offset: number): number {
  const end = text.indexOf('\n', offset);
  return end < 0 ? text.length : end + 1;
}

export interface CutResult {
  /** Start offsets of the pieces, ascending; the first is where the scan began. */
  readonly starts: readonly number[];
  /** True when a merge-conflict marker was passed. */
  readonly conflict: boolean;
}

/**
 * Scans from `from` (the start of the text or of a piece) and lists where pieces start.
 * `stop` is asked at each start found behind `from`; answering true ends the scan there (that start is not listed).
 */
export function cut(text: string, from = 0, stop: (start: number) => boolean = () => false): CutResult {
  const starts: number[] = [from];
  let conflict = false;
  let depth = 0;
  let documentation = -1; // start of the run of `##` lines directly above the current line
  let line = from;
  const length = text.length;
  while (line < length) {
    const marker = conflictLineAt(text, line);
    if (marker !== undefined) {
      conflict = true;
      documentation = -1;
      line = marker === 'base' || marker === 'theirs' ? conflictEnd(text, line) : lineEnd(text, line);
      continue;
    }
    let at = line === 0 && text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : line;
    while (isBlank(text.charCodeAt(at))) at++;
    const first = text.charCodeAt(at);
    if (first === HASH) {
      const isDocumentation = text.charCodeAt(at + 1) === HASH;
      if (!isDocumentation) documentation = -1;
      else if (documentation < 0) documentation = line;
      line = lineEnd(text, at);
      continue;
    }
    if ((depth === 0 || at === line) && first >= 97 && first <= 122 && startsDeclaration(text, at, depth > 0)) {
      const start = documentation >= 0 ? documentation : line;
      if (start !== from) {
        if (stop(start)) return { starts, conflict };
        starts.push(start);
      }
      depth = 0;
    }
    documentation = -1;
    // Walk the rest of the line, counting braces outside text and comments.
    let code = first;
    while (at < length && code !== NEWLINE) {
      if (code === OPEN) depth++;
      else if (code === CLOSE) depth = depth > 0 ? depth - 1 : 0;
      else if (code === HASH) {
        at = lineEnd(text, at) - 1;
        if (text.charCodeAt(at) !== NEWLINE) at = length;
        break;
      } else if (code === QUOTE) at = closingQuote(text, at);
      code = text.charCodeAt(++at);
    }
    line = at + 1;
  }
  return { starts, conflict };
}

/** Offset of the quote that closes the text opened at `offset`, or of the last character before the line's end. */
function closingQuote(text: string, offset: number): number {
  for (let at = offset + 1; ; at++) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) return at;
    if (code === NEWLINE || Number.isNaN(code)) return at - 1;
  }
}

function startsDeclaration(text: string, offset: number, insideBraces: boolean): boolean {
  let end = offset;
  for (let code = text.charCodeAt(end); code >= 97 && code <= 122; code = text.charCodeAt(end)) end++;
  const word = text.slice(offset, end);
  if (!DECLARATION_KEYWORDS.has(word)) return false;
  if (insideBraces && ALSO_INSIDE.has(word)) return false;
  // `rig.damping` is a reference and `item_rack 3` a name: a declaration keyword stands alone before a space.
  const next = text.charCodeAt(end);
  if (next !== SPACE && next !== TAB) return false;
  // `rig 50 %` inside a block could speak of a tank called rig: a declaration keyword is followed by a name or text.
  let at = end;
  while (isBlank(text.charCodeAt(at))) at++;
  const follower = text.charCodeAt(at);
  return follower === QUOTE || isNameStart(follower);
}

/** Space, tab and the control characters of a damaged file; never a line break. */
function isBlank(code: number): boolean {
  return code === SPACE || (code < SPACE && code !== NEWLINE && code !== RETURN);
}

function isNameStart(code: number): boolean {
  return (code >= 65 && code <= 90) || (code >= 97 && code <= 122) || code === 95 || code > 127;
}
