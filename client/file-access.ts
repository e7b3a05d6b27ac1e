import * as vscode from 'vscode';
import { type LanguageClient, RequestType } from 'vscode-languageclient/node';
import type { ClientRequests, ReadFileResult } from '../server/protocol.ts';

type Request<M extends keyof ClientRequests> = RequestType<
  ClientRequests[M]['params'],
  ClientRequests[M]['result'],
  void
>;
const READ_FILE: Request<'rigwright/readFile'> = new RequestType('rigwright/readFile');

/**
 * Answers the server's requests for files through VS Code's file systems, so that it works in virtual workspaces too.
 * Nothing outside the workspace folders is read.
 */
export function serveFiles(client: LanguageClient): void {
  client.onRequest(READ_FILE, ({ uri }) => readFile(vscode.Uri.parse(uri)));
}

/** True for files in a workspace folder; a path that climbs out with `..` is not in it. */
function isInWorkspace(uri: vscode.Uri): boolean {
  return !uri.path.split('/').includes('..') && vscode.workspace.getWorkspaceFolder(uri) !== undefined;
}

async function readFile(uri: vscode.Uri): Promise<ReadFileResult | null> {
  if (!isInWorkspace(uri)) return null;
  try {
    return { text: new TextDecoder().decode(await vscode.workspace.fs.readFile(uri)) };
  } catch {
    return null; // missing or unreadable: the server reports it where the file is used
  }
}
