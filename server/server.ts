import {
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  PositionEncodingKind,
  ResponseError,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { WORKSPACE_FILE } from '../language/levels/workspace-file-name.ts';
import type { ReadDisk } from './access.ts';
import { clientFeatures, workspaceFolders } from './client-features.ts';
import { HANDLERS } from './handlers/index.ts';
import type { Defer } from './idle.ts';
import { createSession, type Session } from './session.ts';
import { keyOf } from './uris.ts';

/** What differs between a process and a web worker. */
export interface Environment {
  readonly defer: Defer;
  /** Where there is a file system. */
  readonly disk?: ReadDisk;
  /** URI of the folder with the pages of codes, where there is one beside the server. */
  readonly diagnosticPages?: string;
}

/** Serves one client over the connection until it says `exit`. */
export function startServer(connection: Connection, environment: Environment): void {
  let session: Session | undefined;
  let isStopped = false;

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    const features = clientFeatures(params, environment.diagnosticPages);
    session = createSession(connection, environment, features, workspaceFolders(params));
    const capabilities: ServerCapabilities = {
      positionEncoding: PositionEncodingKind.UTF16,
      textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
      workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
    };
    for (const handler of HANDLERS) Object.assign(capabilities, handler.capabilities(features));
    return { capabilities, serverInfo: { name: 'Rigwright' } };
  });

  connection.onInitialized(() => {
    // The answer to `initialize` is out; the language is loaded while the client prepares the first document.
    environment.defer(() => session?.warmUp());
    if (session?.features.watchesFiles) {
      connection.client
        .register(DidChangeWatchedFilesNotification.type, {
          watchers: [{ globPattern: '**/*.rig' }, { globPattern: `**/${WORKSPACE_FILE}` }],
        })
        .catch((error: unknown) => connection.console.error(`Files are not watched: ${error}`));
    }
    if (session?.features.tellsSettings) {
      connection.client
        .register(DidChangeConfigurationNotification.type, { section: 'rigwright' })
        .catch((error: unknown) => connection.console.error(`Settings are not followed: ${error}`));
    }
    if (session?.features.changesFolders) {
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => session?.changeFolders(added, removed));
    }
  });

  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => session?.open(uri, version, text));
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) =>
    session?.change(uri, version, contentChanges),
  );
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => session?.close(uri));
  connection.onDidChangeConfiguration(({ settings }) => session?.changeSettings(settings));
  connection.onDidChangeWatchedFiles(({ changes }) => session?.filesChanged(changes.map(({ uri }) => keyOf(uri))));

  for (const handler of HANDLERS) {
    handler.listen(connection, (definition, params, token) => {
      if (!session) return new ResponseError(ErrorCodes.ServerNotInitialized, 'not initialized');
      if (isStopped) return new ResponseError(ErrorCodes.InvalidRequest, 'shut down');
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
      return session.respond(definition, params, token);
    });
  }

  connection.onShutdown(() => {
    isStopped = true;
    session?.stop();
  });
  connection.listen();
}
