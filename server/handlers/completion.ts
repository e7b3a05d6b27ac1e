import { CompletionRequest } from 'vscode-languageserver';
import { toCompletionItems } from '../convert.ts';
import { defineHandler } from './handler.ts';

export const completion = defineHandler({
  type: CompletionRequest.type,
  capabilities: () => ({ completionProvider: { triggerCharacters: ['.', '"'] } }),
  answer: ({ language, analysis, uri, lines, features }, { position }) =>
    toCompletionItems(language.completions(analysis, uri, lines.offsetAt(position)), lines, features),
  nothing: null,
});
