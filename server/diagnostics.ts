import type { SentDiagnostic } from './convert.ts';
import type { OpenDocument, OpenDocuments } from './documents.ts';
import type { Workspace } from './workspace.ts';

/** The diagnostics of one document as they were last given to the client. */
interface Report {
  readonly id: string;
  /** The diagnostics as JSON: two reports that differ in nothing a client sees are the same. */
  readonly content: string;
}

export type PullAnswer =
  | { readonly kind: 'full'; readonly resultId?: string; readonly items: SentDiagnostic[] }
  | { readonly kind: 'unchanged'; readonly resultId: string };

/** Tells the client about diagnostics: pushes them, or asks it to pull again, according to what it can do. */
export interface DiagnosticsFeed {
  /** These open documents may have other diagnostics now; the first is worked on first. */
  touch(keys: readonly string[]): void;
  /** Works on one touched document; those whose files are still being read wait. */
  step(workspace: Workspace): void;
  hasWork(workspace: Workspace): boolean;
  /** The diagnostics of a document for a client that asks, newest version. */
  pull(document: OpenDocument, workspace: Workspace, previous: string | undefined): PullAnswer;
  closed(document: OpenDocument): void;
}

export interface DiagnosticsFeedOptions {
  readonly documents: OpenDocuments;
  readonly diagnose: (document: OpenDocument, workspace: Workspace) => SentDiagnostic[];
  /** Sends diagnostics to a client that takes them unasked. */
  readonly push?: (uri: string, diagnostics: SentDiagnostic[], version?: number) => void;
  /** Asks a client that pulls to do so again. */
  readonly refresh?: () => void;
}

export function createDiagnosticsFeed({ documents, diagnose, push, refresh }: DiagnosticsFeedOptions): DiagnosticsFeed {
  const reports = new Map<string, Report>();
  let touched = new Set<string>();
  let results = 0;

  /** Keeps the report; undefined when it is what the client has already. */
  function report(key: string, items: SentDiagnostic[]): Report | undefined {
    const content = JSON.stringify(items);
    if (reports.get(key)?.content === content) return undefined;
    results += 1;
    const fresh = { id: String(results), content };
    reports.set(key, fresh);
    return fresh;
  }

  function publish(document: OpenDocument, workspace: Workspace): void {
    const items = diagnose(document, workspace);
    const known = reports.has(document.key);
    if (push) {
      if (report(document.key, items)) push(document.uri, items, document.version);
    } else if (known && reports.get(document.key)?.content !== JSON.stringify(items)) {
      // The next pull makes the new report; until then it is not asked for again.
      reports.delete(document.key);
      refresh?.();
    }
  }

  const nextOf = (workspace: Workspace): string | undefined => [...touched].find((key) => workspace.isSettled(key));

  return {
    touch: (keys) => {
      touched = new Set([...keys, ...touched]);
    },
    step: (workspace) => {
      const next = nextOf(workspace);
      if (next === undefined) return;
      touched.delete(next);
      const document = documents.get(next);
      if (document) publish(document, workspace);
    },
    hasWork: (workspace) => nextOf(workspace) !== undefined,
    pull: (document, workspace, previous) => {
      touched.delete(document.key);
      const items = diagnose(document, workspace);
      report(document.key, items);
      const { id } = reports.get(document.key) ?? {};
      return id !== undefined && id === previous
        ? { kind: 'unchanged', resultId: id }
        : { kind: 'full', resultId: id, items };
    },
    closed: ({ key, uri }) => {
      touched.delete(key);
      const known = reports.get(key);
      reports.delete(key);
      if (push && known && known.content !== '[]') push(uri, []);
    },
  };
}
