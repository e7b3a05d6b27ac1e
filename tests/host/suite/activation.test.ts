import assert from 'node:assert/strict';
import { suite, test } from 'mocha';
import * as vscode from 'vscode';
import { closeAll, extension, openInYard, until } from './support.ts';

suite('activation', () => {
  test('waits for the first .rig file', async () => {
    await openInYard('notes.txt');
    assert.equal(extension().isActive, false);
    const document = await openInYard('items.rig');
    assert.equal(document.languageId, 'rig');
    await until('the extension is active', () => extension().isActive);
    await until('the server runs', () => extension().exports.serverProcessId());
    await closeAll();
  });

  test('offers its command', async () => {
    const commands = await vscode.commands.getCommands(true);
    assert.ok(commands.includes('rigwright.restartServer'));
  });

  test('works without workspace trust and on virtual file systems', () => {
    const { capabilities } = extension().packageJSON;
    assert.deepEqual(capabilities, { untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
  });
});
