import assert from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { closeAll, openInYard, positionOf, replace, until } from './support.ts';

suite('language features', () => {
  let document: vscode.TextDocument;

  suiteSetup(async () => {
    document = await openInYard('delivery.rig');
  });
  suiteTeardown(closeAll);

  /** Text of all hovers on a word. */
  async function hoverOn(text: string): Promise<string> {
    const position = positionOf(document, text, 1);
    const hovers = await until(`a hover on ${text}`, async () => {
      const found = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        position,
      );
      return found.length > 0 && found;
    });
    const contents = hovers.flatMap((hover) => hover.contents);
    return contents.map((content) => (typeof content === 'string' ? content : content.value)).join('\n');
  }

  test('hover on a rig shows its loads', async () => {
    const text = await hoverOn('Delivery');
    assert.match(text, /\d\s*kg/);
    assert.match(text, /coupling/i);
  });

  test('hover on an item shows its mass and its documentation', async () => {
    const text = await hoverOn('toolbox');
    assert.match(text, /42\s*kg/);
    assert.match(text, /Steel box with hand tools/);
  });

  test('a quick fix replaces a name that is nearly right', async () => {
    await replace(document, 'stow toolbox', 'stow toolbx');
    const start = positionOf(document, 'toolbx', 1);
    const fix = await until('a quick fix', async () => {
      const found = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        document.uri,
        new vscode.Range(start, start),
        vscode.CodeActionKind.QuickFix.value,
      );
      return found.find(({ title }) => title.includes('toolbox'));
    });
    assert.ok(fix.edit);
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    assert.match(document.getText(), /stow toolbox/);
  });

  test('document symbols are the declarations, with what is in them', async () => {
    const symbols = await until('symbols', async () => {
      const found = await vscode.commands.executeCommand<vscode.DocumentSymbol[]>(
        'vscode.executeDocumentSymbolProvider',
        document.uri,
      );
      return found !== undefined && found.length > 0 && found;
    });
    assert.deepEqual(
      symbols.map(({ name }) => name),
      ['YardTruck', 'Hauler', 'Delivery'],
    );
    const hauler = symbols.find(({ name }) => name === 'Hauler');
    assert.ok(hauler?.children.some(({ name }) => name === 'bed'));
  });

  test('definition leads into the file that declares the name', async () => {
    const position = positionOf(document, 'toolbox', 1);
    const [target] = await until('a definition', async () => {
      const found = await vscode.commands.executeCommand<(vscode.Location | vscode.LocationLink)[]>(
        'vscode.executeDefinitionProvider',
        document.uri,
        position,
      );
      return found.length > 0 && found;
    });
    assert.ok(target);
    const uri = 'targetUri' in target ? target.targetUri : target.uri;
    assert.match(uri.path, /\/items\.rig$/);
  });

  test('completion offers the names in reach, also those of used files', async () => {
    await replace(document, 'stow toolbox', 'stow tool');
    const position = positionOf(document, 'stow tool', 'stow tool'.length);
    const labels = await until('completions', async () => {
      const list = await vscode.commands.executeCommand<vscode.CompletionList>(
        'vscode.executeCompletionItemProvider',
        document.uri,
        position,
      );
      const found = list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
      return found.includes('toolbox') && found;
    });
    assert.ok(!labels.includes('bananas'), 'words of other texts are no completions');
  });
});
