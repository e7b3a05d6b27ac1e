/** A language client of the tests: it starts the built server as a process and speaks to it over stdio. */

import { type ChildProcess, fork, spawn } from 'node:child_process';
import { once } from 'node:events';
import path from 'node:path';
import {
  type ClientCapabilities,
  createProtocolConnection,
  type Diagnostic,
  type InitializeParams,
  type InitializeResult,
  IPCMessageReader,
  IPCMessageWriter,
  type Position,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type Range,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';

const SERVER = path.resolve('dist/server.js');
const TIMEOUT_MS = 15_000;

export interface Message {
  readonly method: string;
  readonly params: unknown;
  readonly id?: number | string;
}

export interface ClientOptions {
  readonly capabilities?: ClientCapabilities;
  readonly initialize?: Partial<InitializeParams>;
  readonly transport?: 'stdio' | 'ipc';
  /** Called before `initialize` is sent, to answer requests of the server. */
  readonly prepare?: (connection: ProtocolConnection) => void;
}

export interface Client {
  readonly connection: ProtocolConnection;
  readonly process: ChildProcess;
  readonly initialized: InitializeResult;
  /** All diagnostics published so far, oldest first. */
  readonly published: readonly PublishDiagnosticsParams[];
  /** What the server logged as errors. */
  readonly faults: readonly string[];
  open(uri: string, text: string, version?: number): Promise<void>;
  /** Incremental changes in one notification; a change without a range replaces the whole text. */
  change(uri: string, version: number, ...changes: readonly Change[]): Promise<void>;
  close(uri: string): Promise<void>;
  /** Resolves with the first diagnostics of the document, already published or to come, that the condition holds for. */
  diagnostics(uri: string, condition?: (params: PublishDiagnosticsParams) => boolean): Promise<Diagnostic[]>;
  /** Resolves when the server has handled all that was sent, and published what needs no files from disk. */
  handled(): Promise<void>;
  /** The same with time to read files. */
  quiet(): Promise<void>;
  /** Writes several messages at once, so that they reach the server together. */
  burst(messages: readonly Message[]): void;
  /** Ends the server as the protocol wants it, and gives its exit code. */
  stop(): Promise<number | null>;
}

export interface Change {
  readonly range?: Range;
  readonly text: string;
}

function launch(transport: 'stdio' | 'ipc'): [ChildProcess, ProtocolConnection] {
  if (transport === 'ipc') {
    const child = fork(SERVER, ['--node-ipc'], { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
    return [child, createProtocolConnection(new IPCMessageReader(child), new IPCMessageWriter(child))];
  }
  const child = spawn(process.execPath, [SERVER, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  return [child, connection];
}

/** Starts the server without saying anything to it yet. */
export function startServer(transport: 'stdio' | 'ipc' = 'stdio') {
  const [child, connection] = launch(transport);
  const exited = once(child, 'exit').then(([code]): number | null => (typeof code === 'number' ? code : null));
  connection.listen();
  return { process: child, connection, exited };
}

/** Starts the server and does the handshake. */
export async function startClient(options: ClientOptions = {}): Promise<Client> {
  const { capabilities = {}, transport, prepare } = options;
  const { process: child, connection, exited } = startServer(transport);
  const published: PublishDiagnosticsParams[] = [];
  const faults: string[] = [];
  const listeners = new Set<() => void>();
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    published.push(params);
    for (const listener of listeners) listener();
  });
  connection.onNotification('window/logMessage', ({ type, message }: { type: number; message: string }) => {
    if (type === 1) faults.push(message);
  });
  connection.onRequest('client/registerCapability', () => null);
  prepare?.(connection);
  const params: InitializeParams = {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities,
    ...options.initialize,
  };
  const initialized = await connection.sendRequest<InitializeResult>('initialize', params);
  await connection.sendNotification('initialized', {});

  /** Diagnostics go out a few turns of the event loop after a change; each round trip is more than one. */
  async function handled(): Promise<void> {
    for (let round = 0; round < 6; round++) {
      await connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri: 'untitled:nothing' } });
    }
  }

  return {
    connection,
    process: child,
    initialized,
    published,
    faults,
    open: (uri, text, version = 1) =>
      connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'rig', version, text },
      }),
    change: (uri, version, ...contentChanges) =>
      connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges }),
    close: (uri) => connection.sendNotification('textDocument/didClose', { textDocument: { uri } }),
    diagnostics: (uri, condition = () => true) =>
      new Promise((resolve, reject) => {
        const timer = setTimeout(() => {
          listeners.delete(look);
          const last = JSON.stringify(published.filter((one) => one.uri === uri).at(-1));
          reject(new Error(`no such diagnostics for ${uri}; the last were ${last}`));
        }, TIMEOUT_MS);
        const look = (): void => {
          const found = published.find((one) => one.uri === uri && condition(one));
          if (!found) return;
          listeners.delete(look);
          clearTimeout(timer);
          resolve(found.diagnostics);
        };
        listeners.add(look);
        look();
      }),
    handled,
    quiet: async () => {
      await handled();
      await pause(50);
      await handled();
    },
    burst: (messages) => {
      child.stdin?.write(Buffer.concat(messages.map(frame)));
    },
    stop: async () => {
      await connection.sendRequest('shutdown');
      await connection.sendNotification('exit');
      const code = await exited;
      connection.dispose();
      return code;
    },
  };
}

export const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

function frame({ method, params, id }: Message): Buffer {
  const body = Buffer.from(JSON.stringify({ jsonrpc: '2.0', id, method, params }));
  return Buffer.concat([Buffer.from(`Content-Length: ${body.length}\r\n\r\n`), body]);
}

export const errorsIn = (diagnostics: readonly Diagnostic[]): Diagnostic[] =>
  diagnostics.filter(({ severity }) => severity === 1);

/** The messages, which a server may send as text or as marked-up text. */
export const messagesIn = (diagnostics: readonly Diagnostic[]): string[] =>
  diagnostics.map(({ message }) => (typeof message === 'string' ? message : message.value));

/** Position of the first occurrence of a text, or of a character further on in it. */
export function positionOf(text: string, part: string, offset = 0): Position {
  const index = text.indexOf(part);
  if (index < 0) throw new Error(`"${part}" is not in the text`);
  return positionAt(text, index + offset);
}

/** Lines end with LF, CR LF or CR, as the protocol has it. */
export function positionAt(text: string, offset: number): Position {
  const lines = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
}

/** The inverse of `positionAt`, for positions inside the text. */
export function offsetAt(text: string, { line, character }: Position): number {
  const ends = [...text.matchAll(/\r\n|\n|\r/g)].map((end) => end.index + end[0].length);
  return (line === 0 ? 0 : (ends[line - 1] ?? text.length)) + character;
}

/** The change that replaces the first occurrence of a part of the text. */
export function replacement(text: string, part: string, replaced: string): Change {
  return { range: { start: positionOf(text, part), end: positionOf(text, part, part.length) }, text: replaced };
}
