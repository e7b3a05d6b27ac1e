import type { Finding } from '../diagnostics/finding.ts';
import type { DocumentSyntax } from '../syntax/document.ts';
import type { Declaration } from '../syntax/tree.ts';
import type { Entity, Workspace } from './analysis.ts';
import { changeBetween, type DocumentChange } from './changes.ts';
import { patchIndex, usedDocuments } from './name-index.ts';
import type { Found } from './scope.ts';

/** What the evaluation of a declaration came to, and everything it asked to get there. */
export interface Evaluated {
  readonly uri: string;
  readonly entity?: Entity;
  readonly findings: readonly Finding[];
  readonly dependencies: readonly Dependency[];
}

/** A question asked and its answer then. The result holds as long as every answer is the same. */
export type Dependency =
  | { readonly kind: 'name'; readonly uri: string; readonly name: string; readonly answer: Declaration | undefined }
  | {
      readonly kind: 'first of name';
      readonly uri: string;
      readonly name: string;
      readonly answer: readonly (Declaration | undefined)[];
    }
  | { readonly kind: 'entity'; readonly found: Found; readonly answer: Evaluated | 'cycle' }
  | { readonly kind: 'names'; readonly uri: string; readonly answer: readonly string[] }
  | { readonly kind: 'joined files'; readonly uri: string; readonly answer: readonly string[] };

/**
 * Results by declaration, handed on from one version of the workspace to the next; versions follow each other in one
 * line. After a change, the results that it may have reached are doubtful until they have been looked at again: those
 * that asked for a name which a changed declaration has, and what depends on them.
 */
export interface Memory {
  resultOf(declaration: Declaration): Evaluated | undefined;
  isDoubtful(declaration: Declaration): boolean;
  settle(declaration: Declaration, result: Evaluated): void;
  /** The declarations whose results asked for a name, and the doubtful ones, which may ask for any. */
  askersOf(name: string): ReadonlySet<Declaration>;
  /** Whether the result of a declaration holds findings; only then has it to be asked for them. */
  hasFindings(declaration: Declaration): boolean;
  /** Whether every declaration of a version of a document has been evaluated, the doubtful ones excepted. */
  isComplete(syntax: DocumentSyntax): boolean;
  markComplete(syntax: DocumentSyntax): void;
  /** Takes note of the step from one version to the next. */
  advance(before: Workspace, after: Workspace): void;
  /** Counts the steps taken. */
  version(): number;
}

/** Stands for every name: for results that depend on which names there are at all. */
const ANY_NAME = '*';

export function createMemory(): Memory {
  let results = new WeakMap<Declaration, Evaluated>();
  /** Declarations whose results asked for a name. */
  const askers = new Map<string, Set<Declaration>>();
  const doubtful = new Set<Declaration>();
  const reported = new Set<Declaration>();
  let complete = new WeakSet<DocumentSyntax>();
  let version = 0;

  const forget = (declaration: Declaration): void => {
    for (const name of askedNames(results.get(declaration))) {
      const set = askers.get(name);
      set?.delete(declaration);
      if (set?.size === 0) askers.delete(name);
    }
    doubtful.delete(declaration);
    reported.delete(declaration);
    results.delete(declaration);
  };

  const doubt = (names: Iterable<string>): void => {
    const queue = [...names];
    const seen = new Set(queue);
    for (const name of queue) {
      for (const declaration of askers.get(name) ?? []) {
        doubtful.add(declaration);
        const own = declaration.statement?.name?.text;
        if (own !== undefined && !seen.has(own)) {
          seen.add(own);
          queue.push(own);
        }
      }
    }
  };

  return {
    resultOf: (declaration) => results.get(declaration),
    isDoubtful: (declaration) => doubtful.has(declaration),
    settle: (declaration, result) => {
      if (results.get(declaration) !== result) {
        forget(declaration);
        results.set(declaration, result);
        if (result.findings.length > 0) reported.add(declaration);
        for (const name of askedNames(result)) {
          const set = askers.get(name);
          if (set === undefined) askers.set(name, new Set([declaration]));
          else set.add(declaration);
        }
      }
      doubtful.delete(declaration);
    },
    askersOf: (name) => new Set([...(askers.get(name) ?? []), ...doubtful]),
    hasFindings: (declaration) => reported.has(declaration),
    isComplete: (syntax) => complete.has(syntax),
    markComplete: (syntax) => complete.add(syntax),
    version: () => version,
    advance: (before, after) => {
      version++;
      const changes = changesBetween(before, after);
      if (changes === 'everything') {
        results = new WeakMap();
        complete = new WeakSet();
        askers.clear();
        doubtful.clear();
        reported.clear();
        return;
      }
      // All that went before all that came: a declaration may have moved from one document to another.
      for (const { removed, before, after } of changes) {
        for (const declaration of removed) forget(declaration);
        if (after === undefined) complete.delete(before);
      }
      for (const { removed, added, sameNames, before, after } of changes) {
        for (const declaration of added) doubtful.add(declaration);
        if (after !== undefined && complete.has(before)) complete.add(after);
        const names = [...removed, ...added].flatMap(({ statement }) => statement?.name?.text ?? []);
        doubt(sameNames ? names : [...names, ANY_NAME]);
      }
    },
  };
}

/**
 * The memory as one version of the workspace may use it: once the memory has gone on to a later version, the earlier
 * one works with a memory of its own, so that it stays the same whatever is analysed after it.
 */
export function pinMemory(memory: Memory): Memory {
  const pinned = memory.version();
  let own: Memory | undefined;
  const current = (): Memory => {
    if (memory.version() === pinned) return memory;
    own ??= createMemory();
    return own;
  };
  return {
    resultOf: (declaration) => current().resultOf(declaration),
    isDoubtful: (declaration) => current().isDoubtful(declaration),
    settle: (declaration, result) => current().settle(declaration, result),
    askersOf: (name) => current().askersOf(name),
    hasFindings: (declaration) => current().hasFindings(declaration),
    isComplete: (syntax) => current().isComplete(syntax),
    markComplete: (syntax) => current().markComplete(syntax),
    advance: (before, after) => current().advance(before, after),
    version: () => pinned,
  };
}

/**
 * The changed documents; everything where a document that others use has come or gone, or where a `use` line changed,
 * because then whole sets of names appear or vanish.
 */
function changesBetween(before: Workspace, after: Workspace): readonly DocumentChange[] | 'everything' {
  const changes: DocumentChange[] = [];
  for (const uri of new Set([...before.documents.keys(), ...after.documents.keys()])) {
    const then = before.documents.get(uri);
    const now = after.documents.get(uri);
    if (then?.kind === 'text' && now?.kind === 'text') {
      if (then.syntax === now.syntax) continue;
      const change = changeBetween(then.syntax, now.syntax);
      if (change.uses) return 'everything';
      patchIndex(uri, then.syntax, now.syntax, change);
      changes.push(change);
    } else if (then?.kind !== now?.kind) {
      if (isUsed(before, uri) || isUsed(after, uri)) return 'everything';
      if (then?.kind === 'text') {
        const removed = then.syntax.declarations.map(({ declaration }) => declaration);
        changes.push({ removed, added: [], sameNames: true, uses: false, before: then.syntax });
      }
    }
  }
  return changes;
}

function isUsed(workspace: Workspace, uri: string): boolean {
  for (const [other, document] of workspace.documents) {
    if (other !== uri && document.kind === 'text' && usedDocuments(other, document.syntax).includes(uri)) return true;
  }
  return false;
}

function askedNames(result: Evaluated | undefined): ReadonlySet<string> {
  const names = new Set<string>();
  for (const dependency of result?.dependencies ?? []) {
    if (dependency.kind === 'name' || dependency.kind === 'first of name') names.add(dependency.name);
    else if (dependency.kind !== 'entity') names.add(ANY_NAME);
  }
  return names;
}
