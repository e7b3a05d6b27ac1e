import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { displayWidth } from '../../../server/cli/text.ts';
import { SPARE } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

/**
 * Loads by the lever rule. Cart alone puts 300 · (3000 - 2700) / 3000 = 30 kg on the coupling, 60 L of water 60 · 1500 / 3000 =
 * 30 kg, the crate behind the axle 40 · (3000 - 3600) / 3000 = -8 kg. So the coupling carries 22 kg to 60 kg, in the cases
 * 30 kg (empty) and 37 kg (loaded).
 */
const CART = `item crate 40 kg size 400 x 400 x 400 mm tolerance 3 kg

vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up, inertia 4000 kg·m²
  hitch ball at 1000 mm behind rear, 440 mm up
  seat mate 60 kg at 1000 mm back, 700 mm up
}

trailer Cart {
  coupling ball 50 mm, 440 mm up, rating 55 kg
  axles single at 3000 mm back, track 1500 mm, rating 600 kg
  tare 300 kg at 2700 mm back, 500 mm up, inertia 300 kg·m², tolerance 6 kg
  tank water 60 L of water at 1500 mm back, 600 mm up
  limits { ATM 450 kg }
  brakes overrun
}

rig Errand "To the yard" {
  tow Truck
  haul Cart
  stow crate in Cart at 3600 mm back, 600 mm up
  case loaded "All on board" { water 50 % }
  case empty { water 0 %  absent crate }
  require Cart.yaw_inertia at most 2000 kg·m²
}
`;

/** One case that states a range: the coupling carries 22 kg to 52 kg. */
const RANGE = CART.replace('{ water 50 % }', '{ water 0 % to 100 % }');

/** A full tank 3 m behind the rear axle leaves 5 kg of 1100 kg on the front axle, which the tolerance of 2 % of it takes away. */
const LIGHT = `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1100 kg on front, 900 kg on rear, 600 mm up, inertia 4000 kg·m²
  tank stern 1095 L of water at 6000 mm back, 200 mm left, 500 mm up, tolerance 2 %
}

rig Errand {
  tow Truck
  case full { stern 100 % }
  case empty { stern 0 % }
  reachable { stern 0 % to 80 % }
}
`;

/** What is printed, with spaces of numbers as plain ones. */
async function printed(files: Files, ...args: string[]): Promise<{ out: string; code: number; error: string }> {
  const outcome = await rigwright(await folderWith(files), ['envelope', ...args]);
  return { ...outcome, out: outcome.out.replaceAll('\u202f', ' ') };
}

/** The first line below a heading that begins so, with bars between its columns. */
function lineOf(out: string, below: string, start: string): string {
  const lines = out.split('\n');
  const from = lines.findIndex((line) => line.trim() === below);
  const found = lines.slice(from + 1).find((line) => line.trim().replace(/ +/g, ' ').startsWith(start));
  return from < 0 ? `no ${below}` : (found?.trim().replace(/ {2,}/g, ' | ') ?? `no ${start}`);
}

/** What a letter stands for below a heading. */
const stateOf = (out: string, below: string, letter: string) => lineOf(out, below, `${letter}: `).slice(3);

const WHOLE = 'everything reachable';

describe('rigwright envelope', () => {
  test('prints least and most with the states that take them, beside what the named cases span', async () => {
    const { out, code } = await printed({ 'cart.rig': CART });
    expect(code).toBe(0);
    expect(out).toMatch(/^rig Errand "To the yard" {2}cart\.rig:\d+:5\n/);
    expect(lineOf(out, WHOLE, 'Cart.water')).toBe('Cart.water 0 % to 100 %, crate on board or not');
    const [label, least, from = '', most, to = '', named] = lineOf(out, WHOLE, 'coupling').split(' | ');
    expect([label, least, most, named]).toEqual(['coupling', '22 kg', '60 kg', '30 kg to 37 kg']);
    expect(stateOf(out, WHOLE, from)).toBe('with crate, else as in case empty');
    expect(stateOf(out, WHOLE, to)).toBe('with water 100 %, else as in case empty');
    // Behind the axle's middle and ahead of it: mass 300 kg to 400 kg.
    expect(lineOf(out, 'Cart', 'mass')).toMatch(/^mass \| 300 kg \| [A-Z]+ \| 400 kg \| [A-Z]+ \| 300 kg to 370 kg$/);
  });

  test('says of each limit how it stands in its worst state, and how that is known', async () => {
    const { out } = await printed({ 'cart.rig': CART });
    const [, letter = ''] = /case loaded \(([A-Z])\)/.exec(out.replace(/\s+/g, ' ')) ?? [];
    // The same state is told by the other case where that is shorter.
    expect(stateOf(out, WHOLE, letter)).toBe('with water 100 %, else as in case empty');
    const words = out.replace(/\s+/g, ' ');
    expect(words).toMatch(
      /RW601 Coupling of Cart, the load: broken with water 100 %, without crate, else as in case loaded \(([A-Z])\): 60 kg, at most 55 kg \(the coupling rating of Cart\), margin -5 kg/,
    );
    const proved = 'holds in every reachable state (proved):';
    const sampled = 'holds in the states tried (sampled):';
    expect(lineOf(out, proved, 'RW504')).toMatch(
      /^RW504 \| Cart, the load \| 400 kg \| at most 450 kg \| 50 kg \| [A-Z]+$/,
    );
    expect(lineOf(out, sampled, 'RW581')).toMatch(
      /^RW581 \| Cart\.yaw_inertia, the value \| .* \| at most 2 000 kg·m²/,
    );
    expect(out.indexOf(sampled)).toBeGreaterThan(out.indexOf('RW504'));
  });

  test('has a table of its own for a case that states a range, and none for the others', async () => {
    const { out } = await printed({ 'cart.rig': RANGE });
    const below = out.slice(out.indexOf('\n  case loaded'));
    expect(lineOf(below, 'case loaded', 'coupling')).toMatch(/^coupling \| 22 kg \| [A-Z] \| 52 kg \| [A-Z] \| 37 kg$/);
    expect(below).toContain('holds in every state of the case (proved):');
    expect(out).not.toContain('\n  case empty\n');
  });

  test('narrows to what the file says is reachable', async () => {
    const narrow = CART.replace('  case loaded', '  reachable { water 10 % to 80 % }\n  case loaded');
    const { out } = await printed({ 'cart.rig': narrow.replace('water 0 %', 'water 10 %') });
    expect(lineOf(out, WHOLE, 'coupling')).toMatch(/^coupling \| 25 kg \| [A-Z] \| 54 kg \| [A-Z] \| 33 kg to 37 kg$/);
    expect(lineOf(out, WHOLE, 'RW601')).toMatch(
      /^RW601 \| Coupling of Cart, the load \| 54 kg \| at most 55 kg \| 1 kg/,
    );
  });

  test('says so where a ratio has no bounds, and where the least is a bound only', async () => {
    const text = CART.replace('tank water 60 L of water at 1500 mm back,', '$& 300 mm left,').replace(
      'at 3600 mm back,',
      '$& 400 mm right,',
    );
    const { out } = await printed({ 'cart.rig': text });
    expect(lineOf(out, WHOLE, 'axle, sides apart')).toMatch(/^axle, sides apart \| 0 % \| \(bound\) \| /);
    expect(out).toContain('(bound): it can tilt to either side');
    expect((await printed({ 'cart.rig': CART })).out).not.toContain('(bound)');
    const heavy = CART.replace('tare 300 kg at 2700 mm', 'tare 30 kg at 100 mm').replace('at 1500 mm', 'at -2000 mm');
    const light = await printed({ 'cart.rig': heavy });
    expect(light.out.replace(/\s+/g, ' ')).toContain(
      'Without bounds, since what divides can be nothing: Cart.axles.imbalance.',
    );
  });

  test('prints worst case and standard deviation beside each other, with what contributes', async () => {
    const { out } = await printed({ 'cart.rig': CART });
    // 6 kg · 0.1 and 3 kg · -0.2 on the coupling: 1.2 kg at worst, √(0.6² + 0.6²) / √3 = 0.490 kg.
    expect(lineOf(out, 'tolerances in case loaded', 'coupling')).toBe(
      'coupling | 37 kg | ± 1.2 kg | 0.49 kg | Cart.tare 50 %, crate 50 %',
    );
    // 37 kg - 0.6 kg of 370 kg + 3 kg at least; 37 kg + 0.6 kg of 370 kg - 3 kg at most; 0.245 % and 0.249 % with 6 kg of the tare.
    expect(lineOf(out, 'tolerances in case loaded', 'coupling share')).toMatch(
      /^coupling share \| 10 % \| -0\.245 % \+0\.249 % \| 0\.14 % \| crate 100 %$/,
    );
    expect(lineOf(out, 'tolerances in case empty', 'coupling')).toBe(
      'coupling | 30 kg | ± 0.6 kg | 0.346 kg | Cart.tare 100 %',
    );
    expect(out.replace(/\s+/g, ' ')).toContain('rectangular distribution (half width / √3, JCGM 100:2008, 4.3.7)');
    const bare = await printed({ 'cart.rig': CART.replace(/,? tolerance \d kg/g, '') });
    expect(bare.out).not.toMatch(/tolerance|JCGM/);
  });

  test('tells which ratios have no bounds within the tolerances, and why', async () => {
    const { out } = await printed({ 'light.rig': LIGHT });
    const why = 'Without bounds, since what divides can be nothing: Truck.front.imbalance.';
    expect(lineOf(out, 'tolerances in case full', 'Without bounds')).toBe(why);
    expect(out.split(why)).toHaveLength(2);
  });

  test('says what it looks at, and the caution', async () => {
    const { out } = await printed({ 'cart.rig': CART });
    const words = out.replace(/\s+/g, ' ');
    expect(words).toContain('standing on level ground. Proved: no such state is nearer to the limit');
    expect(words).toContain('Verify every load on a weighbridge before driving.');
  });

  test('shows one case where asked, in a file that has several', async () => {
    const { out } = await printed({ 'cart.rig': CART, 'spare.rig': SPARE }, '--case', 'loaded');
    expect(lineOf(out, 'case loaded', 'coupling')).toMatch(/^coupling \| 37 kg \| A \| 37 kg \| A \| 37 kg$/);
    expect(out).not.toMatch(/everything reachable|tolerances in case empty|Spare/);
  });

  test('shows rigs in the units that they are written in, unless told otherwise', async () => {
    const american = CART.replace('rig Errand "To the yard"', '$& in US');
    expect(lineOf((await printed({ 'a.rig': american })).out, WHOLE, 'tongue')).toMatch(/^tongue load \| 48.5 lb/);
    expect(lineOf((await printed({ 'a.rig': american }, '--units', 'metric')).out, WHOLE, 'tongue')).toMatch(
      /^tongue load \| 22 kg/,
    );
    expect(lineOf((await printed({ 'a.rig': CART }, '--units', 'US')).out, WHOLE, 'coupling')).toMatch(
      /^coupling \| 48.5 lb/,
    );
  });

  test('shows a unit that no rig uses alone', async () => {
    const { out, code } = await printed({ 'spare.rig': SPARE });
    expect(code).toBe(1);
    expect(out).toMatch(/^trailer Spare /);
    expect(lineOf(out, WHOLE, 'nothing')).toBe('nothing varies');
    // As worked out for the fleet: 294.8 kg on a rating of 280 kg.
    expect(out.replace(/\s+/g, ' ')).toContain('broken in case empty (A): 295 kg, at most 280 kg');
  });

  test('says so where there are no loads, no rig, no such rig or case', async () => {
    const none = await printed({ 'a.rig': 'trailer Bare {\n}\n' });
    expect(none.out).toContain('  No loads: `rigwright check` says what is missing.\n');
    expect((await printed({ 'a.rig': 'item box 3 kg\n' })).out).toMatch(/^no rig, vehicle or trailer in these files\n/);
    const wrong = await printed({ 'cart.rig': CART }, '--rig', 'Errnad');
    expect(wrong).toMatchObject({ code: 2, out: '' });
    expect(wrong.error).toContain('did you mean Errand?');
    const wrongCase = await printed({ 'cart.rig': CART }, '--case', 'emtpy');
    expect(wrongCase).toMatchObject({ code: 2, out: '' });
    expect(wrongCase.error).toContain('did you mean empty?');
    expect((await printed({}, 'missing.rig')).code).toBe(2);
  });

  test.each([100, 80, 60, 48, 40])('goes beyond no terminal of %d columns', async (columns) => {
    const cwd = await folderWith({ 'cart.rig': RANGE, 'spare.rig': SPARE });
    const surroundings = { isTerminal: true, columns, environment: { NO_COLOR: '1' } };
    const { out } = await rigwright(cwd, ['envelope'], surroundings);
    expect(out.split('\n').filter((line) => displayWidth(line) > columns)).toEqual([]);
    const words = out.replace(/\s+/g, ' ');
    for (const part of ['22 kg', '60 kg', '-5 kg', 'broken', '0.49 kg', '± 1.2 kg']) expect(words).toContain(part);
  });

  test('colours what is broken red and nothing else', async () => {
    const cwd = await folderWith({ 'cart.rig': CART });
    const { out } = await rigwright(cwd, ['envelope', '--color', 'always']);
    const red = out
      .split('\u001b[31m')
      .slice(1)
      .map((text) => text.split('\u001b[39m')[0]?.trim() ?? '');
    expect(red.length).toBeGreaterThan(0);
    expect(red[0]).toMatch(/^RW601 Coupling of Cart, the load: broken/);
    expect(red.at(-1)).toMatch(/margin -5 kg$/);
    expect(red.join(' ').match(/RW\d+/g)).toEqual(['RW601']);
  });

  test('prints a file’s words without control characters', async () => {
    const text = CART.replace('"To the yard"', '"a\u001b[2Jb"');
    expect((await printed({ 'cart.rig': text })).out).not.toContain('\u001b');
  });
});

describe('rigwright envelope --format json', () => {
  interface EnvelopeOutput {
    readonly envelopes: readonly {
      readonly reaches: readonly {
        readonly case?: string;
        readonly quantities: Readonly<
          Record<string, { readonly least: { readonly state: number }; readonly most: { readonly state: number } }>
        >;
        readonly unbounded: readonly string[];
        readonly limits: readonly { readonly code: string }[];
        readonly states: readonly object[];
      }[];
      readonly tolerances: readonly {
        readonly case: string;
        readonly quantities: Readonly<Record<string, object>>;
        readonly unbounded: readonly string[];
      }[];
    }[];
  }
  const ajv = new Ajv2020({ strict: true, allErrors: true });
  const validate = ajv.compile<EnvelopeOutput>(schema);

  async function json(files: Files, ...args: string[]): Promise<EnvelopeOutput> {
    const { out } = await printed(files, '--format', 'json', ...args);
    const output: unknown = JSON.parse(out);
    if (!validate(output)) throw new Error(ajv.errorsText(validate.errors));
    return output;
  }

  test('is as the schema says of a file that fills a tank to more than it holds: to full', async () => {
    const over = CART.replace('  case empty', '  reachable { water 0 % to 130 % }\n  case empty');
    const { envelopes } = await json({ 'cart.rig': over });
    expect(envelopes[0]?.reaches[0]).toMatchObject({ varying: { levels: { 'Cart.water': { least: 0, most: 1 } } } });
  });

  test('is as the schema says: ranges in SI units with the states that take their ends', async () => {
    const output = await json({ 'cart.rig': CART, 'bare.rig': 'trailer Bare {\n}\n' }, '--units', 'US');
    expect(output).toMatchObject({
      envelopes: [
        { name: 'Bare', kind: 'trailer', reaches: [], tolerances: [] },
        { name: 'Errand', kind: 'rig', title: 'To the yard' },
      ],
      caution: expect.stringMatching(/Proved:.*JCGM 100:2008.*weighbridge/s),
    });
    const whole = output.envelopes[1]?.reaches[0];
    expect(whole).toMatchObject({
      varying: { levels: { 'Cart.water': { least: 0, most: 1 } }, seats: [], items: ['crate'] },
      unbounded: [],
    });
    expect(whole).not.toHaveProperty('case');
    const coupling = whole?.quantities['Cart.coupling.load'];
    expect(coupling).toMatchObject({
      unit: 'kg',
      exact: true,
      least: { value: expect.closeTo(22, 9) },
      most: { value: expect.closeTo(60, 9) },
      namedCases: { least: expect.closeTo(30, 9), most: expect.closeTo(37, 9) },
    });
    expect(whole?.states[coupling?.least.state ?? -1]).toEqual({
      label: 'with crate, else as in case empty',
      nearestCase: 'empty',
      levels: { 'Cart.water': 0 },
      occupants: [],
      absent: [],
      stowed: [{ item: 'crate', count: 1, unit: 'Cart' }],
    });
    expect(whole?.states[coupling?.most.state ?? -1]).toMatchObject({
      levels: { 'Cart.water': 1 },
      absent: ['crate'],
      stowed: [],
    });
  });

  test('has every limit with verdict, and whether that is proved', async () => {
    const output = await json({ 'cart.rig': CART });
    const limits = output.envelopes[0]?.reaches[0]?.limits;
    expect(limits?.find(({ code }) => code === 'RW601')).toEqual({
      code: 'RW601',
      subject: 'Coupling of Cart',
      quantity: 'the load',
      weight: 'limit',
      verdict: 'broken',
      found: 'proved',
      value: expect.closeTo(60, 9),
      limit: 55,
      margin: expect.closeTo(-5, 9),
      sense: 'at most',
      unit: 'kg',
      limitName: 'the coupling rating of Cart',
      state: expect.any(Number),
    });
    expect(limits?.find(({ code }) => code === 'RW581')).toMatchObject({ verdict: 'holds', found: 'sampled' });
  });

  test('has the tolerances of each case with their contributions', async () => {
    const output = await json({ 'cart.rig': CART });
    expect(output.envelopes[0]?.tolerances).toMatchObject([{ case: 'loaded' }, { case: 'empty' }]);
    expect(output.envelopes[0]?.tolerances[0]?.quantities['Cart.coupling.load']).toEqual({
      unit: 'kg',
      value: expect.closeTo(37, 9),
      worstCase: { least: expect.closeTo(35.8, 9), most: expect.closeTo(38.2, 9) },
      standardDeviation: expect.closeTo(Math.sqrt(0.72 / 3), 9),
      contributions: expect.arrayContaining([
        {
          name: 'crate',
          of: 'mass',
          halfWidth: expect.closeTo(3, 9),
          effect: expect.closeTo(-0.6, 9),
          share: expect.closeTo(0.5, 9),
        },
      ]),
    });
  });

  test('lists the ratios that have no bounds within the tolerances', async () => {
    const output = await json({ 'light.rig': LIGHT });
    const [envelope] = output.envelopes;
    expect(envelope?.reaches.map(({ unbounded }) => unbounded)).toEqual([[]]);
    expect(envelope?.tolerances.map(({ case: name, unbounded }) => [name, unbounded])).toEqual([
      ['full', ['Truck.front.imbalance']],
      ['empty', []],
    ]);
    expect(envelope?.tolerances[0]?.quantities).not.toHaveProperty(['Truck.front.imbalance']);
    expect(envelope?.tolerances[0]?.quantities).toHaveProperty(['Truck.rear.imbalance']);
  });

  test('has the cases that state ranges, and one alone where asked', async () => {
    const ranged = await json({ 'cart.rig': RANGE });
    expect(ranged.envelopes[0]?.reaches.map((reach) => reach.case)).toEqual([undefined, 'loaded']);
    const one = await json({ 'cart.rig': CART }, '--case', 'empty');
    expect(one.envelopes[0]?.reaches.map((reach) => reach.case)).toEqual(['empty']);
  });
});
