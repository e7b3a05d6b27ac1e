import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { ERRAND, FLEET } from './fleet.ts';
import { folderWith, rigwright } from './support.ts';

const IN_US = { ...FLEET, 'errand.rig': ERRAND.replace('rig Errand "To the yard"', 'rig Errand "To the yard" in US') };

const validate = new Ajv2020({ strict: true, allErrors: true }).compile<{
  readonly labels: readonly {
    readonly unit: string;
    readonly market: string;
    readonly rows: readonly { readonly term: string; readonly value?: number; readonly missing?: string }[];
  }[];
}>(schema);

async function json(...args: string[]) {
  const { out } = await rigwright(await folderWith(IN_US), ['label', ...args, '--format', 'json']);
  const output: unknown = JSON.parse(out);
  if (!validate(output)) throw new Error(JSON.stringify(validate.errors));
  return output;
}

describe('rigwright label', () => {
  test('drafts the figures of every unit for the market that a rig names', async () => {
    const { out, code } = await rigwright(await folderWith(IN_US), ['label', 'errand.rig']);
    expect(code).toBe(0);
    expect(out.match(/^DRAFT — not a certification label$/gm)).toHaveLength(2);
    expect(out).toMatch(/^vehicle Truck "Yard truck", United States$/m);
    expect(out).toMatch(/^trailer Cart, United States$/m);
    // 750 kg are 1653 lb.
    expect(out).toMatch(/GVWR \(gross vehicle weight rating\) +750 kg \(1\s653 lb\) +\[1\]/);
    expect(out).toMatch(/missing: what Cart is certified as \(trailer_type/);
    expect(out).toMatch(/^ {2}\[1\] plate: 49 CFR 567\.4/m);
    expect(out).toMatch(/certifies nothing/);
  });

  test('is for one unit and another market where asked', async () => {
    const folder = await folderWith(FLEET);
    const { out } = await rigwright(folder, ['label', '--unit', 'Cart', '--market', 'AU', 'errand.rig']);
    expect(out).not.toContain('Truck');
    expect(out).toMatch(/ATM \(aggregate trailer mass\) +750 kg/);
    expect(out).toMatch(/tare +300 kg/);
    expect(out).toMatch(/GTM \(gross trailer mass\) +missing: a GTM among the limits of Cart/);
  });

  test('says what to do where no market is named, and where a name is wrong', async () => {
    const folder = await folderWith(FLEET);
    expect((await rigwright(folder, ['label'])).out).toContain('give --market US');
    const wrong = await rigwright(folder, ['label', '--unit', 'Cartt']);
    expect(wrong).toMatchObject({ code: 2, error: expect.stringContaining('did you mean Cart?') });
    const market = await rigwright(folder, ['label', '--market', 'XX']);
    expect(market).toMatchObject({ code: 2, error: expect.stringContaining('US') });
  });

  test('JSON has SI numbers with their sources, as the schema says', async () => {
    const { labels } = await json();
    expect(labels.map(({ unit, market }) => `${unit} ${market}`)).toEqual(['Truck US', 'Cart US']);
    const rows = labels[1]?.rows ?? [];
    expect(rows.find(({ term }) => term.startsWith('GVWR'))?.value).toBe(750);
    expect(rows.find(({ term }) => term.startsWith('tyres'))?.missing).toMatch(/the tyres of the axle/);
  });

  test('a market given twice is printed for both', async () => {
    const { labels } = await json('--market', 'CA', '--market', 'EU', '--unit', 'Cart');
    expect(labels.map(({ market }) => market)).toEqual(['CA', 'EU']);
  });
});
