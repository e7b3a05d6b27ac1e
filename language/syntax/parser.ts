import type { IToken } from 'chevrotain';
import { RigParser } from './grammar.ts';
import { endOf } from './quantities.ts';
import * as T from './tokens.ts';
import type { Declaration, SyntaxProblem } from './tree.ts';

/** Braces and parentheses nested deeper than this are reported and not parsed. */
export const DEEPEST_NESTING = 64;

let parser: RigParser | undefined;

/** The parser is built at the first use, so that a process that only starts up does not pay for it. */
export function sharedParser(): RigParser {
  parser ??= new RigParser();
  return parser;
}

/** Parses the text of one piece of a document. Never fails: what cannot be read is listed as problems. */
export function parseDeclaration(text: string): Declaration {
  const { tokens, conflicts, comments, strays } = T.lex(text);
  const problems: SyntaxProblem[] = strays.map(({ start, end }) => ({
    kind: 'character',
    start,
    end,
    found: text.slice(start, end),
    expected: '',
  }));
  for (const conflict of conflicts) problems.push(...conflictProblems(conflict));
  const tooDeep = deepestExcess(tokens);
  if (tooDeep !== undefined) {
    problems.push({
      kind: 'nesting',
      start: tooDeep.startOffset,
      end: endOf(tooDeep),
      found: tooDeep.image,
      expected: '',
    });
    return { text, problems };
  }
  if (tokens.length === 0) return { text, problems };
  const shared = sharedParser();
  shared.input = tokens;
  shared.text = text;
  shared.problems = problems;
  shared.documentation = (offset) => documentationAbove(text, comments, offset);
  const statement = shared.declaration();
  if (statement !== undefined)
    for (const error of shared.errors) problems.push(strayDeclaration(error, text) ?? shared.describe(error));
  else if (tokens[0] !== undefined) {
    const { startOffset, image } = tokens[0];
    problems.push({
      kind: 'syntax',
      start: startOffset,
      end: endOf(tokens[0]),
      found: image,
      expected: 'a declaration',
    });
  }
  problems.sort((a, b) => a.start - b.start);
  return statement ? { text, statement, problems } : { text, problems };
}

/** What stands on a line of its own behind a declaration and starts none: a misspelt keyword, most often. */
function strayDeclaration({ name, token }: Error & { token: IToken }, text: string): SyntaxProblem | undefined {
  if (name !== 'NotAllInputParsedException' || token.tokenType === T.RightBrace) return undefined;
  const before = text.slice(text.lastIndexOf('\n', token.startOffset - 1) + 1, token.startOffset);
  if (before.trim() !== '') return undefined;
  return { kind: 'no-declaration', start: token.startOffset, end: endOf(token), found: token.image, expected: '' };
}

/** One problem for each marker line of a conflict, those in the part that is passed over included. */
function conflictProblems({ image, startOffset }: IToken): SyntaxProblem[] {
  return [...image.matchAll(/^(<{7}|\|{7}|={7}|>{7})(?=[ \r\n]|$).*/gm)].map(({ 0: line, 1: found = '', index }) => ({
    kind: 'conflict',
    start: startOffset + index,
    end: startOffset + index + line.trimEnd().length,
    found,
    expected: '',
  }));
}

function deepestExcess(tokens: readonly IToken[]): IToken | undefined {
  let depth = 0;
  for (const token of tokens) {
    if (token.tokenType === T.LeftBrace || token.tokenType === T.LeftParenthesis) {
      if (++depth > DEEPEST_NESTING) return token;
    } else if (token.tokenType === T.RightBrace || token.tokenType === T.RightParenthesis) depth--;
  }
  return undefined;
}

/** Text of the `##` lines directly above the line of `offset`. */
function documentationAbove(text: string, comments: readonly IToken[], offset: number): string | undefined {
  if (comments.length === 0) return undefined;
  const lines: string[] = [];
  let lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  while (lineStart > 0) {
    const above = text.lastIndexOf('\n', lineStart - 2) + 1;
    const line = text.slice(above, lineStart - 1).trim();
    if (!line.startsWith('##')) break;
    lines.unshift(line.slice(2).trim());
    lineStart = above;
  }
  return lines.length > 0 ? lines.join('\n') : undefined;
}
