import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver/node';
import { type Client, offsetAt, positionAt, startClient } from './client.ts';
import { ALONE } from './yard.ts';

/** Pieces of text that break, join, mend and move declarations. */
const PIECES = [
  '',
  ' ',
  '\n',
  '\r\n',
  '{',
  '}',
  '"',
  '#',
  '##',
  '\nitem crate 3 kg\n',
  'kg',
  '42',
  'rig ',
  'use "x.rig"\n',
];

const START = `${ALONE}\n## A crate.\nitem crate 12 kg\n\n${ALONE.slice(ALONE.indexOf('rig Delivery')).replace('Delivery', 'Return')}`;

interface RandomEdit {
  readonly at: number;
  readonly length: number;
  readonly text: string;
}

const edit: fc.Arbitrary<RandomEdit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.oneof(fc.nat(12), fc.nat(300)),
  text: fc.oneof(
    fc.constantFrom(...PIECES),
    fc.nat(START.length - 60).map((start) => START.slice(start, start + 60)),
  ),
});

let client: Client;
let documents = 0;
beforeAll(async () => {
  client = await startClient();
});
afterAll(async () => {
  expect(client.faults).toEqual([]);
  expect(await client.stop()).toBe(0);
});

/** The last diagnostics of a document, without the URI in them. */
async function settled(uri: string): Promise<unknown> {
  await client.handled();
  const last: Diagnostic[] = client.published.filter((one) => one.uri === uri).at(-1)?.diagnostics ?? [];
  return JSON.parse(JSON.stringify(last).replaceAll(uri, ''));
}

it('edits lead to the same diagnostics as opening the text they lead to', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(fc.array(edit, { minLength: 1, maxLength: 4 }), { maxLength: 12 }), async (batches) => {
      documents += 1;
      const [edited, opened] = [`memory://yard/edited-${documents}.rig`, `memory://yard/opened-${documents}.rig`];
      await client.open(edited, START);
      let text = START;
      let version = 1;
      for (const batch of batches) {
        const changes = batch.map(({ at, length, text: inserted }) => {
          const start = Math.floor(at * text.length);
          const end = Math.min(text.length, start + length);
          const range = { start: positionAt(text, start), end: positionAt(text, end) };
          // A place between CR and LF is none that the protocol can name: the ends are where their positions are.
          const [from, to] = [offsetAt(text, range.start), offsetAt(text, range.end)];
          text = text.slice(0, from) + inserted + text.slice(to);
          return { range, text: inserted };
        });
        version += 1;
        await client.change(edited, version, ...changes);
        if (version % 3 === 0) await client.handled();
      }
      await client.open(opened, text);
      expect(await settled(edited)).toEqual(await settled(opened));
      await client.close(edited);
      await client.close(opened);
    }),
    { numRuns: 40 },
  );
}, 120_000);
