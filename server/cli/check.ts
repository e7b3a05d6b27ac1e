import type { LevelOrigin } from '../../language/levels/level.ts';
import { turnedOffText } from '../../language/levels/turned-off.ts';
import { excerpt } from './excerpt.ts';
import type { FoundDiagnostic, FoundTurnedOff } from './findings.ts';
import type { Paint } from './terminal.ts';
import { oneLine, wrap } from './text.ts';
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
    ...levelLines(diagnostic, paint),
    ...related,
  ];
}

/** Where a level is stated, in words. */
const ORIGINS: Readonly<Record<LevelOrigin, string>> = {
  block: 'by a line of its block',
  file: 'by a line of its file',
  'workspace file': 'by rigwright.json',
  settings: 'by a setting',
};

/** Why a diagnostic has another severity than its page says. */
function levelLines({ severity, level }: FoundDiagnostic['diagnostic'], paint: Paint): string[] {
  if (level === undefined) return [];
  return [`    ${paint('dim', oneLine(`${severity} ${ORIGINS[level.origin]}: ${level.reason}`))}`];
}

/** How many findings are turned off, by code and reason; no lines where none is. */
export function turnedOffLines(found: readonly FoundTurnedOff[], width: number): string[] {
  const text = turnedOffText(found.map(({ level }) => level));
  return text === undefined ? [] : wrap(oneLine(`${text}.`), width, '', '  ');
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
