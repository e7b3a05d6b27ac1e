import type { Edit } from '../language/syntax/document.ts';

/**
 * Adds an edit to a list in which each edit is made to the text that the one before left. An edit that touches what the
 * last one put in joins it, so a word typed letter by letter is one edit. Returns a new list; the text after all edits is
 * the same.
 */
export function appendEdit(edits: readonly Edit[], next: Edit): readonly Edit[] {
  const last = edits.at(-1);
  const joined = last && join(last, next);
  return joined ? [...edits.slice(0, -1), joined] : [...edits, next];
}

function join(first: Edit, next: Edit): Edit | undefined {
  const firstEnd = first.start + first.text.length;
  if (next.start > firstEnd || next.end < first.start) return undefined;
  const kept = first.text.slice(0, Math.max(0, next.start - first.start));
  const rest = first.text.slice(Math.max(0, next.end - first.start));
  return {
    start: Math.min(first.start, next.start),
    end: first.end + Math.max(0, next.end - firstEnd),
    text: kept + next.text + rest,
  };
}

/** One edit that does what all of them do: from the first changed character to the last. `text` is what they lead to. */
export function coverEdits(edits: readonly Edit[], text: string): Edit | undefined {
  let cover: { start: number; end: number; newEnd: number } | undefined;
  for (const { start, end, text: inserted } of edits) {
    cover ??= { start, end: start, newEnd: start };
    // What lies between the cover and this edit is the same before and after: both ends move by the same amount.
    const beyond = Math.max(0, end - cover.newEnd);
    cover = {
      start: Math.min(cover.start, start),
      end: cover.end + beyond,
      newEnd: cover.newEnd + beyond + inserted.length - (end - start),
    };
  }
  return cover && { start: cover.start, end: cover.end, text: text.slice(cover.start, cover.newEnd) };
}
