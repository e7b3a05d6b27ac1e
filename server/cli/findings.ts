import type { Severity } from '../../language/diagnostics/finding.ts';
import { completeDiagnostics } from '../../language/index.ts';
import type { StatedLevel } from '../../language/levels/level.ts';
import type { Analysis, Diagnostic } from '../../language/semantics/analysis.ts';
import { counted } from './text.ts';
import type { CheckedDocument, CheckedWorkspace } from './workspace.ts';

export const SEVERITIES = ['error', 'warning', 'information'] as const satisfies readonly Severity[];

/** A diagnostic and the file it is about. */
export interface FoundDiagnostic {
  readonly document: CheckedDocument;
  readonly diagnostic: Diagnostic;
}

/** How many diagnostics there are of each severity, and in how many files. */
export interface Tally {
  readonly error: number;
  readonly warning: number;
  readonly information: number;
  /** Files that have any. */
  readonly files: number;
}

/** Says how many diagnostics of a file are not among those given; it is never filtered out. */
const REST: Diagnostic['key'] = 'more-diagnostics';

/** The diagnostics of every file of the workspace, at least as severe as `level`; those of workspace files first. */
export function findDiagnostics(workspace: CheckedWorkspace, level: Severity = 'information'): FoundDiagnostic[] {
  const shown = SEVERITIES.slice(0, SEVERITIES.indexOf(level) + 1);
  const settings = workspace.settings.flatMap(({ document, diagnostics }) =>
    diagnostics.map((diagnostic) => ({ document, diagnostic })),
  );
  const files = [...workspace.documents.values()].flatMap((document) => diagnosticsOf(workspace.analysis, document));
  return [...settings, ...files].filter(
    ({ diagnostic: { severity, key } }) => shown.includes(severity) || key === REST,
  );
}

/** A finding of a rule that somebody turned off. */
export interface FoundTurnedOff extends FoundDiagnostic {
  readonly level: StatedLevel;
}

/** What the rules found in the files of the workspace that is turned off, whatever its severity. */
export function findTurnedOff({ analysis, documents }: CheckedWorkspace): FoundTurnedOff[] {
  return [...documents.values()].flatMap((document) => {
    completeDiagnostics(analysis, document.uri); // findings on stability are there only then
    return analysis.turnedOff(document.uri).map(({ diagnostic, level }) => ({ document, diagnostic, level }));
  });
}

function diagnosticsOf(analysis: Analysis, document: CheckedDocument): FoundDiagnostic[] {
  return completeDiagnostics(analysis, document.uri).map((diagnostic) => ({ document, diagnostic }));
}

export function tally(found: readonly FoundDiagnostic[]): Tally {
  const of = (wanted: Severity): number =>
    found.filter(({ diagnostic: { severity, key } }) => severity === wanted && key !== REST).length;
  return {
    error: of('error'),
    warning: of('warning'),
    information: of('information'),
    files: new Set(found.map(({ document }) => document.uri)).size,
  };
}

/** `3 errors, 1 warning in 2 files (7 checked)`. */
export function summaryLine(found: readonly FoundDiagnostic[], checked: number): string {
  const { error, warning, information, files } = tally(found);
  const parts = [
    ...(error > 0 ? [counted(error, 'error')] : []),
    ...(warning > 0 ? [counted(warning, 'warning')] : []),
    ...(information > 0 ? [`${information} information`] : []),
  ];
  if (parts.length === 0) return `no errors and no warnings in ${counted(checked, 'file')}`;
  const rest = found.some(({ diagnostic }) => diagnostic.key === REST) ? ', and more that are not shown' : '';
  return `${parts.join(', ')} in ${counted(files, 'file')}${files === checked ? '' : ` (${checked} checked)`}${rest}`;
}

/**
 * What keeps the errors found from being those expected, one sentence for each file; none when exactly the files whose
 * URIs are given have errors.
 */
export function unexpected(
  workspace: CheckedWorkspace,
  found: readonly FoundDiagnostic[],
  expected: ReadonlySet<string>,
): string[] {
  const errors = found.filter(({ diagnostic }) => diagnostic.severity === 'error');
  const wrong = new Set(errors.map(({ document }) => document.uri));
  const documents = [...workspace.documents.values()];
  const settings = workspace.settings.filter(({ document }) => wrong.has(document.uri));
  if (!documents.some(({ uri }) => expected.has(uri))) return ['none of the files with expected errors was checked'];
  const surprises = settings.map(({ document: { name } }) => `${name}: has unexpected errors`);
  const others = documents.flatMap(({ uri, name }) => {
    if (expected.has(uri) === wrong.has(uri)) return [];
    return [`${name}: ${expected.has(uri) ? 'errors are expected here, and there are none' : 'has unexpected errors'}`];
  });
  return [...surprises, ...others];
}
