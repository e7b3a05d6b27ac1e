import { CATALOGUE, type CatalogueKey, type CatalogueParameters } from '../diagnostics/catalogue.ts';
import { finding } from '../diagnostics/create.ts';
import type { Finding, Location, RelatedFinding } from '../diagnostics/finding.ts';
import type { Declaration, Span, Statement } from '../syntax/tree.ts';
import type { Entity } from './analysis.ts';
import type { Assumption } from './model.ts';

/** A statement with the declaration and document it was written in; a variant reads lines of its original too. */
export interface Line {
  readonly statement: Statement;
  readonly declaration: Declaration;
  readonly uri: string;
}

/** A declaration found under a name. */
export interface Found {
  readonly uri: string;
  readonly declaration: Declaration;
}

/** What the evaluation of one declaration may ask and report. Everything asked is noted as a dependency. */
export interface Scope {
  readonly uri: string;
  readonly declaration: Declaration;
  /** The declaration that a name stands for, seen from a document: its own, then those of the files it uses. */
  readonly find: (uri: string, name: string) => Found | undefined;
  /** What a declaration says; 'cycle' while it is itself being computed, undefined when its errors leave nothing. */
  readonly entityOf: (found: Found) => Entity | 'cycle' | undefined;
  /** Names visible from a document, for "the nearest is". */
  readonly visibleNames: (uri: string) => readonly string[];
  readonly findings: Finding[];
  readonly assumptions: Assumption[];
}

/**
 * The scope of what is looked at once its names are resolved: nothing more can be asked, and what is reported goes to
 * `findings`.
 */
export function detachedScope(declaration: Declaration, findings: Finding[]): Scope {
  return {
    uri: '',
    declaration,
    find: () => undefined,
    entityOf: () => undefined,
    visibleNames: () => [],
    findings,
    assumptions: [],
  };
}

export function locate(line: Pick<Line, 'declaration'>, span: Span): Location {
  return { declaration: line.declaration, span: { start: span.start, end: span.end } };
}

/**
 * Reports a finding of the catalogue. What lies in another declaration (a line of a variant's original) is reported by
 * that declaration itself and is left out here; the same finding at the same place is reported once.
 */
export function report<K extends CatalogueKey>(
  scope: Scope,
  key: K,
  parameters: CatalogueParameters[K],
  location: Location,
  related: readonly RelatedFinding[] = [],
): void {
  if (CATALOGUE[key].severity === 'error' && !LEAVES_NOTHING_OUT.has(key)) leaveOut(scope, location);
  if (location.declaration !== scope.declaration) return;
  const { said } = notesOf(scope);
  const made = finding(key, CATALOGUE[key], parameters, location, related);
  const same = `${key} ${location.span.start} ${location.span.end} ${made.message}`;
  if (said.has(same)) return;
  said.add(same);
  scope.findings.push(made);
}

/** Errors in spite of which everything is counted that their line says about masses and places. */
const LEAVES_NOTHING_OUT: ReadonlySet<CatalogueKey> = new Set([
  'duplicate-name',
  'unreadable-marking',
  'coupling-mismatch',
  'requirement-open',
  'coupling-class-unknown',
  'unknown-code',
  'fixed-level',
  'unknown-level',
  'level-without-reason',
  'level-stated-twice',
]);

/** What the evaluation of one declaration has come upon. */
interface Notes {
  /** What has been reported where; a look-up, because a damaged file may have a finding for every line. */
  readonly said: Set<string>;
  readonly leftOut: Location[];
}

const notes = new WeakMap<readonly Finding[], Notes>();

function notesOf({ findings }: Scope): Notes {
  let known = notes.get(findings);
  if (known === undefined) {
    known = { said: new Set(), leftOut: [] };
    notes.set(findings, known);
  }
  return known;
}

/** Notes that what stands at a place cannot be counted; the error that is the reason is reported where it is. */
export function leaveOut(scope: Scope, location: Location): void {
  notesOf(scope).leftOut.push(location);
}

/** The places of all that had to be left out so far: of errors here, in inherited lines and in what lines name. */
export function leftOutOf(scope: Scope): readonly Location[] {
  return notesOf(scope).leftOut;
}

/** Notes something that had to be taken because the file does not say it. */
export function assume(scope: Scope, text: string, basis: string, location: Location, general = false): void {
  scope.assumptions.push({ text, basis, location, ...(general ? { general } : {}) });
}
