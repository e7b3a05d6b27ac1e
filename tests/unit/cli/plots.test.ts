import { mkdir, readdir, readFile, symlink, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { SWAY } from '../drawing/rigs.ts';
import { elementsOf } from '../drawing/xml.ts';
import { folderWith, rigwright } from './support.ts';

describe('plots', () => {
  const files = { 'sway.rig': SWAY, 'plots/notes.txt': 'kept' };

  test('are written into the folder, told, and are well-formed', async () => {
    const folder = await folderWith(files);
    const { out, error } = await rigwright(folder, ['stability', '--plot', 'plots']);
    expect(error).toBe('');
    expect(out).toContain('plot written: plots/damping-Sway.svg\nplot written: plots/response-Sway.svg\n');
    expect((await readdir(path.join(folder, 'plots'))).sort()).toEqual([
      'damping-Sway.svg',
      'notes.txt',
      'response-Sway.svg',
    ]);
    for (const name of ['damping-Sway.svg', 'response-Sway.svg']) {
      const [root, title] = elementsOf(await readFile(path.join(folder, 'plots', name), 'utf8'));
      expect(root?.name).toBe('svg');
      expect(title?.text).toContain('Sway');
    }
    const again = await rigwright(folder, ['stability', '--plot', 'plots', '--format', 'json', '--force']);
    expect(JSON.parse(again.out)).toMatchObject({ plots: ['plots/damping-Sway.svg', 'plots/response-Sway.svg'] });
  });

  test('replace nothing unless they may, and then all or none', async () => {
    const folder = await folderWith({ ...files, 'plots/response-Sway.svg': 'mine' });
    const refused = await rigwright(folder, ['stability', '--plot', 'plots']);
    expect(refused).toEqual({
      code: 2,
      out: '',
      error: 'rigwright: --plot plots/response-Sway.svg: it is there already; --force replaces it\n',
    });
    expect((await readdir(path.join(folder, 'plots'))).sort()).toEqual(['notes.txt', 'response-Sway.svg']);
    expect((await rigwright(folder, ['stability', '--plot', 'plots', '--force'])).error).toBe('');
    expect(await readFile(path.join(folder, 'plots/response-Sway.svg'), 'utf8')).toMatch(/^<svg /);
    expect((await readdir(path.join(folder, 'plots'))).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  test('replace a symbolic link, not what it points to', async () => {
    const folder = await folderWith({ ...files, 'elsewhere.txt': 'kept' });
    await symlink(path.join(folder, 'elsewhere.txt'), path.join(folder, 'plots/damping-Sway.svg'));
    expect((await rigwright(folder, ['stability', '--plot', 'plots'])).code).toBe(2);
    await rigwright(folder, ['stability', '--plot', 'plots', '--force']);
    expect(await readFile(path.join(folder, 'elsewhere.txt'), 'utf8')).toBe('kept');
    expect(await readFile(path.join(folder, 'plots/damping-Sway.svg'), 'utf8')).toMatch(/^<svg /);
  });

  test('need a folder that exists', async () => {
    const folder = await folderWith(files);
    await mkdir(path.join(folder, 'plots/damping-Sway.svg'));
    await writeFile(path.join(folder, 'a-file'), '');
    const refusal = async (...args: string[]) => {
      const { code, out, error } = await rigwright(folder, ['stability', ...args]);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      return error;
    };
    expect(await refusal('--plot', 'absent')).toBe(
      'rigwright: --plot absent: there is no such folder; make it first\n',
    );
    expect(await refusal('--plot', 'a-file')).toBe(
      'rigwright: --plot a-file: it is a file; name a folder for the plots\n',
    );
    expect(await refusal('--plot', 'plots', '--force')).toMatch(/damping-Sway\.svg: it is a folder\n$/);
    expect(await refusal('--force')).toBe('rigwright: --force: it belongs to --plot\n');
    expect(await readdir(folder)).not.toContain('absent');
  });

  test('of rigs with one name have names of their own', async () => {
    const folder = await folderWith({ 'a.rig': SWAY, 'b.rig': SWAY, 'out/notes.txt': '' });
    await rigwright(folder, ['stability', 'a.rig', 'b.rig', '--plot', 'out']);
    expect((await readdir(path.join(folder, 'out'))).sort()).toEqual([
      'damping-Sway-2.svg',
      'damping-Sway.svg',
      'notes.txt',
      'response-Sway-2.svg',
      'response-Sway.svg',
    ]);
  });
});
