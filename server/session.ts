import { type CancellationToken, type Connection, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { createFileAccess } from './access.ts';
import type { ClientFeatures } from './client-features.ts';
import { type SentDiagnostic, toDiagnostics } from './convert.ts';
import { createDiagnosticsFeed } from './diagnostics.ts';
import { changeDocument, type OpenDocument, openDocumentIn, type TextChange } from './documents.ts';
import type { RequestContext, Respond } from './handlers/handler.ts';
import { createIdleTask } from './idle.ts';
import { loadLanguage } from './language.ts';
import { createLevelSources, type LevelSources } from './levels.ts';
import { createOpenWorkspaceFiles } from './open-workspace-files.ts';
import type { ClientRequests } from './protocol.ts';
import type { Environment } from './server.ts';
import { keyOf } from './uris.ts';
import { createWorkspace, type Workspace } from './workspace.ts';

interface Folder {
  readonly uri: string;
}

/** What the server does between `initialize` and `shutdown`. Nothing in it throws or rejects because of what a client sends. */
export interface Session {
  readonly features: ClientFeatures;
  readonly respond: Respond;
  /** Loads the language before it is needed. */
  warmUp(): void;
  open(uri: string, version: number, text: string): void;
  change(uri: string, version: number, changes: readonly TextChange[]): void;
  close(uri: string): void;
  /** Files on disk, by key, were created, changed or deleted. */
  filesChanged(keys: readonly string[]): void;
  changeFolders(added: readonly Folder[], removed: readonly Folder[]): void;
  /** The client's settings changed; `settings` is what it sent of them. */
  changeSettings(settings: unknown): void;
  stop(): void;
}

/** A typist's next key comes later than this, and the second publication still follows within a frame. */
export const SETTLING_PAUSE_MS = 8;

export function createSession(
  connection: Connection,
  { defer, disk }: Environment,
  features: ClientFeatures,
  initialFolders: readonly string[],
): Session {
  let folders = initialFolders;
  let isStopped = false;
  let workspace: Workspace | undefined;
  let levels: LevelSources | undefined;
  let loading: Promise<Workspace> | undefined;
  const documents = new Map<string, OpenDocument>();
  /** Documents that the client changed, by key, since diagnostics were last looked at. */
  const changed = new Set<string>();
  /** Documents some of whose rigs have been looked at for stability since their diagnostics were given. */
  const settling = new Set<string>();
  let settlingTimer: ReturnType<typeof setTimeout> | undefined;

  const workspaceFiles = createOpenWorkspaceFiles((key) => levels?.fileChanged(key));
  const read = createFileAccess({
    folders: () => folders,
    openDocuments: () => documents.keys(),
    disk,
    client: features.fileAccess ? readFromClient : undefined,
  });

  async function readFromClient(uri: string): Promise<string | undefined> {
    const params: ClientRequests['rigwright/readFile']['params'] = { uri };
    const result: ClientRequests['rigwright/readFile']['result'] = await connection.sendRequest(
      'rigwright/readFile',
      params,
    );
    return result?.text;
  }

  const feed = createDiagnosticsFeed({
    documents,
    diagnose,
    push: features.pullsDiagnostics
      ? undefined
      : (uri, diagnostics, version) => ignoreResult(connection.sendDiagnostics({ uri, version, diagnostics })),
    refresh: features.refreshesDiagnostics
      ? () => ignoreResult(connection.sendRequest('workspace/diagnostic/refresh'))
      : undefined,
  });

  function diagnose({ key, lines }: OpenDocument, { analysis, lines: linesOf }: Workspace): SentDiagnostic[] {
    return toDiagnostics(analysis().diagnostics(key), lines, linesOf, features);
  }

  function logFault(error: unknown): void {
    connection.console.error(error instanceof Error ? (error.stack ?? error.message) : String(error));
  }

  /** What a malformed notification makes fail is logged, and the notification ignored. */
  function attempt<Parameters extends readonly unknown[]>(handle: (...parameters: Parameters) => void) {
    return (...parameters: Parameters): void => {
      try {
        handle(...parameters);
      } catch (error) {
        logFault(error);
      }
    };
  }

  function ignoreResult(sending: Promise<unknown>): void {
    sending.catch(logFault);
  }

  /** One document at a time, so that a new edit is never behind the diagnostics of other documents. */
  const publishing = createIdleTask(defer, () => {
    if (!isStopped) loadWorkspace().then(publishOne).catch(logFault);
  });

  function publishOne(loaded: Workspace): void {
    for (const key of changed) {
      const readers = loaded.readers(key).filter((reader) => reader !== key);
      // A client that pulls asks for the diagnostics of what it changed by itself.
      feed.touch(features.pullsDiagnostics ? readers : [key, ...readers]);
    }
    changed.clear();
    try {
      feed.step(loaded);
    } finally {
      if (feed.hasWork(loaded)) publishing.request();
      else settleLater(loaded, SETTLING_PAUSE_MS);
    }
  }

  /** Stability waits for a short quiet, and each rig for the messages that have come: an edit is never behind it. */
  function settleLater(loaded: Workspace, pause: number): void {
    clearTimeout(settlingTimer);
    settlingTimer = setTimeout(() => {
      try {
        if (!isStopped) settleOne(loaded);
      } catch (error) {
        logFault(error);
      }
    }, pause);
  }

  /**
   * Looks for what takes longer in one more declaration of an open document; when all have been looked at, the document's
   * diagnostics are given a second time.
   */
  function settleOne(loaded: Workspace): void {
    for (const key of documents.keys()) {
      if (!loaded.isSettled(key)) continue;
      if (loaded.analysis().settleNext(key)) {
        settling.add(key);
        settleLater(loaded, 0);
        return;
      }
      if (settling.delete(key)) {
        feed.touch([key]);
        publishing.request();
        return;
      }
    }
  }

  function loadWorkspace(): Promise<Workspace> {
    loading ??= loadLanguage().then((language) => {
      const onFileRead = (key: string): void => {
        feed.touch(loaded.readers(key));
        publishing.request();
      };
      const sources = createLevelSources({
        language,
        folders: () => folders,
        read: async (key) => workspaceFiles.read(key) ?? read(key),
        onChange: levelsChanged,
        publish: (key, diagnostics, lines) => {
          const sent = toDiagnostics(diagnostics, lines, () => lines, features);
          const uri = workspaceFiles.uriOf(key) ?? key;
          ignoreResult(connection.sendDiagnostics({ uri, diagnostics: sent }));
        },
        warn: (problem) => connection.console.warn(problem),
        ...(features.answersSettings && { askSetting }),
      });
      const loaded = createWorkspace({ language, documents, read, levels: sources, onFileRead });
      levels = sources;
      workspace = loaded;
      return loaded;
    });
    return loading;
  }

  async function askSetting(): Promise<unknown> {
    const answer: unknown = await connection.sendRequest('workspace/configuration', {
      items: [{ section: LEVELS_SETTING }],
    });
    return Array.isArray(answer) ? answer[0] : undefined;
  }

  function levelsChanged(): void {
    workspace?.invalidate();
    feed.touch([...documents.keys()]);
    publishing.request();
  }

  /** The client opened, changed or closed a document. */
  function documentChanged(key: string): void {
    clearTimeout(settlingTimer);
    workspace?.invalidate();
    changed.add(key);
    publishing.request();
  }

  const respond: Respond = async (definition, params, token) => {
    try {
      const loaded = await loadWorkspace();
      const key = keyOf(params.textDocument.uri);
      if (!loaded.isSettled(key)) await loaded.settled(key, cancelled(token));
      if (token.isCancellationRequested) return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
      const document = documents.get(key);
      if (!document) return definition.nothing;
      const context: RequestContext = {
        language: await loadLanguage(),
        analysis: loaded.analysis(),
        uri: key,
        lines: document.lines,
        linesOf: loaded.lines,
        versionOf: (wanted) => documents.get(wanted)?.version ?? null,
        features,
        pullDiagnostics: (previous) => feed.pull(document, loaded, previous),
      };
      return definition.answer(context, params);
    } catch (error) {
      logFault(error);
      return definition.nothing;
    }
  };

  return {
    features,
    respond,
    warmUp: () => {
      loadWorkspace().catch(logFault);
    },
    open: attempt((uri, version, text) => {
      if (workspaceFiles.open(uri, version, text)) return;
      documentChanged(openDocumentIn(documents, uri, version, text).key);
    }),
    change: attempt((uri, version, changes) => {
      if (workspaceFiles.change(uri, version, changes)) return;
      const document = documents.get(keyOf(uri));
      if (!document) return connection.console.warn(`Changed but not open: ${uri}`);
      changeDocument(document, version, changes);
      documentChanged(document.key);
    }),
    close: attempt((uri) => {
      if (workspaceFiles.close(uri)) return;
      const document = documents.get(keyOf(uri));
      if (!document) return;
      documents.delete(document.key);
      feed.closed(document);
      documentChanged(document.key);
    }),
    filesChanged: attempt((keys) => {
      for (const key of keys) {
        workspace?.fileChanged(key);
        levels?.fileChanged(key);
      }
    }),
    changeFolders: attempt((added, removed) => {
      const gone = new Set(removed.map(({ uri }) => keyOf(uri)));
      folders = [...folders.filter((folder) => !gone.has(folder)), ...added.map(({ uri }) => keyOf(uri))];
      workspace?.foldersChanged();
      levels?.foldersChanged();
      feed.touch([...documents.keys()]);
      publishing.request();
    }),
    changeSettings: attempt((settings) => {
      levels?.settingsChanged(features.answersSettings ? askSetting() : settingIn(settings));
    }),
    stop: () => {
      isStopped = true;
      clearTimeout(settlingTimer);
    },
  };
}

const cancelled = (token: CancellationToken): Promise<void> =>
  new Promise((resolve) => {
    token.onCancellationRequested(() => resolve());
  });

const SECTION = 'rigwright';
const LEVELS_SETTING = `${SECTION}.levels`;

/** The setting among those that a client sends unasked: `{ "rigwright": { "levels": { … } } }`. */
function settingIn(settings: unknown): unknown {
  const section = memberOf(settings, SECTION);
  return memberOf(section, 'levels');
}

function memberOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? new Map(Object.entries(value)).get(name) : undefined;
}
