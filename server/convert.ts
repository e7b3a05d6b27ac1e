/** What is said to the client in terms of the Language Server Protocol is said here: the rest of the server knows offsets. */

import {
  type CodeAction,
  type CodeActionContext,
  CodeActionKind,
  type CompletionItem,
  CompletionItemKind,
  DiagnosticSeverity,
  type DocumentDiagnosticReport,
  type DocumentSymbol,
  type Hover,
  type Location,
  type Diagnostic as LspDiagnostic,
  type MarkupContent,
  MarkupKind,
  type Range,
  type SymbolInformation,
  SymbolKind,
  type TextDocumentEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { AbsoluteLocation, Diagnostic } from '../language/semantics/analysis.ts';
import type {
  CompletionEntry,
  CompletionKind,
  Fix,
  FixEdit,
  Hover as HoverContent,
  SymbolEntry,
} from '../language/services/index.ts';
import type { ClientFeatures } from './client-features.ts';
import type { PullAnswer } from './diagnostics.ts';

/** Line ends of a document by URI; undefined for a document that is not at hand. */
export type LinesOf = (uri: string) => TextDocument | undefined;

/** Version of an open document by URI; null for one that is read from a file. */
export type VersionOf = (uri: string) => number | null;

const rangeOf = (lines: TextDocument, { start, end }: { readonly start: number; readonly end: number }): Range => ({
  start: lines.positionAt(start),
  end: lines.positionAt(end),
});

const SEVERITIES = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
} as const satisfies Record<Diagnostic['severity'], DiagnosticSeverity>;

/** A diagnostic as the client gets it. */
export type SentDiagnostic = LspDiagnostic;

export function toDiagnostics(
  diagnostics: readonly Diagnostic[],
  lines: TextDocument,
  linesOf: LinesOf,
  { relatedInformation, diagnosticPages }: ClientFeatures,
): SentDiagnostic[] {
  return diagnostics.map((diagnostic) => {
    const related = diagnostic.related.flatMap(({ message, ...place }) =>
      toLocations([place], linesOf).map((location) => ({ location, message })),
    );
    return {
      range: rangeOf(lines, diagnostic),
      severity: SEVERITIES[diagnostic.severity],
      code: diagnostic.code,
      ...(diagnosticPages !== undefined && {
        codeDescription: { href: `${diagnosticPages}/${diagnostic.code}.md` },
      }),
      source: 'rigwright',
      message: diagnostic.message,
      ...(relatedInformation && related.length > 0 && { relatedInformation: related }),
    };
  });
}

/** A result id is needed where the report is to be found unchanged later. */
export function toDiagnosticReport(answer: PullAnswer): DocumentDiagnosticReport {
  return answer;
}

export function toHover(content: HoverContent, lines: TextDocument, { hoverFormat }: ClientFeatures): Hover {
  return { contents: toMarkup(content.markdown, hoverFormat), range: rangeOf(lines, content) };
}

function toMarkup(markdown: string, kind: MarkupKind): MarkupContent {
  return { kind, value: kind === MarkupKind.Markdown ? unitsKept(markdown) : plainText(markdown) };
}

/** Narrow columns of a table do not part a number from its unit: no-break spaces, which the language reads as blanks. */
function unitsKept(markdown: string): string {
  return markdown.replace(/^\|.*\|$/gm, (row) => row.replace(/(?<=\d) (?=[\p{L}%])/gu, '\u00a0'));
}

/** The text of our own Markdown without its marks: tables, emphasis, code, headings, escapes. */
function plainText(markdown: string): string {
  return markdown
    .replace(/^\|(?: *:?-+:? *\|)+$\n?/gm, '')
    .replace(/^\| (.*) \|$/gm, (_, row: string) => row.replaceAll(' | ', '  '))
    .replace(/^#{1,6} +/gm, '')
    .replace(/^```.*$\n?/gm, '')
    .replace(/(\*\*|__|`)(?=\S)(.+?)\1/g, '$2')
    .replace(/\\([\\`*_{}[\]()#+\-.!|<>~])/g, '$1');
}

const COMPLETION_KINDS: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  keyword: CompletionItemKind.Keyword,
  flag: CompletionItemKind.EnumMember,
  direction: CompletionItemKind.Operator,
  'measure-unit': CompletionItemKind.Unit,
  vehicle: CompletionItemKind.Class,
  trailer: CompletionItemKind.Class,
  item: CompletionItemKind.Variable,
  fluid: CompletionItemKind.Constant,
  material: CompletionItemKind.Constant,
  tyre: CompletionItemKind.Constant,
  axles: CompletionItemKind.Property,
  coupling: CompletionItemKind.Property,
  seat: CompletionItemKind.Field,
  tank: CompletionItemKind.Field,
  locker: CompletionItemKind.Field,
  part: CompletionItemKind.Field,
  case: CompletionItemKind.Event,
  market: CompletionItemKind.Enum,
  tag: CompletionItemKind.Text,
  let: CompletionItemKind.Variable,
  quantity: CompletionItemKind.Value,
  file: CompletionItemKind.File,
  code: CompletionItemKind.Constant,
};

/** The entries in the order given, whatever order the client prefers. */
export function toCompletionItems(
  entries: readonly CompletionEntry[],
  lines: TextDocument,
  { completionFormat }: ClientFeatures,
): CompletionItem[] {
  return entries.map(({ label, kind, detail, documentation, insertText, ...place }, index) => ({
    label,
    kind: COMPLETION_KINDS[kind],
    detail,
    sortText: String(index).padStart(5, '0'),
    ...(documentation !== undefined && { documentation: toMarkup(documentation, completionFormat) }),
    textEdit: { range: rangeOf(lines, place), newText: insertText ?? label },
  }));
}

/** Places in documents that are not at hand are left out. */
export function toLocations(places: readonly AbsoluteLocation[], linesOf: LinesOf): Location[] {
  return places.flatMap(({ uri, ...place }) => {
    const lines = linesOf(uri);
    return lines ? [{ uri: lines.uri, range: rangeOf(lines, place) }] : [];
  });
}

/** Icons by keyword; what is not named here is a line of a declaration. */
const SYMBOL_KINDS: ReadonlyMap<string, SymbolKind> = new Map([
  ['vehicle', SymbolKind.Class],
  ['trailer', SymbolKind.Class],
  ['variant', SymbolKind.Class],
  ['rig', SymbolKind.Object],
  ['case', SymbolKind.Event],
  ['weighing', SymbolKind.Event],
  ['reachable', SymbolKind.Event],
  ['require', SymbolKind.Boolean],
  ['item', SymbolKind.Variable],
  ['let', SymbolKind.Variable],
  ['fluid', SymbolKind.Constant],
  ['material', SymbolKind.Constant],
  ['tyre', SymbolKind.Constant],
  ['use', SymbolKind.File],
  ['group', SymbolKind.Namespace],
]);

const symbolKind = ({ kind }: SymbolEntry): SymbolKind => SYMBOL_KINDS.get(kind) ?? SymbolKind.Field;

export function toSymbols(
  entries: readonly SymbolEntry[],
  lines: TextDocument,
  { symbolTrees }: ClientFeatures,
): DocumentSymbol[] | SymbolInformation[] {
  return symbolTrees ? symbolTree(entries, lines) : symbolList(entries, lines);
}

function symbolTree(entries: readonly SymbolEntry[], lines: TextDocument): DocumentSymbol[] {
  return entries.map((entry) => ({
    name: entry.name,
    detail: entry.detail,
    kind: symbolKind(entry),
    range: rangeOf(lines, entry),
    selectionRange: rangeOf(lines, { start: entry.nameStart, end: entry.nameEnd }),
    children: symbolTree(entry.children, lines),
  }));
}

function symbolList(entries: readonly SymbolEntry[], lines: TextDocument, container?: string): SymbolInformation[] {
  return entries.flatMap((entry) => [
    {
      name: entry.name,
      kind: symbolKind(entry),
      location: { uri: lines.uri, range: rangeOf(lines, entry) },
      ...(container !== undefined && { containerName: container }),
    },
    ...symbolList(entry.children, lines, entry.name),
  ]);
}

/** The kinds of code actions that are offered. */
export const ACTION_KINDS: readonly CodeActionKind[] = [CodeActionKind.QuickFix, CodeActionKind.RefactorRewrite];

const actionKindOf = ({ kind }: Fix): CodeActionKind =>
  kind === 'rewrite' ? CodeActionKind.RefactorRewrite : CodeActionKind.QuickFix;

/** Whether a client asks for a kind: by its name, or that of a kind above it (`refactor` asks for `refactor.rewrite`). */
function wants({ only }: CodeActionContext, kind: CodeActionKind): boolean {
  const asks = (asked: CodeActionKind) =>
    asked === CodeActionKind.Empty || asked === kind || kind.startsWith(`${asked}.`);
  return only === undefined || only.some(asks);
}

/** Whether a client that asks for code actions wants any of those offered. */
export const wantsAnyAction = (context: CodeActionContext): boolean =>
  ACTION_KINDS.some((kind) => wants(context, kind));

export interface EditTargets {
  readonly lines: TextDocument;
  readonly linesOf: LinesOf;
  readonly versionOf: VersionOf;
}

/** Fixes of kinds that are not asked for, and those that edit a document that is not at hand, are left out. */
export function toCodeActions(
  found: readonly Fix[],
  context: CodeActionContext,
  targets: EditTargets,
  features: ClientFeatures,
): CodeAction[] {
  return found.flatMap((fix) => {
    const { title, edits, diagnostic, preferred } = fix;
    const kind = actionKindOf(fix);
    if (!wants(context, kind)) return [];
    const edit = toWorkspaceEdit(edits, targets, features);
    if (edit === undefined) return [];
    const { lines, linesOf } = targets;
    return [
      {
        title,
        kind,
        edit,
        ...(diagnostic && { diagnostics: toDiagnostics([diagnostic], lines, linesOf, features) }),
        ...(preferred && { isPreferred: true }),
      },
    ];
  });
}

function toWorkspaceEdit(
  edits: readonly FixEdit[],
  { linesOf, versionOf }: EditTargets,
  { versionedEdits }: ClientFeatures,
): WorkspaceEdit | undefined {
  const changed: { readonly textDocument: TextDocumentEdit['textDocument']; readonly edits: TextEdit[] }[] = [];
  for (const uri of new Set(edits.map((edit) => edit.uri))) {
    const lines = linesOf(uri);
    if (lines === undefined) return undefined;
    const changes = edits
      .filter((edit) => edit.uri === uri)
      .map(({ text, ...place }): TextEdit => ({ range: rangeOf(lines, place), newText: text }));
    changed.push({ textDocument: { uri: lines.uri, version: versionOf(uri) }, edits: changes });
  }
  if (versionedEdits) return { documentChanges: changed };
  return { changes: Object.fromEntries(changed.map(({ textDocument, edits }) => [textDocument.uri, edits])) };
}
