import { DefinitionRequest } from 'vscode-languageserver';
import { toLocations } from '../convert.ts';
import { defineHandler } from './handler.ts';

export const definition = defineHandler({
  type: DefinitionRequest.type,
  capabilities: () => ({ definitionProvider: true }),
  answer: ({ language, analysis, uri, lines, linesOf }, { position }) =>
    toLocations(language.definition(analysis, uri, lines.offsetAt(position)), linesOf),
  nothing: null,
});
