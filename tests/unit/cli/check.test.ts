import { mkdir, symlink } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { FLEET, ITEMS } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

async function check(files: Files, ...args: string[]) {
  return rigwright(await folderWith(files), ['check', ...args]);
}

const WRONG = 'item awning 38 kgg\n';
const MISSPELT = { ...FLEET, 'items.rig': ITEMS.replace('crate', 'crates') };

describe('check', () => {
  test('a fleet without errors ends with 0, whatever it is told besides', async () => {
    const { code, out, error } = await check(FLEET);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(/^errand\.rig:\d+:\d+ information RW\d+ yaw inertia of the tare of Truck not stated/m);
    expect(out).toMatch(/\n\d+ information in 1 file \(2 checked\)\n$/);
  });

  test('prints place, severity, code and message, the line and what it means by it', async () => {
    const { code, out, error } = await check({ 'a.rig': `# things\n  ${WRONG}` });
    expect({ code, error }).toEqual({ code: 1, error: '' });
    expect(out.split('\n')).toEqual([
      expect.stringMatching(/^a\.rig:2:18 error RW301 .*'kgg'.*'kg'/),
      '  2 | item awning 38 kgg',
      '    |                ^^^',
      '1 error in 1 file',
      '',
    ]);
  });

  test('prints related places below, also those in other files', async () => {
    const { out } = await check(
      { 'a.rig': 'use "b.rig"\nitem awning 38 kg\n', 'b.rig': 'item awning 40 kg\n' },
      'a.rig',
    );
    expect(out).toMatch(/^a\.rig:2:6 error RW202 .*\n.*\n.*\n {4}b\.rig:1:6 /m);
  });

  test('reports files that a named file uses, for its results rest on them', async () => {
    const { code, out } = await check({ 'a.rig': 'use "b.rig"\n', 'b.rig': WRONG }, 'a.rig');
    expect(code).toBe(1);
    expect(out).toMatch(/^b\.rig:1:16 error/);
    expect(out).toMatch(/1 error in 1 file \(2 checked\)/);
  });

  test('counts files and severities', async () => {
    const { out } = await check({ 'a.rig': WRONG + WRONG.replace('awning', 'tent'), 'b.rig': WRONG, 'c.rig': ITEMS });
    expect(out).toMatch(/\n3 errors in 2 files \(3 checked\)\n$/);
    expect((await check({ 'a.rig': ITEMS })).out).toBe('no errors and no warnings in 1 file\n');
  });

  test('says how many errors of a file are not shown, also where only errors are', async () => {
    const many = Array.from({ length: 1000 }, (_, index) => `item thing_${index} 1 kgg\n`).join('');
    const { out } = await check({ 'a.rig': many }, '--level', 'error');
    expect(out).toMatch(/information RW199 .*800/);
    expect(out).toMatch(/\n200 errors in 1 file, and more that are not shown\n$/);
  });

  test('reports nothing below the level asked for', async () => {
    expect((await check(FLEET, '--level', 'warning')).out).toBe('no errors and no warnings in 2 files\n');
    const { out, code } = await check(MISSPELT, '--level', 'error');
    expect(code).toBe(1);
    expect(out).toContain(' error RW2');
    expect(out).not.toContain('information');
  });

  test('is silent where only the exit code is wanted', async () => {
    expect(await check(MISSPELT, '--quiet')).toEqual({ code: 1, out: '', error: '' });
    expect(await check(FLEET, '--quiet')).toEqual({ code: 0, out: '', error: '' });
  });

  test('colours on a terminal alone', async () => {
    const folder = await folderWith({ 'a.rig': WRONG });
    const shown = async (args: string[], isTerminal: boolean, environment = {}) =>
      (await rigwright(folder, ['check', ...args], { isTerminal, environment })).out;
    const bare = await shown([], false);
    expect(bare).not.toContain('\u001b');
    expect(await shown([], true, { NO_COLOR: '1' })).toBe(bare);
    expect(await shown(['--color', 'never'], true)).toBe(bare);
    const coloured = await shown([], true);
    expect(coloured).toContain('\u001b[31merror\u001b[39m');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the colours are what is taken off.
    expect(coloured.replace(/\u001b\[\d+m/g, '')).toBe(bare);
    expect(await shown(['--color', 'always'], false)).toBe(coloured);
  });

  test('lets no file steer the terminal', async () => {
    const { out } = await check({ 'a.rig': 'item a 1 kgg "\u001b]0;title\u0007\u001b[2J"\n' });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there.
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
    expect(out).toContain('\u241b]0;title\u2407');
  });
});

describe('what cannot be read', () => {
  test('ends with 2 and does not hide the rest', async () => {
    const files = { 'a.rig': WRONG, 'latin.rig': Buffer.from('# f\u00fcr\n', 'latin1') };
    const { code, out, error } = await check(files);
    expect(code).toBe(2);
    expect(error).toBe('rigwright: latin.rig: it is not UTF-8 text: byte 0xFC in line 1; save it as UTF-8\n');
    expect(out).toContain('1 error in 1 file\n');
  });

  test('nothing to check gives nothing on the output', async () => {
    expect(await check({ 'notes.txt': '' })).toEqual({
      code: 2,
      out: '',
      error: 'rigwright: .: the folder holds no .rig file, nor does any folder below it; name another one\n',
    });
  });

  test('a used file that is missing is an error of the file that uses it', async () => {
    const { code, out, error } = await check({ 'a.rig': 'use "b.rig"\n' });
    expect({ code, error }).toEqual({ code: 1, error: '' });
    expect(out).toMatch(/^a\.rig:1:5 error RW204 /);
  });

  test('a used file that cannot be read is named with the reason', async () => {
    const { code, out, error } = await check({ 'a.rig': 'use "b.rig"\n', 'b.rig': Buffer.from([0xff]) }, 'a.rig');
    expect(code).toBe(2);
    expect(out).toMatch(/^a\.rig:1:5 error RW206 /);
    expect(error).toMatch(/^rigwright: b\.rig: it is not UTF-8 text/);
  });
});

describe('the workspace', () => {
  const files = { 'fleet/a.rig': 'use "../items.rig"\nuse "near/b.rig"\n', 'fleet/near/b.rig': '', 'items.rig': ITEMS };

  test('is the current folder', async () => {
    const folder = await folderWith(files);
    expect(await rigwright(folder, ['check', 'fleet/a.rig'])).toMatchObject({ code: 0 });
    const { code, out } = await rigwright(path.join(folder, 'fleet'), ['check', 'a.rig']);
    expect(code).toBe(1);
    expect(out).toMatch(/^a\.rig:1:5 error RW205 .*items\.rig.* outside the workspace/);
    expect(out).toMatch(/\n1 error in 1 file \(2 checked\)\n$/);
  });

  test('is the own folder of a file from elsewhere', async () => {
    const folder = await folderWith({ ...files, 'elsewhere/notes.txt': '' });
    const { out } = await rigwright(path.join(folder, 'elsewhere'), ['check', '../fleet/a.rig']);
    const file = path.join(folder, 'fleet', 'a.rig').replaceAll(path.sep, '/');
    expect(out).toContain(`${file}:1:5 error RW205 `);
    expect(out).toMatch(/\n1 error in 1 file \(2 checked\)\n$/);
  });

  test('is not left by symbolic links', async () => {
    const folder = await folderWith({ 'secret/b.rig': ITEMS, 'work/a.rig': 'use "door/b.rig"\n' });
    await symlink(path.join(folder, 'secret'), path.join(folder, 'work', 'door'));
    const { out } = await rigwright(path.join(folder, 'work'), ['check', 'a.rig']);
    expect(out).toMatch(/^a\.rig:1:5 error RW205 /);
  });

  test('takes names with any characters, in one reading for one file', async () => {
    const odd = "fl\u00e4che #1 (50%) & 'x'.rig";
    const { code, out } = await check({ 'a.rig': `use "${odd}"\n`, [odd]: ITEMS });
    expect({ code, out }).toEqual({ code: 0, out: 'no errors and no warnings in 2 files\n' });
  });

  test.each([
    ['an empty file', ''],
    ['a byte order mark and CRLF', '\ufeffitem crate 100 kg\r\n'],
  ])('takes %s', async (_, text) => {
    expect(await check({ 'a.rig': text })).toMatchObject({ code: 0, error: '' });
  });

  test('survives files that use each other in a circle', async () => {
    const { code, out } = await check({ 'a.rig': 'use "b.rig"\n', 'b.rig': 'use "a.rig"\n' });
    expect(code).toBe(1);
    expect(out).toMatch(/^a\.rig:1:5 error RW207 /);
  });
});

describe('expected errors', () => {
  const files = { 'good.rig': ITEMS, 'bad/one.rig': WRONG, 'bad/two.rig': WRONG };

  test.each([['bad'], ['bad/*.rig'], ['bad/**']])('%s: exactly these files have errors', async (expected) => {
    const { code, out, error } = await check(files, '--expect-errors', expected);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toContain('2 errors in 2 files (3 checked)');
  });

  test('more files have errors than expected', async () => {
    const { code, error } = await check(files, '--expect-errors', 'bad/one.rig');
    expect({ code, error }).toEqual({ code: 1, error: 'rigwright: bad/two.rig: has unexpected errors\n' });
    expect(await check(files, '--expect-errors', 'bad/one.rig', '--expect-errors', 'bad/two.rig')).toMatchObject({
      code: 0,
    });
  });

  test('fewer files have errors than expected', async () => {
    const mended = { ...files, 'bad/two.rig': ITEMS };
    expect(await check(mended, '--expect-errors', 'bad')).toMatchObject({
      code: 1,
      error: 'rigwright: bad/two.rig: errors are expected here, and there are none\n',
    });
  });

  test('none of them is checked, or there', async () => {
    expect(await check(files, 'good.rig', '--expect-errors', 'bad')).toMatchObject({
      code: 1,
      error: 'rigwright: none of the files with expected errors was checked\n',
    });
    expect(await check(files, '--expect-errors', 'worse/**')).toMatchObject({
      code: 2,
      error: 'rigwright: --expect-errors worse/**: nothing matches this pattern; check it, and the folder you are in\n',
    });
  });
});

test('a folder called like a .rig file is a folder', async () => {
  const folder = await folderWith({ 'x.rig/a.rig': ITEMS });
  await mkdir(path.join(folder, 'y.rig'));
  expect(await rigwright(folder, ['check'])).toMatchObject({ code: 0, error: '' });
});
