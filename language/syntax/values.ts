import type { IToken, TokenType } from 'chevrotain';
import { endOf, inCategory, QuantityGrammar, word } from './quantities.ts';
import * as T from './tokens.ts';
import type { CountedReference, Direction, Expression, Measure, Reference, Text, Value, Word } from './tree.ts';

/** Keywords that are an argument by themselves. */
const STANDS_ALONE: ReadonlySet<TokenType> = new Set([T.Flag, T.DirectionWord]);

/** What may follow a name of a list. */
const LIST_GOES_ON: ReadonlySet<TokenType> = new Set([T.Comma, T.Dot, T.RightBrace, T.TextToken, T.UnterminatedText]);

/** Values, texts, directions and lists of names: the part of the grammar that does not know statements. */
export class ValueGrammar extends QuantityGrammar {
  value = this.RULE('value', (): Value => {
    const start = this.LA(1).startOffset;
    const factors: Expression[] = [];
    const first = this.SUBRULE(this.factorOrText);
    this.ACTION(() => factors.push(first));
    this.MANY(() => {
      this.CONSUME(T.Times);
      const next = this.SUBRULE1(this.factorOrText);
      this.ACTION(() => factors.push(next));
    });
    // `from 900 mm ahead to 4450 mm back`: the ends of an extent on either side of the datum.
    let startDirection: Word | undefined;
    this.OPTION3({
      GATE: () => this.LA(2).tokenType === T.To,
      DEF: () => {
        const token = this.CONSUME(T.DirectionWord);
        this.ACTION(() => {
          startDirection = word(token);
        });
      },
    });
    let upTo: Expression | undefined;
    this.OPTION(() => {
      this.CONSUME(T.To);
      upTo = this.SUBRULE2(this.expression);
    });
    let tolerance: Expression | undefined;
    this.OPTION1(() => {
      this.CONSUME(T.PlusMinus);
      tolerance = this.SUBRULE3(this.expression);
    });
    let direction: Direction | undefined;
    this.OPTION2({
      GATE: () =>
        !this.startsLine(1) || this.LA(1).tokenType === T.DirectionWord || this.LA(1).tokenType === T.RelationWord,
      DEF: () => {
        direction = this.SUBRULE(this.direction);
      },
    });
    return {
      factors,
      ...(startDirection ? { startDirection } : {}),
      ...(upTo ? { upTo } : {}),
      ...(tolerance ? { tolerance } : {}),
      ...(direction ? { direction } : {}),
      start,
      end: this.lastEnd(),
    };
  });

  factorOrText = this.RULE(
    'factorOrText',
    (): Expression =>
      this.OR([
        {
          ALT: (): Expression => {
            const text = this.SUBRULE(this.textRule);
            return { kind: 'text', text, start: text.start, end: text.end };
          },
        },
        { ALT: (): Expression => this.SUBRULE(this.expression) },
      ]),
  );

  direction = this.RULE('direction', (): Direction => {
    const start = this.LA(1).startOffset;
    let datum: Reference | undefined;
    let head: IToken | undefined;
    this.OR([
      {
        ALT: () => {
          head = this.CONSUME(T.DirectionWord);
          this.OPTION(() => {
            this.CONSUME(T.Of);
            datum = this.SUBRULE(this.thing);
          });
        },
      },
      {
        ALT: () => {
          head = this.CONSUME(T.RelationWord);
          datum = this.SUBRULE1(this.thing);
        },
      },
    ]);
    return this.ACTION(() => ({
      word: word(head ?? this.LA(0)),
      ...(datum ? { datum } : {}),
      start,
      end: this.lastEnd(),
    }));
  });

  references = this.RULE('references', (): CountedReference[] => {
    const references: CountedReference[] = [];
    const first = this.SUBRULE(this.countedReference);
    this.ACTION(() => references.push(first));
    this.MANY({
      GATE: () => this.LA(1).tokenType === T.Comma && this.continuesList(),
      DEF: () => {
        this.CONSUME(T.Comma);
        const next = this.SUBRULE1(this.countedReference);
        this.ACTION(() => references.push(next));
      },
    });
    return references;
  });

  countedReference = this.RULE('countedReference', (): CountedReference => {
    const start = this.LA(1).startOffset;
    let count: Measure | undefined;
    this.OPTION(() => {
      count = this.SUBRULE(this.measure);
      this.CONSUME(T.Times);
    });
    const reference = this.SUBRULE(this.thing);
    return { ...(count ? { count } : {}), reference, start, end: this.lastEnd() };
  });

  textRule = this.RULE('text', (): Text => {
    const token = this.CONSUME(T.TextToken);
    return this.ACTION(() => {
      const closed = token.tokenType !== T.UnterminatedText;
      if (!closed) {
        this.report('unterminated-text', token.startOffset, endOf(token), token.image, 'a closing quote');
      }
      return { value: token.image.slice(1, closed ? -1 : undefined), start: token.startOffset, end: endOf(token) };
    });
  });

  /** A name where one is needed; when it is missing at the end of a line, the head of the next line is not taken for it. */
  thing = this.RULE(
    'thing',
    (): Reference =>
      this.OR([
        {
          GATE: () => !(inCategory(this.LA(1), T.Head) && this.startsLine(1)),
          ALT: () => this.SUBRULE(this.reference),
        },
      ]),
  );

  /** Behind a comma: another name of the list, not the next argument or statement. */
  protected continuesList(): boolean {
    const next = this.LA(2);
    const after = this.LA(3);
    if (next.tokenType === T.Word) return true;
    // A name may be a keyword too (`in loaded, empty`, `without fridge, growth`) where it stands as a name does.
    if (inCategory(next, T.Word) && !STANDS_ALONE.has(next.tokenType) && !this.startsLine(2)) {
      return LIST_GOES_ON.has(after.tokenType) || !(after.startOffset >= 0) || this.startsLine(3);
    }
    if (next.tokenType === T.NumberToken) return after.tokenType === T.Times;
    return false;
  }
}
