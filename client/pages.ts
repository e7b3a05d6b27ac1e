import * as vscode from 'vscode';

/**
 * The scheme of the pages that come with the extension: `rigwright-page:/diagnostics/RW603.md`. A scheme of their own keeps
 * their addresses the same wherever the extension is installed, and no page can be edited.
 */
const SCHEME = 'rigwright-page';

/** Address of the folder with a page for each code, for links from diagnostics. */
export const DIAGNOSTIC_PAGES = `${SCHEME}:/diagnostics`;

/**
 * Shows the pages below `folder` under their own scheme, read only. It is a file system and no content provider, so that the
 * Markdown preview opens them and follows the links between them; that works offline, in the browser and over a remote
 * connection.
 */
export function servePages(folder: vscode.Uri): vscode.Disposable {
  return vscode.workspace.registerFileSystemProvider(SCHEME, pageFiles(folder), {
    isCaseSensitive: true,
    isReadonly: true,
  });
}

function pageFiles(folder: vscode.Uri): vscode.FileSystemProvider {
  const { fs } = vscode.workspace;
  const shipped = (uri: vscode.Uri): vscode.Uri => {
    if (uri.path.split('/').includes('..')) throw vscode.FileSystemError.FileNotFound(uri);
    return vscode.Uri.joinPath(folder, uri.path);
  };
  const refuse = (uri: vscode.Uri): never => {
    throw vscode.FileSystemError.NoPermissions(uri);
  };
  return {
    onDidChangeFile: new vscode.EventEmitter<vscode.FileChangeEvent[]>().event, // they change with the extension only
    watch: () => new vscode.Disposable(() => undefined),
    stat: async (uri) => ({ ...(await fs.stat(shipped(uri))), permissions: vscode.FilePermission.Readonly }),
    readDirectory: (uri) => fs.readDirectory(shipped(uri)),
    readFile: (uri) => fs.readFile(shipped(uri)),
    writeFile: refuse,
    createDirectory: refuse,
    delete: refuse,
    rename: refuse,
  };
}
