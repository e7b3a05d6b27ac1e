import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { DocumentSymbol } from 'vscode-languageserver/node';
import { type Client, errorsIn, messagesIn, positionOf, replacement, startClient } from './client.ts';
import { ALONE } from './yard.ts';

const URI = 'file:///yard/alone.rig';
const BROKEN = ALONE.replace('stow toolbox', 'stow toolbax');
/** More diagnostics than this are not published for one document. */
const MOST = 200;

describe('bad input', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient();
  });
  /** Whatever came before, the server still does its work. */
  afterEach(async () => {
    await client.open('file:///yard/after.rig', BROKEN);
    const errors = errorsIn(await client.diagnostics('file:///yard/after.rig'));
    expect(messagesIn(errors).join()).toContain('toolbax');
    expect(await client.stop()).toBe(0);
  });

  const diagnosticsOf = async (text: string) => {
    await client.open(URI, text);
    return client.diagnostics(URI);
  };

  it('a broken declaration hides no other', async () => {
    const diagnostics = errorsIn(await diagnosticsOf(BROKEN.replace('item toolbox 42 kg', 'item toolbox {{{ 42 ] kg')));
    expect(diagnostics.some(({ range }) => range.start.line === 1)).toBe(true);
    expect(messagesIn(diagnostics).join().includes('toolbax')).toBe(true);
    expect(client.faults).toEqual([]);
  });

  it('an empty file, and one of white space, have no errors', async () => {
    expect(await diagnosticsOf('')).toEqual([]);
    await client.change(URI, 2, { text: ' \n\t\r\n' });
    await client.quiet();
    expect(client.published.flatMap(({ diagnostics }) => diagnostics)).toEqual([]);
  });

  it('a file of 5 MB gets one diagnostic, and its edits are still taken', async () => {
    const line = 'item crate 10 kg size 400 x 300 x 300 mm # an item that is here many thousand times\n';
    const text = line.repeat(Math.ceil((5 * 1024 * 1024) / line.length));
    const diagnostics = await diagnosticsOf(text);
    expect(diagnostics).toHaveLength(1);
    await client.change(URI, 2, { text: ALONE });
    await client.diagnostics(URI, ({ version, diagnostics: now }) => version === 2 && errorsIn(now).length === 0);
  });

  it('NUL and other control characters are errors where they stand', async () => {
    const text = BROKEN.replace('haul Hauler', 'haul \0Hauler \u0007');
    const errors = errorsIn(await diagnosticsOf(text));
    expect(errors.some(({ range }) => range.start.line === positionOf(text, '\0').line)).toBe(true);
    await client.change(URI, 2, { text: '\0'.repeat(10_000) });
    await client.diagnostics(URI, ({ version, diagnostics }) => version === 2 && errorsIn(diagnostics).length > 0);
  });

  it.each(['\r\n', '\r'])('lines that end with %j mean the same', async (end) => {
    await client.open('file:///yard/plain.rig', BROKEN);
    const plain = await client.diagnostics('file:///yard/plain.rig');
    if (end === '\r\n') expect(await diagnosticsOf(BROKEN.replaceAll('\n', end))).toEqual(plain);
    else await diagnosticsOf(BROKEN.replaceAll('\n', end));
  });

  it('half a character, as a broken editor may send it, is survived', async () => {
    const text = `${BROKEN}\nuse "\ud800.rig"\nitem crate_\udc00 12 kg\n`;
    expect(messagesIn(errorsIn(await diagnosticsOf(text))).join()).toContain('toolbax');
    expect(client.faults).toEqual([]);
  });

  it('a thousand errors are capped, and the last diagnostic counts the rest', async () => {
    const lines = Array.from({ length: 1000 }, (_, index) => `item crate_${index} 10 bananas\n`);
    const diagnostics = await diagnosticsOf(lines.join(''));
    expect(diagnostics.length).toBeGreaterThanOrEqual(MOST);
    expect(diagnostics.length).toBeLessThanOrEqual(MOST + 1);
    expect(messagesIn(diagnostics).at(-1)).toContain(String(1000 - (diagnostics.length - 1)));
  });

  it('quantities beyond all numbers get diagnostics', async () => {
    const text = BROKEN.replace('42 kg', '1e999 kg').replace('2600 mm back', '-2600 mm back');
    const errors = errorsIn(await diagnosticsOf(text));
    expect(errors.some(({ range }) => range.start.line === positionOf(text, '1e999').line)).toBe(true);
    for (const message of messagesIn(errors)) expect(message).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('edits outside the text are moved to the nearest place in it', async () => {
    await client.open(URI, ALONE);
    const far = { line: 100_000, character: 100_000 };
    const before = { line: -3, character: -7 };
    await client.change(URI, 2, { range: { start: far, end: far }, text: '\nitem a 1 kg\nitem b 1 kg' });
    await client.change(URI, 3, { range: { start: before, end: before }, text: 'item c 1 kg\n\n' });
    await client.change(URI, 4, {
      range: { start: { line: 99_998, character: 0 }, end: far },
      text: '\nitem d 1 kg\n',
    });
    // From the end to the start: a range the wrong way round.
    await client.change(URI, 5, {
      range: { start: { line: 0, character: 6 }, end: { line: 0, character: 5 } },
      text: 'e',
    });
    const names = async (): Promise<string[]> => {
      const symbols = await client.connection.sendRequest<DocumentSymbol[]>('textDocument/documentSymbol', {
        textDocument: { uri: URI },
      });
      return symbols.map(({ name }) => name);
    };
    expect((await names()).filter((name) => name.length === 1)).toEqual(['e', 'a', 'b', 'd']);
    // Later positions are right as well, so the table of lines is not damaged.
    await client.change(URI, 6, {
      range: { start: { line: 2, character: 0 }, end: { line: 2, character: 0 } },
      text: BROKEN,
    });
    await client.open(
      'file:///yard/same.rig',
      `item e 1 kg\n\n${BROKEN}${ALONE}\nitem a 1 kg\nitem b 1 kg\nitem d 1 kg\n`,
    );
    const expected = await client.diagnostics('file:///yard/same.rig');
    await client.quiet();
    expect(client.published.filter(({ uri }) => uri === URI).at(-1)?.diagnostics).toEqual(
      JSON.parse(JSON.stringify(expected).replaceAll('file:///yard/same.rig', URI)),
    );
    expect(client.faults).toEqual([]);
  });

  it('messages without sense are survived', async () => {
    await client.open(URI, ALONE);
    await client.change('file:///yard/never-opened.rig', 2, { text: 'item a 1 kg' });
    await client.close('file:///yard/never-opened.rig');
    await client.close('no uri at all');
    client.burst([
      { method: 'textDocument/didChange', params: { textDocument: { uri: URI, version: 2 }, contentChanges: [{}] } },
      { method: 'textDocument/didChange', params: null },
      { method: 'textDocument/didOpen', params: { textDocument: {} } },
      { method: 'workspace/didChangeWatchedFiles', params: { changes: [{ uri: 'no uri at all', type: 9 }] } },
      { id: 'a', method: 'textDocument/hover', params: { textDocument: { uri: URI } } },
      { id: 'b', method: 'textDocument/hover', params: {} },
      { id: 'c', method: 'textDocument/hover', params: { textDocument: { uri: URI }, position: { line: 'x' } } },
    ]);
    await client.change(URI, 3, replacement(ALONE, 'stow toolbox', 'stow toolbax'));
    await client.diagnostics(URI, ({ version, diagnostics }) => version === 3 && errorsIn(diagnostics).length > 0);
  });

  it('what is opened without a text is logged and ignored', async () => {
    await client.open(URI, ALONE);
    client.burst([
      { method: 'textDocument/didOpen', params: { textDocument: { uri: URI, languageId: 'rig', version: 2 } } },
    ]);
    await expect.poll(() => client.faults.join()).toMatch(/^TypeError: a document needs a URI and a text/);
    await client.change(URI, 2, replacement(ALONE, 'stow toolbox', 'stow toolbax'));
    await client.diagnostics(URI, ({ version, diagnostics }) => version === 2 && errorsIn(diagnostics).length > 0);
  });

  it('rapid edits with requests for versions that are past get answers, and the last state is right', async () => {
    await client.open(URI, ALONE);
    const hovers: Promise<unknown>[] = [];
    let text = ALONE;
    for (let version = 2; version < 80; version++) {
      const next = version % 2 === 0 ? text.replace('item toolbox', 'item toolcase') : ALONE;
      await client.change(URI, version, { text: next });
      const at = { textDocument: { uri: URI }, position: positionOf(text, 'Delivery', 2) };
      hovers.push(client.connection.sendRequest('textDocument/hover', at));
      text = next;
    }
    await client.change(URI, 80, { text: BROKEN });
    await Promise.all(hovers);
    const errors = errorsIn(await client.diagnostics(URI, ({ version }) => version === 80));
    expect(messagesIn(errors).join()).toContain('toolbax');
    const versions = client.published.flatMap(({ uri, version }) => (uri === URI ? (version ?? []) : []));
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(client.faults).toEqual([]);
  });
});
