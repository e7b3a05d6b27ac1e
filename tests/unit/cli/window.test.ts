import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { elementsOf } from '../drawing/xml.ts';
import { folderWith, rigwright } from './support.ts';

/** 270 + 50·bow + 120·stern kg on the axle, rated 345 kg (lever rule about the ball; 3000 mm to the axle). */
const CART = `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up
  hitch ball at 1000 mm behind rear, 440 mm up
  seat driver 75 kg at 1200 mm back, 700 mm up
  tank fuel 60 L of diesel at 2000 mm back, 400 mm up
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm, rating 345 kg
  tare 300 kg at 2700 mm back, 500 mm up
  tank bow 100 L of water at 1500 mm back, 500 mm up
  tank stern 100 L of water at 3600 mm back, 500 mm up
  tank fuel 20 L of petrol at 3000 mm back, 500 mm up, empty 1 kg
}
`;
const ERRAND =
  'rig Errand "To the yard" { tow Truck\n  haul Cart\n  case out { bow 100 %  stern 0 %  Cart.fuel 0 % }\n  case back { bow 0 %  stern 50 %  Cart.fuel 0 % }\n  reachable { Cart.fuel 0 % to 0.1 % }\n}\n';
const FILES = {
  'cart.rig':
    CART.replace(/ {2}tank fuel 20 L[^\n]*\n/, '') +
    ERRAND.replace(/ {2}Cart.fuel 0 %/g, '').replace(/ {2}reachable[^\n]*\n/, ''),
};

async function printed(args: readonly string[], files: Readonly<Record<string, string>> = FILES) {
  const outcome = await rigwright(await folderWith(files), ['window', ...args]);
  return { ...outcome, out: outcome.out.replaceAll('\u202f', ' ') };
}

async function refusal(args: readonly string[], files: Readonly<Record<string, string>> = FILES): Promise<string> {
  const { code, out, error } = await printed(args, files);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  return error;
}

describe('rigwright window', () => {
  test('prints rules, limits, corners and the caution', async () => {
    const { code, out, error } = await printed(['--of', 'bow,stern']);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(
      /^rig Errand "To the yard" {2}cart\.rig:\d+:5\n {2}operating window of bow and stern of Errand, whatever else is on board\n/,
    );
    expect(out.replace(/\s+/g, ' ')).toContain(
      '1 Keep stern at or under 62 % (62 L, 62 kg) when bow is empty, 20 % (20 L, 20 kg) when it is full RW501 Axle of Cart, the load: at most 345 kg (its rating) at the limit with the rest as in case',
    );
    // (345 − 270) / 120 = 62.5 %, (345 − 320) / 120 = 20.8 %.
    expect(out).toMatch(/\n {2}\d +100 % +100 L +100 kg +20\.8 % +20\.8 L +20\.8 kg +1\n/);
    expect(out).toMatch(/\n {2}\d +0 % +0 L +0 kg +62\.5 % +62\.5 L +62\.5 kg +1\n/);
    expect(out).toContain('Verify every load on a weighbridge before driving.');
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  test('takes the rest from a case, and units as asked for', async () => {
    const { out } = await printed(['cart.rig', '--of', 'Truck.fuel, stern', '--case', 'back', '--units', 'US']);
    expect(out).toContain('operating window of fuel and stern of Errand, the rest as in case back');
    // Bow is empty in that case. 62 L are 16.4 gal, 62 kg are 136.7 lb.
    expect(out).toContain('Keep stern at or under 62 % (16.3 gal, 136 lb)');
    // 60 L are 15.85 gal (231 in³), and of diesel (0.832 kg/L) 110.1 lb: a full tank is not rounded down.
    expect(out.replace(/\s+/g, ' ')).toContain('fuel from 0 % to 100 % (15.9 gal, 110 lb)');
  });

  test('gives the same as JSON that the schema describes', async () => {
    const { out } = await rigwright(await folderWith(FILES), ['window', '--of', 'bow,stern', '--format', 'json']);
    const output: unknown = JSON.parse(out);
    const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);
    expect(validate(output) ? '' : JSON.stringify(validate.errors)).toBe('');
    expect(output).toMatchObject({
      window: {
        name: 'Errand',
        kind: 'rig',
        tolerances: 'none',
        verdict: 'some',
        axes: [
          { name: 'Cart.bow', called: 'bow', kind: 'tank', least: 0, most: 1, capacity: 0.1 },
          { name: 'Cart.stern', called: 'stern' },
        ],
        sides: [
          {
            code: 'RW501',
            subject: 'Axle of Cart',
            sense: 'at most',
            limit: 345,
            found: 'proved',
            bounds: 'Cart.stern',
            from: [1, expect.closeTo(25 / 120, 4)],
            to: [0, expect.closeTo(75 / 120, 4)],
          },
        ],
        cases: [
          { name: 'out', at: [1, 0] },
          { name: 'back', at: [0, 0.5] },
        ],
      },
      caution: expect.stringContaining('weighbridge'),
    });
  });

  test('tells in JSON why there is no window', async () => {
    const files = { 'cart.rig': FILES['cart.rig'].replace('345', '250') };
    const { out } = await rigwright(await folderWith(files), ['window', '--of', 'bow,stern', '--format', 'json']);
    const output: unknown = JSON.parse(out);
    const validate = new Ajv2020({ strict: true, allErrors: true }).compile(schema);
    expect(validate(output) ? '' : JSON.stringify(validate.errors)).toBe('');
    expect(output).toMatchObject({
      window: {
        verdict: 'none',
        corners: [],
        conflicts: { alone: [{ code: 'RW501', at: [0, 0], value: 270, limit: 250 }], together: [] },
      },
    });
  });

  test('draws the window into a file, and replaces none unless it may', async () => {
    const folder = await folderWith(FILES);
    const drawn = await rigwright(folder, ['window', '--of', 'bow,stern', '--svg', 'window.svg']);
    expect(drawn.error).toBe('');
    expect(drawn.out).toContain('\nplot written: window.svg\n');
    const [root, title] = elementsOf(await readFile(path.join(folder, 'window.svg'), 'utf8'));
    expect(root?.name).toBe('svg');
    expect(title?.text).toBe('Errand: operating window of bow and stern');
    const again = await rigwright(folder, ['window', '--of', 'bow,stern', '--svg', 'window.svg']);
    expect(again).toEqual({
      code: 2,
      out: '',
      error: 'rigwright: --svg ./window.svg: it is there already; --force replaces it\n'.replace('./', ''),
    });
    expect((await rigwright(folder, ['window', '--of', 'bow,stern', '--svg', 'window.svg', '--force'])).code).toBe(0);
    expect((await rigwright(folder, ['window', '--of', 'bow,stern', '--svg', 'none/window.svg'])).error).toContain(
      'there is no such folder; make it first',
    );
  });

  test('leaves out what is turned off for the rig', async () => {
    const files = { 'cart.rig': FILES['cart.rig'].replace('haul Cart', 'haul Cart\n  rule RW501 off "bench test"') };
    const { out } = await printed(['--of', 'bow,stern', '--practice'], files);
    expect(out).toContain('Turned off: RW501.');
    expect(out).not.toContain('RW501 Axle of Cart');
  });

  test.each([
    [
      'an unknown tank',
      ['--of', 'bow,sternn'],
      '--of bow,sternn: no tank or item of Errand is called sternn; did you mean stern?',
    ],
    ['the same twice', ['--of', 'bow,Cart.bow'], '--of bow,Cart.bow: Cart.bow is named twice; name two different ones'],
    [
      'one name only',
      ['--of', 'bow'],
      '--of bow: name two tanks or items with a comma between them, such as fresh,waste',
    ],
    [
      'an empty name',
      ['--of', 'bow,'],
      '--of bow,: name two tanks or items with a comma between them, such as fresh,waste',
    ],
    ['three names', ['--of', 'bow,stern,fuel'], '--of bow,stern,fuel: 3 are named; a window has two'],
    [
      'a seat',
      ['--of', 'bow,driver'],
      '--of bow,driver: driver is a seat of Errand, no tank or item; it has fuel, bow and stern',
    ],
    [
      'an unknown case',
      ['--of', 'bow,stern', '--case', 'bakc'],
      '--case bakc: nothing in these files is called that; did you mean back?',
    ],
    [
      'an unknown rig',
      ['--of', 'bow,stern', '--rig', 'Erand'],
      '--rig Erand: nothing in these files is called that; did you mean Errand?',
    ],
    [
      'a picture that is no SVG by its name',
      ['--of', 'bow,stern', '--svg', 'window.png'],
      '--svg window.png: the drawing is SVG; end its name in .svg',
    ],
    ['no name for the picture', ['--of', 'bow,stern', '--svg', ''], '--svg : name a file'],
    ['--force without --svg', ['--of', 'bow,stern', '--force'], '--force: it belongs to --svg'],
  ])('refuses %s', async (_, args, message) => {
    expect(await refusal(args)).toBe(`rigwright: ${message}\n`);
  });

  test('refuses a name that two units have, several rigs, and a rig without limits or loads', async () => {
    const two = { 'cart.rig': CART + ERRAND };
    expect(await refusal(['--of', 'bow,fuel'], two)).toBe(
      'rigwright: --of bow,fuel: it can be Truck.fuel or Cart.fuel; name its unit too\n',
    );
    const rigs = {
      'cart.rig':
        FILES['cart.rig'] +
        ERRAND.replace('Errand', 'Other')
          .replace(/ {2}Cart.fuel 0 %/g, '')
          .replace(/ {2}reachable[^\n]*\n/, ''),
    };
    expect(await refusal(['--of', 'bow,stern'], rigs)).toBe(
      'rigwright: there is more than one rig; name one with --rig: Errand or Other\n',
    );
    expect((await printed(['--of', 'bow,stern', '--rig', 'Other'], rigs)).code).toBe(0);
    const unlimited = { 'cart.rig': FILES['cart.rig'].replace(', rating 345 kg', '') };
    expect(await refusal(['--of', 'bow,stern'], unlimited)).toBe(
      'rigwright: Errand has no limits to hold: state ratings, limits or what is required of it\n',
    );
    const broken = { 'cart.rig': FILES['cart.rig'].replace('wheelbase 3000 mm, ', '') };
    expect(await refusal(['--of', 'bow,stern'], broken)).toMatch(/^rigwright: Errand has no loads; /);
    expect(await refusal(['--of', 'bow,stern'], { 'items.rig': 'item crate 5 kg\n' })).toBe(
      'rigwright: no rig, vehicle or trailer in these files\n',
    );
    const fixed = {
      'cart.rig': FILES['cart.rig']
        .replace('case out', 'reachable { stern 20 % }\n  case out')
        .replace('stern 50 %', 'stern 20 %')
        .replace('stern 0 %', 'stern 20 %'),
    };
    expect(await refusal(['--of', 'bow,stern'], fixed)).toContain(
      'leave stern at one level; there is nothing to choose',
    );
  });

  test('looks at a unit alone where no rig is there, and asks which where two are, or two of one name', async () => {
    const trailer = CART.slice(CART.indexOf('trailer Cart'));
    const { code, out } = await printed(['--of', 'bow,stern'], { 'cart.rig': trailer });
    expect(code).toBe(0);
    expect(out).toMatch(/^trailer Cart {2}cart\.rig:1:9\n {2}operating window of bow and stern of Cart/);
    expect(await refusal(['--of', 'bow,stern'], { 'cart.rig': trailer + trailer.replace('Cart', 'Other') })).toBe(
      'rigwright: there is more than one vehicle or trailer; name one with --rig: Cart or Other\n',
    );
    const again = { 'cart.rig': FILES['cart.rig'], 'copy.rig': FILES['cart.rig'] };
    expect(await refusal(['--of', 'bow,stern'], again)).toBe(
      'rigwright: more than one rig is called Errand; name one file\n',
    );
  });

  test('needs names', async () => {
    const { code, error } = await printed([]);
    expect(code).toBe(2);
    expect(error).toMatch(/^rigwright: required option '--of <names>' not specified/);
  });
});
