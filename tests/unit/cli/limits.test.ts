import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { GERMANY } from '../../../language/diagnostics/markets/germany.ts';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { displayWidth } from '../../../server/cli/text.ts';
import { FLEET, SPARE } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

const GRAVEL = GERMANY['coupling-load-minimum'].example;
const CAUTION = /Verify every load on a weighbridge before driving\./;

/** What is printed, with spaces of numbers as plain ones. */
async function printed(files: Files, ...args: string[]): Promise<{ out: string; code: number; error: string }> {
  const outcome = await rigwright(await folderWith(files), ['limits', ...args]);
  return { ...outcome, out: outcome.out.replaceAll('\u202f', ' ') };
}

/** The line that begins with a code and a subject. */
const lineOf = (out: string, start: string): string =>
  out
    .split('\n')
    .find((line) => line.trim().replace(/ +/g, ' ').startsWith(start))
    ?.trim()
    .replace(/ {2,}/g, ' | ') ?? '';

describe('rigwright limits', () => {
  // Loads of the fleet by the lever rule, worked out in fleet.ts.
  test('prints each limit with figure, margin, worst case and verdict, below its text', async () => {
    const { out, code } = await printed(FLEET, '--rig', 'Errand');
    expect(code).toBe(0);
    expect(out).toMatch(/^rig Errand "To the yard" {2}errand\.rig:\d+:5\n/);
    expect(out).toContain("\n  the maker's plate, as stated in the file: plate\n");
    expect(lineOf(out, 'RW501 Axle of Cart')).toBe(
      'RW501 | Axle of Cart, the load | 450 kg | at most 600 kg | 150 kg | loaded | holds',
    );
    expect(lineOf(out, 'RW601 Coupling of Cart')).toBe(
      'RW601 | Coupling of Cart, the load | 50 kg | at most 100 kg | 50 kg | loaded | holds',
    );
  });

  test('says what could not be checked and what is missing, and counts', async () => {
    const { out } = await printed(FLEET, '--rig', 'Errand');
    expect(out).toMatch(
      /RW501 Front axle of Truck, the load: could not be checked; missing: a rating of the front axle\s+of Truck \(rating 1550 kg\)\n/,
    );
    expect(out).toMatch(
      /RW611 Tyres of the axle of Cart, [^:]*: could\s+not\s+be\s+checked;\s+missing:\s+the\s+tyres\s+of\s+the\s+axle\s+of\s+Cart /,
    );
    const open = out.match(/could\s+not\s+be\s+checked;\s+missing/g)?.length;
    const holds = out.match(/ holds\n/g)?.length;
    expect(out).toContain(`\n  ${holds} checked, ${holds} hold, 0 broken, ${open} could not be checked.\n`);
  });

  test('says that it compares, that it calls nothing legal, and the caution', async () => {
    const { out } = await printed(FLEET);
    expect(out.replace(/\s+/g, ' ')).toContain(
      'This says which figures of the files were compared with which limit of which text, on level ground in the cases of the files. It does not say that a rig is legal',
    );
    expect(out).toMatch(CAUTION);
  });

  test('shows what is broken, by a text of a market', async () => {
    const { out, code } = await printed({ 'gravel.rig': GRAVEL });
    expect(code).toBe(1);
    expect(out).toContain('\n  in DE\n');
    expect(out).toContain('\n  StVZO § 44(3): regulation, DE\n');
    // 280 kg · 4 % = 11.2 kg; (240 · 2400 + 40 · 3200) / 2600 on the axle leave 9.23 kg on the coupling, 1.97 kg too few.
    expect(lineOf(out, 'RW801')).toBe(
      'RW801 | Coupling of Hauler, the coupling | 9.23 kg | at least 11.2 kg | -1.97 kg | loaded | broken',
    );
    expect(out).toMatch(/\d+ checked, \d+ holds?, 1 broken,/);
  });

  test('keeps what is turned off in the table, and lists it with its reason', async () => {
    const text = GRAVEL.replace('  tow Truck', '  rule RW801 off "only in the yard"\n  tow Truck');
    const { out, code } = await printed({ 'gravel.rig': text });
    expect(code).toBe(0);
    expect(lineOf(out, 'RW801')).toMatch(/ \| broken, turned off$/);
    expect(out).toContain('\n  Turned off: RW801 (only in the yard).\n');
    expect(out).toContain('1 finding turned off: RW801 (only in the yard).');
  });

  test('shows a unit alone, in US units where asked', async () => {
    const { out, code } = await printed({ 'spare.rig': SPARE }, '--units', 'US');
    expect(code).toBe(1);
    expect(lineOf(out, 'RW502')).toBe(
      'RW502 | Axle group of Spare, the load | 650 lb | at most 617 lb | -32.5 lb | the empty state | broken',
    );
  });

  test('says so where there are no loads, no rig, no such rig', async () => {
    const none = await printed({ 'a.rig': 'trailer Bare {\n}\n' });
    expect(none.out).toContain('  No loads: `rigwright check` says what is missing.\n');
    expect((await printed({ 'a.rig': 'item box 3 kg\n' })).out).toMatch(/^no rig, vehicle or trailer in these files\n/);
    const wrong = await printed(FLEET, '--rig', 'Errnad');
    expect(wrong).toMatchObject({ code: 2, out: '' });
    expect(wrong.error).toContain('did you mean Errand?');
  });

  test.each([100, 80, 60, 48, 40])('goes beyond no terminal of %d columns', async (columns) => {
    const cwd = await folderWith({ ...FLEET, 'gravel.rig': GRAVEL });
    const surroundings = { isTerminal: true, columns, environment: { NO_COLOR: '1' } };
    const { out } = await rigwright(cwd, ['limits'], surroundings);
    expect(out.split('\n').filter((line) => displayWidth(line) > columns)).toEqual([]);
    const words = out.replace(/\s+/g, ' ');
    for (const part of ['9.23 kg', 'at least 11.2 kg', '-1.97 kg', 'broken']) expect(words).toContain(part);
  });

  test('colours what is broken and nothing else red', async () => {
    const cwd = await folderWith({ 'gravel.rig': GRAVEL });
    const { out } = await rigwright(cwd, ['limits', '--color', 'always']);
    const red = out
      .split('\u001b[31m')
      .slice(1)
      .map((text) => text.split('\u001b[39m')[0]?.trim());
    expect(red).toEqual(['9.23 kg', '-1.97 kg', 'broken']);
  });

  test('prints a file’s words without control characters', async () => {
    const text = GRAVEL.replace('rig Delivery', 'rig Delivery "a\u001b[2Jb"').replace(
      'case loaded',
      'rule RW801 off "\u001b[31m"\n  case loaded',
    );
    expect((await printed({ 'gravel.rig': text })).out).not.toContain('\u001b');
  });
});

describe('rigwright limits --format json', () => {
  const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);

  test('is as the schema says, in SI units', async () => {
    const text = GRAVEL.replace('  tow Truck', '  rule RW801 off "only in the yard"\n  tow Truck');
    const { out } = await printed(
      { ...FLEET, 'gravel.rig': text, 'bare.rig': 'trailer Bare {\n}\n' },
      '--format',
      'json',
    );
    const output: unknown = JSON.parse(out);
    expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
    expect(output).toMatchObject({
      limits: [
        { name: 'Bare', kind: 'trailer', limits: [], tally: { checked: 0, hold: 0, broken: 0, open: 0 } },
        { name: 'Errand', kind: 'rig' },
        { name: 'Delivery', turnedOff: [{ code: 'RW801', reason: 'only in the yard', statedIn: 'block' }] },
      ],
      caution: expect.stringMatching(/not say that a rig is legal.*weighbridge/s),
      turnedOff: [{ code: 'RW801', level: { reason: 'only in the yard' } }],
    });
    const rows = JSON.stringify(output);
    expect(rows).toContain('"missing":"a rating of the front axle of Truck (rating 1550 kg)"');
    expect(output).toHaveProperty(
      'limits.2.limits',
      expect.arrayContaining([
        {
          code: 'RW801',
          text: 'StVZO § 44(3)',
          authority: 'regulation',
          markets: ['DE'],
          subject: 'Coupling of Hauler',
          quantity: 'the coupling load',
          verdict: 'broken',
          value: expect.closeTo(120 / 13, 9),
          limit: expect.closeTo(11.2, 9),
          margin: expect.closeTo(120 / 13 - 11.2, 9),
          sense: 'at least',
          unit: 'kg',
          limitName: expect.any(String),
          worstIn: 'case loaded',
          turnedOff: true,
        },
      ]),
    );
  });
});
