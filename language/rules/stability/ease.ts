import type { SourceKind } from '../../semantics/state.ts';
import { compareNames } from '../places.ts';

/** How easily people move a thing: what is stowed in a minute, a tank on the drawing board, what is built in hardly. */
const EASE: ReadonlyMap<SourceKind, number> = new Map([
  ['item', 0],
  ['tank', 1],
  ['fitting', 2],
]);

/** What can be moved: panels, tare and people stay where they are. */
export function isMovable(kind: SourceKind): boolean {
  return EASE.has(kind);
}

/** Built in, such as an axle beam: the last thing to propose. */
export function isBuiltIn(kind: SourceKind): boolean {
  return kind === 'fitting';
}

/**
 * What is easier to move stands first as long as it gains at least this share of the greatest gain. A choice of this tool:
 * a fifth is worth having where it costs a minute, less is not worth the reader's time.
 */
export const WORTHWHILE = 1 / 5;

/** What is known of a move where moves are put in order. */
export interface Ranked {
  readonly kind: SourceKind;
  readonly name: string;
  /** Above 0; all in one unit. */
  readonly gain: number;
}

/**
 * Moves in the order to propose them in: those that gain at least `WORTHWHILE` of the greatest gain before the others;
 * among both items, then tanks, then fittings; of a kind the greatest gain first, equals by name.
 */
export function easiestFirst<T>(moves: readonly T[], rank: (move: T) => Ranked): T[] {
  const ranked = moves.map((move) => ({ move, ...rank(move) }));
  const least = WORTHWHILE * Math.max(0, ...ranked.map(({ gain }) => gain));
  const place = ({ kind, gain }: Ranked) => (gain >= least ? 0 : EASE.size) + (EASE.get(kind) ?? EASE.size);
  return ranked
    .sort((a, b) => place(a) - place(b) || b.gain - a.gain || compareNames(a.name, b.name))
    .map(({ move }) => move);
}

/** The same without the fittings beside which something that is not built in gains at least `WORTHWHILE` as much. */
export function worthProposing<T>(moves: readonly T[], rank: (move: T) => Ranked): T[] {
  const ranks = moves.map(rank);
  const loose = Math.max(0, ...ranks.filter(({ kind }) => !isBuiltIn(kind)).map(({ gain }) => gain));
  const kept = moves.filter((_, i) => {
    const { kind, gain } = ranks[i] ?? { kind: 'item', gain: 0 };
    return !isBuiltIn(kind) || loose < WORTHWHILE * gain;
  });
  return easiestFirst(kept, rank);
}
