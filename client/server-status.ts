import * as vscode from 'vscode';

/** `stopped` is on request, `failed` is after crashes or a start that did not succeed. */
export type ServerState = 'starting' | 'running' | 'stopped' | 'failed';

export interface ServerStatus extends vscode.Disposable {
  show(state: ServerState): void;
}

type StatusItem = Pick<vscode.LanguageStatusItem, 'text' | 'severity' | 'busy'>;

const STATUS: Readonly<Record<ServerState, StatusItem>> = {
  starting: { text: 'Starting', severity: vscode.LanguageStatusSeverity.Information, busy: true },
  running: { text: 'Running', severity: vscode.LanguageStatusSeverity.Information, busy: false },
  stopped: { text: 'Stopped', severity: vscode.LanguageStatusSeverity.Warning, busy: false },
  failed: { text: 'Not running', severity: vscode.LanguageStatusSeverity.Error, busy: false },
};

/** The language status of `.rig` editors (the braces in the status bar), with a link that restarts the server. */
export function createServerStatus(): ServerStatus {
  const item = vscode.languages.createLanguageStatusItem('rigwright.server', { language: 'rig' });
  item.name = 'Rigwright';
  item.detail = 'Rigwright language server';
  item.command = { command: 'rigwright.restartServer', title: 'Restart' };
  return {
    show: (state) => Object.assign(item, STATUS[state]),
    dispose: () => item.dispose(),
  };
}

/** Says that the server stays down, and offers the two things that help. */
export async function reportFailure(reason: string, output: vscode.LogOutputChannel): Promise<void> {
  const restart = 'Restart';
  const showOutput = 'Show Output';
  const choice = await vscode.window.showErrorMessage(
    `${reason} Loads and diagnostics of .rig files are not up to date.`,
    restart,
    showOutput,
  );
  if (choice === restart) await vscode.commands.executeCommand('rigwright.restartServer');
  if (choice === showOutput) output.show(true);
}
