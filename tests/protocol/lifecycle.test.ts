import { spawnSync } from 'node:child_process';
import { afterEach, describe, expect, it } from 'vitest';
import { ErrorCodes } from 'vscode-languageserver/node';
import { type Client, errorsIn, startClient, startServer } from './client.ts';
import { ALONE } from './yard.ts';

const INITIALIZE = { processId: null, rootUri: null, capabilities: {} };
const HOVER = { textDocument: { uri: 'file:///a.rig' }, position: { line: 0, character: 0 } };

/** What the server may advertise, and the request that it then has to answer. */
const REQUESTS: Readonly<Record<string, string>> = {
  completionProvider: 'textDocument/completion',
  definitionProvider: 'textDocument/definition',
  diagnosticProvider: 'textDocument/diagnostic',
  documentSymbolProvider: 'textDocument/documentSymbol',
  hoverProvider: 'textDocument/hover',
};

describe('the life of the server', () => {
  let client: Client | undefined;
  afterEach(() => {
    client?.process.kill();
    client = undefined;
  });

  it('advertises what it answers', async () => {
    client = await startClient({ capabilities: { textDocument: { diagnostic: {} } } });
    const { capabilities } = client.initialized;
    const providers = Object.keys(capabilities).filter((key) => key.endsWith('Provider'));
    expect(providers.sort()).toEqual(Object.keys(REQUESTS));
    expect(capabilities.positionEncoding).toBe('utf-16');
    expect(capabilities.textDocumentSync).toEqual({ openClose: true, change: 2 });
    for (const method of Object.values(REQUESTS)) {
      await expect(client.connection.sendRequest(method, HOVER)).resolves.toBeDefined();
    }
  });

  it('does not offer pull diagnostics to a client that does not pull', async () => {
    client = await startClient();
    expect(client.initialized.capabilities.diagnosticProvider).toBeUndefined();
  });

  it('asks a client that can watch files to watch those of the language', async () => {
    const asked: unknown[] = [];
    client = await startClient({
      capabilities: { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } },
      prepare: (connection) => {
        connection.onRequest('client/registerCapability', (params) => {
          asked.push(params);
          return null;
        });
      },
    });
    await client.quiet();
    expect(asked).toMatchObject([
      {
        registrations: [
          {
            method: 'workspace/didChangeWatchedFiles',
            registerOptions: { watchers: [{ globPattern: '**/*.rig' }, { globPattern: '**/rigwright.json' }] },
          },
        ],
      },
    ]);
  });

  it('answers unknown requests with an error and ignores unknown notifications', async () => {
    client = await startClient();
    await client.connection.sendNotification('rigwright/noSuchThing', {});
    await expect(client.connection.sendRequest('textDocument/noSuchThing', HOVER)).rejects.toMatchObject({
      code: ErrorCodes.MethodNotFound,
    });
    await expect(client.connection.sendRequest('textDocument/hover', HOVER)).resolves.toBeNull();
  });

  it('takes no requests before initialize and none after shutdown', async () => {
    const { connection, process, exited } = startServer();
    try {
      await expect(connection.sendRequest('textDocument/hover', HOVER)).rejects.toMatchObject({
        code: ErrorCodes.ServerNotInitialized,
      });
      await connection.sendRequest('initialize', INITIALIZE);
      await connection.sendRequest('shutdown');
      await expect(connection.sendRequest('textDocument/hover', HOVER)).rejects.toMatchObject({
        code: ErrorCodes.InvalidRequest,
      });
      await connection.sendNotification('exit');
      expect(await exited).toBe(0);
    } finally {
      process.kill();
    }
  });

  it('ends with code 1 when the client says exit without shutdown, or goes away', async () => {
    for (const end of ['exit', 'close'] as const) {
      const { connection, process, exited } = startServer();
      await connection.sendRequest('initialize', INITIALIZE);
      if (end === 'exit') await connection.sendNotification('exit');
      else process.stdin?.end();
      expect(await exited).toBe(1);
    }
  });

  it('works over IPC too', async () => {
    client = await startClient({ transport: 'ipc' });
    await client.open('file:///alone.rig', ALONE.replace('stow toolbox', 'stow toolbax'));
    const [error] = errorsIn(await client.diagnostics('file:///alone.rig'));
    expect(error?.message).toContain('toolbax');
    expect(await client.stop()).toBe(0);
  });

  it('says what is missing when it is started without a transport', () => {
    const { status, stderr } = spawnSync(process.execPath, ['dist/server.js'], { encoding: 'utf8', timeout: 10_000 });
    expect(status).not.toBe(0);
    expect(stderr).toContain('--stdio');
  });
});
