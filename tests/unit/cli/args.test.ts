import { describe, expect, test } from 'vitest';
import manifest from '../../../package.json' with { type: 'json' };
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { folderWith, rigwright } from './support.ts';

describe('help', () => {
  test.each([
    ['the program', ['--help'], 'rigwright'],
    ['check', ['check', '--help'], 'rigwright check'],
    ['loads', ['loads', '-h'], 'rigwright loads'],
    ['stability', ['stability', '--help'], 'rigwright stability'],
    ['limits', ['limits', '--help'], 'rigwright limits'],
    ['weigh', ['weigh', '--help'], 'rigwright weigh'],
    ['label', ['label', '--help'], 'rigwright label'],
    ['envelope', ['envelope', '--help'], 'rigwright envelope'],
    ['window', ['window', '--help'], 'rigwright window'],
  ])('for %s has usage, exit codes and examples, and fits the line', async (_, args, usage) => {
    const { code, out, error } = await rigwright('/', args);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(new RegExp(`^Usage: ${usage} `));
    expect(out).toContain('Exit codes:\n  0  no errors');
    const examples = out.slice(out.indexOf('Examples:')).match(/^ {2}rigwright .*$/gm) ?? [];
    expect(examples.length).toBeGreaterThanOrEqual(4);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  test('its examples take options that exist', async () => {
    const folder = await folderWith({ 'items.rig': '' });
    for (const command of ['check', 'loads', 'label', 'stability', 'limits', 'weigh', 'envelope', 'window']) {
      const { out } = await rigwright(folder, [command, '--help']);
      const [usage = '', examples = ''] = out.split('Examples:');
      for (const option of examples.match(/--[a-z-]+/g) ?? []) expect(usage).toContain(`${option} `);
    }
  });

  test('comes with exit code 2 where no command is given', async () => {
    const { code, out, error } = await rigwright('/', []);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toMatch(/^Usage: rigwright /);
  });
});

describe('commands that show rigs', () => {
  test('show each in the units of its market, or that it is written in, unless told otherwise', async () => {
    const tail = ', track 5 ft\n  tare 2000 lb on front, 1500 lb on rear, 2 ft up\n  limits { GVWR 5000 lb }\n';
    const folder = await folderWith({
      'us.rig': `vehicle Van {\n  wheelbase 10 ft${tail}  weighing may { scale 10 lb  front 2000 lb  rear 1500 lb }\n}\n`,
    });
    for (const command of ['loads', 'limits', 'weigh', 'envelope']) {
      const shown = async (...more: string[]) => (await rigwright(folder, [command, ...more])).out;
      expect(await shown()).toMatch(/\d.lb/u);
      expect(await shown()).not.toMatch(/\d.kg(?!·)/u);
      expect(await shown()).toBe(await shown('--units', 'US'));
      // What is assumed and what is missing are told as the file is written, like findings.
      const tables = (await shown('--units', 'metric'))
        .replace(/^ +- .* not stated: .*$/gmu, '')
        .replace(/missing:[^(]*\([^)]*\)/gu, '');
      expect(tables).not.toMatch(/\d.lb/u);
    }
  });
});

describe('wrong usage', () => {
  test.each([
    ['an unknown command', ['chek'], /unknown command 'chek'\n.*check/],
    ['an unknown option', ['check', '--formt', 'json'], /unknown option '--formt'\n.*--format/],
    ['an unknown choice', ['check', '--level', 'fatal'], /Allowed choices are error, warning, information/],
    ['an option without its value', ['loads', '--rig'], /argument missing/],
    ['an option of another command', ['check', '--units', 'US'], /unknown option '--units'/],
  ])('%s', async (_, args, message) => {
    const { code, out, error } = await rigwright('/', args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toMatch(/^rigwright: /);
    expect(error).toMatch(message);
  });
});

test('the version is that of the package', async () => {
  expect(await rigwright('/', ['--version'])).toEqual({ code: 0, out: `${manifest.version}\n`, error: '' });
});

test('the schema is printed as it is shipped', async () => {
  const { code, out } = await rigwright('/', ['schema']);
  expect(code).toBe(0);
  expect(JSON.parse(out)).toEqual(schema);
});
