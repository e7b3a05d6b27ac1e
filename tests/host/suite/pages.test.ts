import assert from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { closeAll, errorsOf, extension, openInYard, replace, until } from './support.ts';

const PREVIEW = 'vscode.markdown.preview.editor';

/** What the links from the codes of diagnostics lead to. */
suite('pages of diagnostics', () => {
  let target: vscode.Uri;

  suiteSetup(async () => {
    const document = await openInYard('delivery.rig');
    await replace(document, 'stow toolbox', 'stow toolbax');
    const [error] = await until('an error', () => errorsOf(document).length > 0 && errorsOf(document));
    const { code } = error ?? {};
    assert.ok(typeof code === 'object', 'the code of a diagnostic is a link');
    assert.equal(code.value, 'RW201');
    target = code.target;
    await vscode.commands.executeCommand('undo'); // while its editor is the active one
    await until('no error', () => errorsOf(document).length === 0);
    await closeAll();
  });
  suiteTeardown(closeAll);

  const textOf = async (uri: vscode.Uri): Promise<string> =>
    new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));

  test('have an address of their own', () => {
    assert.equal(target.toString(), 'rigwright-page:/diagnostics/RW201.md');
  });

  test('are those that come with the extension', async () => {
    const shipped = vscode.Uri.joinPath(extension().extensionUri, 'language/reference/pages/diagnostics/RW201.md');
    const text = await textOf(target);
    assert.match(text, /^# RW201: /);
    assert.equal(text, await textOf(shipped));
  });

  test('open as a Markdown preview', async () => {
    await vscode.commands.executeCommand('vscode.open', target);
    const input = await until('a tab of the page', () => {
      const found = vscode.window.tabGroups.activeTabGroup.activeTab?.input;
      return found instanceof vscode.TabInputCustom && found;
    });
    assert.equal(input.viewType, PREVIEW);
    assert.equal(input.uri.toString(), target.toString());
  });

  test('lead to each other: the pages of all links are there', async () => {
    const links = [...(await textOf(target)).matchAll(/\]\(([^)#]+)/g)].map(([, link = '']) => link);
    assert.ok(links.length > 1);
    for (const link of links) {
      const page = vscode.Uri.joinPath(target, '..', link);
      assert.equal((await vscode.workspace.fs.stat(page)).type, vscode.FileType.File, link);
    }
  });

  test('cannot be changed, and lead out of their folder nowhere', async () => {
    assert.equal(vscode.workspace.fs.isWritableFileSystem(target.scheme), false);
    await assert.rejects(async () => vscode.workspace.fs.writeFile(target, new Uint8Array()));
    await assert.rejects(async () => vscode.workspace.fs.readFile(target.with({ path: '/diagnostics/RW000.md' })));
    const outside = target.with({ path: '/../../../package.json' });
    await assert.rejects(async () => vscode.workspace.fs.readFile(outside));
  });
});
