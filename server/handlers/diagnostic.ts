import { DocumentDiagnosticRequest } from 'vscode-languageserver';
import { toDiagnosticReport } from '../convert.ts';
import { defineHandler } from './handler.ts';

/** Offered only to clients that pull: those that do not get the same diagnostics pushed. */
export const diagnostic = defineHandler({
  type: DocumentDiagnosticRequest.type,
  capabilities: ({ pullsDiagnostics }) =>
    pullsDiagnostics ? { diagnosticProvider: { interFileDependencies: true, workspaceDiagnostics: false } } : {},
  answer: ({ pullDiagnostics }, { previousResultId }) => toDiagnosticReport(pullDiagnostics(previousResultId)),
  nothing: toDiagnosticReport({ kind: 'full', items: [] }),
});
