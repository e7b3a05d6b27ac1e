import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Client, errorsIn, type Message, positionOf, replacement, startClient } from './client.ts';
import { ALONE } from './yard.ts';

const URI = 'file:///yard/alone.rig';
const BROKEN = ALONE.replace('stow toolbox', 'stow toolbax');

describe('a client that diagnostics are pushed to', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient();
  });
  afterEach(async () => {
    expect(client.faults).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  const published = () => client.published.filter(({ uri }) => uri === URI);

  it('gets them for the version they are about', async () => {
    await client.open(URI, BROKEN, 7);
    const [error] = errorsIn(await client.diagnostics(URI, ({ version }) => version === 7));
    expect(error).toMatchObject({
      source: 'rigwright',
      severity: 1,
      range: { start: positionOf(BROKEN, 'toolbax'), end: positionOf(BROKEN, 'toolbax', 7) },
    });
    expect(error?.message).toContain('toolbax');
    expect(error?.code).toEqual(expect.any(String));
  });

  it('gets nothing when an edit changes nothing in them', async () => {
    await client.open(URI, BROKEN);
    await client.diagnostics(URI);
    const end = positionOf(BROKEN, 'stow toolbax in Hauler.bed', 26);
    await client.change(URI, 2, { range: { start: end, end }, text: '  # still unknown' });
    await client.quiet();
    expect(published()).toHaveLength(1);
  });

  it('sees the problem go when the edit is undone', async () => {
    await client.open(URI, ALONE);
    await client.change(URI, 2, replacement(ALONE, 'stow toolbox', 'stow toolbax'));
    await client.diagnostics(URI, ({ diagnostics }) => errorsIn(diagnostics).length > 0);
    await client.change(URI, 3, replacement(BROKEN, 'stow toolbax', 'stow toolbox'));
    await client.diagnostics(URI, ({ diagnostics, version }) => version === 3 && errorsIn(diagnostics).length === 0);
  });

  it('gets only the newest version of changes that come together', async () => {
    await client.open(URI, BROKEN);
    await client.diagnostics(URI);
    client.burst(typed(40));
    await client.diagnostics(URI, ({ version }) => version === 41);
    await client.quiet();
    expect(published().map(({ version }) => version)).toEqual([1, 41]);
    expect(errorsIn(published().at(-1)?.diagnostics ?? [])[0]?.message).toContain(`toolbax${'x'.repeat(40)}`);
  });

  it('gets one answer to a batch of changes in one notification, each made to what the one before left', async () => {
    await client.open(URI, ALONE);
    const second = ALONE.replace('item toolbox', 'item toolcase');
    await client.change(
      URI,
      2,
      replacement(ALONE, 'item toolbox', 'item toolcase'),
      replacement(second, 'stow toolbox', 'stow toolcase'),
      { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text: '\n' },
    );
    await client.change(URI, 3, { text: ALONE });
    await client.quiet();
    expect(published().flatMap(({ diagnostics }) => errorsIn(diagnostics))).toEqual([]);
  });

  it('loses them when the document is closed', async () => {
    await client.open(URI, BROKEN);
    await client.diagnostics(URI);
    await client.close(URI);
    expect(await client.diagnostics(URI, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  });

  it('gets nothing for a document that is closed before its turn comes', async () => {
    await client.quiet();
    client.burst([
      {
        method: 'textDocument/didOpen',
        params: { textDocument: { uri: URI, languageId: 'rig', version: 1, text: BROKEN } },
      },
      { method: 'textDocument/didClose', params: { textDocument: { uri: URI } } },
    ]);
    await client.quiet();
    expect(published()).toEqual([]);
  });

  it('keeps the last text of a document that is opened twice', async () => {
    await client.open(URI, BROKEN);
    await client.open(URI, ALONE, 2);
    await client.diagnostics(URI, ({ diagnostics, version }) => version === 2 && errorsIn(diagnostics).length === 0);
  });
});

/** The changes of a word typed letter by letter behind `toolbax`. */
function typed(letters: number): Message[] {
  const { line, character } = positionOf(BROKEN, 'toolbax', 7);
  return Array.from({ length: letters }, (_, index) => {
    const place = { line, character: character + index };
    return {
      method: 'textDocument/didChange',
      params: {
        textDocument: { uri: URI, version: index + 2 },
        contentChanges: [{ range: { start: place, end: place }, text: 'x' }],
      },
    };
  });
}

describe('related information', () => {
  it.each([true, false])('is sent when the client can show it: %s', async (relatedInformation) => {
    const client = await startClient({
      capabilities: { textDocument: { publishDiagnostics: { relatedInformation } } },
    });
    const twice = 'item crate 10 kg\nitem crate 12 kg\n';
    await client.open(URI, twice);
    const diagnostics = await client.diagnostics(URI);
    expect(errorsIn(diagnostics).length).toBeGreaterThan(0);
    const related = diagnostics.flatMap((one) => one.relatedInformation ?? []);
    expect(related.length > 0).toBe(relatedInformation);
    for (const { location } of related) expect(location.uri).toBe(URI);
    await client.stop();
  });
});
