import type { Statement } from '../syntax/tree.ts';
import type { Entity, Workspace } from './analysis.ts';
import { indexOf, resolvePath, usedDocuments, usedPath, visibleDocuments } from './name-index.ts';
import { type Found, locate, report, type Scope } from './scope.ts';
import { article } from './unit-lines.ts';

/** The first declaration of a name in a document itself and in the documents it uses. */
export interface FirstOfName {
  readonly own?: Found;
  readonly used?: Found;
}

/** Reports a declaration whose name another one, before it in the file or in a used file, has already. */
export function reportDuplicates(statement: Statement, { own, used }: FirstOfName, scope: Scope): void {
  const { name } = statement;
  const first = own?.declaration === scope.declaration ? used : own;
  if (name === undefined || first?.declaration.statement?.name === undefined) return;
  const kind = article(first.declaration.statement.head.text);
  const other = first.uri === scope.uri ? kind : `${kind} in ${fileName(first.uri)}`;
  report(scope, 'duplicate-name', { name: name.text, other }, locate(scope, name), [
    { location: locate(first, first.declaration.statement.name), message: `'${name.text}' is declared here too.` },
  ]);
}

/** Reports a `use` line whose file cannot be had, leads back here, or brings a name that another used file has. */
export function reportUse(statement: Statement, scope: Scope, workspace: Workspace): Entity | undefined {
  const path = usedPath(statement);
  const argument = statement.arguments.find(({ kind }) => kind === 'text');
  if (path === undefined || argument === undefined) return undefined;
  const location = locate(scope, argument);
  const uri = resolvePath(scope.uri, path);
  const document = workspace.documents.get(uri);
  if (document === undefined || document.kind === 'missing') report(scope, 'file-missing', { path }, location);
  else if (document.kind === 'outside') report(scope, 'file-outside', { path }, location);
  else if (document.kind === 'unreadable') report(scope, 'file-unreadable', { path }, location);
  else {
    const cycle = cycleThrough(workspace, scope.uri, uri);
    if (cycle !== undefined) report(scope, 'use-cycle', { cycle: cycle.map(fileName).join(' → ') }, location);
    else reportClashes(statement, uri, scope, workspace);
  }
  return { kind: 'use', uri };
}

/** The way from `used` back to `uri`, if there is one, starting and ending with `uri`. */
function cycleThrough(workspace: Workspace, uri: string, used: string): readonly string[] | undefined {
  const from = new Map<string, string>([[used, uri]]);
  const queue = [used];
  for (const current of queue) {
    if (current === uri) {
      const way = [uri];
      for (let step = from.get(uri); step !== undefined && step !== uri; step = from.get(step)) way.unshift(step);
      return [uri, ...way];
    }
    const document = workspace.documents.get(current);
    if (document?.kind !== 'text') continue;
    for (const next of usedDocuments(current, document.syntax)) {
      if (from.has(next)) continue;
      from.set(next, current);
      queue.push(next);
    }
  }
  return undefined;
}

/** Names that this `use` and an earlier one of the file both bring. */
function reportClashes(statement: Statement, uri: string, scope: Scope, workspace: Workspace): void {
  const own = workspace.documents.get(scope.uri);
  if (own?.kind !== 'text') return;
  const earlier = new Set<string>();
  for (const { declaration, uri: other } of indexOf(scope.uri, own.syntax).uses) {
    if (declaration === scope.declaration) break;
    for (const document of visibleDocuments(workspace, other)) earlier.add(document);
  }
  for (const document of visibleDocuments(workspace, uri)) {
    const text = workspace.documents.get(document);
    if (text?.kind !== 'text' || earlier.has(document)) continue;
    const index = indexOf(document, text.syntax);
    for (const name of index.names) {
      const brought = index.named(name)[0];
      for (const other of earlier) {
        const before = workspace.documents.get(other);
        const same = before?.kind === 'text' ? indexOf(other, before.syntax).named(name)[0] : undefined;
        if (same?.statement?.name === undefined || brought?.statement?.name === undefined) continue;
        // Asked for, so that the finding is made again when one of the two changes: it points at both.
        scope.find(other, name);
        scope.find(document, name);
        const known = `${article(same.statement.head.text)} in ${fileName(other)}`;
        report(scope, 'duplicate-name', { name, other: known }, locate(scope, statement), [
          { location: locate({ declaration: same }, same.statement.name), message: 'The one that counts.' },
          { location: locate({ declaration: brought }, brought.statement.name), message: 'The other one.' },
        ]);
        return;
      }
    }
  }
}

/** Last step of a URI's path, readable. */
export function fileName(uri: string): string {
  const last = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
