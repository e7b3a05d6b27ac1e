import { symlink } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { findInputs } from '../../../server/cli/inputs.ts';
import { folderWith } from './support.ts';

const FLEET = {
  'touring.rig': '',
  'yard/van.rig': '',
  'yard/items.rig': '',
  'yard/notes.txt': '',
  'empty/notes.txt': '',
  'node_modules/library/example.rig': '',
};

async function find(named: readonly string[], cwd?: string) {
  const folder = cwd ?? (await folderWith(FLEET));
  const { files, problems } = await findInputs(named, folder);
  return { files: files.map((file) => path.relative(folder, file).replaceAll(path.sep, '/')), problems };
}

describe('what the arguments name', () => {
  test.each([
    ['nothing: the current folder', [], ['touring.rig', 'yard/items.rig', 'yard/van.rig']],
    ['a folder: all below it', ['yard'], ['yard/items.rig', 'yard/van.rig']],
    ['a file', ['yard/van.rig'], ['yard/van.rig']],
    ['a file by a roundabout path, twice', ['yard/../yard/van.rig', './yard/van.rig'], ['yard/van.rig']],
    ['a pattern', ['**/*.rig'], ['touring.rig', 'yard/items.rig', 'yard/van.rig']],
    ['a pattern that finds other files too', ['yard/*'], ['yard/items.rig', 'yard/van.rig']],
    ['alternatives', ['yard/{van,nothing}.rig'], ['yard/van.rig']],
    ['a file of another type, by its name', ['yard/notes.txt'], ['yard/notes.txt']],
  ])('%s', async (_, named, files) => {
    expect(await find(named)).toEqual({ files, problems: [] });
  });

  test('a file whose name looks like a pattern is that file', async () => {
    const folder = await folderWith({ 'floor [B].rig': '', 'floor B.rig': '' });
    expect((await find(['floor [B].rig'], folder)).files).toEqual(['floor [B].rig']);
  });

  test('files outside the current folder may be named', async () => {
    const folder = await folderWith(FLEET);
    const { files } = await findInputs(['../touring.rig', path.join(folder, 'yard')], path.join(folder, 'empty'));
    expect(files.map((file) => path.basename(file))).toEqual(['touring.rig', 'items.rig', 'van.rig']);
  });

  test('a search does not follow links to folders', async () => {
    const folder = await folderWith(FLEET);
    await symlink(folder, path.join(folder, 'yard', 'round'));
    expect((await find(['yard'], folder)).files).toEqual(['yard/items.rig', 'yard/van.rig']);
  });
});

describe('what cannot be found', () => {
  test.each([
    ['a name close to another', 'turing.rig', 'there is no such file or folder; did you mean touring.rig?'],
    [
      'a name like no other',
      'yard/caravan_of_the_year.rig',
      'there is no such file or folder; its folder holds items.rig and van.rig',
    ],
    [
      'a name in a folder without .rig files',
      'empty/a.rig',
      'there is no such file or folder, and its folder holds no .rig file',
    ],
    [
      'a folder that is not there',
      'nowhere/a.rig',
      'there is no such file or folder, nor the one above it; check the path',
    ],
    ['a pattern without a match', 'nowhere/*.rig', 'nothing matches this pattern; check it, and the folder you are in'],
    [
      'a pattern that finds other files only',
      '**/*.txt',
      'this pattern matches 2 files, but none of them is a .rig file; end it in *.rig',
    ],
    [
      'a folder without .rig files',
      'empty',
      'the folder holds no .rig file, nor does any folder below it; name another one',
    ],
    ['an empty name', '', 'an empty file name; name a file, a folder or a pattern'],
  ])('%s', async (_, input, message) => {
    expect(await find([input])).toEqual({ files: [], problems: [{ input, message }] });
  });

  test('does not hide what can be found', async () => {
    const { files, problems } = await find(['nowhere.rig', 'touring.rig']);
    expect(files).toEqual(['touring.rig']);
    expect(problems.map(({ input }) => input)).toEqual(['nowhere.rig']);
  });
});
