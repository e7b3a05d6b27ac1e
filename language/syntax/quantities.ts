import { EmbeddedActionsParser, type IToken, type TokenType } from 'chevrotain';
import { parseNumber } from '../units/quantity.ts';
import { parseUnit } from '../units/units.ts';
import * as T from './tokens.ts';
import type { Comparison, Expression, Factor, Measure, Reference, SyntaxProblem, Term, Word } from './tree.ts';

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

/** Numbers, units, names and arithmetic: the part of the grammar below values. */
export class QuantityGrammar extends EmbeddedActionsParser {
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

  protected report(kind: SyntaxProblem['kind'], start: number, end: number, found: string, expected: string): void {
    this.problems.push({ kind, start, end, found, expected });
  }
}
