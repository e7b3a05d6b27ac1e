import { describe, expect, test } from 'vitest';
import { displayWidth } from '../../../server/cli/text.ts';
import { ERRAND, FLEET, ITEMS, SPARE } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

async function loads(files: Files, ...args: string[]) {
  const { out, ...rest } = await rigwright(await folderWith(files), ['loads', ...args]);
  return { ...rest, out: out.replaceAll('\u202f', ' ') };
}

/** The lines of the case's block, with runs of spaces as two. */
function block(out: string, heading: string): string[] {
  const lines = out.split('\n');
  const start = lines.findIndex((line) => line.startsWith(heading));
  const end = lines.indexOf('', start);
  return lines.slice(start, end).map((line) => line.trim().replace(/ {2,}/g, '  '));
}

describe('load tables', () => {
  test('show each load with its limit and the margin to it', async () => {
    const { code, out, error } = await loads(FLEET);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(/^rig Errand "To the yard" {2}errand\.rig:19:5\n {2}Truck: Yard truck\n/);
    expect(block(out, '  case loaded').slice(0, 12)).toEqual([
      'case loaded "All on board"',
      'load  limit  margin',
      'Truck  front axle  1 183 kg',
      'rear axle  867 kg',
      'all axles  2 050 kg  2 500 kg  GVM  450 kg',
      'Cart  coupling  50 kg  100 kg  hitch rating  50 kg',
      'coupling share  10 %',
      'axle  450 kg  600 kg  rating  150 kg',
      'mass  500 kg  750 kg  ATM  250 kg',
      '1 500 kg  towing rating  1 000 kg',
      'whole rig  all units  2 500 kg  4 000 kg  GCM  1 500 kg',
      'in motion  on the 5 % climb  on the 10 % descent  braking at 3 m/s²',
    ]);
    expect(block(out, '  case empty')).toContain('Cart  coupling  30 kg  100 kg  hitch rating  70 kg');
  });

  test('say the words of the market that a rig names; the JSON output keeps those of the language', async () => {
    const files = { ...FLEET, 'errand.rig': ERRAND.replace('"To the yard" {', '"To the yard" in CA {') };
    const { out } = await loads(files);
    const rows = block(out, '  case loaded');
    expect(rows).toContain('all axles  2 050 kg  2 500 kg  GVWR  450 kg');
    expect(rows).toContain('Cart  tongue load  50 kg  100 kg  hitch rating  50 kg');
    expect(rows).toContain('axle  450 kg  600 kg  GAWR  150 kg');
    expect(rows).toContain('whole rig  all units  2 500 kg  4 000 kg  GCWR  1 500 kg');
    expect(rows.filter((row) => row.startsWith('Cart  tongue load'))).toHaveLength(2);
    const json = await loads(files, '--format', 'json');
    expect(json.out).toContain('"limit": "GVM"');
    expect(json.out).not.toMatch(/"(?:limit|label)": "(?:GVWR|GCWR|tongue load)"/);
  });

  test('show what grade and braking do to loads, one column each', async () => {
    const { out } = await loads(FLEET);
    const [, ...rows] = block(out, '  case loaded').slice(11);
    expect(rows.map((row) => row.replace(/ {2}\S+ kg.*| {2}1 \d+ kg.*/, ''))).toEqual([
      'Truck  front axle',
      'rear axle',
      'Cart  coupling',
      'axle',
    ]);
    for (const row of rows) expect(row.match(/\d kg/g)).toHaveLength(3);
  });

  test('leave the block out where nothing moves', async () => {
    const { out } = await loads({ ...FLEET, 'errand.rig': ERRAND.replace(/ {2}travel.*\n/, '') });
    expect(out).toContain('case loaded');
    expect(out).not.toContain('in motion');
  });

  test('mark what is over its rating and end with 1', async () => {
    const { code, out } = await loads({ 'spare.rig': SPARE });
    expect(code).toBe(1);
    expect(out).toMatch(/^trailer Spare {2}spare\.rig:1:9\n/);
    expect(out).toMatch(/axles +295 kg +280 kg +rating +-14\.8 kg {2}over\n/);
    expect(out).toMatch(/\n1 error, .* in 1 file; `rigwright check` tells more\n/);
  });

  test('show the axles of a group whose springs do not equalise them', async () => {
    const { out } = await loads({ 'spare.rig': SPARE });
    expect(out).toMatch(/ {2}axle 1 +128 kg\n +axle 2 +167 kg\n/);
  });

  test('show US customary units where they are asked for', async () => {
    // 500 kg / 0.45359237 kg/lb (exact, NIST SP 811) = 1102.3 lb; 750 kg = 1653.5 lb.
    const { out } = await loads(FLEET, '--units', 'US', '--case', 'loaded');
    expect(out).toMatch(/mass +1 102 lb +1 653 lb +ATM +551 lb\n/);
    expect(block(out, '  case loaded').join('\n')).not.toContain('kg');
  });

  test('list assumptions with their basis, and the cautions once', async () => {
    const { out } = await loads({ ...FLEET, 'spare.rig': SPARE });
    expect(out).toMatch(/\n {2}assumptions\n {4}- yaw inertia of the tare of Truck not stated: .*\n.*Basis: /);
    expect(out.match(/weighbridge/g)).toHaveLength(1);
    expect(out).toMatch(/Compliance plates, .* prevail over these figures\.\n$/s);
  });

  test('fit into 100 columns, and running text into the terminal', async () => {
    const folder = await folderWith({ ...FLEET, 'spare.rig': SPARE });
    const wide = (await rigwright(folder, ['loads'])).out.split('\n');
    expect(Math.max(...wide.map(displayWidth))).toBeLessThanOrEqual(100);
    const narrow = (await rigwright(folder, ['loads', '--color', 'never'], { isTerminal: true, columns: 80 })).out;
    const text = narrow.split('\n').filter((line) => /^ {4}- |^ {6}\S/.test(line));
    expect(Math.max(...text.map(displayWidth))).toBeLessThanOrEqual(80);
  });

  test('print the diagnostics below where they are asked for', async () => {
    const { out } = await loads({ 'spare.rig': SPARE }, '--with-diagnostics', '--level', 'error');
    expect(out).toMatch(/\nspare\.rig:3:\d+ error RW50\d .*\n {2}3 \| axles .*\n +\| +\^+\n/);
    expect(out).toMatch(/\n1 error in 1 file\n/);
  });
});

describe('which rigs', () => {
  test('units that no rig uses, not those that one does', async () => {
    const { out } = await loads({ ...FLEET, 'spare.rig': SPARE });
    expect(out.match(/^(rig|vehicle|trailer) \w+/gm)).toEqual(['rig Errand', 'trailer Spare']);
  });

  test('those of the files named, not of files they use', async () => {
    const files = { ...FLEET, 'more.rig': 'use "errand.rig"\nrig Other {\n  tow Truck\n}\n' };
    expect((await loads(files, 'more.rig')).out.match(/^rig \w+/gm)).toEqual(['rig Other']);
  });

  test('those asked for, units of a rig too', async () => {
    expect((await loads(FLEET, '--rig', 'Cart')).out.match(/^(rig|vehicle|trailer) \w+/gm)).toEqual(['trailer Cart']);
    const { out } = await loads(FLEET, '--rig', 'Errand', '--case', 'empty');
    expect(out.match(/^ {2}case \w+/gm)).toEqual(['  case empty']);
  });

  test('an unknown name is wrong usage', async () => {
    expect(await loads(FLEET, '--rig', 'Erand')).toEqual({
      code: 2,
      out: '',
      error: 'rigwright: --rig Erand: nothing in these files is called that; did you mean Errand?\n',
    });
    expect(await loads(FLEET, '--case', 'holiday')).toEqual({
      code: 2,
      out: '',
      error: 'rigwright: --case holiday: nothing in these files is called that; there is loaded and empty\n',
    });
  });

  test('one that cannot be computed says where to look', async () => {
    const broken = ERRAND.replace('3000 mm back', 'sideways');
    const { code, out } = await loads({ ...FLEET, 'errand.rig': broken }, '--rig', 'Errand', '--case', 'loaded');
    expect(code).toBe(1);
    expect(out).toMatch(/^rig Errand .*\n.*\n\n {2}No loads: `rigwright check` says what is missing\.\n/);
  });

  test('files without any say so', async () => {
    const { code, out } = await loads({ 'items.rig': ITEMS });
    expect(code).toBe(0);
    expect(out).toMatch(/^no rig, vehicle or trailer in these files\n/);
  });
});
