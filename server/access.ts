import { folderOf, isBelow } from './uris.ts';

/** What reading a file gives; reading never rejects. */
export type ReadResult =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'missing' | 'outside' | 'unreadable' };

/** Reads a `file:` URI below one of the folders, symbolic links followed first; only where the server has a file system. */
export type ReadDisk = (key: string, folders: readonly string[]) => Promise<ReadResult>;

/** Asks the client for a file; undefined when it has none to give. */
export type ReadFromClient = (key: string) => Promise<string | undefined>;

export interface FileAccessOptions {
  /** The workspace folders, as keys. */
  readonly folders: () => readonly string[];
  /** The open documents, as keys: without a workspace folder, the files beside them may be read. */
  readonly openDocuments: () => Iterable<string>;
  readonly disk?: ReadDisk;
  readonly client?: ReadFromClient;
}

/** A client that does not answer must not hold up the diagnostics for ever. */
const LONGEST_READ_MS = 5000;

/** Reads files of the workspace, from disk or through the client, and nothing else. */
export function createFileAccess({ folders, openDocuments, disk, client }: FileAccessOptions) {
  function readable(): readonly string[] {
    const workspace = folders();
    return workspace.length > 0 ? workspace : [...openDocuments()].flatMap((key) => folderOf(key) ?? []);
  }

  async function readFrom(key: string): Promise<ReadResult> {
    const inside = readable();
    if (!inside.some((folder) => isBelow(folder, key))) return { kind: 'outside' };
    if (disk && key.startsWith('file:')) return await disk(key, inside);
    if (!client) return { kind: 'unreadable' };
    const text = await client(key);
    return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
  }

  return (key: string): Promise<ReadResult> => within(LONGEST_READ_MS, readFrom(key));
}

/** The result, or `unreadable` when it fails or does not come in time. */
function within(milliseconds: number, reading: Promise<ReadResult>): Promise<ReadResult> {
  return new Promise((resolve) => {
    const giveUp = (): void => resolve({ kind: 'unreadable' });
    const timer = setTimeout(giveUp, milliseconds);
    reading.then(resolve, giveUp).finally(() => clearTimeout(timer));
  });
}
