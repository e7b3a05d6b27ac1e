import { URI } from 'vscode-uri';
import type { ReadResult } from './access.ts';
import { isInside, readRigFile } from './files.ts';

/** Reads a file whose real path lies below one of the folders. Editors do not count a byte order mark, so it is left out. */
export async function readDisk(key: string, folders: readonly string[]): Promise<ReadResult> {
  const path = URI.parse(key).fsPath;
  const inside = await Promise.all(folders.map((folder) => isInside(URI.parse(folder).fsPath, path)));
  if (!inside.includes(true)) return { kind: 'outside' };
  const file = await readRigFile(path);
  return file.kind === 'text' ? { kind: 'text', text: file.text.replace(/^\ufeff/, '') } : { kind: file.kind };
}
