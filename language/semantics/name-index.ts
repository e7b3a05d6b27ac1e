import type { DocumentSyntax } from '../syntax/document.ts';
import type { Declaration, Statement } from '../syntax/tree.ts';
import type { Workspace } from './analysis.ts';
import type { DocumentChange } from './changes.ts';

/** What can be read off one version of a document alone. Kept as long as the version is. */
export interface DocumentIndex {
  /** Declarations that have a name, in text order. */
  readonly named: (name: string) => readonly Declaration[];
  /** Names that are declared, each once; the same list for versions between which no name changed. */
  readonly names: readonly string[];
  /** `use` declarations with the documents they name. */
  readonly uses: readonly { readonly declaration: Declaration; readonly uri: string }[];
}

const NONE: readonly Declaration[] = [];
const indexes = new WeakMap<DocumentSyntax, { uri: string; index: DocumentIndex }>();

/** The index of a version. Building it reads every declaration's head once; see `patchIndex` for the next version. */
export function indexOf(uri: string, syntax: DocumentSyntax): DocumentIndex {
  const known = indexes.get(syntax);
  if (known?.uri === uri) return known.index;
  const byName = new Map<string, Declaration[]>();
  const uses: { declaration: Declaration; uri: string }[] = [];
  for (const { declaration } of syntax.declarations) {
    const { statement } = declaration;
    if (statement === undefined) continue;
    if (statement.name !== undefined) {
      const list = byName.get(statement.name.text);
      if (list === undefined) byName.set(statement.name.text, [declaration]);
      else list.push(declaration);
    } else if (statement.head.text === 'use') {
      const path = usedPath(statement);
      if (path !== undefined) uses.push({ declaration, uri: resolvePath(uri, path) });
    }
  }
  return remember(uri, syntax, { named: (name) => byName.get(name) ?? NONE, names: [...byName.keys()], uses });
}

/**
 * Makes the index of a version from the one before, where the change kept the names: their declarations are replaced
 * one by one. Such changes are chained; `depth` keeps the chain short.
 */
export function patchIndex(uri: string, before: DocumentSyntax, after: DocumentSyntax, change: DocumentChange): void {
  const previous = indexes.get(before);
  if (previous?.uri !== uri || indexes.get(after)?.uri === uri || !change.sameNames || change.uses) return;
  const depth = (depths.get(previous.index) ?? 0) + 1;
  if (depth > LONGEST_CHAIN) return;
  const replaced = new Map(change.removed.map((declaration, position) => [declaration, change.added[position]]));
  const overrides = new Map<string, readonly Declaration[]>();
  for (const { statement } of change.removed) {
    const name = statement?.name?.text;
    if (name === undefined || overrides.has(name)) continue;
    overrides.set(
      name,
      previous.index.named(name).map((declaration) => replaced.get(declaration) ?? declaration),
    );
  }
  const { named, names, uses } = previous.index;
  const index: DocumentIndex = { named: (name) => overrides.get(name) ?? named(name), names, uses };
  depths.set(index, depth);
  remember(uri, after, index);
}

const LONGEST_CHAIN = 50;
const depths = new WeakMap<DocumentIndex, number>();

function remember(uri: string, syntax: DocumentSyntax, index: DocumentIndex): DocumentIndex {
  indexes.set(syntax, { uri, index });
  return index;
}

/** The path of a `use` statement as written. */
export function usedPath(statement: Statement): string | undefined {
  const argument = statement.arguments.find(({ kind }) => kind === 'text');
  return argument?.kind === 'text' ? argument.text.value : undefined;
}

/**
 * The URI that a path written in a document means: relative to the document, or from the root for a leading `/`.
 * Backslashes are not separators. Steps above the root stay at the root.
 */
export function resolvePath(base: string, path: string): string {
  const match = /^([a-z][a-z0-9+.-]*:(?:\/\/[^/]*)?)?(.*)$/is.exec(base);
  const origin = match?.[1] ?? '';
  const segments = path.startsWith('/') ? [] : (match?.[2] ?? '').split('/').slice(0, -1);
  for (const segment of path.split('/')) {
    if (segment === '..') {
      if (segments.length > 1) segments.pop();
    } else if (segment !== '.' && segment !== '') segments.push(encodeSegment(segment));
  }
  const joined = segments.filter((segment, position) => segment !== '' || position === 0).join('/');
  return `${origin}${joined.startsWith('/') || origin === '' ? joined : `/${joined}`}`;
}

/** Percent-encodes what a URI path cannot hold; letters, digits and `-_.~!$&'()*+,;=@` stay, as RFC 3986 allows. */
export function encodeSegment(segment: string): string {
  // Half a surrogate pair cannot be encoded; it becomes the replacement character, as in any other UTF-8 output.
  return encodeURIComponent(segment.replace(/\p{Surrogate}/gu, '\ufffd')).replace(
    /%(?:24|26|2B|2C|3B|3D|40)/g,
    decodeURIComponent,
  );
}

/** Documents that a document names with `use`, as URIs, each once. */
export function usedDocuments(uri: string, syntax: DocumentSyntax): readonly string[] {
  return [...new Set(indexOf(uri, syntax).uses.map((use) => use.uri))];
}

/** A document and all that it uses, directly or through others, nearest first; each once, so that circles end. */
export function visibleDocuments(workspace: Workspace, uri: string): readonly string[] {
  const visible = [uri];
  for (const current of visible) {
    const document = workspace.documents.get(current);
    if (document?.kind !== 'text') continue;
    for (const used of usedDocuments(current, document.syntax)) if (!visible.includes(used)) visible.push(used);
  }
  return visible;
}
