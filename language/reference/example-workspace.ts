import type { CatalogueKey } from '../diagnostics/catalogue.ts';
import { readWorkspaceFile } from '../levels/workspace-file.ts';
import { analyse, completeDiagnostics } from '../semantics/analyse.ts';
import type { Diagnostic, WorkspaceDocument } from '../semantics/analysis.ts';
import { LONGEST_DOCUMENT, openDocument } from '../syntax/document.ts';

/** The name under which the examples of the catalogue are analysed. */
export const EXAMPLE_URI = 'file:///example/example.rig';

/** What stands beside an example whose diagnostic is about another file. */
const BESIDE: Readonly<Partial<Record<CatalogueKey, readonly [uri: string, document: WorkspaceDocument]>>> = {
  'file-outside': ['file:///elsewhere/items.rig', { kind: 'outside' }],
  'file-unreadable': ['file:///example/unreadable.rig', { kind: 'unreadable' }],
};

/** Entries about the workspace file, whose examples are such files. */
const OF_WORKSPACE_FILE: ReadonlySet<CatalogueKey> = new Set(['unreadable-settings', 'unexpected-setting']);

/** Whether the example of an entry is a workspace file, not a file of the language. */
export function isWorkspaceFile(key: CatalogueKey): boolean {
  return OF_WORKSPACE_FILE.has(key);
}

/** The example of an entry; one that is too long to be kept is made up. */
export function exampleText(key: CatalogueKey, example: string): string {
  if (key !== 'file-too-long') return example;
  const line = 'item awning 38 kg\n';
  return line.repeat(Math.floor(LONGEST_DOCUMENT / line.length) + 1);
}

/** Diagnostics of an example's text, or of its mended form, with what has to stand beside it. */
export function exampleDiagnostics(key: CatalogueKey, text: string): readonly Diagnostic[] {
  if (isWorkspaceFile(key)) return readWorkspaceFile(text).diagnostics;
  const documents = new Map<string, WorkspaceDocument>([[EXAMPLE_URI, { kind: 'text', syntax: openDocument(text) }]]);
  const beside = BESIDE[key];
  if (beside !== undefined) documents.set(...beside);
  return completeDiagnostics(analyse({ documents }), EXAMPLE_URI);
}
