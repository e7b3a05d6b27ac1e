import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { STABILITY } from '../../language/diagnostics/stability.ts';
import { type Client, startClient } from './client.ts';

const URI = 'file:///yard/sways.rig';
const [entry] = Object.values(STABILITY);
const SWAYS = entry?.example ?? '';
const CODE = entry?.code ?? '';

describe('diagnostics of lateral stability', () => {
  let client: Client;
  beforeEach(async () => {
    client = await startClient();
  });
  afterEach(async () => {
    expect(client.faults).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  const published = () => client.published.filter(({ uri }) => uri === URI);
  const codes = (index: number) =>
    published()
      .at(index)
      ?.diagnostics.map(({ code }) => code) ?? [];

  it('follow the others as a second publication of the same version', async () => {
    await client.open(URI, SWAYS, 3);
    await client.diagnostics(URI, ({ diagnostics }) => diagnostics.some(({ code }) => code === CODE));
    await client.quiet();
    expect(published().map(({ version }) => version)).toEqual(published().map(() => 3));
    expect(codes(-1)).toContain(CODE);
    expect(codes(0).filter((code) => String(code).startsWith('RW7'))).toEqual(published().length > 1 ? [] : codes(0));
  });

  it('stay in the first publication after an edit that does not reach the rig', async () => {
    await client.open(URI, SWAYS, 1);
    await client.diagnostics(URI, ({ diagnostics }) => diagnostics.some(({ code }) => code === CODE));
    await client.quiet();
    const before = published().length;
    const start = { line: 0, character: 0 };
    await client.change(URI, 2, { range: { start, end: start }, text: 'item spare 4 kgg\n' });
    await client.diagnostics(URI, ({ version }) => version === 2);
    await client.quiet();
    const after = published().slice(before);
    expect(after).toHaveLength(1);
    expect(after[0]?.diagnostics.map(({ code }) => code)).toEqual(expect.arrayContaining([CODE, 'RW301']));
  });

  it('go when the rig is edited into a stable one', async () => {
    await client.open(URI, SWAYS, 1);
    await client.diagnostics(URI, ({ diagnostics }) => diagnostics.some(({ code }) => code === CODE));
    await client.change(URI, 2, { text: entry?.mended ?? '' });
    await client.diagnostics(URI, ({ version }) => version === 2);
    await client.quiet();
    expect(codes(-1)).not.toContain(CODE);
  });
});
