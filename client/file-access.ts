import * as vscode from 'vscode';
import { type LanguageClient, RequestType } from 'vscode-languageclient/node';
import type { ClientRequests, ListFilesResult, ReadFileResult } from '../server/protocol.ts';

/** A folder with more files than this is listed in part, so that opening a whole disk stays harmless. */
const MAX_FILES = 2000;
/** Folders that a walk never enters; file search has the user's own exclusions instead. */
const SKIPPED_FOLDERS: ReadonlySet<string> = new Set(['node_modules', '.git']);

type Request<M extends keyof ClientRequests> = RequestType<
  ClientRequests[M]['params'],
  ClientRequests[M]['result'],
  void
>;
const READ_FILE: Request<'rigwright/readFile'> = new RequestType('rigwright/readFile');
const LIST_FILES: Request<'rigwright/listFiles'> = new RequestType('rigwright/listFiles');

/**
 * Answers the server's requests for files through VS Code's file systems, so that it works in virtual workspaces too.
 * Nothing outside the workspace folders is read.
 */
export function serveFiles(client: LanguageClient): void {
  client.onRequest(READ_FILE, ({ uri }) => readFile(vscode.Uri.parse(uri)));
  client.onRequest(LIST_FILES, ({ folder }) => listFiles(vscode.Uri.parse(folder)));
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

async function listFiles(uri: vscode.Uri): Promise<ListFilesResult | null> {
  const folder = vscode.workspace.getWorkspaceFolder(uri);
  if (folder?.uri.toString() !== uri.toString()) return null;
  const found = await vscode.workspace.findFiles(
    new vscode.RelativePattern(folder, '**/*.rig'),
    undefined,
    MAX_FILES + 1,
  );
  // File search needs a search provider, which most virtual file systems lack: there, walk the folder.
  const files = found.length > 0 || uri.scheme === 'file' ? found : await walk(uri);
  const uris = files.map(String).sort();
  return { uris: uris.slice(0, MAX_FILES), truncated: uris.length > MAX_FILES };
}

/** `.rig` files below a folder, breadth first; unreadable folders count as empty, symbolic links are not followed. */
async function walk(root: vscode.Uri): Promise<vscode.Uri[]> {
  const files: vscode.Uri[] = [];
  const folders = [root];
  for (const folder of folders) {
    for (const [name, type] of await readDirectory(folder)) {
      const uri = vscode.Uri.joinPath(folder, name);
      if (type === vscode.FileType.Directory && !SKIPPED_FOLDERS.has(name)) folders.push(uri);
      if (type === vscode.FileType.File && name.endsWith('.rig')) files.push(uri);
    }
    if (files.length > MAX_FILES) break;
  }
  return files;
}

async function readDirectory(folder: vscode.Uri): Promise<[string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}
