import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { ERRAND, FLEET, SPARE } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

interface LoadJson {
  readonly name: string;
  readonly kg: number;
  readonly rating?: number;
  readonly margin?: number;
}

interface OutputJson {
  readonly rigs: readonly {
    readonly cases: readonly {
      readonly name: string;
      readonly motion: object;
      readonly loads: readonly LoadJson[];
      readonly quantities: Readonly<Record<string, number>>;
    }[];
  }[];
}

const ajv = new Ajv2020({ strict: true, allErrors: true });
const validate = ajv.compile<OutputJson>(schema);

/** The parsed output, which has to be as the schema says. */
async function json(files: Files, ...args: string[]): Promise<OutputJson> {
  const { out } = await rigwright(await folderWith(files), [...args, '--format', 'json']);
  const output: unknown = JSON.parse(out);
  if (!validate(output)) throw new Error(ajv.errorsText(validate.errors));
  return output;
}

describe('JSON output', () => {
  test('of check has the diagnostics with their places', async () => {
    const output = await json({ 'a.rig': 'use "b.rig"\nitem awning 38 kg\n', 'b.rig': 'item awning 40 kg\n' }, 'check');
    expect(output).toMatchObject({
      $schema: schema.$id,
      version: 1,
      files: ['a.rig', 'b.rig'],
      problems: [],
      summary: { files: 2, errors: 1, warnings: 0, information: 0 },
    });
    expect(output).toHaveProperty('diagnostics.0', {
      file: 'a.rig',
      start: { line: 2, column: 6 },
      end: { line: 2, column: 12 },
      severity: 'error',
      code: 'RW202',
      name: 'duplicate-name',
      message: expect.any(String),
      related: [
        { file: 'b.rig', start: { line: 1, column: 6 }, end: { line: 1, column: 12 }, message: expect.any(String) },
      ],
    });
    expect(output).not.toHaveProperty('rigs');
  });

  test('of loads has every state with loads, ratings, margins and all quantities, in SI', async () => {
    const output = await json(FLEET, 'loads', '--units', 'US');
    expect(output).toHaveProperty('rigs.0', {
      name: 'Errand',
      title: 'To the yard',
      kind: 'rig',
      file: 'errand.rig',
      start: { line: 19, column: 5 },
      end: { line: 19, column: 11 },
      cases: expect.any(Array),
      assumptions: expect.any(Array),
    });
    const cases = output.rigs[0]?.cases ?? [];
    expect(cases.map(({ name, motion }) => ({ name, motion }))).toEqual([
      { name: 'loaded', motion: { kind: 'level', text: '', grade: 0, deceleration: 0 } },
      { name: 'loaded', motion: { kind: 'climb', text: 'on the 5 % climb', grade: 0.05, deceleration: 0 } },
      { name: 'loaded', motion: { kind: 'descent', text: 'on the 10 % descent', grade: -0.1, deceleration: 0 } },
      { name: 'loaded', motion: { kind: 'braking', text: 'braking at 3 m/s²', grade: 0, deceleration: 3 } },
      { name: 'empty', motion: { kind: 'level', text: '', grade: 0, deceleration: 0 } },
      { name: 'empty', motion: expect.objectContaining({ kind: 'climb' }) },
      { name: 'empty', motion: expect.objectContaining({ kind: 'descent' }) },
      { name: 'empty', motion: expect.objectContaining({ kind: 'braking' }) },
    ]);
    const loaded = cases[0];
    const load = (name: string) => loaded?.loads.find((each) => each.name === name);
    // By the lever rule, worked out beside the fleet.
    expect(load('Cart.coupling.load')?.kg).toBeCloseTo(50, 9);
    expect(load('Cart.axles.load')).toMatchObject({ unit: 'Cart', limit: 'rating', rating: 600 });
    expect(load('Cart.axles.load')?.margin).toBeCloseTo(150, 9);
    expect(load('Truck.front.load')?.kg).toBeCloseTo(1200 - 50 / 3, 9);
    expect(load('rig.mass')?.kg).toBeCloseTo(2500, 9);
    expect(loaded?.quantities['Cart.coupling.share']).toBeCloseTo(0.1, 12);
    expect(loaded?.quantities['Truck.rear.load']).toBeCloseTo(800 + (50 * 4) / 3, 9);
  });

  test('holds margins that are the ratings less the loads, and loads that are among the quantities', async () => {
    const output = await json({ ...FLEET, 'spare.rig': SPARE }, 'loads');
    const states = output.rigs.flatMap(({ cases }) => cases);
    expect(states.length).toBeGreaterThan(8);
    for (const { loads, quantities } of states) {
      for (const { name, kg, rating, margin } of loads) {
        expect(quantities[name]).toBe(kg);
        if (rating !== undefined) expect(margin).toBe(rating - kg);
      }
    }
  });

  test('has the cases asked for', async () => {
    const output = await json(FLEET, 'loads', '--case', 'empty');
    expect(new Set(output.rigs[0]?.cases.map(({ name }) => name))).toEqual(new Set(['empty']));
  });

  test('of a rig that cannot be computed has no cases', async () => {
    const output = await json({ ...FLEET, 'errand.rig': ERRAND.replace('3000 mm back', 'sideways') }, 'loads');
    expect(output.rigs[0]).toMatchObject({ name: 'Errand', cases: [] });
  });

  test.each([
    ['nothing', {}],
    ['a file that is not UTF-8', { 'a.rig': Buffer.from([0xff]) }],
  ])('of %s tells the problem', async (_, files) => {
    const output = await json(files, 'check');
    expect(output).toMatchObject({ files: [], diagnostics: [], problems: [{ message: expect.any(String) }] });
  });

  test('has no NaN, no null and no Infinity, whatever the file says', async () => {
    const extreme = ERRAND.replace('1200 kg on front', '1e308 kg on front').replace('300 kg at', '1e308 kg at');
    const folder = await folderWith({ ...FLEET, 'errand.rig': extreme });
    const { out } = await rigwright(folder, ['loads', '--format', 'json']);
    expect(validate(JSON.parse(out)), ajv.errorsText(validate.errors)).toBe(true);
    expect(out).not.toMatch(/null|NaN|Infinity/);
    expect((await rigwright(folder, ['loads', '--level', 'error'])).out).not.toMatch(/NaN|Infinity/);
  });
});

describe('the schema', () => {
  test('says what each property is, or refers to what does', () => {
    const described = (node: object): boolean => 'description' in node || '$ref' in node || 'const' in node;
    expect(Object.entries(schema.properties).filter(([, property]) => !described(property))).toEqual([]);
  });

  test('refuses what it does not know', async () => {
    const output = await json(FLEET, 'loads');
    expect(validate({ ...output, surplus: 1 })).toBe(false);
    expect(validate({ ...output, version: 2 })).toBe(false);
    expect(validate({ ...output, rigs: [{ name: 'Errand' }] })).toBe(false);
  });
});
