import { type IToken, isRecognitionException, NoViableAltException, type TokenType } from 'chevrotain';
import * as T from './tokens.ts';
import type { Argument, Block, Comparison, CountedReference, Expression, Statement, SyntaxProblem } from './tree.ts';
import { endOf, inCategory, ValueGrammar, word } from './values.ts';

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
type Draft = { -readonly [K in keyof Statement]?: Statement[K] } & {
  objects: CountedReference[];
  arguments: Argument[];
};

/**
 * The grammar. Statements share one form (head, name, title, arguments, block); which arguments fit which head is the
 * vocabulary's matter and is checked when the statement is read. Errors inside a block cost one statement: the parser
 * goes on at the next line, or behind the block the error left open.
 */
export class RigParser extends ValueGrammar {
  documentation: (offset: number) => string | undefined = () => undefined;

  constructor() {
    super();
    this.performSelfAnalysis();
  }

  /** Top of a piece of text: one declaration, and nothing behind it. */
  declaration = this.RULE('declaration', (): Statement | undefined => {
    let statement: Statement | undefined;
    this.OPTION(() => {
      statement = this.guarded(() => this.SUBRULE(this.statement));
    });
    return statement;
  });

  statement = this.RULE('statement', (): Statement => {
    const draft: Draft = { objects: [], arguments: [] };
    this.ACTION(() => {
      this.draft = draft;
      const first = this.LA(1);
      draft.start = first.startOffset;
      draft.head = word(first);
      const documentation = this.documentation(first.startOffset);
      if (documentation !== undefined) draft.documentation = documentation;
    });
    // One token decides, so that a missing name is reported as a missing name.
    this.OR({
      MAX_LOOKAHEAD: 1,
      DEF: [
        { ALT: () => this.SUBRULE(this.useForm, { ARGS: [draft] }) },
        { ALT: () => this.SUBRULE(this.letForm, { ARGS: [draft] }) },
        { ALT: () => this.SUBRULE(this.requireForm, { ARGS: [draft] }) },
        { GATE: () => this.LA(2).tokenType !== T.Dot, ALT: () => this.SUBRULE(this.declaringForm, { ARGS: [draft] }) },
        { GATE: () => this.LA(2).tokenType !== T.Dot, ALT: () => this.SUBRULE(this.listingForm, { ARGS: [draft] }) },
        { GATE: () => this.LA(2).tokenType !== T.Dot, ALT: () => this.SUBRULE(this.plainForm, { ARGS: [draft] }) },
        { ALT: () => this.SUBRULE(this.subjectForm, { ARGS: [draft] }) },
      ],
    });
    return this.ACTION(() => this.finish(draft, false));
  });

  useForm = this.RULE('useForm', (draft: Draft) => {
    this.CONSUME(T.Use);
    const text = this.SUBRULE(this.textRule);
    this.ACTION(() => draft.arguments.push({ kind: 'text', text, start: text.start, end: text.end }));
  });

  letForm = this.RULE('letForm', (draft: Draft) => {
    this.CONSUME(T.Let);
    const name = this.CONSUME(T.Word);
    this.ACTION(() => {
      draft.name = word(name);
    });
    this.CONSUME(T.Equals);
    const expression = this.SUBRULE(this.expression);
    this.ACTION(() => {
      draft.expression = expression;
    });
  });

  requireForm = this.RULE('requireForm', (draft: Draft) => {
    this.CONSUME(T.Require);
    const expression = this.SUBRULE(this.expression);
    const comparison = this.SUBRULE(this.comparison);
    this.ACTION(() => {
      draft.expression = expression;
      draft.comparison = comparison;
    });
    this.MANY(() =>
      this.OR([
        { ALT: () => this.CONSUME(T.Comma) },
        {
          ALT: () => {
            const keyword = this.CONSUME(T.In);
            const references = this.SUBRULE(this.references);
            this.ACTION(() =>
              draft.arguments.push({
                kind: 'references',
                keyword: word(keyword),
                references,
                start: keyword.startOffset,
                end: this.lastEnd(),
              }),
            );
          },
        },
        {
          ALT: () => {
            const text = this.SUBRULE(this.textRule);
            this.ACTION(() => draft.arguments.push({ kind: 'text', text, start: text.start, end: text.end }));
          },
        },
      ]),
    );
  });

  comparison = this.RULE('comparison', (): Comparison => {
    const start = this.LA(1).startOffset;
    let least: Expression | undefined;
    let most: Expression | undefined;
    this.OR([
      {
        ALT: () => {
          this.CONSUME(T.Between);
          least = this.SUBRULE(this.expression);
          this.CONSUME(T.And);
          most = this.SUBRULE1(this.expression);
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.At);
          this.OR1([
            {
              ALT: () => {
                this.CONSUME(T.Least);
                least = this.SUBRULE2(this.expression);
              },
            },
            {
              ALT: () => {
                this.CONSUME(T.Most);
                most = this.SUBRULE3(this.expression);
              },
            },
          ]);
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.AtLeast);
          least = this.SUBRULE4(this.expression);
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.AtMost);
          most = this.SUBRULE5(this.expression);
        },
      },
    ]);
    return { ...(least ? { least } : {}), ...(most ? { most } : {}), start, end: this.lastEnd() };
  });

  declaringForm = this.RULE('declaringForm', (draft: Draft) => {
    this.OR([
      {
        ALT: () => {
          this.CONSUME(T.Declares);
          const name = this.CONSUME(T.Word);
          this.ACTION(() => {
            draft.name = word(name);
          });
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.MayDeclare);
          this.OPTION({
            GATE: () => this.LA(1).tokenType === T.Word && !this.startsLine(1),
            DEF: () => {
              const name = this.CONSUME1(T.Word);
              this.ACTION(() => {
                draft.name = word(name);
              });
            },
          });
        },
      },
    ]);
    this.SUBRULE(this.rest, { ARGS: [draft] });
  });

  listingForm = this.RULE('listingForm', (draft: Draft) => {
    this.CONSUME(T.Lists);
    const objects = this.SUBRULE(this.references);
    this.ACTION(() => draft.objects.push(...objects));
    this.SUBRULE(this.rest, { ARGS: [draft] });
  });

  plainForm = this.RULE('plainForm', (draft: Draft) => {
    this.OR([
      { ALT: () => this.CONSUME(T.Plain) },
      {
        ALT: () => {
          const keyword = this.CONSUME(T.HeadOrValue);
          // `tyres 4 x "…"`: the head is the keyword of its own value.
          this.ACTION(() => {
            draft.head = word(keyword);
          });
        },
      },
    ]);
    this.SUBRULE(this.rest, { ARGS: [draft] });
  });

  subjectForm = this.RULE('subjectForm', (draft: Draft) => {
    const subject = this.SUBRULE(this.reference);
    this.ACTION(() => {
      draft.subject = subject;
    });
    this.SUBRULE(this.rest, { ARGS: [draft] });
  });

  /** What may follow any head: title, arguments, block. */
  rest = this.RULE('rest', (draft: Draft) => {
    // A bare name is a value only directly behind the head (`GVM gross_mass`); behind the names that a head lists it
    // starts the next statement (`absent awning  fresh 40 %`).
    this.OPTION({
      GATE: () => this.LA(1).tokenType === T.Word && !this.startsLine(1) && draft.objects.length === 0,
      DEF: () => {
        const value = this.SUBRULE(this.value);
        this.ACTION(() => draft.arguments.push({ kind: 'value', value, start: value.start, end: value.end }));
      },
    });
    this.MANY({
      GATE: () => this.isArgument(),
      DEF: () =>
        this.OR([
          { ALT: () => this.CONSUME(T.Comma) },
          {
            ALT: () => {
              const argument = this.SUBRULE(this.argument);
              this.ACTION(() => draft.arguments.push(argument));
            },
          },
        ]),
    });
    this.ACTION(() => this.refuseStray());
    this.OPTION1(() => {
      const block = this.SUBRULE(this.block, { ARGS: [draft] });
      this.ACTION(() => {
        draft.block = block;
      });
    });
  });

  argument = this.RULE('argument', (): Argument => {
    const start = this.LA(1).startOffset;
    return this.OR([
      {
        ALT: (): Argument => {
          const keyword = this.CONSUME(T.ValueKeyword);
          const value = this.SUBRULE(this.value);
          return { kind: 'value', keyword: word(keyword), value, start, end: this.lastEnd() };
        },
      },
      {
        ALT: (): Argument => {
          const keyword = this.CONSUME(T.NamesKeyword);
          const references = this.SUBRULE(this.references);
          return { kind: 'references', keyword: word(keyword), references, start, end: this.lastEnd() };
        },
      },
      {
        ALT: (): Argument => {
          const flag = this.CONSUME(T.Flag);
          return { kind: 'flag', word: word(flag), start, end: endOf(flag) };
        },
      },
      {
        ALT: (): Argument => {
          const flag = this.CONSUME(T.DirectionWord);
          return { kind: 'flag', word: word(flag), start, end: endOf(flag) };
        },
      },
      {
        ALT: (): Argument => {
          const text = this.SUBRULE(this.textRule);
          return { kind: 'text', text, start, end: text.end };
        },
      },
      {
        GATE: () => this.LA(1).tokenType === T.Word || !inCategory(this.LA(1), T.Word),
        ALT: (): Argument => {
          const value = this.SUBRULE1(this.value);
          return { kind: 'value', value, start, end: this.lastEnd() };
        },
      },
    ]);
  });

  block = this.RULE('block', (draft: Draft): Block => {
    const statements: Statement[] = [];
    const opening = this.CONSUME(T.LeftBrace);
    this.MANY(() => {
      this.OR([
        { ALT: () => this.CONSUME(T.Comma) },
        {
          ALT: () => {
            const statement = this.guarded(() => this.SUBRULE(this.statement));
            this.ACTION(() => {
              if (statement) statements.push(statement);
              this.draft = draft;
            });
          },
        },
        {
          ALT: () => {
            const stray = this.CONSUME(T.Stray);
            this.ACTION(() => this.skipStray(stray));
          },
        },
      ]);
    });
    this.OPTION(() => this.CONSUME(T.RightBrace));
    return this.ACTION(() => {
      if (this.LA(0).tokenType !== T.RightBrace) {
        this.report('unclosed', opening.startOffset, endOf(opening), '', "'}'");
      }
      return { statements, start: opening.startOffset, end: this.lastEnd() };
    });
  });

  private draft: Draft | undefined;

  /** What can be no part of a statement is an error of the statement it stands in, whose block is then kept. */
  private refuseStray(): void {
    const token = this.LA(1);
    if (!inCategory(token, T.Stray) || this.startsLine(1)) return;
    throw new NoViableAltException('a value or a keyword', token, this.LA(0));
  }

  /**
   * Whether the next token goes on with the statement. A plain name does where it is a value with a direction or the
   * start of a computation (`20 mm left, floor_height + 40 mm up`); else it, or another head, starts the next one.
   */
  private isArgument(): boolean {
    const token = this.LA(1);
    if (!inCategory(token, T.Word)) return true;
    if (token.tokenType === T.Word) return !this.startsLine(1) && BEHIND_NAMED_VALUE.has(this.LA(2).tokenType);
    // `rating 2200 kg  tyres 4 x "…"` on one line of a block: two statements.
    if (token.tokenType === T.HeadOrValue)
      return !this.startsLine(1) && T.KEYWORD_CLASSES.get(this.draft?.head?.text ?? '') !== T.HeadOrValue;
    return ARGUMENT_STARTS.has(token.tokenType);
  }

  private finish(draft: Draft, broken: boolean): Statement {
    const head = draft.head ?? { text: '', start: 0, end: 0 };
    const previous = this.LA(0);
    const end = Math.max(head.end, previous.startOffset >= 0 ? endOf(previous) : 0);
    return { ...draft, head, start: draft.start ?? head.start, end, broken };
  }

  /** Runs a statement's rule; on a syntax error records it, passes over what is left of the statement and keeps the rest. */
  private guarded(rule: () => Statement): Statement | undefined {
    try {
      return rule();
    } catch (error) {
      if (!isParseError(error)) throw error;
      const draft = this.draft;
      this.problems.push(this.describe(error));
      this.errors = []; // told; what is left at the end is what stands behind the declaration
      this.skipStatement();
      if (draft && draft.block === undefined && this.LA(1).tokenType === T.LeftBrace) {
        // Not `this.block(draft)`: a rule called by itself takes the end of the input for its own.
        draft.block = this.SUBRULE9(this.block, { ARGS: [draft] });
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
  private skipStray(token: IToken): void {
    this.report('syntax', token.startOffset, endOf(token), token.image, 'a statement');
    while (this.LA(1).startOffset >= 0 && !this.startsLine(1) && !BRACES.has(this.LA(1).tokenType)) this.SKIP_TOKEN();
  }
}
