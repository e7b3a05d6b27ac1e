import { TextDocument } from 'vscode-languageserver-textdocument';
import type { DocumentSyntax, Edit } from '../language/syntax/document.ts';
import { appendEdit, coverEdits } from './edits.ts';
import type { Language } from './language.ts';
import { keyOf } from './uris.ts';

/** A document open in the client, always at its newest version. */
export interface OpenDocument {
  readonly key: string;
  /** The URI as the client spells it. */
  readonly uri: string;
  version: number;
  /** Text and line ends of the newest version. It changes in place, so positions are converted before anything else happens. */
  readonly lines: TextDocument;
  /** The last version that was parsed, and the edits since then, each made to what the one before left. */
  parsed?: { readonly syntax: DocumentSyntax; readonly edits: readonly Edit[] };
}

/** More separate edits than this are taken as one that covers them all: each costs a pass over the list of declarations. */
const MOST_EDITS = 32;

export type OpenDocuments = Map<string, OpenDocument>;

/** Throws where the client sent no text or no URI, before anything is kept of it. */
export function openDocumentIn(documents: OpenDocuments, uri: string, version: number, text: string): OpenDocument {
  if (typeof uri !== 'string' || typeof text !== 'string') throw new TypeError('a document needs a URI and a text');
  const key = keyOf(uri);
  const document: OpenDocument = { key, uri, version, lines: TextDocument.create(uri, 'rig', version, text) };
  documents.set(key, document);
  return document;
}

/** What a change does to the text that the change before left; without a range it replaces the whole text. */
export interface TextChange {
  readonly range?: { readonly start: Position; readonly end: Position };
  readonly text: string;
}

interface Position {
  readonly line: number;
  readonly character: number;
}

/** Applies the changes of one notification. Positions outside the text are moved to the nearest place in it. */
export function changeDocument(document: OpenDocument, version: number, changes: readonly TextChange[]): void {
  for (const { range, text } of changes) {
    if (range) {
      const [start, end] = offsetsOf(document.lines, range);
      const inside = { start: document.lines.positionAt(start), end: document.lines.positionAt(end) };
      TextDocument.update(document.lines, [{ range: inside, text }], version);
      if (document.parsed) {
        const edits = appendEdit(document.parsed.edits, { start, end, text });
        document.parsed = { syntax: document.parsed.syntax, edits };
      }
    } else {
      TextDocument.update(document.lines, [{ text }], version);
      document.parsed = undefined;
    }
  }
  document.version = version;
}

/** The offsets of a range, the smaller one first. */
function offsetsOf(lines: TextDocument, { start, end }: { start: Position; end: Position }): [number, number] {
  const offsets = [lines.offsetAt(whole(start)), lines.offsetAt(whole(end))] as const;
  return [Math.min(...offsets), Math.max(...offsets)];
}

const whole = ({ line, character }: Position): Position => ({
  line: wholeNumber(line),
  character: wholeNumber(character),
});

/** Whatever stands where a number should, the text must not be damaged. */
const wholeNumber = (value: number): number => (Number.isInteger(value) ? value : 0);

/** The syntax of the newest version; declarations that no edit reaches are the same objects as before. */
export function syntaxOf(document: OpenDocument, { openDocument, updateDocument }: Language): DocumentSyntax {
  const text = document.lines.getText();
  const { syntax: before, edits = [] } = document.parsed ?? {};
  if (before && edits.length === 0) return before;
  const syntax = before ? applyEdits(before, edits, text, updateDocument) : openDocument(text);
  document.parsed = { syntax, edits: [] };
  return syntax;
}

function applyEdits(
  before: DocumentSyntax,
  edits: readonly Edit[],
  text: string,
  updateDocument: Language['updateDocument'],
): DocumentSyntax {
  const cover = edits.length > MOST_EDITS ? coverEdits(edits, text) : undefined;
  if (cover) return updateDocument(before, cover, text);
  return edits.reduce((syntax, edit, index) => {
    // The last step takes the text that the document holds already, so that it is in memory once.
    const isLast = index === edits.length - 1;
    const after = isLast ? text : syntax.text.slice(0, edit.start) + edit.text + syntax.text.slice(edit.end);
    return updateDocument(syntax, edit, after);
  }, before);
}
