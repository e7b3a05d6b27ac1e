import { catalogueByCode, nearestCode } from '../../language/levels/rule-codes.ts';
import { diagnosticPage } from '../../language/reference/diagnostic-pages.ts';
import { CLEAN, UNUSABLE, writeError, writeLines } from './commands.ts';
import { type ColorChoice, lineWidth, type Paint, painter, type Terminal } from './terminal.ts';
import { oneLine, printable, wrap } from './text.ts';

export interface ExplainOptions {
  readonly color: ColorChoice;
}

/** `rigwright explain`: prints the page of a code, or of the diagnostic of a name, and gives the exit code. */
export function explain(written: string, options: ExplainOptions, terminal: Terminal): number {
  const code = codeOf(written);
  const page = code && diagnosticPage(code);
  if (page === undefined || page === '') {
    writeError(terminal, options, unknownText(written));
    return UNUSABLE;
  }
  const paint = painter(options.color, terminal.out, terminal.environment);
  writeLines(terminal, pageText(page, lineWidth(terminal.out), paint));
  return CLEAN;
}

/** A code in either letter case, or the code of a diagnostic by its name: `coupling-share-high`. */
function codeOf(written: string): string | undefined {
  const codes = catalogueByCode();
  const code = written.toUpperCase();
  return codes.has(code) ? code : [...codes].find(([, { key }]) => key === written)?.[0];
}

function unknownText(written: string): string {
  const nearest = nearestCode(written, [...catalogueByCode().keys()]);
  const help = nearest === undefined ? 'codes look like RW603' : `did you mean ${nearest}?`;
  return `explain ${oneLine(written)}: no diagnostic has this code; ${help}`;
}

const INDENT = '    ';

/** A page of the reference as text for a terminal: without marks, wrapped, code set in and as it is. */
export function pageText(markdown: string, width: number, paint: Paint): string[] {
  const lines: string[] = [];
  let isCode = false;
  for (const line of markdown.trimEnd().split('\n')) {
    if (line.startsWith('```')) isCode = !isCode;
    else if (isCode) lines.push(`${INDENT}${printable(line)}`.trimEnd());
    else if (!line.startsWith('<!--')) lines.push(...proseLines(line, width, paint));
  }
  // Where a mark was alone on its line, two empty lines are left.
  return lines.filter((line, index) => line !== '' || lines[index - 1] !== '');
}

function proseLines(line: string, width: number, paint: Paint): string[] {
  const heading = /^#+ (.*)$/.exec(line)?.[1];
  if (heading !== undefined) return wrap(withoutMarks(heading), width, '', '').map((text) => paint('heading', text));
  const quoted = /^> (.*)$/.exec(line)?.[1];
  if (quoted !== undefined) return wrap(withoutMarks(quoted), width, INDENT, INDENT);
  const entry = /^- (.*)$/.exec(line)?.[1];
  if (entry !== undefined) return wrap(withoutMarks(entry), width, '- ', '  ');
  return line === '' ? [''] : wrap(withoutMarks(line), width, '', '');
}

/** The text of a line of our own Markdown: links by their words, no emphasis, no escapes. */
function withoutMarks(text: string): string {
  return printable(text)
    .replace(/ · \[All diagnostics\].*$/, '')
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .replace(/(\*\*|`)(?=\S)(.+?)\1/g, '$2')
    .replace(/\\([\\`*_{}[\]()#+\-.!|<>~])/g, '$1');
}
