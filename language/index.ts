/** The whole public face of the language. Pure: no input or output, never throws on what an author wrote. */

export { CATALOGUE, type CatalogueKey } from './diagnostics/catalogue.ts';
export type { DiagnosticDefinition } from './diagnostics/define.ts';
export type { Severity } from './diagnostics/finding.ts';
export { analyse, completeDiagnostics } from './semantics/analyse.ts';
export type {
  AbsoluteLocation,
  Analysis,
  Diagnostic,
  Entity,
  PlacedEntity,
  Workspace,
  WorkspaceDocument,
} from './semantics/analysis.ts';
export { MOST_DIAGNOSTICS } from './semantics/analysis.ts';
export { usedDocuments } from './semantics/name-index.ts';
export type { Computed, RigResult, StateResult } from './semantics/state.ts';
export {
  type DocumentSyntax,
  type Edit,
  editDocument,
  LONGEST_DOCUMENT,
  openDocument,
  updateDocument,
} from './syntax/document.ts';
