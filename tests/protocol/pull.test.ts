import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { DocumentDiagnosticReport } from 'vscode-languageserver/node';
import { type Client, errorsIn, replacement, startClient } from './client.ts';
import { createFolder, DELIVERY, type Folder, ITEMS } from './yard.ts';

describe('a client that pulls diagnostics', () => {
  let client: Client;
  let folder: Folder;
  let delivery: string;
  let items: string;
  let refreshes = 0;

  beforeEach(async () => {
    folder = createFolder();
    delivery = await folder.write('delivery.rig', DELIVERY);
    items = await folder.write('items.rig', ITEMS);
    refreshes = 0;
    client = await startClient({
      capabilities: {
        textDocument: { diagnostic: { relatedInformation: true } },
        workspace: { diagnostics: { refreshSupport: true } },
      },
      initialize: { workspaceFolders: [{ uri: folder.uri, name: 'yard' }] },
      prepare: (connection) => {
        connection.onRequest('workspace/diagnostic/refresh', () => {
          refreshes += 1;
          return null;
        });
      },
    });
  });
  afterEach(async () => {
    expect(client.published, 'diagnostics are not pushed as well').toEqual([]);
    expect(client.faults).toEqual([]);
    expect(await client.stop()).toBe(0);
    await folder.remove();
  });

  const pull = (uri: string, previousResultId?: string): Promise<DocumentDiagnosticReport> =>
    client.connection.sendRequest('textDocument/diagnostic', { textDocument: { uri }, previousResultId });

  async function pullFull(uri: string, previousResultId?: string) {
    const report = await pull(uri, previousResultId);
    if (report.kind !== 'full') throw new Error('a full report was expected');
    return report;
  }

  it('gets them when it asks, and "unchanged" when it has them already', async () => {
    await client.open(delivery, DELIVERY);
    const first = await pullFull(delivery);
    expect(errorsIn(first.items)).toEqual([]);
    expect(await pull(delivery, first.resultId)).toEqual({ kind: 'unchanged', resultId: first.resultId });

    await client.change(delivery, 2, replacement(DELIVERY, 'stow toolbox', 'stow toolbax'));
    const second = await pullFull(delivery, first.resultId);
    expect(errorsIn(second.items)[0]?.message).toContain('toolbax');
    expect(second.resultId).not.toBe(first.resultId);
    expect((await pullFull(delivery, first.resultId)).items, 'an older id is answered in full').toEqual(second.items);
    expect(refreshes, 'the client knows what it changed itself').toBe(0);
  });

  it('is asked to pull again when an edit elsewhere changes them, and only then', async () => {
    await client.open(delivery, DELIVERY);
    await client.open(items, ITEMS);
    const first = await pullFull(delivery);
    await pullFull(items);
    await client.change(items, 2, replacement(ITEMS, 'Steel box', 'Wooden box'));
    await client.quiet();
    expect(refreshes).toBe(0);

    await client.change(items, 3, { text: ITEMS.replace('item toolbox', 'item toolcase') });
    await client.quiet();
    expect(refreshes).toBe(1);
    const second = await pullFull(delivery, first.resultId);
    expect(errorsIn(second.items)[0]?.message).toContain('toolbox');
  });

  it('is asked to pull again when a used file changes on disk', async () => {
    await client.open(delivery, DELIVERY);
    await pullFull(delivery);
    await folder.write('items.rig', ITEMS.replace('item toolbox', 'item toolcase'));
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: items, type: 2 }] });
    await expect.poll(() => refreshes).toBe(1);
    expect(errorsIn((await pullFull(delivery)).items)[0]?.message).toContain('toolbox');
  });

  it('gets an empty report for a document that is not open', async () => {
    expect(await pull(items)).toEqual({ kind: 'full', items: [] });
    await client.open(delivery, DELIVERY);
    await client.close(delivery);
    expect(await pull(delivery)).toEqual({ kind: 'full', items: [] });
  });
});
