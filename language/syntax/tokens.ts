import { type CustomPatternMatcherReturn, createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import { unitAt } from '../units/units.ts';
import { conflictEnd, conflictLineAt } from './cut.ts';
import { ARGUMENTS, DIRECTIONS, FLAGS, RELATIONS, STATEMENTS } from './vocabulary.ts';

/*
 * Keywords are words first: the lexer reads every word with one pattern and then gives it the class that the vocabulary
 * says. Every class belongs to the category Word, so a keyword can also be a name where the grammar asks for one.
 */

/** What can never start a statement; lets a block report it and go on. */
export const Stray = createToken({ name: 'Stray', pattern: Lexer.NA, label: 'a statement' });

export const Word = createToken({
  name: 'Word',
  pattern:
    /[A-Za-z_\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02FF\u0370-\u1FFF\u3040-\uD7FF][\w\u00C0-\u00D6\u00D8-\u00F6\u00F8-\u02FF\u0370-\u1FFF\u3040-\uD7FF]*/,
  label: 'a name',
});

const wordClass = (name: string, label: string, categories: TokenType[] = []): TokenType =>
  createToken({ name, pattern: Lexer.NA, categories: [Word, ...categories], label });

export const Head = wordClass('Head', 'the start of a statement');
export const Use = wordClass('Use', "'use'", [Head]);
export const Let = wordClass('Let', "'let'", [Head]);
export const Require = wordClass('Require', "'require'", [Head]);
export const Rule = wordClass('Rule', "'rule'", [Head]);
export const Declares = wordClass('Declares', 'a keyword that declares a name', [Head]);
export const MayDeclare = wordClass('MayDeclare', "'axles'", [Head]);
export const Lists = wordClass('Lists', "'tow', 'haul', 'stow' or the like", [Head]);
export const Plain = wordClass('Plain', 'a keyword', [Head]);
export const ValueKeyword = wordClass('ValueKeyword', 'a keyword with a value');
/** A head at the start of a line, a keyword with a value elsewhere: `rating`, `tyres`. */
export const HeadOrValue = wordClass('HeadOrValue', 'a keyword', [Head, ValueKeyword]);
export const NamesKeyword = wordClass('NamesKeyword', 'a keyword with names');
export const Of = wordClass('Of', "'of'", [NamesKeyword]);
export const In = wordClass('In', "'in'", [NamesKeyword]);
export const At = wordClass('At', "'at'", [ValueKeyword]);
export const Flag = wordClass('Flag', 'a keyword that stands alone');
export const DirectionWord = wordClass('DirectionWord', "a direction ('back', 'ahead', 'left', 'right', 'up', 'down')");
export const RelationWord = wordClass('RelationWord', "'behind', 'above', 'below' or 'on'");
export const To = wordClass('To', "'to'");
export const And = wordClass('And', "'and'");
export const Between = wordClass('Between', "'between'");
export const Least = wordClass('Least', "'least'");
export const Most = wordClass('Most', "'most'");

/** Token class of each keyword. */
export const KEYWORD_CLASSES: ReadonlyMap<string, TokenType> = classifyKeywords();

function classifyKeywords(): Map<string, TokenType> {
  const classes = new Map<string, TokenType>();
  for (const keyword of Object.keys(DIRECTIONS)) classes.set(keyword, DirectionWord);
  for (const keyword of Object.keys(RELATIONS)) classes.set(keyword, RelationWord);
  for (const group of Object.values(FLAGS)) for (const word of Object.keys(group)) classes.set(word, Flag);
  for (const [keyword, spec] of Object.entries(ARGUMENTS)) {
    classes.set(keyword, 'names' in spec ? NamesKeyword : ValueKeyword);
  }
  const heads = {
    declares: Declares,
    'may declare': MayDeclare,
    lists: Lists,
    plain: Plain,
    'own form': Plain,
  } as const;
  for (const { keyword, synonyms, head } of STATEMENTS) {
    for (const word of [keyword, ...(synonyms ?? [])]) {
      classes.set(word, classes.get(word) === ValueKeyword ? HeadOrValue : heads[head]);
    }
  }
  const own: [string, TokenType][] = [
    ['use', Use],
    ['let', Let],
    ['require', Require],
    ['rule', Rule],
    ['of', Of],
    ['in', In],
    ['at', At],
    ['to', To],
    ['and', And],
    ['between', Between],
    ['least', Least],
    ['most', Most],
  ];
  for (const [word, type] of own) classes.set(word, type);
  return classes;
}

/** Decimal numbers with `_` or a no-break space between groups of digits, mixed and plain fractions as on a rule (`3 3/4`), exponents. */
export const NumberToken = createToken({
  name: 'Number',
  pattern:
    /(?:\d[\d_]*[ \t]+)?\d+\/\d+(?![\d.])|(?:\d(?:[\d_]|[\u00A0\u2009\u202F](?=\d{3}))*(?:\.\d[\d_]*)?|\.\d[\d_]*)(?:[eE][+-]?\d+)?/,
  label: 'a number',
  categories: [Stray],
});

/** A unit is read only directly behind a number of the same line; a keyword there is a keyword unless it is a unit. */
export const UnitToken = createToken({
  name: 'Unit',
  pattern: { exec: matchUnit },
  line_breaks: false,
  start_chars_hint: [...'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ%°µμ'],
  label: 'a unit',
  categories: [Stray],
});

function matchUnit(text: string, offset: number, matched: IToken[]): CustomPatternMatcherReturn | null {
  const before = matched[matched.length - 1];
  if (before === undefined || before.tokenType !== NumberToken) return null;
  for (let at = before.startOffset + before.image.length; at < offset; at++) {
    if (text.charCodeAt(at) === 10) return null;
  }
  const unit = unitAt(text, offset);
  if (unit !== undefined) {
    const image = text.slice(offset, unit.end);
    return image === 'in' && namesCases(text, unit.end, matched) ? null : [image];
  }
  // A word that is neither a unit nor a keyword is read as a unit, so that it can be reported as an unknown one.
  UNKNOWN_UNIT.lastIndex = offset;
  const image = UNKNOWN_UNIT.exec(text)?.[0];
  return image === undefined || KEYWORD_CLASSES.has(image) ? null : [image];
}

const NAME_AHEAD = /[ \t]+([\p{L}_][\p{L}\p{N}_]*)(?=[ \t]*(?:[,;"#}\r\n]|$))/uy;

/** `require rig.damping at least 0.12 in loaded`: a name follows the keyword, never inches. */
function namesCases(text: string, offset: number, matched: readonly IToken[]): boolean {
  NAME_AHEAD.lastIndex = offset;
  const name = NAME_AHEAD.exec(text)?.[1];
  if (name === undefined || KEYWORD_CLASSES.has(name)) return false;
  // Words get their classes after this.
  const head = matched.findLast(({ image }) => image === 'require');
  return head !== undefined && head.startOffset > text.lastIndexOf('\n', offset);
}

const UNKNOWN_UNIT = /[A-Za-z°µμ%][\w°²³]*(?:[/^][A-Za-z0-9]+)*/y;

/** `x` between factors: directly before a number, text, parenthesis or name, behind a number, unit, parenthesis or name. */
export const Times = createToken({
  name: 'Times',
  pattern: { exec: matchTimes },
  line_breaks: false,
  start_chars_hint: ['x', 'X', '×'],
  label: "'x'",
  categories: [Stray],
});

const FACTOR_AHEAD = /[xX×](?=\s*[\d."(])|[xX×](?=\s+[A-Za-z_\u00C0-\uD7FF])/y;

function matchTimes(text: string, offset: number, matched: IToken[]): CustomPatternMatcherReturn | null {
  const before = matched[matched.length - 1];
  if (before === undefined || !endsFactor(before, text, offset)) return null;
  FACTOR_AHEAD.lastIndex = offset;
  const match = FACTOR_AHEAD.exec(text);
  return match ? [match[0]] : null;
}

/** Behind a keyword `x` is a name (`item x 3 kg`), and so it is at the start of a line. */
function endsFactor({ tokenType, image, startOffset }: IToken, text: string, offset: number): boolean {
  if (tokenType === NumberToken || tokenType === UnitToken || tokenType === RightParenthesis) return true;
  if (tokenType !== Word || KEYWORD_CLASSES.has(image)) return false;
  return !text.slice(startOffset + image.length, offset).includes('\n');
}

const symbol = (name: string, text: string): TokenType =>
  createToken({ name, pattern: text, label: `'${text}'`, categories: [Stray] });
export const LeftBrace = createToken({ name: 'LeftBrace', pattern: '{', label: "'{'" });
export const RightBrace = createToken({ name: 'RightBrace', pattern: '}', label: "'}'" });
export const LeftParenthesis = symbol('LeftParenthesis', '(');
export const RightParenthesis = symbol('RightParenthesis', ')');
export const Comma = createToken({ name: 'Comma', pattern: /[,;]/, label: "','" });
export const Dot = symbol('Dot', '.');
export const Equals = symbol('Equals', '=');
export const AtLeast = createToken({ name: 'AtLeast', pattern: />=|≥|>/, categories: [Stray], label: "'>='" });
export const AtMost = createToken({ name: 'AtMost', pattern: /<=|≤|</, categories: [Stray], label: "'<='" });
export const PlusMinus = createToken({ name: 'PlusMinus', pattern: /±|\+\/-/, categories: [Stray], label: "'±'" });
export const Plus = symbol('Plus', '+');
export const Minus = createToken({ name: 'Minus', pattern: /[-−]/, categories: [Stray], label: "'-'" });
export const Star = createToken({ name: 'Star', pattern: /[*·]/, categories: [Stray], label: "'*'" });
export const Slash = symbol('Slash', '/');

export const TextToken = createToken({
  name: 'Text',
  pattern: /"[^"\n\r]*"/,
  label: 'text between quotes',
  categories: [Stray],
});
/** Text whose closing quote is missing ends with its line. */
export const UnterminatedText = createToken({
  name: 'UnterminatedText',
  pattern: /"[^"\n\r]*/,
  categories: [TextToken],
  label: 'text between quotes',
});

const Conflict = createToken({
  name: 'Conflict',
  pattern: { exec: matchConflict },
  line_breaks: true,
  start_chars_hint: ['<', '=', '>', '|'],
  group: 'conflicts',
});

function matchConflict(text: string, offset: number): CustomPatternMatcherReturn | null {
  if (offset > 0 && text.charCodeAt(offset - 1) !== 10) return null;
  const line = conflictLineAt(text, offset);
  if (line === undefined) return null;
  const end = line === 'base' || line === 'theirs' ? conflictEnd(text, offset) : text.indexOf('\n', offset) + 1;
  return [text.slice(offset, end > 0 ? end : text.length)];
}

const Comment = createToken({ name: 'Comment', pattern: /#(?:[^\n\r]|\r+(?=\n))*/, group: 'comments' });
/**
 * White space, a byte-order mark included. A carriage return that ends no line is no white space: it is reported. A run of
 * them is looked at once, at its first.
 */
const Space = createToken({
  name: 'Space',
  pattern: /(?:[ \t\n\f\v\u00A0\u2009\u202F\uFEFF]|(?<!\r)\r+(?=\n|$))+/,
  group: Lexer.SKIPPED,
  line_breaks: true,
});

/** Classes that only keyword lookup assigns. */
const WORD_CLASSES: TokenType[] = [
  Head,
  Use,
  Let,
  Require,
  Rule,
  Declares,
  MayDeclare,
  Lists,
  Plain,
  ValueKeyword,
  HeadOrValue,
  NamesKeyword,
  Of,
  In,
  At,
  Flag,
  DirectionWord,
  RelationWord,
  To,
  And,
  Between,
  Least,
  Most,
];

/** The order is the order of trial. */
export const TOKENS: TokenType[] = [
  Space,
  Conflict,
  Comment,
  Stray,
  NumberToken,
  Times,
  UnitToken,
  Word,
  TextToken,
  UnterminatedText,
  LeftBrace,
  RightBrace,
  LeftParenthesis,
  RightParenthesis,
  Comma,
  Dot,
  Equals,
  AtLeast,
  AtMost,
  PlusMinus,
  Plus,
  Minus,
  Star,
  Slash,
  ...WORD_CLASSES,
];

export interface LexResult {
  readonly tokens: IToken[];
  readonly conflicts: readonly IToken[];
  readonly comments: readonly IToken[];
  /** Runs of characters that belong to no token. */
  readonly strays: readonly { start: number; end: number }[];
}

let lexer: Lexer | undefined;

/** Cuts a declaration's text into classified tokens. Never fails: stray characters are listed. */
export function lex(text: string): LexResult {
  lexer ??= new Lexer(TOKENS, { positionTracking: 'onlyOffset', ensureOptimizations: false, skipValidations: true });
  const { tokens, groups, errors } = lexer.tokenize(text);
  for (const token of tokens) {
    if (token.tokenType !== Word) continue;
    const type = KEYWORD_CLASSES.get(token.image);
    if (type === undefined) continue;
    token.tokenType = type;
    token.tokenTypeIdx = type.tokenTypeIdx ?? token.tokenTypeIdx;
  }
  return {
    tokens,
    conflicts: groups.conflicts ?? [],
    comments: groups.comments ?? [],
    strays: errors.map(({ offset, length }) => ({ start: offset, end: offset + length })),
  };
}
