import assert from 'node:assert/strict';
import { suite, suiteSetup, suiteTeardown, test } from 'mocha';
import * as vscode from 'vscode';
import { closeAll, errorsOf, extension, openInYard, pause, replace, until } from './support.ts';

suite('language server', () => {
  let document: vscode.TextDocument;

  suiteSetup(async () => {
    document = await openInYard('delivery.rig');
  });
  suiteTeardown(closeAll);

  const processId = (): Promise<number> => until('a process', () => extension().exports.serverProcessId());

  /** An edit gets its diagnostics, and loses them when it is undone. */
  async function answers(): Promise<void> {
    await replace(document, 'stow toolbox', 'stow toolbax');
    await until('an error', () => errorsOf(document).length > 0);
    await vscode.commands.executeCommand('undo');
    await until('no error', () => errorsOf(document).length === 0);
  }

  test('restarts on command and works on', async () => {
    const before = await processId();
    await vscode.commands.executeCommand('rigwright.restartServer');
    assert.notEqual(await processId(), before);
    await until('the old process is gone', () => !isAlive(before));
    await answers();
  });

  test('shows diagnostics again after a restart, without an edit', async () => {
    await replace(document, 'stow toolbox', 'stow toolbax');
    await until('an error', () => errorsOf(document).length > 0);
    const restart = vscode.commands.executeCommand('rigwright.restartServer');
    await until('the old ones are gone', () => errorsOf(document).length === 0);
    await restart;
    await until('an error', () => errorsOf(document).length > 0);
    await vscode.commands.executeCommand('undo');
  });

  test('two restarts at once leave one server', async () => {
    const restart = () => vscode.commands.executeCommand('rigwright.restartServer');
    await Promise.all([restart(), restart()]);
    await answers();
  });

  /** Kills the server and waits until its end has been noticed. */
  async function crash(): Promise<void> {
    const victim = await processId();
    process.kill(victim, 'SIGKILL');
    await until('the end is noticed', () => extension().exports.serverProcessId() !== victim);
  }

  test('comes back by itself after a crash', async () => {
    await crash();
    await answers();
  });

  test('stays down after repeated crashes, until it is restarted on command', async () => {
    await vscode.commands.executeCommand('rigwright.restartServer');
    for (let crashes = 0; crashes < 4; crashes++) {
      await answers();
      await crash();
    }
    await pause(1000);
    assert.equal(extension().exports.serverProcessId(), undefined);
    await vscode.commands.executeCommand('rigwright.restartServer');
    await answers();
  });
});

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}
