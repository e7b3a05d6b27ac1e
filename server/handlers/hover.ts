import { HoverRequest } from 'vscode-languageserver';
import { toHover } from '../convert.ts';
import { defineHandler } from './handler.ts';

export const hover = defineHandler({
  type: HoverRequest.type,
  capabilities: () => ({ hoverProvider: true }),
  answer: ({ language, analysis, uri, lines, features }, { position }) => {
    const content = language.hover(analysis, uri, lines.offsetAt(position));
    return content ? toHover(content, lines, features) : null;
  },
  nothing: null,
});
