import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CompletionItem, DocumentSymbol, Hover, Location, SymbolInformation } from 'vscode-languageserver/node';
import { LSPErrorCodes } from 'vscode-languageserver/node';
import { type Client, positionOf, startClient } from './client.ts';
import { ALONE, createFolder, DELIVERY, type Folder, ITEMS } from './yard.ts';

const URI = 'file:///yard/alone.rig';
const AT_RIG = { textDocument: { uri: URI }, position: positionOf(ALONE, 'rig Delivery', 5) };

describe('requests', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient({
      capabilities: {
        textDocument: {
          hover: { contentFormat: ['markdown', 'plaintext'] },
          documentSymbol: { hierarchicalDocumentSymbolSupport: true },
        },
      },
    });
    await client.open(URI, ALONE);
  });
  afterEach(async () => {
    expect(client.faults).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  const request = <R>(method: string, params: object): Promise<R> => client.connection.sendRequest<R>(method, params);

  it('hover says what a name stands for', async () => {
    const hover = await request<Hover | null>('textDocument/hover', AT_RIG);
    expect(hover?.contents).toMatchObject({ kind: 'markdown', value: expect.stringMatching(/\S/) });
    expect(hover?.range?.start.line).toBe(AT_RIG.position.line);
  });

  it('no column of a hover is so narrow that a figure loses its unit', async () => {
    const { contents } = await request<Hover>('textDocument/hover', AT_RIG);
    const rows = JSON.stringify(contents)
      .split('\\n')
      .filter((line) => line.startsWith('| '));
    expect(rows.join()).toMatch(/\d\u00a0kg \|/);
    expect(rows.join()).not.toMatch(/\d (?:kg|%)/);
  });

  it('completion offers the declarations at the start of a line', async () => {
    const end = { line: ALONE.split('\n').length - 1, character: 0 };
    const items = await request<CompletionItem[]>('textDocument/completion', { ...AT_RIG, position: end });
    expect(items.map(({ label }) => label)).toContain('item');
    for (const { textEdit } of items) {
      expect(textEdit).toMatchObject({ range: { start: end, end }, newText: expect.stringMatching(/\S/) });
    }
  });

  it('definition leads to the declaration', async () => {
    const position = positionOf(ALONE, 'stow toolbox', 6);
    const [place] = await request<Location[]>('textDocument/definition', { ...AT_RIG, position });
    expect(place?.uri).toBe(URI);
    expect(place?.range.start.line).toBe(positionOf(ALONE, 'item toolbox').line);
  });

  it('symbols come as a tree that holds itself together', async () => {
    const symbols = await request<DocumentSymbol[]>('textDocument/documentSymbol', AT_RIG);
    expect(symbols.map(({ name }) => name)).toEqual(expect.arrayContaining(['YardTruck', 'Hauler', 'Delivery']));
    for (const { range, selectionRange } of symbols) {
      expect(selectionRange.start.line).toBeGreaterThanOrEqual(range.start.line);
      expect(selectionRange.end.line).toBeLessThanOrEqual(range.end.line);
    }
  });

  it('are answered for the newest version of the document', async () => {
    await client.change(URI, 2, { text: `\n\n${ALONE}` });
    const symbols = await request<DocumentSymbol[]>('textDocument/documentSymbol', AT_RIG);
    const rig = symbols.find(({ name }) => name === 'Delivery');
    expect(rig?.selectionRange.start.line).toBe(AT_RIG.position.line + 2);
  });

  it('are answered outside the text and in documents that are not open', async () => {
    for (const position of [
      { line: 100_000, character: 3 },
      { line: 2, character: 100_000 },
      { line: -5, character: -1 },
    ]) {
      await expect(request('textDocument/hover', { ...AT_RIG, position })).resolves.toBeDefined();
      await expect(request('textDocument/completion', { ...AT_RIG, position })).resolves.toBeDefined();
      await expect(request('textDocument/definition', { ...AT_RIG, position })).resolves.toBeDefined();
    }
    await client.close(URI);
    await expect(request('textDocument/hover', AT_RIG)).resolves.toBeNull();
    await expect(request('textDocument/documentSymbol', AT_RIG)).resolves.toBeNull();
  });

  it('end early when they are cancelled', async () => {
    const answers = new Map<unknown, unknown>();
    client.process.stdout?.on('data', (data: Buffer) => {
      for (const [, body] of String(data).matchAll(/(\{"jsonrpc".*?\})(?=Content-Length|$)/gs)) {
        const { id, error } = JSON.parse(body ?? '{}');
        if (id !== undefined) answers.set(id, error?.code ?? 'answered');
      }
    });
    client.burst([
      { id: 'first', method: 'textDocument/hover', params: AT_RIG },
      { id: 'second', method: 'textDocument/hover', params: AT_RIG },
      { method: '$/cancelRequest', params: { id: 'second' } },
    ]);
    await expect.poll(() => answers.get('second')).toBe(LSPErrorCodes.RequestCancelled);
    expect(answers.get('first')).toBe('answered');
  });
});

describe('a client with few abilities', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient();
    await client.open(URI, ALONE);
  });
  afterEach(() => client.stop());

  it('gets hovers as plain text', async () => {
    const hover = await client.connection.sendRequest<Hover>('textDocument/hover', AT_RIG);
    expect(hover.contents).toMatchObject({ kind: 'plaintext', value: expect.not.stringMatching(/\*\*|`|^#/m) });
  });

  it('gets symbols as a list', async () => {
    const symbols = await client.connection.sendRequest<SymbolInformation[]>('textDocument/documentSymbol', AT_RIG);
    expect(symbols.map(({ name }) => name)).toEqual(expect.arrayContaining(['YardTruck', 'Hauler', 'Delivery']));
    for (const { location } of symbols) expect(location.uri).toBe(URI);
  });
});

describe('definition in another file', () => {
  let folder: Folder;
  beforeEach(() => {
    folder = createFolder();
  });
  afterEach(() => folder.remove());

  it('leads into a file that is not open, in a folder with unusual characters', async () => {
    const items = await folder.write('Höfe & (alte) Wagen/items.rig', ITEMS);
    const delivery = folder.uriOf('Höfe & (alte) Wagen/delivery.rig');
    const client = await startClient({ initialize: { workspaceFolders: [{ uri: folder.uri, name: 'yard' }] } });
    await client.open(delivery, DELIVERY);
    const [place] = await client.connection.sendRequest<Location[]>('textDocument/definition', {
      textDocument: { uri: delivery },
      position: positionOf(DELIVERY, 'stow toolbox', 6),
    });
    expect(decodeURIComponent(place?.uri ?? '')).toBe(decodeURIComponent(items));
    expect(place?.range.start).toEqual(positionOf(ITEMS, 'toolbox'));
    await client.stop();
  });
});
