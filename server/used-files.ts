import { TextDocument } from 'vscode-languageserver-textdocument';
import type { WorkspaceDocument } from '../language/semantics/analysis.ts';
import type { ReadResult } from './access.ts';
import type { Language } from './language.ts';

/** A file that an open document uses, and that is not open itself. */
export interface UsedFile {
  /** What was read last; undefined until the first read has ended. */
  readonly document?: WorkspaceDocument;
  /** Line ends of the text, for positions in it. */
  readonly lines?: TextDocument;
}

export interface UsedFiles {
  /** The file as it was read last. */
  get(key: string): UsedFile | undefined;
  /** The same, and the first call for a file starts reading it. */
  need(key: string): UsedFile;
  /** A change on disk: what was read before stays until the new text is there. Files that nobody uses are not read. */
  reload(key: string): void;
  /** Forgets all files but these. */
  keepOnly(keys: ReadonlySet<string>): void;
}

export interface UsedFilesOptions {
  readonly read: (key: string) => Promise<ReadResult>;
  readonly language: Language;
  /** Called when a file is there for the first time or differs from what it was. */
  readonly onChange: (key: string) => void;
}

const NOT_READ: UsedFile = {};

export function createUsedFiles({ read, language, onChange }: UsedFilesOptions): UsedFiles {
  const files = new Map<string, UsedFile>();
  /** The newest read of a file; an older one that ends later is dropped. */
  const reads = new Map<string, symbol>();

  function start(key: string): void {
    const ticket = Symbol(key);
    reads.set(key, ticket);
    void read(key).then((result) => {
      if (reads.get(key) !== ticket) return;
      const before = files.get(key);
      if (before?.document && isSame(before.document, result)) return;
      files.set(key, usedFile(key, result, language));
      onChange(key);
    });
  }

  return {
    get: (key) => files.get(key),
    need: (key) => {
      const known = files.get(key);
      if (known) return known;
      files.set(key, NOT_READ);
      start(key);
      return NOT_READ;
    },
    reload: (key) => {
      if (files.has(key)) start(key);
    },
    keepOnly: (keys) => {
      for (const key of files.keys()) {
        if (keys.has(key)) continue;
        files.delete(key);
        reads.delete(key);
      }
    },
  };
}

const isSame = (document: WorkspaceDocument, result: ReadResult): boolean =>
  document.kind === 'text'
    ? result.kind === 'text' && document.syntax.text === result.text
    : document.kind === result.kind;

function usedFile(key: string, result: ReadResult, { openDocument }: Language): UsedFile {
  if (result.kind !== 'text') return { document: result };
  return {
    document: { kind: 'text', syntax: openDocument(result.text) },
    lines: TextDocument.create(key, 'rig', 0, result.text),
  };
}
