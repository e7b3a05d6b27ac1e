import { type InitializeParams, MarkupKind } from 'vscode-languageserver';
import { keyOf } from './uris.ts';

/** What the client can show and do, from its `initialize` request. */
export interface ClientFeatures {
  /** It asks for diagnostics, so they are not pushed. */
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly relatedInformation: boolean;
  readonly hoverFormat: MarkupKind;
  readonly completionFormat: MarkupKind;
  readonly symbolTrees: boolean;
  /** It takes code actions with edits; others know commands only. */
  readonly codeActions: boolean;
  /** It takes edits of a document of a certain version. */
  readonly versionedEdits: boolean;
  /** URI of the folder with the pages of codes that diagnostics link to; undefined where a link would lead nowhere. */
  readonly diagnosticPages: string | undefined;
  /** It can be asked to watch files. */
  readonly watchesFiles: boolean;
  /** It tells when workspace folders come and go. */
  readonly changesFolders: boolean;
  /** It answers when it is asked for settings. */
  readonly answersSettings: boolean;
  /** It can be asked to tell when settings change. */
  readonly tellsSettings: boolean;
  /** It answers the requests of `protocol.ts`. */
  readonly fileAccess: boolean;
}

/** `shippedPages` is the folder of pages beside the server, for clients that do not say where they open them. */
export function clientFeatures(
  { capabilities, initializationOptions }: InitializeParams,
  shippedPages?: string,
): ClientFeatures {
  const { textDocument, workspace } = capabilities;
  const pages: unknown = initializationOptions?.diagnosticPages;
  return {
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    relatedInformation:
      (textDocument?.diagnostic ?? textDocument?.publishDiagnostics)?.relatedInformation === true ||
      textDocument?.publishDiagnostics?.relatedInformation === true,
    hoverFormat: preferred(textDocument?.hover?.contentFormat),
    completionFormat: preferred(textDocument?.completion?.completionItem?.documentationFormat),
    symbolTrees: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    codeActions: textDocument?.codeAction?.codeActionLiteralSupport !== undefined,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    diagnosticPages: typeof pages === 'string' ? pages : linksCodes(capabilities) ? shippedPages : undefined,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    changesFolders: workspace?.workspaceFolders === true,
    answersSettings: workspace?.configuration === true,
    tellsSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    fileAccess: initializationOptions?.fileAccess === true,
  };
}

/** Whether it makes a link of the code of a diagnostic. */
const linksCodes = ({ textDocument }: InitializeParams['capabilities']): boolean =>
  (textDocument?.diagnostic ?? textDocument?.publishDiagnostics)?.codeDescriptionSupport === true ||
  textDocument?.publishDiagnostics?.codeDescriptionSupport === true;

const preferred = (formats: readonly MarkupKind[] | undefined): MarkupKind =>
  formats?.includes(MarkupKind.Markdown) ? MarkupKind.Markdown : MarkupKind.PlainText;

/** The folders that the client has open, as keys. */
export function workspaceFolders({ workspaceFolders: folders, rootUri }: InitializeParams): string[] {
  if (folders) return folders.map(({ uri }) => keyOf(uri));
  return rootUri ? [keyOf(rootUri)] : [];
}
