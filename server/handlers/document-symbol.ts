import { DocumentSymbolRequest } from 'vscode-languageserver';
import { toSymbols } from '../convert.ts';
import { defineHandler } from './handler.ts';

export const documentSymbol = defineHandler({
  type: DocumentSymbolRequest.type,
  capabilities: () => ({ documentSymbolProvider: true }),
  answer: ({ language, analysis, uri, lines, features }) =>
    toSymbols(language.documentSymbols(analysis, uri), lines, features),
  nothing: null,
});
