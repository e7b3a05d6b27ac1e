import type { Severity } from './finding.ts';

/** What gives a limit its force. */
export type Authority = 'plate' | 'regulation' | 'recommendation' | 'common practice';

/**
 * One diagnostic of the catalogue. `P` are the parameters its message needs; they are checked where it is reported.
 * The page that explains the code is made from the same entry.
 */
export interface DiagnosticDefinition<P> {
  /** Stable code, never used again for something else. */
  readonly code: string;
  readonly severity: Severity;
  /** What is wrong in one short line: the page's heading. */
  readonly title: string;
  /** What is wrong, by how much, in which state, and what moves it. */
  readonly message: (parameters: P) => string;
  /** What would mend it written in place of what is shown, where that is known; a quick fix offers it. */
  readonly replacement?: (parameters: P) => string | undefined;
  /** What the code means and why it matters. */
  readonly meaning: string;
  /** What to do about it. */
  readonly mend: string;
  /** A whole file that brings the diagnostic out. */
  readonly example: string;
  /** The same file mended: it does not bring it out. */
  readonly mended: string;
  /** Where the limit comes from: a standard and clause, or "common practice, no source"; absent for rules of the language. */
  readonly source?: string;
  /** What gives the limit its force, for entries of limits. */
  readonly authority?: Authority;
  /** What the entry does not tell and what to mind, shown on its page. */
  readonly caution?: string;
}

/** Gives an entry its type; the parameter type comes from `message`. */
export function define<P>(definition: DiagnosticDefinition<P>): DiagnosticDefinition<P> {
  return definition;
}
