import { excerpt } from './excerpt.ts';
import type { FoundDiagnostic } from './findings.ts';
import type { Paint } from './terminal.ts';
import { oneLine } from './text.ts';
import type { CheckedDocument } from './workspace.ts';

const EXCERPT_WIDTH = 88;

/**
 * The diagnostics as text: `file:line:column severity code message`, for errors and warnings the line of the
 * source with carets under what is meant, and the related places, indented.
 */
export function renderDiagnostics(
  found: readonly FoundDiagnostic[],
  documents: ReadonlyMap<string, CheckedDocument>,
  paint: Paint,
): string[] {
  return found.flatMap((each) => renderDiagnostic(each, documents, paint));
}

function renderDiagnostic(
  { document, diagnostic }: FoundDiagnostic,
  documents: ReadonlyMap<string, CheckedDocument>,
  paint: Paint,
): string[] {
  const { severity, code, message, start, end } = diagnostic;
  const place = paint('heading', placeText(document, start));
  const related = diagnostic.related.flatMap(({ uri, start, message }) => {
    const where = documents.get(uri);
    return where === undefined ? [] : [`    ${placeText(where, start)} ${paint('dim', oneLine(message))}`];
  });
  return [
    `${place} ${paint(severity, severity)} ${code} ${oneLine(message)}`,
    ...excerptLines(document, start, end, paint, severity),
    ...related,
  ];
}

function excerptLines(
  document: CheckedDocument,
  start: number,
  end: number,
  paint: Paint,
  severity: FoundDiagnostic['diagnostic']['severity'],
): string[] {
  if (severity === 'information') return []; // nothing is wrong there
  const found = excerpt(document, start, end, EXCERPT_WIDTH);
  if (found === undefined) return [];
  const number = String(found.line);
  const gutter = paint('dim', `  ${' '.repeat(number.length)} |`);
  return [
    `${paint('dim', `  ${number} |`)} ${found.source}`.trimEnd(),
    `${gutter} ${found.carets.replace(/\^+/, (carets) => paint(severity, carets))}`,
  ];
}

/** `samples/touring.rig:12:3`, as terminals and editors turn it into a link. */
export function placeText(document: CheckedDocument, offset: number): string {
  const { line, column } = document.place(offset);
  return `${oneLine(document.name)}:${line}:${column}`;
}
