import assert from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { createMemoryFiles } from './memory-files.ts';
import { closeAll, errorsOf, open, replace, until } from './support.ts';

const SCHEME = 'rigmemory';
const FOLDER = '/shed';

const ITEMS = '## Folding ladder.\nitem ladder 12 kg size 2000 x 400 x 120 mm\n';
const LOAD = `use "items.rig"

trailer Cart {
  coupling ball 50 mm, 400 mm up
  axles single at 2000 mm back, track 1400 mm
  tare 150 kg at 1900 mm back, 450 mm up
  locker bed from 1000 mm to 2800 mm back, floor 450 mm up, holds 300 kg
}

rig Load {
  haul Cart
  stow ladder in Cart.bed
}
`;

/** A workspace folder that exists in no file system the server could read: everything must come through VS Code. */
suite('virtual workspace', () => {
  const files = createMemoryFiles(SCHEME, FOLDER);
  let registration: vscode.Disposable;
  let document: vscode.TextDocument;

  suiteSetup(async () => {
    files.write(`${FOLDER}/items.rig`, ITEMS);
    files.write(`${FOLDER}/load.rig`, LOAD);
    registration = vscode.workspace.registerFileSystemProvider(SCHEME, files.provider, { isCaseSensitive: true });
    document = await open(vscode.Uri.from({ scheme: SCHEME, path: `${FOLDER}/load.rig` }));
  });
  suiteTeardown(async () => {
    await closeAll();
    registration.dispose();
  });

  test('names of used files resolve', async () => {
    const hovers = await until('a hover', async () => {
      const position = document.positionAt(LOAD.indexOf('ladder') + 1);
      const found = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        position,
      );
      return found.length > 0 && found;
    });
    const contents = hovers.flatMap((hover) => hover.contents);
    const text = contents.map((content) => (typeof content === 'string' ? content : content.value)).join('\n');
    assert.match(text, /Folding ladder/);
    assert.deepEqual(errorsOf(document), []);
  });

  test('diagnostics appear and go', async () => {
    await replace(document, 'stow ladder', 'stow laddder');
    const [error] = await until('an error', () => errorsOf(document).length > 0 && errorsOf(document));
    assert.match(error?.message ?? '', /laddder/);
    await vscode.commands.executeCommand('undo');
    await until('no error', () => errorsOf(document).length === 0);
  });

  test('a change of a used file is followed', async () => {
    files.write(`${FOLDER}/items.rig`, ITEMS.replace('item ladder', 'item steps'));
    await until('an error', () => errorsOf(document).length > 0);
    files.write(`${FOLDER}/items.rig`, ITEMS);
    await until('no error', () => errorsOf(document).length === 0);
  });
});
