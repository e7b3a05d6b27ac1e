import type * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions, State, TransportKind } from 'vscode-languageclient/node';
import type { InitializationOptions } from '../server/protocol.ts';
import { createCrashPolicy } from './crash-policy.ts';
import { serveFiles } from './file-access.ts';
import { DIAGNOSTIC_PAGES } from './pages.ts';
import { reportFailure, type ServerState } from './server-status.ts';

/** The one language server of this window: at most one process is wanted at any time. */
export interface ServerSession {
  /** Starts the server, after ending the present one if there is one. Rejects when it does not start. */
  restart(): Promise<void>;
  /** Ends the server; resolves also when it had to be abandoned. */
  stop(): Promise<void>;
  /** The server's process, while there is one. */
  processId(): number | undefined;
}

export interface SessionOptions {
  /** Path of the server bundle. It runs on VS Code's own Node. */
  readonly serverModule: string;
  readonly output: vscode.LogOutputChannel;
  readonly onState: (state: ServerState) => void;
}

const STATES: Readonly<Record<State, ServerState>> = {
  [State.Starting]: 'starting',
  [State.Running]: 'running',
  [State.Stopped]: 'stopped',
  [State.StartFailed]: 'failed',
};

export function createServerSession({ serverModule, output, onState }: SessionOptions): ServerSession {
  let current: LanguageClient | undefined;
  let ending: Promise<unknown> = Promise.resolve();

  function createClient(): LanguageClient {
    let gaveUp = false;
    const initializationOptions: InitializationOptions = { fileAccess: true, diagnosticPages: DIAGNOSTIC_PAGES };
    const options: LanguageClientOptions = {
      // The workspace file too: what is written there holds before it is saved.
      documentSelector: [{ language: 'rig' }, { pattern: '**/rigwright.json' }],
      outputChannel: output,
      initializationOptions,
      diagnosticPullOptions: { onChange: true },
      errorHandler: createCrashPolicy({
        isRunning: () => client.state === State.Running,
        onGiveUp: (reason) => {
          gaveUp = true;
          void reportFailure(reason, output);
        },
      }),
    };
    const run = { module: serverModule, transport: TransportKind.ipc };
    const debug = { ...run, options: { execArgv: ['--nolazy', '--inspect=6009'] } };
    const client = new LanguageClient('rigwright', 'Rigwright', { run, debug }, options);
    serveFiles(client);
    client.onDidChangeState(({ newState }) => {
      if (client === current) onState(gaveUp ? 'failed' : STATES[newState]);
    });
    return client;
  }

  /** A server that has not answered `initialize` cannot be asked to stop, so it is ended from outside. */
  async function end(client: LanguageClient): Promise<void> {
    if (client.state === State.Starting) client.serverProcess?.kill();
    if (client.state !== State.Running) return;
    await client.stop().catch((error: unknown) => output.warn(`The language server did not stop cleanly: ${error}`));
  }

  function stop(): Promise<void> {
    const client = current;
    current = undefined;
    ending = Promise.all([ending, client && end(client)]);
    onState('stopped');
    return ending.then(() => undefined);
  }

  return {
    restart: async () => {
      await stop();
      // Of two restarts at once, the first creates the client and the second waits for the same start.
      current ??= createClient();
      await current.start();
    },
    stop,
    processId: () => current?.serverProcess?.pid,
  };
}
