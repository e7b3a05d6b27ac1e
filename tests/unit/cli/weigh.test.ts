import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { displayWidth } from '../../../server/cli/text.ts';
import { ERRAND, FLEET, ITEMS } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

/**
 * The cart 60 kg heavier than the file has it, at 2400 mm: (500·2700 + 60·2400) / 3000 = 498 kg on the axle, 62 kg on
 * the coupling, which take 62·1000/3000 kg off the front axle.
 */
const SLIP = `weighing october "Works scale" in loaded {
    accuracy 1 kg
    Truck.front 1179.333 kg
    Truck.rear 882.667 kg
    solo Truck { front 1200 kg  rear 800 kg }
    solo Cart { axles 498 kg  coupling 62 kg }
  }
`;

const WEIGHED: Files = { 'items.rig': ITEMS, 'errand.rig': ERRAND.replace('  travel', `  ${SLIP}  travel`) };

/** A second slip, of the cart alone. */
const withSecond = (readings: string): Files => ({
  'items.rig': ITEMS,
  'errand.rig': ERRAND.replace(
    '  travel',
    `  ${SLIP}  weighing november in loaded { accuracy 1 kg  solo Cart { ${readings} } }\n  travel`,
  ),
});

async function printed(files: Files, ...args: string[]): Promise<{ out: string; code: number; error: string }> {
  const outcome = await rigwright(await folderWith(files), ['weigh', ...args]);
  return { ...outcome, out: outcome.out.replaceAll('\u202f', ' ') };
}

/** The cells of the lines that start with a text. */
const linesOf = (out: string, start: string): readonly string[] =>
  out
    .split('\n')
    .map((line) => line.trim().replace(/ {2,}/g, ' | '))
    .filter((line) => line.startsWith(start));

describe('rigwright weigh', () => {
  test('prints each reading beside its prediction, what passes differ by, and the tares', async () => {
    const { out, code } = await printed(WEIGHED);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^rig Errand "To the yard" {2}errand\.rig:\d+:5\n\n {2}weighing october "Works scale", in case loaded\n/,
    );
    expect(out).toContain('    Readings have a standard deviation of 1 kg.\n');
    expect(out).toMatch(/\n {4}coupled up\n {6}Truck\.front .*\n {6}Truck\.rear .*\n {4}Truck alone\n/);
    // Computed by the lever in fleet.ts: 1200 − 16.67 and 800 + 66.67 kg.
    expect(linesOf(out, 'Truck.front')).toEqual([
      'Truck.front | 1 179 kg | 1 183 kg | -4 kg | 2 kg | beyond tolerance',
      'Truck.front | 1 200 kg | 1 200 kg | 0 kg | 2 kg | agrees',
    ]);
    expect(linesOf(out, 'Cart.axles')).toEqual(['Cart.axles | 498 kg | 450 kg | +48 kg | 2 kg | beyond tolerance']);
    // 1179 + 883 − 2000 = 62 kg, ± √4 kg.
    expect(linesOf(out, 'Cart.coupling.load')[0]).toBe('Cart.coupling.load | 62 kg ± 2 kg | 50 kg');
    expect(out).toContain('Cart.coupling.load: axles of Truck coupled up less Truck alone.');
    expect(linesOf(out, 'Cart | mass')[0]).toMatch(/^Cart \| mass \| 300 kg \| 360 kg ± 1\.\d+ kg$/);
    expect(linesOf(out, 'centre along').at(-1)).toMatch(
      /^centre along \| 2 700 mm back \| 2 650 mm ± \d\.\d+ mm back$/,
    );
    const words = out.replace(/\s+/g, ' ');
    expect(words).toMatch(
      /The slip says that Cart weighs 60 kg ± 1\.\d+ kg more than the file has it, about 2 400 mm ± \d\d(\.\d)? mm back/,
    );
    expect(words).toContain('The readings agree with each other: 2 more than needed.');
    expect(words).toContain(
      'Missing to determine the rest: for Truck left and right of an axle apart and one end raised; for Cart left and right of an axle apart and the coupling raised.',
    );
  });

  test('says at the top of a slip whether the file is right', async () => {
    const verdict = async (readings: string): Promise<string | undefined> => {
      const slip = `weighing october in loaded { scale 5 kg  ${readings} }\n  travel`;
      const { out } = await printed({ 'items.rig': ITEMS, 'errand.rig': ERRAND.replace('  travel', `  ${slip}`) });
      return out
        .split('\n')
        .find((_, index, lines) => lines[index - 1]?.includes('weighing october') === true)
        ?.trim();
    };
    expect(await verdict('Cart.axles 450 kg')).toBe('The reading agrees with the file within tolerance.');
    expect(await verdict('solo Cart { axles 450 kg  coupling 50 kg }')).toBe(
      'All 2 readings agree with the file within tolerance.',
    );
    expect(await verdict('Cart.axles 480 kg')).toBe(
      '1 of 1 reading beyond tolerance: the file is off, or the case is.',
    );
    expect(await verdict('Cart.axles 480 kg  solo Cart { axles 420 kg }')).toBe(
      'Readings contradict each other: look at these first.',
    );
  });

  test('shows further cases apart, and what differences are made of once', async () => {
    const lines = `coupled in away { Truck.front 1200 kg  Truck.rear 800 kg }
    solo Truck in away { front 1200 kg  rear 800 kg }
    solo Truck {`;
    const slip = SLIP.replace('solo Truck {', lines);
    const text = ERRAND.replace('  travel', `  case away { absent crate }\n  ${slip}  travel`);
    const { out } = await printed({ 'items.rig': ITEMS, 'errand.rig': text });
    expect(out).toMatch(
      /\n {4}coupled up, case away\n {6}Truck\.front .*\n {6}Truck\.rear .*\n {4}Truck alone, case away\n/,
    );
    expect(linesOf(out, 'Cart.coupling.load in away')[0]).toMatch(/ \| 0 kg ± 2 kg \| \d/);
    expect(out.replace(/\s+/g, ' ').match(/: axles of Truck coupled up less Truck alone/g)).toHaveLength(1);
  });

  test('joins the slips of a rig after them, in one estimate of each tare', async () => {
    const { out } = await printed(withSecond('axles 498 kg  coupling 62 kg'));
    const [before = '', after = ''] = out.split('\n  october and november together\n');
    expect(before).toContain(
      '    5 of 6 readings beyond tolerance: the file is off, or the case is.\n'.replace('5', '4'),
    );
    expect(before).not.toContain('Missing to determine');
    expect(linesOf(after, 'tare |')).toEqual(['tare | file | slips']);
    expect(linesOf(after, 'Cart | mass')[0]).toMatch(/^Cart \| mass \| 300 kg \| 360\.?\d* kg ± 0\.\d+ kg$/);
    const words = after.replace(/\s+/g, ' ');
    expect(words).toContain('The slips say that Cart weighs 60');
    expect(words).toContain('The slips agree with each other: together 4 more readings than needed.');
    expect(words).toContain('Missing to determine the rest: for Truck');
  });

  test('names what changed between slips that disagree, and joins none', async () => {
    const { out } = await printed(withSecond('axles 598 kg  coupling 62 kg'));
    const [, after = ''] = out.split('\n  october and november together\n');
    expect(linesOf(after, 'tare |')).toEqual([]);
    expect(after.replace(/\s+/g, ' ')).toMatch(
      /october and november disagree with each other: by november Cart weighs 100 kg ± 1\.\d kg more than by october.* Something changed in between, or a reading is off; no estimate is made of all of them\./,
    );
  });

  test('says that the scale comes first, and the caution', async () => {
    const words = (await printed(WEIGHED)).out.replace(/\s+/g, ' ');
    expect(words).toContain(
      'A reading on a good scale outranks a computed load: while the two disagree, go by the scale.',
    );
    expect(words).toContain('Verify every load on a weighbridge before driving.');
    expect(words).toContain('1 warning');
  });

  test('shows pounds and inches where asked', async () => {
    const { out } = await printed(WEIGHED, '--units', 'US');
    expect(linesOf(out, 'Cart.axles')).toEqual([
      'Cart.axles | 1 098 lb | 992 lb | +105.8 lb | 4.4 lb | beyond tolerance',
    ]);
    expect(out).toMatch(/104\.\d in ± 0\.\d+ in back/);
  });

  test('names readings that contradict the others', async () => {
    const text = ERRAND.replace('  travel', `  ${SLIP.replace('882', '922')}  travel`);
    const { out, code } = await printed({ 'items.rig': ITEMS, 'errand.rig': text });
    expect(code).toBe(0);
    expect(linesOf(out, 'Truck.rear')[0]).toMatch(/ \| contradicts$/);
    expect(out).toMatch(/\n {4}Truck\.rear contradicts the other readings/);
    expect(out).not.toContain('The slip says that');
  });

  test('finds the slips of a unit that a rig uses', async () => {
    const own = ERRAND.replace(
      '  limits { ATM 750 kg }',
      '  limits { ATM 750 kg }\n  weighing gate { scale 5 kg  axles 270 kg  coupling 30 kg }',
    );
    const { out } = await printed({ 'items.rig': ITEMS, 'errand.rig': own });
    expect(out).toMatch(/^trailer Cart {2}errand\.rig:/);
    expect(out).toMatch(/\n {4}as it stands\n/);
    // d/√12 of 5 kg for each of two readings.
    expect(linesOf(out, 'Cart | mass')).toEqual(['Cart | mass | 300 kg | 300 kg ± 2 kg']);
  });

  test('says so where there is no slip, no load, no such rig, an error', async () => {
    expect((await printed(FLEET)).out).toMatch(/^no weighing in these files: .*`weighing october \{/);
    expect((await printed(FLEET, '--rig', 'Errand')).out).toContain('  No readings of a weighing that can be used.\n');
    const bare = `trailer Bare {\n  weighing w { scale 5 kg  total 3 kg }\n}\n`;
    const none = await printed({ 'a.rig': bare });
    expect(none).toMatchObject({ code: 1 });
    expect(none.out).toContain('  No loads: `rigwright check` says what is missing.\n');
    const wrong = await printed(FLEET, '--rig', 'Errnad');
    expect(wrong).toMatchObject({ code: 2, out: '' });
    expect(wrong.error).toContain('did you mean Errand?');
    const axle = WEIGHED['errand.rig']?.toString().replace('Truck.rear 882', 'Truck.raer 882') ?? '';
    expect((await printed({ 'items.rig': ITEMS, 'errand.rig': axle })).code).toBe(1);
  });

  test.each([100, 80, 60, 48, 40])('goes beyond no terminal of %d columns', async (columns) => {
    const cwd = await folderWith(withSecond('axles 598 kg  coupling 62 kg'));
    const { out } = await rigwright(cwd, ['weigh'], { isTerminal: true, columns, environment: { NO_COLOR: '1' } });
    expect(out.split('\n').filter((line) => displayWidth(line) > columns)).toEqual([]);
    const words = out.replaceAll('\u202f', ' ').replace(/\s+/g, ' ');
    for (const part of ['498 kg', '450 kg', '+48 kg', 'beyond tolerance', '62 kg ± 2 kg', '2 650 mm ±'])
      expect(words).toContain(part);
  });

  test('prints nothing of a file as a control sequence', async () => {
    const text = ERRAND.replace('  travel', `  ${SLIP.replace('Works scale', '\u001b[31m')}  travel`);
    expect((await printed({ 'items.rig': ITEMS, 'errand.rig': text })).out).not.toContain('\u001b');
  });
});

describe('rigwright weigh --format json', () => {
  const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);

  test('is as the schema says, in SI units', async () => {
    const { out } = await printed(WEIGHED, '--format', 'json');
    const output: unknown = JSON.parse(out);
    expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
    expect(output).toMatchObject({
      weighings: [
        {
          name: 'Errand',
          kind: 'rig',
          file: 'errand.rig',
          weighings: [
            {
              name: 'october',
              title: 'Works scale',
              case: 'loaded',
              scale: { kind: 'accuracy', value: 1, deviation: 1 },
              agreement: 'agree',
              degreesOfFreedom: 2,
              contradicting: [],
            },
          ],
        },
      ],
      caution: expect.stringMatching(/outranks a computed load.*weighbridge/s),
    });
    expect(output).toHaveProperty('weighings.0.weighings.0.readings.4', {
      name: 'Cart.axles',
      quantity: 'Cart.axles.load',
      pass: 'solo',
      unit: 'Cart',
      case: 'loaded',
      read: 498,
      deviation: 1,
      computed: expect.closeTo(450, 9),
      computedDeviation: 0,
      difference: expect.closeTo(48, 9),
      tolerance: 2,
      verdict: 'beyond tolerance',
      fitted: expect.closeTo(498, 0),
      redundancy: expect.any(Number),
    });
    expect(output).toHaveProperty('weighings.0.weighings.0.tares.1', {
      unit: 'Cart',
      mass: { filed: 300, value: expect.closeTo(360, 0), standardError: expect.any(Number) },
      x: { filed: -2.7, value: expect.closeTo(-2.65, 2), standardError: expect.any(Number) },
      y: { filed: 0 },
      z: { filed: 0.5 },
      missing: ['lateral', 'height'],
    });
    expect(output).toHaveProperty('weighings.0.weighings.0.found.0.unlisted.value', expect.closeTo(60, 0));
  });

  test('of slips together is as the schema says, whether they agree or not', async () => {
    const outputOf = async (readings: string): Promise<unknown> => {
      const second = `  weighing november in loaded { accuracy 1 kg  solo Cart { ${readings} } }\n`;
      const gate = '  weighing gate { accuracy 1 kg  axles 318 kg  coupling 42 kg }\n  limits { ATM 750 kg }';
      const text = ERRAND.replace('  travel', `  ${SLIP}${second}  travel`).replace('  limits { ATM 750 kg }', gate);
      const { out } = await printed({ 'items.rig': ITEMS, 'errand.rig': text }, '--format', 'json');
      const output: unknown = JSON.parse(out);
      expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
      return output;
    };
    expect(await outputOf('axles 498 kg  coupling 62 kg')).toMatchObject({
      weighings: expect.arrayContaining([
        expect.objectContaining({
          name: 'Errand',
          joint: expect.objectContaining({
            slips: [{ name: 'october' }, { name: 'november' }, { name: 'gate', unit: 'Cart' }],
            leftOut: [],
            agreement: 'agree',
            degreesOfFreedom: 6,
            tares: [expect.anything(), expect.objectContaining({ unit: 'Cart', missing: ['lateral', 'height'] })],
            found: [expect.objectContaining({ unit: 'Cart' })],
          }),
        }),
      ]),
    });
    const torn = await outputOf('axles 598 kg  coupling 62 kg');
    expect(torn).toMatchObject({
      weighings: expect.arrayContaining([
        expect.objectContaining({
          joint: expect.objectContaining({
            agreement: 'disagree',
            disagreement: expect.objectContaining({
              odd: { name: 'november' },
              changes: expect.arrayContaining([
                expect.objectContaining({
                  unit: 'Cart',
                  figure: 'mass',
                  to: { name: 'november' },
                  change: { value: expect.closeTo(100, 0), standardError: expect.any(Number) },
                }),
              ]),
              suspects: [{ slip: { name: 'november' }, name: 'Cart.axles', pass: 'solo', case: 'loaded' }],
            }),
          }),
        }),
      ]),
    });
    expect(torn).not.toHaveProperty('weighings.1.joint.tares');
  });

  test('of a raised end and of contradicting readings keeps to the schema', async () => {
    const lines = SLIP.replace('882', '922').replace(
      '    solo Cart',
      '    raised Truck.front 12 deg, wheel_radius 340 mm { front 1150 kg }\n    solo Cart',
    );
    const { out } = await printed(
      { 'items.rig': ITEMS, 'errand.rig': ERRAND.replace('  travel', `  ${lines}  travel`) },
      '--format',
      'json',
    );
    const output: unknown = JSON.parse(out);
    expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
    expect(output).toHaveProperty(
      'weighings.0.weighings.0.contradicting',
      expect.arrayContaining([{ name: 'Truck.rear', pass: 'coupled', case: 'loaded' }]),
    );
    expect(output).toHaveProperty('weighings.0.weighings.0.readings.4.raised', {
      support: 'front',
      pitch: expect.closeTo((12 * Math.PI) / 180, 9),
      wheelRadius: 0.34,
    });
  });
});
