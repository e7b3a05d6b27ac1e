import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis, WorkspaceDocument } from '../language/semantics/analysis.ts';
import type { DocumentSyntax } from '../language/syntax/document.ts';
import type { ReadResult } from './access.ts';
import { type OpenDocuments, syntaxOf } from './documents.ts';
import type { Language } from './language.ts';
import type { LevelSources } from './levels.ts';
import { keyOf } from './uris.ts';
import { createUsedFiles } from './used-files.ts';

/** The open documents and all that they use, as one immutable snapshot after another. */
export interface Workspace {
  /** The newest snapshot, with the newest version of every document. */
  analysis(): Analysis;
  /** Open documents, by key, that read this document: itself, and all that use it directly or through others. */
  readers(key: string): readonly string[];
  /** Whether all that an open document uses has been read or has turned out not to be there. */
  isSettled(key: string): boolean;
  /** Resolves when the document is settled or `stop` resolves; at once when it is settled already. */
  settled(key: string, stop: Promise<void>): Promise<void>;
  lines(uri: string): TextDocument | undefined;
  /** A document was opened, changed or closed, or a folder came or went. */
  invalidate(): void;
  /** A file on disk was created, changed or deleted. */
  fileChanged(key: string): void;
  /** The folders are others now: what may be read has to be read again. */
  foldersChanged(): void;
}

export interface WorkspaceOptions {
  readonly language: Language;
  readonly documents: OpenDocuments;
  readonly read: (key: string) => Promise<ReadResult>;
  /** Levels stated outside the documents. */
  readonly levels: Pick<LevelSources, 'levels' | 'isKnown'>;
  /** A used file was read, or differs from what it was. */
  readonly onFileRead: (key: string) => void;
}

/** What one pass over the open documents and what they use found. */
interface Contents {
  readonly documents: ReadonlyMap<string, WorkspaceDocument>;
  /** For each open document, all documents that it reads, itself included. */
  readonly reached: ReadonlyMap<string, ReadonlySet<string>>;
  readonly unread: ReadonlySet<string>;
}

/** A version of a document, and the documents that it names with `use`, by key. */
interface Used {
  readonly syntax: DocumentSyntax;
  readonly keys: readonly string[];
}

export function createWorkspace({ language, documents, read, levels, onFileRead }: WorkspaceOptions): Workspace {
  const used = new Map<string, Used>();
  let contents: Contents | undefined;
  let analysed: { readonly contents: Contents; readonly analysis: Analysis } | undefined;
  let waiting: (() => void)[] = [];

  /** What was collected no longer holds; who waits looks again. */
  function invalidate(): void {
    contents = undefined;
    const resume = waiting;
    waiting = [];
    for (const look of resume) look();
  }

  const files = createUsedFiles({
    read,
    language,
    onChange: (key) => {
      invalidate();
      onFileRead(key);
    },
  });

  function documentOf(key: string): WorkspaceDocument | undefined {
    const open = documents.get(key);
    return open ? { kind: 'text', syntax: syntaxOf(open, language) } : files.need(key).document;
  }

  /** Asking the language for all of them is worth it only where a `use` line has changed. */
  function usedBy(key: string, syntax: DocumentSyntax): readonly string[] {
    const before = used.get(key);
    if (before?.syntax === syntax) return before.keys;
    const isKept = before !== undefined && !language.changeBetween(before.syntax, syntax).uses;
    const keys = isKept ? before.keys : language.usedDocuments(key, syntax).map(keyOf);
    used.set(key, { syntax, keys });
    return keys;
  }

  /** Reads what is open and all that it uses; a cycle ends where it began. */
  function collect(): Contents {
    const found = new Map<string, WorkspaceDocument>();
    const uses = new Map<string, readonly string[]>();
    const unread = new Set<string>();
    const queue = [...documents.keys()];
    for (const key of queue) {
      if (uses.has(key)) continue;
      const document = documentOf(key);
      if (document) found.set(key, document);
      else unread.add(key);
      const keys = document?.kind === 'text' ? usedBy(key, document.syntax) : [];
      uses.set(key, keys);
      queue.push(...keys);
    }
    files.keepOnly(new Set(queue.filter((key) => !documents.has(key))));
    for (const key of used.keys()) if (!uses.has(key)) used.delete(key);
    return { documents: found, reached: reachedFrom(documents.keys(), uses), unread };
  }

  function current(): Contents {
    contents ??= collect();
    return contents;
  }

  const workspace: Workspace = {
    analysis: () => {
      const now = current();
      if (analysed?.contents !== now) {
        analysed = {
          contents: now,
          analysis: language.analyse({ documents: now.documents, levels: levels.levels() }, analysed?.analysis),
        };
      }
      return analysed.analysis;
    },
    readers: (key) => {
      const readers = [...current().reached].filter(([, reached]) => reached.has(key));
      return readers.map(([reader]) => reader);
    },
    isSettled: (key) => {
      if (!levels.isKnown()) return false;
      const { reached, unread } = current();
      return unread.size === 0 || ![...(reached.get(key) ?? [])].some((other) => unread.has(other));
    },
    settled: async (key, stop) => {
      let stopped = false;
      const stopping = stop.then(() => {
        stopped = true;
      });
      while (!stopped && !workspace.isSettled(key)) {
        await Promise.race([stopping, new Promise<void>((resolve) => waiting.push(resolve))]);
      }
    },
    lines: (uri) => {
      const key = keyOf(uri);
      return documents.get(key)?.lines ?? files.get(key)?.lines;
    },
    invalidate,
    fileChanged: files.reload,
    foldersChanged: () => {
      files.keepOnly(new Set());
      invalidate();
    },
  };
  return workspace;
}

function reachedFrom(
  roots: Iterable<string>,
  uses: ReadonlyMap<string, readonly string[]>,
): ReadonlyMap<string, ReadonlySet<string>> {
  const reached = new Map<string, ReadonlySet<string>>();
  for (const root of roots) {
    const seen = new Set([root]);
    for (const key of seen) for (const next of uses.get(key) ?? []) seen.add(next);
    reached.set(root, seen);
  }
  return reached;
}
