import type { Declaration, Span } from '../syntax/tree.ts';

/** A place in the text of a declaration; it moves with the declaration. */
export interface Location {
  readonly declaration: Declaration;
  readonly span: Span;
}

export type Severity = 'error' | 'warning' | 'information';

export interface RelatedFinding {
  readonly location: Location;
  readonly message: string;
}

/** One diagnostic as the analysis makes it; `key` and `code` are of the catalogue. */
export interface Finding {
  readonly key: string;
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly location: Location;
  readonly related: readonly RelatedFinding[];
  /**
   * Code of what tells the same of named cases: where that is turned off this is too, and where it weighs less this weighs no
   * more.
   */
  readonly follows?: string;
  /** What would mend it written in its place. */
  readonly replacement?: string;
}
