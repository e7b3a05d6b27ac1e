import { type IToken, isRecognitionException, NoViableAltException, type TokenType } from 'chevrotain';
import { endOf, inCategory } from './quantities.ts';
import * as T from './tokens.ts';
import type { Argument, Block, CountedReference, Statement, SyntaxProblem } from './tree.ts';
import { ValueGrammar } from './values.ts';

/** What chevrotain throws and collects on a syntax error; the message is what was expected. */
export interface ParseError {
  readonly token: IToken;
  readonly message: string;
}

const BRACES: ReadonlySet<TokenType> = new Set([T.LeftBrace, T.RightBrace]);
const ARGUMENT_STARTS: ReadonlySet<TokenType> = new Set([
  T.ValueKeyword,
  T.At,
  T.NamesKeyword,
  T.Of,
  T.In,
  T.Flag,
  T.DirectionWord,
]);
const BEHIND_NAMED_VALUE: ReadonlySet<TokenType> = new Set([
  T.DirectionWord,
  T.RelationWord,
  T.Plus,
  T.Minus,
  T.Star,
  T.Slash,
]);

function isParseError(error: unknown): error is Error & ParseError {
  return error instanceof Error && isRecognitionException(error) && 'token' in error;
}

/** What is gathered of a statement while it is parsed; kept also when an error ends it early. */
export type Draft = { -readonly [K in keyof Statement]?: Statement[K] } & {
  objects: CountedReference[];
  arguments: Argument[];
};

/** What statements are gathered in, where they end, and how the parser goes on behind an error in one. */
export class RecoveringGrammar extends ValueGrammar {
  /** The statement being parsed. */
  protected draft: Draft | undefined;

  /** What can be no part of a statement is an error of the statement it stands in, whose block is then kept. */
  protected refuseStray(): void {
    const token = this.LA(1);
    if (!inCategory(token, T.Stray) || this.startsLine(1)) return;
    throw new NoViableAltException('a value or a keyword', token, this.LA(0));
  }

  /**
   * Whether the next token goes on with the statement. A plain name does where it is a value with a direction or the
   * start of a computation (`20 mm left, floor_height + 40 mm up`); else it, or another head, starts the next one.
   */
  protected isArgument(): boolean {
    const token = this.LA(1);
    if (!inCategory(token, T.Word)) return true;
    if (token.tokenType === T.Word) return !this.startsLine(1) && BEHIND_NAMED_VALUE.has(this.LA(2).tokenType);
    // `rating 2200 kg  tyres 4 x "…"` on one line of a block: two statements.
    if (token.tokenType === T.HeadOrValue)
      return !this.startsLine(1) && T.KEYWORD_CLASSES.get(this.draft?.head?.text ?? '') !== T.HeadOrValue;
    return ARGUMENT_STARTS.has(token.tokenType);
  }

  /**
   * Whether the next token goes on with a `rule` line: a level, what was meant for one (`of`), or the reason. A head starts
   * the next statement.
   */
  protected isRuleArgument(): boolean {
    const token = this.LA(1);
    if (token.tokenType === T.Flag || !inCategory(token, T.Word)) return true;
    return !inCategory(token, T.Head) && !this.startsLine(1);
  }

  protected finish(draft: Draft, broken: boolean): Statement {
    const head = draft.head ?? { text: '', start: 0, end: 0 };
    const previous = this.LA(0);
    const end = Math.max(head.end, previous.startOffset >= 0 ? endOf(previous) : 0);
    return { ...draft, head, start: draft.start ?? head.start, end, broken };
  }

  /**
   * Runs a statement's rule; on a syntax error records it, passes over what is left of the statement and keeps the rest.
   * `block` reads the block that the error left open.
   */
  protected guarded(rule: () => Statement, block: (draft: Draft) => Block): Statement | undefined {
    try {
      return rule();
    } catch (error) {
      if (!isParseError(error)) throw error;
      const draft = this.draft;
      this.problems.push(this.describe(error));
      this.errors = []; // told; what is left at the end is what stands behind the declaration
      this.skipStatement();
      if (draft && draft.block === undefined && this.LA(1).tokenType === T.LeftBrace) {
        draft.block = block(draft);
      }
      return draft ? this.finish(draft, true) : undefined;
    }
  }

  /** The problem a syntax error makes; an error at the end of the text points at the last token. */
  describe(error: ParseError): SyntaxProblem {
    // What is missing at the end of a line or of the text is reported where it is missing.
    const atEnd = !(error.token.startOffset >= 0) || (error.token === this.LA(1) && this.startsLine(1));
    const token = atEnd && this.LA(0).startOffset >= 0 ? this.LA(0) : error.token;
    const known = token.startOffset >= 0;
    const start = known ? token.startOffset : 0;
    const end = known ? endOf(token) : 0;
    return {
      kind: 'syntax',
      start,
      end,
      found: atEnd ? '' : token.image,
      expected: error.message,
    };
  }

  /** Passes over tokens up to the next line of the same block, a brace or the end. */
  private skipStatement(): void {
    for (let first = true; ; first = false) {
      const token = this.LA(1);
      if (!(token.startOffset >= 0) || BRACES.has(token.tokenType)) return;
      if (this.startsLine(1) && (!first || this.isHead(token))) return;
      this.SKIP_TOKEN();
    }
  }

  private isHead(token: IToken): boolean {
    return token.tokenType === T.Word || inCategory(token, T.Head);
  }

  /** Reports what cannot start a statement, once for its line. */
  protected skipStray(token: IToken): void {
    this.report('syntax', token.startOffset, endOf(token), token.image, 'a statement');
    while (this.LA(1).startOffset >= 0 && !this.startsLine(1) && !BRACES.has(this.LA(1).tokenType)) this.SKIP_TOKEN();
  }
}
