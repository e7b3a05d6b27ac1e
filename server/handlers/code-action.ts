import { CodeActionRequest } from 'vscode-languageserver';
import { ACTION_KINDS, toCodeActions, wantsAnyAction } from '../convert.ts';
import { defineHandler } from './handler.ts';

/** Offered only to clients that take edits: to others a code action is a command. */
export const codeAction = defineHandler({
  type: CodeActionRequest.type,
  capabilities: ({ codeActions }) =>
    codeActions ? { codeActionProvider: { codeActionKinds: [...ACTION_KINDS] } } : {},
  answer: ({ language, analysis, uri, lines, linesOf, versionOf, features }, { range, context }) => {
    if (!wantsAnyAction(context)) return [];
    const asked = { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) };
    return toCodeActions(language.fixes(analysis, uri, asked), context, { lines, linesOf, versionOf }, features);
  },
  nothing: null,
});
