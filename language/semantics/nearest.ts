import { distance } from 'fastest-levenshtein';

/**
 * The name that was probably meant: at most a third of its letters differ. Undefined where none is near. Letter case does
 * not count; of equally near names the first one.
 */
export function nearestName(name: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(name.length / 3)) + 1;
  const written = name.toLowerCase();
  const letters = lettersOf(written);
  for (const candidate of candidates) {
    if (candidate === name || Math.abs(candidate.length - name.length) >= least) continue;
    // Each edit changes at most two entries of the set of letters: most candidates are out before they are compared.
    if (bitCount(letters ^ lettersOf(candidate)) > 2 * (least - 1)) continue;
    const edits = isTransposed(written, candidate.toLowerCase()) ? 1 : distance(written, candidate.toLowerCase());
    if (edits >= least) continue;
    best = candidate;
    least = edits;
    if (edits <= 1) break;
  }
  return best;
}

/** Two neighbouring letters changed places: one slip of the fingers, though two edits. */
function isTransposed(a: string, b: string): boolean {
  if (a.length !== b.length) return false;
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return at + 1 < a.length && a[at] === b[at + 1] && a[at + 1] === b[at] && a.slice(at + 2) === b.slice(at + 2);
}

/** The letters of a text as a set of 32, upper and lower case alike. */
function lettersOf(text: string): number {
  let set = 0;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    set |= 1 << (code & 31);
  }
  return set;
}

function bitCount(set: number): number {
  let bits = set - ((set >>> 1) & 0x55555555);
  bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
  return (((bits + (bits >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}
