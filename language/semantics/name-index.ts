import type { DocumentSyntax, PlacedDeclaration } from '../syntax/document.ts';
import type { Statement } from '../syntax/tree.ts';
import type { Workspace } from './analysis.ts';

/** What can be read off one version of a document alone. Kept as long as the version is. */
export interface DocumentIndex {
  /** Declarations by name, in text order. */
  readonly byName: ReadonlyMap<string, readonly PlacedDeclaration[]>;
  /** `use` declarations with the documents they name. */
  readonly uses: readonly { readonly placed: PlacedDeclaration; readonly uri: string }[];
}

const indexes = new WeakMap<DocumentSyntax, { uri: string; index: DocumentIndex }>();

export function indexOf(uri: string, syntax: DocumentSyntax): DocumentIndex {
  const known = indexes.get(syntax);
  if (known?.uri === uri) return known.index;
  const byName = new Map<string, PlacedDeclaration[]>();
  const uses: { placed: PlacedDeclaration; uri: string }[] = [];
  for (const placed of syntax.declarations) {
    const { statement } = placed.declaration;
    if (statement === undefined) continue;
    if (statement.name !== undefined) {
      const list = byName.get(statement.name.text);
      if (list === undefined) byName.set(statement.name.text, [placed]);
      else list.push(placed);
    } else if (statement.head.text === 'use') {
      const path = usedPath(statement);
      if (path !== undefined) uses.push({ placed, uri: resolvePath(uri, path) });
    }
  }
  const index = { byName, uses };
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
function encodeSegment(segment: string): string {
  return encodeURIComponent(segment).replace(/%(?:24|26|2B|2C|3B|3D|40)/g, decodeURIComponent);
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
