import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CodeAction, DocumentSymbol, Hover } from 'vscode-languageserver/node';
import { REACH } from '../../language/diagnostics/reach.ts';
import { type Client, positionOf, startClient } from './client.ts';

const URI = 'file:///yard/errand.rig';
const { code, example } = REACH['reach-over-limit'];
const CAPABILITIES = {
  textDocument: {
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    hover: { contentFormat: ['markdown' as const] },
  },
  workspace: { workspaceEdit: { documentChanges: true } },
};

describe('states that no case names', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient({ capabilities: CAPABILITIES });
    await client.open(URI, example, 1);
    await client.diagnostics(URI, ({ diagnostics }) => diagnostics.some((each) => each.code === code));
  });
  afterEach(async () => {
    expect(client.faults).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  it('are added as a case by a quick fix, after which the limit is broken in that case', async () => {
    const finding = client.published
      .filter(({ uri }) => uri === URI)
      .at(-1)
      ?.diagnostics.find((each) => each.code === code);
    if (finding === undefined) throw new Error('not published');
    const actions: CodeAction[] | null = await client.connection.sendRequest('textDocument/codeAction', {
      textDocument: { uri: URI },
      range: finding.range,
      context: { diagnostics: [finding] },
    });
    const action = actions?.find(({ title }) => title.startsWith('Add this state as a case: reached'));
    const [change] = action?.edit?.documentChanges ?? [];
    if (change === undefined || !('edits' in change)) throw new Error('nothing offered');
    const [edit] = change.edits;
    if (edit === undefined || !('newText' in edit)) throw new Error('no edit');
    await client.change(URI, 2, { range: edit.range, text: edit.newText });
    const after = await client.diagnostics(URI, ({ version }) => version === 2);
    expect(after.map(({ message }) => message)).toContainEqual(expect.stringContaining('in case reached'));
    await client.quiet();
    const last = client.published.filter(({ uri }) => uri === URI).at(-1);
    expect(last?.diagnostics.map((each) => each.code)).not.toContain(code);
  });

  it('are told in the hover and in the outline', async () => {
    const hover: Hover | null = await client.connection.sendRequest('textDocument/hover', {
      textDocument: { uri: URI },
      position: positionOf(example, 'Errand'),
    });
    expect(JSON.stringify(hover?.contents)).toContain('Broken in states that no case names');
    const symbols: DocumentSymbol[] | null = await client.connection.sendRequest('textDocument/documentSymbol', {
      textDocument: { uri: URI },
    });
    // 2120 kg and 400 kg in each tank.
    const detail = symbols?.find(({ name }) => name === 'Errand')?.detail?.replaceAll('\u202f', ' ');
    expect(detail).toBe('2 520 kg (2 120 – 2 920 kg reachable)');
  });
});
