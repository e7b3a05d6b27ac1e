import { endOf, inCategory, word } from './quantities.ts';
import { type Draft, RecoveringGrammar } from './recovery.ts';
import * as T from './tokens.ts';
import type { Argument, Block, Statement } from './tree.ts';

/**
 * The grammar. Statements share one form (head, name, title, arguments, block); which arguments fit which head is the
 * vocabulary's matter and is checked when the statement is read. Errors inside a block cost one statement: the parser
 * goes on at the next line, or behind the block the error left open.
 */
export class RigParser extends RecoveringGrammar {
  documentation: (offset: number) => string | undefined = () => undefined;

  constructor() {
    super();
    this.performSelfAnalysis();
  }

  /** Top of a piece of text: one declaration, and nothing behind it. */
  declaration = this.RULE('declaration', (): Statement | undefined => {
    let statement: Statement | undefined;
    this.OPTION(() => {
      statement = this.guarded(
        () => this.SUBRULE(this.statement),
        (open) => this.openBlock(open),
      );
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
        { ALT: () => this.SUBRULE(this.ruleForm, { ARGS: [draft] }) },
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

  ruleForm = this.RULE('ruleForm', (draft: Draft) => {
    this.CONSUME(T.Rule);
    const codes = this.SUBRULE(this.references);
    this.ACTION(() => draft.objects.push(...codes));
    this.MANY({
      GATE: () => this.isRuleArgument(),
      DEF: () =>
        this.OR([
          { ALT: () => this.CONSUME(T.Comma) },
          {
            // A word that is no level is kept, to be reported with the levels there are.
            ALT: () => {
              const level = word(this.CONSUME(T.Word));
              this.ACTION(() =>
                draft.arguments.push({ kind: 'flag', word: level, start: level.start, end: level.end }),
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
    });
    this.ACTION(() => this.refuseStray());
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
            const statement = this.guarded(
              () => this.SUBRULE(this.statement),
              (open) => this.openBlock(open),
            );
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

  /** The block of a statement that an error ended. Not `this.block(draft)`: a rule called by itself takes the end of the input for its own. */
  private openBlock(draft: Draft): Block {
    return this.SUBRULE9(this.block, { ARGS: [draft] });
  }
}
