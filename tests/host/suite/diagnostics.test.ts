import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { suite, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import { closeAll, errorsOf, openInYard, pause, positionOf, replace, until, yard } from './support.ts';

suite('diagnostics', () => {
  teardown(closeAll);

  test('appear on an edit, once each, and go when the edit is undone', async () => {
    const document = await openInYard('delivery.rig');
    await replace(document, 'stow toolbox', 'stow toolbax');
    const [error] = await until('an error', () => errorsOf(document).length > 0 && errorsOf(document));
    assert.ok(error);
    assert.equal(error.range.start.line, positionOf(document, 'toolbax').line);
    assert.match(error.message, /toolbax/);
    assert.equal(error.source, 'rigwright');
    await pause(500);
    assert.equal(errorsOf(document).length, 1, 'the same error is not shown twice');

    await vscode.commands.executeCommand('undo');
    await until('no error', () => errorsOf(document).length === 0);
  });

  test('follow a change of another file on disk', async () => {
    const document = await openInYard('delivery.rig');
    const items = vscode.Uri.joinPath(yard(), 'items.rig').fsPath;
    const text = readFileSync(items, 'utf8');
    await until('a first answer', async () => (await symbolsOf(document)).length > 0);
    assert.deepEqual(errorsOf(document), []);
    try {
      writeFileSync(items, text.replace('item toolbox', 'item toolcase'));
      const [error] = await until('an error', () => errorsOf(document).length > 0 && errorsOf(document));
      assert.match(error?.message ?? '', /toolbox/);
    } finally {
      writeFileSync(items, text);
    }
    await until('no error', () => errorsOf(document).length === 0);
  });

  test('follow an unsaved edit of another file', async () => {
    const delivery = await openInYard('delivery.rig');
    const items = await openInYard('items.rig');
    await replace(items, 'item toolbox', 'item toolcase');
    await until('an error in the file that uses it', () => errorsOf(delivery).length > 0);
  });

  test('go when the file is closed', async () => {
    const document = await openInYard('delivery.rig');
    await replace(document, 'stow toolbox', 'stow toolbax');
    await until('an error', () => errorsOf(document).length > 0);
    await closeAll();
    await until('no error', () => errorsOf(document).length === 0);
  });

  test('are not made for files of other languages', async () => {
    const notes = await openInYard('notes.txt');
    const delivery = await openInYard('delivery.rig');
    await replace(delivery, 'stow toolbox', 'stow toolbax');
    await until('an error in the .rig file', () => errorsOf(delivery).length > 0);
    assert.deepEqual(vscode.languages.getDiagnostics(notes.uri), []);
  });
});

const symbolsOf = async ({ uri }: vscode.TextDocument): Promise<vscode.DocumentSymbol[]> =>
  (await vscode.commands.executeCommand<vscode.DocumentSymbol[]>('vscode.executeDocumentSymbolProvider', uri)) ?? [];
