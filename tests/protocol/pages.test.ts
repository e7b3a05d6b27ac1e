import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterEach, expect, it } from 'vitest';
import type { ClientCapabilities } from 'vscode-languageserver';
import { type Client, startClient } from './client.ts';

const WRONG = 'let depth = bench + 20 mm\nlet bensh = 600 mm\n';
const DOCUMENT = 'untitled:wrong';
const LINKS: ClientCapabilities = { textDocument: { publishDiagnostics: { codeDescriptionSupport: true } } };

let client: Client;

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

async function linkOf(capabilities: ClientCapabilities, initializationOptions?: unknown): Promise<string | undefined> {
  client = await startClient({ capabilities, initialize: { initializationOptions } });
  await client.open(DOCUMENT, WRONG);
  const [first] = await client.diagnostics(DOCUMENT);
  expect(first?.code).toBe('RW201');
  return first?.codeDescription?.href;
}

it('codes link to where the client opens pages', async () => {
  expect(await linkOf({}, { diagnosticPages: 'some-scheme:/pages' })).toBe('some-scheme:/pages/RW201.md');
});

it('codes link to the page beside the server, for a client that makes links of codes', async () => {
  const file = fileURLToPath((await linkOf(LINKS)) ?? '');
  expect(existsSync(file)).toBe(true);
  expect(readFileSync(file, 'utf8')).toMatch(/^# RW201: /);
});

it.each([undefined, { diagnosticPages: 7 }])(
  'codes have no link for a client that does not make links (%j)',
  async (options) => {
    expect(await linkOf({}, options)).toBeUndefined();
  },
);
