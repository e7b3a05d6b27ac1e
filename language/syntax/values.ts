import { EmbeddedActionsParser, type IToken, type TokenType } from 'chevrotain';
import { parseNumber } from '../units/quantity.ts';
import { parseUnit } from '../units/units.ts';
import * as T from './tokens.ts';
import type {
  CountedReference,
  Direction,
  Expression,
  Factor,
  Measure,
  Reference,
  SyntaxProblem,
  Term,
  Text,
  Value,
  Word,
} from './tree.ts';

export const endOf = (token: IToken): number => token.startOffset + token.image.length;
export const word = (token: IToken): Word => ({ text: token.image, start: token.startOffset, end: endOf(token) });

export function inCategory(token: IToken, category: TokenType): boolean {
  return token.tokenType === category || (token.tokenType.CATEGORIES ?? []).includes(category);
}

/** What the grammar expects, in words, where no single token would do. */
const EXPECTED_IN: Readonly<Record<string, string>> = {
  statement: 'a statement',
  argument: 'a value or a keyword',
  value: 'a value',
  factorOrText: 'a number, a name or text between quotes',
  signed: "a number, a name or '('",
  comparison: "'between', 'at least' or 'at most'",
  direction: 'a direction',
  thing: 'a name',
  countedReference: 'a name',
  block: 'a statement',
};

/** Keywords that are an argument by themselves. */
const STANDS_ALONE: ReadonlySet<TokenType> = new Set([T.Flag, T.DirectionWord]);

/** What may follow a name of a list. */
const LIST_GOES_ON: ReadonlySet<TokenType> = new Set([T.Comma, T.Dot, T.RightBrace, T.TextToken, T.UnterminatedText]);

/** Values, names and arithmetic: the part of the grammar that does not know statements. */
export class ValueGrammar extends EmbeddedActionsParser {
  /** The text the tokens come from; set before parsing. */
  text = '';
  /** What could not be read, in the order found. */
  problems: SyntaxProblem[] = [];

  constructor() {
    super(T.TOKENS, {
      recoveryEnabled: false,
      maxLookahead: 2,
      skipValidations: true,
      errorMessageProvider: {
        buildMismatchTokenMessage: ({ expected }) => expected.LABEL ?? expected.name,
        buildNotAllInputParsedMessage: ({ firstRedundant }) =>
          firstRedundant.tokenType === T.RightBrace ? "no further '}'" : 'a new line before the next declaration',
        buildNoViableAltMessage: ({ ruleName }) => EXPECTED_IN[ruleName] ?? 'something else',
        buildEarlyExitMessage: ({ ruleName }) => EXPECTED_IN[ruleName] ?? 'something else',
      },
    });
  }

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

  reference = this.RULE('reference', (): Reference => {
    const path: Word[] = [];
    const first = this.CONSUME(T.Word);
    this.ACTION(() => path.push(word(first)));
    this.MANY(() => {
      this.CONSUME(T.Dot);
      const next = this.CONSUME1(T.Word);
      this.ACTION(() => path.push(word(next)));
    });
    return { path, start: first.startOffset, end: this.lastEnd() };
  });

  expression = this.RULE('expression', (): Expression => {
    const start = this.LA(1).startOffset;
    const terms: Term[] = [];
    const first = this.SUBRULE(this.product);
    this.ACTION(() => terms.push({ negative: false, operand: first }));
    this.MANY(() => {
      const negative = this.OR([
        {
          ALT: () => {
            this.CONSUME(T.Plus);
            return false;
          },
        },
        {
          ALT: () => {
            this.CONSUME(T.Minus);
            return true;
          },
        },
      ]);
      const operand = this.SUBRULE1(this.product);
      this.ACTION(() => terms.push({ negative, operand }));
    });
    return terms.length > 1 ? { kind: 'sum', terms, start, end: this.lastEnd() } : first;
  });

  product = this.RULE('product', (): Expression => {
    const start = this.LA(1).startOffset;
    const factors: Factor[] = [];
    const first = this.SUBRULE(this.signed);
    this.ACTION(() => factors.push({ divide: false, operand: first }));
    this.MANY(() => {
      const divide = this.OR([
        {
          ALT: () => {
            this.CONSUME(T.Star);
            return false;
          },
        },
        {
          ALT: () => {
            this.CONSUME(T.Slash);
            return true;
          },
        },
      ]);
      const operand = this.SUBRULE1(this.signed);
      this.ACTION(() => factors.push({ divide, operand }));
    });
    return factors.length > 1 ? { kind: 'product', factors, start, end: this.lastEnd() } : first;
  });

  signed = this.RULE('signed', (): Expression => {
    const start = this.LA(1).startOffset;
    let negative = false;
    this.MANY(() => {
      this.CONSUME(T.Minus);
      this.ACTION(() => {
        negative = !negative;
      });
    });
    const operand = this.OR([
      { ALT: (): Expression => this.SUBRULE(this.quantity) },
      {
        ALT: (): Expression => {
          this.CONSUME(T.LeftParenthesis);
          const inner = this.SUBRULE(this.expression);
          this.CONSUME(T.RightParenthesis);
          return inner;
        },
      },
      {
        // A value that is missing at the end of a line must not take the head of the next line for a name.
        GATE: () => !(inCategory(this.LA(1), T.Head) && this.startsLine(1)),
        ALT: (): Expression => {
          const reference = this.SUBRULE(this.reference);
          return { kind: 'reference', reference, start: reference.start, end: reference.end };
        },
      },
    ]);
    return negative ? { kind: 'sum', terms: [{ negative: true, operand }], start, end: this.lastEnd() } : operand;
  });

  quantity = this.RULE('quantity', (): Expression => {
    const start = this.LA(1).startOffset;
    const measures: Measure[] = [];
    const first = this.SUBRULE(this.measure);
    this.ACTION(() => measures.push(first));
    this.MANY({
      GATE: () => this.addsUp(measures[measures.length - 1]),
      DEF: () => {
        const next = this.SUBRULE1(this.measure);
        this.ACTION(() => measures.push(next));
      },
    });
    return { kind: 'quantity', measures, start, end: this.lastEnd() };
  });

  measure = this.RULE('measure', (): Measure => {
    const number = this.CONSUME(T.NumberToken);
    let unit: IToken | undefined;
    this.OPTION(() => {
      unit = this.CONSUME(T.UnitToken);
    });
    return {
      number: word(number),
      ...(unit ? { unit: word(unit) } : {}),
      start: number.startOffset,
      end: this.lastEnd(),
    };
  });

  protected lastEnd(): number {
    return endOf(this.LA(0));
  }

  /** Whether the token `ahead` is the first of its line. */
  protected startsLine(ahead: number): boolean {
    if (this.RECORDING_PHASE) return false;
    const previous = this.LA(ahead - 1);
    const token = this.LA(ahead);
    for (let at = previous.startOffset >= 0 ? endOf(previous) : 0; at < token.startOffset; at++) {
      if (this.text.charCodeAt(at) === 10) return true;
    }
    return false;
  }

  /**
   * Less than one of the unit before, in a smaller unit of the same dimension, adds up: `11 ft 3 in`. Anything else is a
   * new value: `2 in 430 mm`.
   */
  protected addsUp(before: Measure | undefined): boolean {
    const number = this.LA(1);
    const unit = this.LA(2);
    if (before?.unit === undefined || number.tokenType !== T.NumberToken || unit.tokenType !== T.UnitToken)
      return false;
    const larger = parseUnit(before.unit.text);
    const smaller = parseUnit(unit.image);
    if (larger === undefined || smaller === undefined) return false;
    const amount = parseNumber(number.image);
    if (smaller.factor >= larger.factor || amount === undefined || amount * smaller.factor >= larger.factor)
      return false;
    return larger.dimension.every((exponent, index) => exponent === smaller.dimension[index]);
  }

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

  protected report(kind: SyntaxProblem['kind'], start: number, end: number, found: string, expected: string): void {
    this.problems.push({ kind, start, end, found, expected });
  }
}
