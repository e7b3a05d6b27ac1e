import type { DocumentSyntax } from '../syntax/document.ts';
import type { Declaration } from '../syntax/tree.ts';

/** How one version of a document differs from the one before: the run of declarations between what both share. */
export interface DocumentChange {
  readonly removed: readonly Declaration[];
  readonly added: readonly Declaration[];
  /** The removed and the added ones declare the same names in the same order. */
  readonly sameNames: boolean;
  /** A `use` line is among them. */
  readonly uses: boolean;
  readonly before: DocumentSyntax;
  /** Missing where the document is gone. */
  readonly after?: DocumentSyntax;
}

/** Compares two versions by the identity of their declarations. */
export function changeBetween(before: DocumentSyntax, after: DocumentSyntax): DocumentChange {
  const old = before.declarations;
  const now = after.declarations;
  const shorter = Math.min(old.length, now.length);
  let head = 0;
  while (head < shorter && old[head]?.declaration === now[head]?.declaration) head++;
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail]?.declaration === now[now.length - 1 - tail]?.declaration)
    tail++;
  const removed = old.slice(head, old.length - tail).map(({ declaration }) => declaration);
  const added = now.slice(head, now.length - tail).map(({ declaration }) => declaration);
  const sameNames =
    removed.length === added.length &&
    removed.every((declaration, position) => nameOf(declaration) === nameOf(added[position]));
  return {
    removed,
    added,
    sameNames,
    uses: [...removed, ...added].some(({ statement }) => statement?.head.text === 'use'),
    before,
    after,
  };
}

function nameOf(declaration: Declaration | undefined): string | undefined {
  return declaration?.statement?.name?.text;
}
