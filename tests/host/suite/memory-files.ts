import * as vscode from 'vscode';

/** A file system in memory, of one flat folder, as extensions for remote repositories provide them. */
export interface MemoryFiles {
  readonly provider: vscode.FileSystemProvider;
  /** Creates or overwrites a file as some other program would, and announces the change. */
  write(path: string, text: string): void;
}

export function createMemoryFiles(scheme: string, folder: string): MemoryFiles {
  const files = new Map<string, Uint8Array>();
  const changes = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  const parent = `${folder}/`;

  function contentOf(uri: vscode.Uri): Uint8Array {
    const content = files.get(uri.path);
    if (!content) throw vscode.FileSystemError.FileNotFound(uri);
    return content;
  }
  function put(path: string, content: Uint8Array): void {
    const type = files.has(path) ? vscode.FileChangeType.Changed : vscode.FileChangeType.Created;
    files.set(path, content);
    changes.fire([{ type, uri: vscode.Uri.from({ scheme, path }) }]);
  }
  function refuse(uri: vscode.Uri): never {
    throw vscode.FileSystemError.NoPermissions(uri);
  }

  return {
    provider: {
      onDidChangeFile: changes.event,
      watch: () => new vscode.Disposable(() => undefined),
      stat: (uri) =>
        uri.path === folder || uri.path === '/'
          ? { type: vscode.FileType.Directory, ctime: 0, mtime: 0, size: 0 }
          : { type: vscode.FileType.File, ctime: 0, mtime: 0, size: contentOf(uri).length },
      readDirectory: () =>
        [...files.keys()]
          .filter((path) => path.startsWith(parent))
          .map((path) => [path.slice(parent.length), vscode.FileType.File]),
      readFile: contentOf,
      writeFile: (uri, content) => put(uri.path, content),
      createDirectory: refuse,
      delete: refuse,
      rename: refuse,
    },
    write: (path, text) => put(path, new TextEncoder().encode(text)),
  };
}
