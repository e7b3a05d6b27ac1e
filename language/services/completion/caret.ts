import type { IToken } from 'chevrotain';
import type { Analysis } from '../../semantics/analysis.ts';
import type { PlacedDeclaration } from '../../syntax/document.ts';
import { parseDeclaration } from '../../syntax/parser.ts';
import * as T from '../../syntax/tokens.ts';
import type { Block, Declaration, Statement } from '../../syntax/tree.ts';
import type { Context } from '../../syntax/vocabulary.ts';
import { declarationAt } from '../nodes.ts';
import { type PathStep, stepInto } from '../statements.ts';

/** Where a caret stands: what has been written before it, read as far as it goes. */
export interface Caret {
  readonly uri: string;
  readonly placed: PlacedDeclaration;
  /** Statements whose blocks are open at the caret, from the outside. */
  readonly blocks: readonly PathStep[];
  /** What may stand in the innermost open block; undefined in a block that nothing is known of. */
  readonly context: Context | undefined;
  /** The statement that is being written; undefined where one may start. */
  readonly step: PathStep | undefined;
  /** Whether another statement may start here although the last one could go on. */
  readonly mayStart: boolean;
  /** Tokens of the statement being written, up to the word at the caret. */
  readonly tokens: readonly IToken[];
  /** Dotted beginning of the name at the caret: `TourerB.` of `TourerB.bo`. */
  readonly qualifier: string;
  /** Whether a blank parts the caret from the token before it. */
  readonly apart: boolean;
  /** Absolute range of the word at the caret. */
  readonly start: number;
  readonly end: number;
}

/** A caret inside a text between quotes. */
export interface CaretInText {
  readonly head: string;
  /** Absolute range between the quotes. */
  readonly start: number;
  readonly end: number;
}

export type CaretReading = Caret | CaretInText;

const REST_OF_WORD = /[\w\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02FF\u0370-\u1FFF\u3040-\uD7FF]*/y;
const REST_OF_TEXT = /[^"\n\r]*/y;

/** Tokens behind which a statement goes on in the next line. */
const GOES_ON: ReadonlySet<string> = new Set(
  [
    T.Comma,
    T.Equals,
    T.Times,
    T.Plus,
    T.Minus,
    T.Star,
    T.Slash,
    T.PlusMinus,
    T.LeftParenthesis,
    T.Dot,
    T.To,
    T.And,
    T.Between,
    T.Least,
    T.Most,
    T.AtLeast,
    T.AtMost,
    T.RelationWord,
    T.NamesKeyword,
    T.Of,
    T.In,
  ].map(({ name }) => name),
);

/** Reads the text before an offset; undefined in a comment, or where the document is not analysed. */
export function readCaret(analysis: Analysis, uri: string, offset: number): CaretReading | undefined {
  const placed = declarationAt(analysis, uri, offset);
  if (placed === undefined) return emptyDocument(analysis, uri, offset);
  const { text } = placed.declaration;
  const caret = offset - placed.start;
  const before = T.lex(text.slice(0, caret));
  const tokens = [...before.tokens];
  if (before.comments.some((comment) => endOf(comment) === caret)) return undefined;
  const last = tokens.at(-1);
  if (last?.tokenType === T.UnterminatedText) return inText(placed, tokens, last, caret);
  const typed = last !== undefined && endOf(last) === caret && isWordLike(last) ? tokens.pop() : undefined;
  const start = typed?.startOffset ?? caret;
  let nameStart = start;
  while (tokens.at(-1)?.tokenType === T.Dot && isWord(tokens.at(-2))) {
    tokens.pop();
    nameStart = tokens.pop()?.startOffset ?? nameStart;
  }
  const end = typed === undefined ? caret : rest(REST_OF_WORD, text, caret);
  return {
    uri,
    placed,
    qualifier: text.slice(nameStart, start),
    start: placed.start + start,
    end: placed.start + end,
    ...readStatements(text.slice(0, nameStart), tokens),
  };
}

const endOf = ({ startOffset, image }: IToken): number => startOffset + image.length;

function isWord(token: IToken | undefined): boolean {
  return token !== undefined && (token.tokenType === T.Word || (token.tokenType.CATEGORIES ?? []).includes(T.Word));
}

const isWordLike = (token: IToken): boolean => isWord(token) || token.tokenType === T.UnitToken;

function rest(pattern: RegExp, text: string, from: number): number {
  pattern.lastIndex = from;
  return from + (pattern.exec(text)?.[0].length ?? 0);
}

function inText(placed: PlacedDeclaration, tokens: readonly IToken[], text: IToken, caret: number): CaretInText {
  const end = rest(REST_OF_TEXT, placed.declaration.text, caret);
  const start = text.startOffset + 1;
  return { head: tokens[0]?.image ?? '', start: placed.start + start, end: placed.start + end };
}

function emptyDocument(analysis: Analysis, uri: string, offset: number): Caret | undefined {
  const document = analysis.workspace.documents.get(uri);
  if (document?.kind !== 'text' || document.syntax.tooLong) return undefined;
  const placed = { declaration: parseDeclaration(''), start: 0 };
  return { uri, placed, qualifier: '', start: offset, end: offset, ...readStatements('', []) };
}

type StatementsRead = Pick<Caret, 'blocks' | 'context' | 'step' | 'mayStart' | 'tokens' | 'apart'>;

/** Finds the open blocks, and the statement being written, at the end of a text. */
function readStatements(written: string, tokens: readonly IToken[]): StatementsRead {
  const declaration = parseDeclaration(written);
  const behind = textBehind(declaration, tokens);
  if (behind !== undefined) return readStatements(behind, T.lex(behind).tokens);
  const before = tokens.at(-1);
  const gap = written.slice(before === undefined ? 0 : endOf(before));
  const goesOn = before !== undefined && (!gap.includes('\n') || GOES_ON.has(before.tokenType.name));
  const blocks: PathStep[] = [];
  let step: PathStep | undefined = declaration.statement && stepInto(declaration.statement);
  let parent: PathStep | undefined;
  while (step !== undefined && isOpen(declaration, step.statement.block)) {
    blocks.push(step);
    parent = step;
    const inner: Statement | undefined = step.statement.block?.statements.at(-1);
    step = inner === undefined ? undefined : stepInto(inner, parent);
  }
  const context = parent === undefined ? 'file' : parent.spec?.block;
  const opening = parent?.statement.block?.start ?? -1;
  const started = step !== undefined && step.statement.block === undefined && goesOn;
  const current = started ? step : undefined;
  return {
    blocks,
    context,
    step: current,
    mayStart: current === undefined || (parent !== undefined && !written.slice(opening).includes('\n')),
    tokens:
      current === undefined
        ? []
        : withLastTimes(tokens.filter(({ startOffset }) => startOffset >= current.statement.start)),
    apart: gap !== '',
  };
}

/**
 * What stands behind a finished declaration: the beginning of the next one, which is cut off only when it has a name.
 */
function textBehind({ statement, text }: Declaration, tokens: readonly IToken[]): string | undefined {
  const last = tokens.at(-1);
  if (statement === undefined || last === undefined || statement.end <= 0) return undefined;
  return last.startOffset >= statement.end ? text.slice(statement.end) : undefined;
}

/** An `x` behind a number is a word as long as nothing follows it; here a name is about to. */
function withLastTimes(tokens: readonly IToken[]): readonly IToken[] {
  const last = tokens.at(-1);
  if (last === undefined || !/^x$/i.test(last.image) || tokens.at(-2)?.tokenType !== T.NumberToken) return tokens;
  return [...tokens.slice(0, -1), { ...last, tokenType: T.Times }];
}

/** Whether a block lacks its closing brace. */
function isOpen(declaration: Declaration, block: Block | undefined): boolean {
  return (
    block !== undefined && declaration.problems.some(({ kind, start }) => kind === 'unclosed' && start === block.start)
  );
}
