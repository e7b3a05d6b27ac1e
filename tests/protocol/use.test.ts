import { symlinkSync } from 'node:fs';
import { mkdir, rm } from 'node:fs/promises';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Client, type ClientOptions, errorsIn, messagesIn, pause, positionOf, startClient } from './client.ts';
import { createFolder, DELIVERY, type Folder, ITEMS } from './yard.ts';

const OTHER_ITEMS = ITEMS.replace('item toolbox', 'item toolcase');
/** The file type of a change as the protocol numbers it. */
const CHANGE = { created: 1, changed: 2, deleted: 3 } as const;

let client: Client;
let folder: Folder;

const start = async (options: ClientOptions = {}): Promise<void> => {
  client = await startClient({ initialize: { workspaceFolders: [{ uri: folder.uri, name: 'yard' }] }, ...options });
};

const withErrors = (uri: string): ReturnType<Client['diagnostics']> =>
  client.diagnostics(uri, ({ diagnostics }) => errorsIn(diagnostics).length > 0);

/** Error messages of a document as they were published last. */
const lastErrors = (uri: string): string[] =>
  messagesIn(errorsIn(client.published.filter((one) => one.uri === uri).at(-1)?.diagnostics ?? []));

const watched = (uri: string, type: keyof typeof CHANGE): Promise<void> =>
  client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type: CHANGE[type] }] });

beforeEach(() => {
  folder = createFolder();
});
afterEach(async () => {
  expect(client.faults).toEqual([]);
  expect(await client.stop()).toBe(0);
  await folder.remove();
});

describe('files that a document uses', () => {
  it('are read from disk, before anything is published', async () => {
    await folder.write('items.rig', ITEMS);
    await start();
    await client.open(folder.uriOf('delivery.rig'), DELIVERY);
    await client.quiet();
    expect(client.published).toHaveLength(1);
    expect(lastErrors(folder.uriOf('delivery.rig'))).toEqual([]);
  });

  it('are taken from memory when they are open, with edits that are not saved', async () => {
    const [delivery, items] = [folder.uriOf('delivery.rig'), await folder.write('items.rig', ITEMS)];
    await start();
    await client.open(delivery, DELIVERY);
    await client.open(items, OTHER_ITEMS);
    expect(errorsIn(await withErrors(delivery))[0]?.message).toContain('toolbox');
    await client.close(items);
    await client.quiet();
    expect(lastErrors(delivery), 'closing brings back what is on disk').toEqual([]);
  });

  it('are read again when they changed on disk while they were open and were closed right after', async () => {
    const [delivery, items] = [folder.uriOf('delivery.rig'), await folder.write('items.rig', ITEMS)];
    await start();
    await client.open(delivery, DELIVERY);
    await client.diagnostics(delivery);
    await folder.write('items.rig', OTHER_ITEMS);
    // In one go, so that the server looks at nothing in between.
    client.burst([
      {
        method: 'textDocument/didOpen',
        params: { textDocument: { uri: items, languageId: 'rig', version: 1, text: ITEMS } },
      },
      { method: 'workspace/didChangeWatchedFiles', params: { changes: [{ uri: items, type: CHANGE.changed }] } },
      { method: 'textDocument/didClose', params: { textDocument: { uri: items } } },
    ]);
    await expect.poll(() => lastErrors(delivery).join()).toContain('toolbox');
  });

  it('reach through other files', async () => {
    const delivery = folder.uriOf('delivery.rig');
    await folder.write('items.rig', 'use "more/tools.rig"\n');
    const tools = await folder.write('more/tools.rig', 'use "../items.rig"\n');
    await start();
    await client.open(delivery, DELIVERY);
    await client.diagnostics(delivery);
    await client.open(tools, `use "../items.rig"\n${ITEMS}`);
    await client.open(folder.uriOf('unrelated.rig'), ITEMS);
    await client.quiet();
    expect(client.published.filter(({ uri }) => uri === folder.uriOf('unrelated.rig'))).toHaveLength(1);
    const before = client.published.length;
    await client.change(tools, 2, { text: 'use "../items.rig"\n' });
    await client.quiet();
    expect(client.published.slice(before).map(({ uri }) => uri)).not.toContain(folder.uriOf('unrelated.rig'));
  });

  it.each(['Höfe & (alte) Wagen', "it's 100 % [new] + more", 'a=b;c@d,e$f!'])(
    'are found in a folder called %s',
    async (name) => {
      const delivery = folder.uriOf('delivery.rig');
      const items = await folder.write(`${name}/items.rig`, ITEMS);
      await start();
      await client.open(delivery, DELIVERY.replace('items.rig', `${name}/items.rig`));
      await client.quiet();
      expect(lastErrors(delivery)).toEqual([]);
      // Editors encode more characters than a URI needs to have encoded.
      const encoded = items.replace(
        /[&()'!*+,;=@$[\]]/g,
        (found) => `%${found.charCodeAt(0).toString(16).toUpperCase()}`,
      );
      await client.open(encoded, OTHER_ITEMS);
      await expect.poll(() => lastErrors(delivery).join()).toContain('toolbox');
    },
  );

  it('are read again when they change, vanish and come back', async () => {
    const [delivery, items] = [folder.uriOf('delivery.rig'), await folder.write('items.rig', ITEMS)];
    await start();
    await client.open(delivery, DELIVERY);
    await client.diagnostics(delivery);
    await folder.write('items.rig', OTHER_ITEMS);
    await watched(items, 'changed');
    await expect.poll(() => lastErrors(delivery).join()).toContain('toolbox');
    await rm(path.join(folder.path, 'items.rig'));
    await watched(items, 'deleted');
    await expect.poll(() => lastErrors(delivery).join()).toContain('items.rig');
    await folder.write('items.rig', ITEMS);
    await watched(items, 'created');
    await expect.poll(() => lastErrors(delivery)).toEqual([]);
  });

  it('are reported where they are used when they are missing', async () => {
    await start();
    await client.open(folder.uriOf('delivery.rig'), DELIVERY);
    const errors = errorsIn(await withErrors(folder.uriOf('delivery.rig')));
    expect(errors.some(({ range }) => range.start.line === positionOf(DELIVERY, 'use').line)).toBe(true);
  });

  it('may use each other', async () => {
    const delivery = folder.uriOf('delivery.rig');
    await folder.write('items.rig', `use "delivery.rig"\n${ITEMS}`);
    await start();
    await client.open(delivery, DELIVERY);
    await client.open(folder.uriOf('self.rig'), 'use "self.rig"\n');
    await client.diagnostics(delivery);
    const [cycle] = await client.diagnostics(folder.uriOf('self.rig'));
    expect(cycle?.range.start.line).toBe(0);
  });
});

describe('files outside the workspace', () => {
  /** The yard is a folder in a folder; what lies beside it is outside. */
  const startInside = (): Promise<void> =>
    start({ initialize: { workspaceFolders: [{ uri: folder.uriOf('yard'), name: 'yard' }] } });
  const delivery = (): string => folder.uriOf('yard/delivery.rig');

  it('are not read by a path that climbs out', async () => {
    await folder.write('items.rig', ITEMS);
    await startInside();
    await client.open(delivery(), DELIVERY.replace('items.rig', '../items.rig'));
    expect(
      messagesIn(errorsIn(await withErrors(delivery())))
        .join()
        .includes('toolbox'),
    ).toBe(true);
  });

  it('are not read through a symbolic link', async () => {
    await folder.write('outside/items.rig', ITEMS);
    await mkdir(path.join(folder.path, 'yard'));
    symlinkSync(path.join(folder.path, 'outside'), path.join(folder.path, 'yard', 'link'));
    await startInside();
    await client.open(delivery(), DELIVERY.replace('items.rig', 'link/items.rig'));
    expect(
      messagesIn(errorsIn(await withErrors(delivery())))
        .join()
        .includes('toolbox'),
    ).toBe(true);
  });

  it('are read beside the document when there is no workspace', async () => {
    await folder.write('yard/items.rig', ITEMS);
    await start({ initialize: {} });
    await client.open(delivery(), DELIVERY);
    await client.quiet();
    expect(lastErrors(delivery())).toEqual([]);
  });

  it('come within reach when their folder is added', async () => {
    await folder.write('items.rig', ITEMS);
    await start({
      capabilities: { workspace: { workspaceFolders: true } },
      initialize: { workspaceFolders: [{ uri: folder.uriOf('yard'), name: 'yard' }] },
    });
    await client.open(delivery(), DELIVERY.replace('items.rig', '../items.rig'));
    await withErrors(delivery());
    await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [{ uri: folder.uri, name: 'all' }], removed: [] },
    });
    await expect.poll(() => lastErrors(delivery())).toEqual([]);
  });
});

describe('files on a file system that only the client knows', () => {
  const YARD = 'memory://host/yard';
  const DOCUMENT = `${YARD}/delivery.rig`;
  const asked: string[] = [];

  const startVirtual = async (answer: (uri: string) => Promise<unknown>): Promise<void> => {
    asked.length = 0;
    await start({
      initialize: { workspaceFolders: [{ uri: YARD, name: 'yard' }], initializationOptions: { fileAccess: true } },
      prepare: (connection) => {
        connection.onRequest('rigwright/readFile', ({ uri }: { uri: string }) => {
          if (uri.endsWith('/rigwright.json')) return null;
          asked.push(uri);
          return answer(uri);
        });
      },
    });
  };

  it('are asked of the client', async () => {
    await startVirtual(async () => ({ text: ITEMS }));
    await client.open(DOCUMENT, DELIVERY);
    await client.quiet();
    expect(asked).toEqual([`${YARD}/items.rig`]);
    expect(lastErrors(DOCUMENT)).toEqual([]);
  });

  it('are not called missing while the client is still reading', async () => {
    await startVirtual(async () => {
      await pause(300);
      return { text: ITEMS };
    });
    await client.open(DOCUMENT, DELIVERY);
    await client.change(DOCUMENT, 2, { text: `${DELIVERY}\n` });
    const diagnostics = await client.diagnostics(DOCUMENT);
    expect(errorsIn(diagnostics)).toEqual([]);
    expect(client.published.map(({ version }) => version)).toEqual([2]);
    expect(asked).toHaveLength(1);
  });

  it.each([
    ['has none', async () => null],
    ['fails', () => Promise.reject(new Error('out of order'))],
  ])('are reported where they are used when the client %s', async (_, answer) => {
    await startVirtual(answer);
    await client.open(DOCUMENT, DELIVERY);
    const errors = errorsIn(await withErrors(DOCUMENT));
    expect(errors.some(({ range }) => range.start.line === 0)).toBe(true);
  });

  it('are not asked for outside the workspace', async () => {
    await startVirtual(async () => ({ text: ITEMS }));
    await client.open(DOCUMENT, DELIVERY.replace('items.rig', '../items.rig'));
    await withErrors(DOCUMENT);
    expect(asked).toEqual([]);
  });
});
