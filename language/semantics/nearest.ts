import { distance } from 'fastest-levenshtein';

/** The name that was probably meant: at most a third of its letters differ. Undefined where none is near. */
export function nearestName(name: string, candidates: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(name.length / 3)) + 1;
  const written = name.toLowerCase();
  for (const candidate of candidates) {
    if (candidate === name || Math.abs(candidate.length - name.length) >= least) continue;
    const edits = distance(written, candidate.toLowerCase());
    if (edits < least) {
      least = edits;
      best = candidate;
    }
  }
  return best;
}
