import { cut } from './cut.ts';
import { parseDeclaration } from './parser.ts';
import type { Declaration } from './tree.ts';

/** Texts longer than this (UTF-16 units) are not analysed: one diagnostic says so instead. */
export const LONGEST_DOCUMENT = 4_000_000;

/** A declaration and where it stands in its document. */
export interface PlacedDeclaration {
  readonly declaration: Declaration;
  readonly start: number;
}

/** One immutable version of a document, cut and parsed. */
export interface DocumentSyntax {
  readonly text: string;
  readonly declarations: readonly PlacedDeclaration[];
  /** The text holds merge-conflict markers. */
  readonly conflict: boolean;
  /** The text is longer than LONGEST_DOCUMENT and was not analysed. */
  readonly tooLong: boolean;
}

/** Replaces `[start, end)` of the previous text by `text`. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Cuts and parses a whole text. Never fails. */
export function openDocument(text: string): DocumentSyntax {
  if (text.length > LONGEST_DOCUMENT) return { text, declarations: [], conflict: false, tooLong: true };
  const { starts, conflict } = cut(text);
  return { text, declarations: parsePieces(text, starts, text.length), conflict, tooLong: false };
}

/**
 * The document after an edit. Declarations whose text the edit does not reach are kept (the same objects); the result
 * equals `openDocument` of the new text in every other respect.
 */
export function editDocument(before: DocumentSyntax, edit: Edit): DocumentSyntax {
  const text = before.text.slice(0, edit.start) + edit.text + before.text.slice(edit.end);
  return updateDocument(before, edit, text);
}

/** As `editDocument`, for a caller that already holds the new text. */
export function updateDocument(before: DocumentSyntax, edit: Edit, text: string): DocumentSyntax {
  if (before.tooLong || text.length > LONGEST_DOCUMENT || before.declarations.length === 0) return openDocument(text);
  // Markers of a conflict reach across declarations: the whole text is cut again, unchanged declarations are kept.
  if (before.conflict) return recut(before, text);
  const old = before.declarations;
  const delta = edit.text.length - (edit.end - edit.start);
  // A changed first line may join its declaration to the one before, so the scan restarts one declaration earlier.
  const first = Math.max(0, indexAt(old, edit.start) - 1);
  const from = old[first]?.start ?? 0;
  const editEnd = edit.start + edit.text.length;
  let resume = indexAt(old, edit.end) + 1; // first old declaration that starts behind the edit
  let resumed = false;
  const { starts, conflict } = cut(text, from, (start) => {
    if (start <= editEnd) return false;
    while (resume < old.length && (old[resume]?.start ?? 0) + delta < start) resume++;
    resumed = resume < old.length && (old[resume]?.start ?? 0) + delta === start;
    return resumed;
  });
  if (conflict) return recut(before, text);
  const end = resumed ? (old[resume]?.start ?? 0) + delta : text.length;
  const fresh = parsePieces(text, starts, end, old.slice(first, resume));
  const tail = resumed ? old.slice(resume) : [];
  const moved = delta === 0 ? tail : tail.map(({ declaration, start }) => ({ declaration, start: start + delta }));
  return { text, declarations: old.slice(0, first).concat(fresh, moved), conflict: false, tooLong: false };
}

function recut(before: DocumentSyntax, text: string): DocumentSyntax {
  const { starts, conflict } = cut(text);
  return { text, declarations: parsePieces(text, starts, text.length, before.declarations), conflict, tooLong: false };
}

/**
 * A copy that does not share memory with the text it was cut from: engines keep a whole document alive for one slice
 * of it, and every edit would leave one behind.
 */
function detach(piece: string): string {
  const copy: unknown = JSON.parse(JSON.stringify(piece));
  return typeof copy === 'string' ? copy : piece;
}

/** Parses the pieces, keeping an old declaration where its text stands unchanged at the start or end of the run. */
function parsePieces(
  text: string,
  starts: readonly number[],
  end: number,
  old: readonly PlacedDeclaration[] = [],
): PlacedDeclaration[] {
  const pieces = starts.map((start, index) => text.slice(start, starts[index + 1] ?? end));
  let head = 0;
  while (head < old.length && head < pieces.length && old[head]?.declaration.text === pieces[head]) head++;
  let tail = 0;
  while (
    tail < old.length - head &&
    tail < pieces.length - head &&
    old[old.length - 1 - tail]?.declaration.text === pieces[pieces.length - 1 - tail]
  ) {
    tail++;
  }
  return pieces.map((piece, index) => {
    const kept =
      index < head ? old[index] : index >= pieces.length - tail ? old[old.length - pieces.length + index] : undefined;
    return {
      declaration: kept?.declaration ?? parseDeclaration(old.length > 0 ? detach(piece) : piece),
      start: starts[index] ?? 0,
    };
  });
}

/** Index of the last declaration that starts at or before the offset (0 when none does). */
export function indexAt(declarations: readonly PlacedDeclaration[], offset: number): number {
  let low = 0;
  let high = declarations.length;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((declarations[middle]?.start ?? 0) <= offset) low = middle;
    else high = middle;
  }
  return low;
}
