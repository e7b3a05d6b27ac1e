import * as vscode from 'vscode';
import type { ExtensionApi } from '../../../client/extension.ts';

const POLL_MS = 50;
const TIMEOUT_MS = 20_000;

/** Calls `probe` until it returns something other than undefined or false, and returns that; rejects after 20 s. */
export async function until<T>(
  what: string,
  probe: () => T | undefined | false | Promise<T | undefined | false>,
): Promise<T> {
  const end = Date.now() + TIMEOUT_MS;
  while (Date.now() < end) {
    const value = await probe();
    if (value !== undefined && value !== false) return value;
    await pause(POLL_MS);
  }
  throw new Error(`timed out: ${what}`);
}

export const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** The workspace folder on disk, a copy of tests/host/fixtures/yard. */
export function yard(): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.find(({ name }) => name === 'yard');
  if (!folder) throw new Error('the workspace has no folder yard');
  return folder.uri;
}

export async function open(uri: vscode.Uri): Promise<vscode.TextDocument> {
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document, { preview: false });
  return document;
}

export const openInYard = (file: string): Promise<vscode.TextDocument> => open(vscode.Uri.joinPath(yard(), file));

/** Closes all editors; unsaved changes are lost. */
export async function closeAll(): Promise<void> {
  for (const document of vscode.workspace.textDocuments) {
    if (!document.isDirty) continue;
    await vscode.window.showTextDocument(document);
    await vscode.commands.executeCommand('workbench.action.files.revert');
  }
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
}

export const errorsOf = ({ uri }: { uri: vscode.Uri }): vscode.Diagnostic[] =>
  vscode.languages.getDiagnostics(uri).filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error);

/** Position of the first character of the text, or of a character further on in it. */
export function positionOf(document: vscode.TextDocument, text: string, offset = 0): vscode.Position {
  const index = document.getText().indexOf(text);
  if (index < 0) throw new Error(`"${text}" is not in ${document.uri}`);
  return document.positionAt(index + offset);
}

/** Replaces the first occurrence of a text, without saving. */
export async function replace(document: vscode.TextDocument, text: string, replacement: string): Promise<void> {
  const start = positionOf(document, text);
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, new vscode.Range(start, positionOf(document, text, text.length)), replacement);
  if (!(await vscode.workspace.applyEdit(edit))) throw new Error(`the edit of ${document.uri} was refused`);
}

export function extension(): vscode.Extension<ExtensionApi> {
  const found = vscode.extensions.getExtension<ExtensionApi>('rigwright.rigwright');
  if (!found) throw new Error('the extension is not installed');
  return found;
}
