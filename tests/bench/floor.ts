/** A language server that does nothing: the same library, the same synchronisation, one fixed diagnostic for each change. */

import { createConnection, ProposedFeatures, TextDocumentSyncKind, TextDocuments } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';

const connection = createConnection(ProposedFeatures.all);
const documents = new TextDocuments(TextDocument);
connection.onInitialize(() => ({
  capabilities: {
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    hoverProvider: true,
  },
}));
connection.onHover(({ textDocument, position }) => {
  const document = documents.get(textDocument.uri);
  return document ? { contents: { kind: 'plaintext', value: String(document.offsetAt(position)) } } : null;
});
documents.onDidChangeContent(({ document: { uri, version } }) => {
  const start = { line: 0, character: 0 };
  const diagnostics = [{ range: { start, end: start }, message: 'nothing', source: 'floor' }];
  void connection.sendDiagnostics({ uri, version, diagnostics });
});
documents.listen(connection);
connection.listen();
