import { mkdir, symlink, truncate, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { isInside, readRigFile } from '../../../server/files.ts';
import { folderWith } from './support.ts';

async function read(content: string | Uint8Array) {
  const folder = await folderWith({ 'a.rig': content });
  return readRigFile(path.join(folder, 'a.rig'));
}

describe('readRigFile', () => {
  test.each([
    ['a byte order mark', '\ufeffitem a 1 kg\n'],
    ['CRLF line ends', 'item a 1 kg\r\nitem b 2 kg\r\n'],
    ['NUL characters', 'item a\u0000 1 kg\n'],
    ['a replacement character that the file itself holds', 'item a 1 kg # \ufffd\n'],
    ['nothing', ''],
  ])('keeps %s, so that offsets are true', async (_, text) => {
    expect(await read(text)).toEqual({ kind: 'text', text });
  });

  test('names the byte that is not UTF-8 and its line', async () => {
    const latin1 = Buffer.from('item a 1 kg # \ufffd\nitem b 2 kg # f\u00fcr\n', 'utf8').toString('binary');
    const bytes = Buffer.from(latin1.replace('\u00c3\u00bc', '\u00fc'), 'binary');
    expect(await read(bytes)).toEqual({
      kind: 'unreadable',
      reason: 'it is not UTF-8 text: byte 0xFC in line 2; save it as UTF-8',
    });
  });

  test('recognises UTF-16 by its byte order mark', async () => {
    const found = await read(Buffer.from('\ufeffitem a 1 kg\n', 'utf16le'));
    expect(found).toEqual({
      kind: 'unreadable',
      reason: 'it is not UTF-8 text: it starts with the byte order mark of UTF-16; save it as UTF-8',
    });
  });

  test('tells a missing file from a folder', async () => {
    const folder = await folderWith({ 'a.rig': '' });
    expect(await readRigFile(path.join(folder, 'b.rig'))).toMatchObject({ kind: 'missing' });
    expect(await readRigFile(path.join(folder, 'a.rig', 'b.rig'))).toMatchObject({ kind: 'missing' });
    expect(await readRigFile(folder)).toEqual({ kind: 'unreadable', reason: 'it is a folder' });
    expect(await readRigFile(path.join(folder, 'a\u0000.rig'))).toMatchObject({ kind: 'unreadable' });
  });

  test('does not read what is far too large', async () => {
    const folder = await folderWith({ 'a.rig': '' });
    const file = path.join(folder, 'a.rig');
    await truncate(file, 100 * 1024 * 1024); // sparse: takes no room on the disk
    expect(await readRigFile(file)).toMatchObject({ kind: 'unreadable', reason: expect.stringContaining('100 MB') });
  });
});

describe('isInside', () => {
  test('knows the root, what lies below it and what lies beside it', async () => {
    const folder = await folderWith({ 'fleet/a.rig': '', 'fleet2/b.rig': '' });
    const root = path.join(folder, 'fleet');
    expect(await isInside(root, root)).toBe(true);
    expect(await isInside(root, path.join(root, 'a.rig'))).toBe(true);
    expect(await isInside(root, path.join(root, 'new', 'c.rig'))).toBe(true);
    expect(await isInside(root, path.join(root, '..a.rig'))).toBe(true);
    expect(await isInside(root, path.join(folder, 'fleet2', 'b.rig'))).toBe(false);
    expect(await isInside(root, path.join(root, '..', 'fleet2', 'b.rig'))).toBe(false);
    expect(await isInside(root, folder)).toBe(false);
  });

  test('follows symbolic links on both sides', async () => {
    const folder = await folderWith({ 'fleet/a.rig': '', 'secret/b.rig': '' });
    const root = path.join(folder, 'fleet');
    await symlink(path.join(folder, 'secret'), path.join(root, 'link'));
    await symlink(root, path.join(folder, 'door'));
    expect(await isInside(root, path.join(root, 'link', 'b.rig'))).toBe(false);
    expect(await isInside(root, path.join(root, 'link', 'missing.rig'))).toBe(false);
    expect(await isInside(path.join(folder, 'door'), path.join(root, 'a.rig'))).toBe(true);
    await mkdir(path.join(root, 'inner'));
    await writeFile(path.join(root, 'inner', 'c.rig'), '');
    expect(await isInside(root, path.join(folder, 'door', 'inner', 'c.rig'))).toBe(true);
  });

  test('a circle of links is nowhere', async () => {
    const folder = await folderWith({});
    await symlink(path.join(folder, 'b'), path.join(folder, 'a'));
    await symlink(path.join(folder, 'a'), path.join(folder, 'b'));
    expect(await isInside(folder, path.join(folder, 'a', 'c.rig'))).toBe(false);
  });
});
