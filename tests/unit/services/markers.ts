import { type Analysis, analyse, openDocument, type WorkspaceDocument } from '../../../language/index.ts';

/** A source with its marks taken out: `|` for the caret, `‹›` around ranges. */
export interface Marked {
  readonly text: string;
  /** Offsets of the `|` marks. */
  readonly carets: readonly number[];
  readonly ranges: readonly { readonly start: number; readonly end: number }[];
}

/** Reads the marks of a source. A source without marks is its own text. */
export function readMarks(source: string): Marked {
  const carets: number[] = [];
  const ranges: { start: number; end: number }[] = [];
  const open: number[] = [];
  let text = '';
  for (const character of source) {
    if (character === '|') carets.push(text.length);
    else if (character === '‹') open.push(text.length);
    else if (character === '›') ranges.push({ start: open.pop() ?? fail('a › without ‹'), end: text.length });
    else text += character;
  }
  if (open.length > 0) fail('a ‹ without ›');
  return { text, carets, ranges };
}

function fail(problem: string): never {
  throw new Error(`The marked source has ${problem}.`);
}

/** URI of the document that the tests ask about. */
export const URI = 'file:///yard/main.rig';

/** A marked source, analysed together with the files beside it (by name). */
export interface Scene extends Marked {
  readonly analysis: Analysis;
  /** The first caret. */
  readonly offset: number;
}

export function analyseMarked(source: string, files: Readonly<Record<string, string>> = {}): Scene {
  const marked = readMarks(source);
  const documents = new Map<string, WorkspaceDocument>([[URI, { kind: 'text', syntax: openDocument(marked.text) }]]);
  for (const [name, text] of Object.entries(files)) {
    documents.set(uriOf(name), { kind: 'text', syntax: openDocument(text) });
  }
  return { ...marked, analysis: analyse({ documents }), offset: marked.carets[0] ?? -1 };
}

/** URI of a file beside the document. */
export function uriOf(name: string): string {
  return `file:///yard/${name}`;
}
