import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CodeAction, Range } from 'vscode-languageserver/node';
import { LSPErrorCodes } from 'vscode-languageserver/node';
import { type Client, positionOf, startClient } from './client.ts';
import { ALONE, createFolder, DELIVERY, type Folder, ITEMS } from './yard.ts';

const URI = 'file:///yard/alone.rig';
const WRONG = ALONE.replace('stow toolbox', 'stow toolbx');
const ACTIONS = {
  textDocument: { codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } } },
  workspace: { workspaceEdit: { documentChanges: true } },
};

function rangeAt(text: string, part: string): Range {
  const start = positionOf(text, part);
  return { start, end: start };
}

const ask = (client: Client, uri: string, range: Range, only?: string[]): Promise<CodeAction[] | null> =>
  client.connection.sendRequest('textDocument/codeAction', {
    textDocument: { uri },
    range,
    context: { diagnostics: [], ...(only && { only }) },
  });

describe('code actions', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient({ capabilities: ACTIONS });
  });
  afterEach(async () => {
    expect(client.faults).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  it('are advertised as quick fixes and as rewriting', () => {
    expect(client.initialized.capabilities.codeActionProvider).toEqual({
      codeActionKinds: ['quickfix', 'refactor.rewrite'],
    });
  });

  it('mend a name in the version of the document that they were asked for', async () => {
    await client.open(URI, ALONE, 3);
    await client.change(URI, 4, { text: WRONG });
    const range = rangeAt(WRONG, 'toolbx');
    const actions = await ask(client, URI, range);
    const end = { line: range.start.line, character: range.start.character + 'toolbx'.length };
    expect(actions).toEqual([
      {
        title: "Replace 'toolbx' by 'toolbox'",
        kind: 'quickfix',
        isPreferred: true,
        diagnostics: [expect.objectContaining({ code: 'RW201', range: { start: range.start, end } })],
        edit: {
          documentChanges: [
            {
              textDocument: { uri: URI, version: 4 },
              edits: [{ range: { start: range.start, end }, newText: 'toolbox' }],
            },
          ],
        },
      },
    ]);
  });

  it('are only of the kinds asked for', async () => {
    await client.open(URI, WRONG);
    const range = rangeAt(WRONG, 'toolbx');
    expect(await ask(client, URI, range, ['refactor'])).toEqual([]);
    expect(await ask(client, URI, range, ['source.organizeImports', 'quickfix'])).toHaveLength(1);
    expect(await ask(client, URI, rangeAt(WRONG, 'item toolbox'))).toEqual([]);
  });

  it('rewrite a quantity in another unit where nothing is wrong', async () => {
    await client.open(URI, 'item toolbox 38 kg\n');
    const range = rangeAt('item toolbox 38 kg\n', 'kg');
    const rewriting = [
      {
        title: 'Write as 83.8 lb (reads back as 38.01 kg)',
        kind: 'refactor.rewrite',
        edit: expect.objectContaining({ documentChanges: [expect.objectContaining({ edits: [expect.anything()] })] }),
      },
    ];
    for (const only of [undefined, ['refactor'], ['refactor.rewrite'], ['']]) {
      expect(await ask(client, URI, range, only)).toEqual(rewriting);
    }
    for (const only of [['quickfix'], ['refactor.extract'], ['refactor.rewrite.more'], ['ref'], []]) {
      expect(await ask(client, URI, range, only)).toEqual([]);
    }
  });

  it('are none outside the text and in documents that are not open', async () => {
    await client.open(URI, WRONG);
    const far = { line: 100_000, character: 3 };
    expect(await ask(client, URI, { start: far, end: far })).toEqual([]);
    await client.close(URI);
    expect(await ask(client, URI, rangeAt(WRONG, 'toolbx'))).toBeNull();
  });

  it('end early when they are cancelled', async () => {
    await client.open(URI, WRONG);
    const answers = new Map<unknown, unknown>();
    client.process.stdout?.on('data', (data: Buffer) => {
      for (const [, body] of String(data).matchAll(/(\{"jsonrpc".*?\})(?=Content-Length|$)/gs)) {
        const { id, error } = JSON.parse(body ?? '{}');
        if (id !== undefined) answers.set(id, error?.code ?? 'answered');
      }
    });
    const params = { textDocument: { uri: URI }, range: rangeAt(WRONG, 'toolbx'), context: { diagnostics: [] } };
    client.burst([
      { id: 'first', method: 'textDocument/codeAction', params },
      { id: 'second', method: 'textDocument/codeAction', params },
      { method: '$/cancelRequest', params: { id: 'second' } },
    ]);
    await expect.poll(() => answers.get('second')).toBe(LSPErrorCodes.RequestCancelled);
    expect(answers.get('first')).toBe('answered');
  });
});

describe('code actions of clients with few abilities', () => {
  it('are not advertised where only commands are known', async () => {
    const client = await startClient();
    expect(client.initialized.capabilities.codeActionProvider).toBeUndefined();
    expect(await client.stop()).toBe(0);
  });

  it('have edits without versions where versions are not known', async () => {
    const client = await startClient({ capabilities: { textDocument: ACTIONS.textDocument } });
    await client.open(URI, WRONG);
    const [action] = (await ask(client, URI, rangeAt(WRONG, 'toolbx'))) ?? [];
    expect(action?.edit).toMatchObject({ changes: { [URI]: [{ newText: 'toolbox' }] } });
    expect(await client.stop()).toBe(0);
  });
});

describe('code actions that edit a file that is not open', () => {
  let folder: Folder;
  beforeEach(() => {
    folder = createFolder();
  });
  afterEach(() => folder.remove());

  it('name no version', async () => {
    const [units = '', rig = ''] = DELIVERY.replace('use "items.rig"\n', '').split(/(?=rig Delivery)/);
    const tyred = units.replace('track 1500 mm', 'track 1500 mm, tyres 2 x "145R10 52N"');
    await folder.write('items.rig', ITEMS);
    const unitsUri = await folder.write('units.rig', tyred);
    const uri = folder.uriOf('trip.rig');
    const text = `use "items.rig"\nuse "units.rig"\n\n${rig.replace(/\}\s*$/, '  stow 6 x toolbox in Hauler.bed\n  case out { }\n}\n')}`;
    await folder.write('trip.rig', text);
    const client = await startClient({
      capabilities: ACTIONS,
      initialize: { workspaceFolders: [{ uri: folder.uri, name: 'yard' }] },
    });
    await client.open(uri, text);
    const actions = (await ask(client, uri, rangeAt(text, 'out {'))) ?? [];
    const tyre = actions.find(({ title }) => title.startsWith('Tyres'));
    expect(tyre?.edit?.documentChanges).toMatchObject([{ textDocument: { uri: unitsUri, version: null } }]);
    expect(tyre?.isPreferred).toBeUndefined();
    expect(await client.stop()).toBe(0);
  });

  it('take a weighed tare over into the file of the trailer', async () => {
    const [units = '', rig = ''] = DELIVERY.replace('use "items.rig"\n', '').split(/(?=rig Delivery)/);
    await folder.write('items.rig', ITEMS);
    const unitsUri = await folder.write('units.rig', units);
    const uri = folder.uriOf('trip.rig');
    const slip =
      '  case out { }\n  weighing october { accuracy 1 kg  solo Hauler { axles 300 kg  coupling 40 kg } }\n}\n';
    const text = `use "items.rig"\nuse "units.rig"\n\n${rig.replace(/\}\s*$/, slip)}`;
    await folder.write('trip.rig', text);
    const client = await startClient({
      capabilities: ACTIONS,
      initialize: { workspaceFolders: [{ uri: folder.uri, name: 'yard' }] },
    });
    await client.open(uri, text);
    const actions = (await ask(client, uri, rangeAt(text, 'october'))) ?? [];
    const tare = actions.find(({ title }) => title.startsWith('Take over the weighed tare of Hauler'));
    expect(tare?.diagnostics).toEqual([expect.objectContaining({ code: 'RW954' })]);
    // 340 kg less the tool box's 42 kg.
    expect(tare?.edit?.documentChanges).toMatchObject([
      {
        textDocument: { uri: unitsUri, version: null },
        edits: [
          { newText: '298 kg' },
          { newText: expect.stringMatching(/^\d+ mm$/) },
          { newText: '  # was 240 kg at 2450 mm back, 520 mm up' },
        ],
      },
    ]);
    expect(await client.stop()).toBe(0);
  });
});
