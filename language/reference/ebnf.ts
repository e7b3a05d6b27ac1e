import type { ISerializedGast, TokenType } from 'chevrotain';
import { sharedParser } from '../syntax/parser.ts';
import { KEYWORD_CLASSES, RightBrace, Stray, TOKENS } from '../syntax/tokens.ts';

/*
 * The grammar as EBNF in the notation of the W3C (XML 1.0, section 6), made from the parser itself: `?`, `*` and `+` for
 * repetition, `|` between alternatives, text between quotes for what is written as it stands.
 */

/** A rule of the grammar in EBNF. */
export interface EbnfRule {
  readonly name: string;
  readonly body: string;
}

/** How token classes that are no single keyword and no single sign are written. */
const CLASS_NAMES: Readonly<Record<string, string>> = {
  Word: 'NAME',
  Number: 'NUMBER',
  Unit: 'UNIT',
  Text: 'TEXT',
  Comma: 'COMMA',
  Times: 'TIMES',
  PlusMinus: 'PLUS-MINUS',
  AtLeast: 'AT-LEAST',
  AtMost: 'AT-MOST',
  Minus: 'MINUS',
  Star: 'STAR',
  Declares: 'DECLARING-HEAD',
  MayDeclare: 'AXLES-HEAD',
  Lists: 'LISTING-HEAD',
  Plain: 'PLAIN-HEAD',
  HeadOrValue: 'HEAD-OR-KEYWORD',
  ValueKeyword: 'VALUE-KEYWORD',
  NamesKeyword: 'NAMES-KEYWORD',
  Flag: 'FLAG',
  DirectionWord: 'DIRECTION',
  RelationWord: 'RELATION',
};

/** What the classes stand for that hold no keywords. */
const CLASS_BODIES: Readonly<Record<string, string>> = {
  NAME: '[A-Za-z_ and letters of other scripts] [the same and 0-9]*   /* keywords included */',
  NUMBER: "/* see 'Numbers' */",
  UNIT: "/* see 'Units'; on the line of its number */",
  TEXT: "'\"' [any character but a quote, up to the end of the line]* '\"'",
  COMMA: "',' | ';'",
  TIMES: "'x' | 'X' | '×'",
  'PLUS-MINUS': "'±' | '+/-'",
  'AT-LEAST': "'>=' | '≥' | '>'",
  'AT-MOST': "'<=' | '≤' | '<'",
  MINUS: "'-' | '−'",
  STAR: "'*' | '·'",
};

const CLASS_BY_NAME: ReadonlyMap<string, TokenType> = new Map(TOKENS.map((type) => [type.name, type]));

/** All rules, from the file down to the classes of words and signs. */
export function ebnfRules(): readonly EbnfRule[] {
  const productions = sharedParser().getSerializedGastProductions();
  const rules = productions.map((production) => ({
    name: ruleName(textOf(production, 'name')),
    body: alternatives(production.definition ?? []),
  }));
  const used = new Set(productions.flatMap(classesIn));
  const classes = Object.entries(CLASS_NAMES)
    .filter(([type]) => used.has(type))
    .map(([type, name]) => ({ name, body: CLASS_BODIES[name] ?? wordsOf(type).map(quoted).join(' | ') }));
  // The parser is built from the values up; the page reads from the file down.
  const first = rules.findIndex(({ name }) => name === 'declaration');
  return [{ name: 'file', body: 'declaration*' }, ...rules.slice(first), ...rules.slice(0, first), ...classes];
}

/** The rules as text, their bodies aligned and long ones broken at the bars. */
export function ebnfText(rules: readonly EbnfRule[] = ebnfRules()): string {
  const width = Math.max(...rules.map(({ name }) => name.length));
  return rules.map(({ name, body }) => `${name.padEnd(width)} ::= ${wrap(body, width + 5)}`).join('\n');
}

const LONGEST_LINE = 110;

/** Breaks a body in front of bars outside parentheses; the rest of the lines are set in. */
function wrap(body: string, indent: number): string {
  if (indent + body.length <= LONGEST_LINE) return body;
  const lines: string[] = [];
  let line = '';
  for (const alternative of splitAtBars(body)) {
    const longer = line === '' ? alternative : `${line} | ${alternative}`;
    if (line !== '' && indent + longer.length > LONGEST_LINE) {
      lines.push(line);
      line = `| ${alternative}`;
    } else line = longer;
  }
  return [...lines, line].join(`\n${' '.repeat(indent)}`);
}

function splitAtBars(body: string): string[] {
  const parts: string[] = [];
  let depth = 0;
  let start = 0;
  for (let at = 0; at < body.length; at++) {
    const outsideQuotes = body[at - 1] !== "'" || body[at + 1] !== "'";
    if (body[at] === '(' && outsideQuotes) depth++;
    else if (body[at] === ')' && outsideQuotes) depth--;
    else if (depth === 0 && body.startsWith(' | ', at)) {
      parts.push(body.slice(start, at));
      start = at + 3;
    }
  }
  return [...parts, body.slice(start)];
}

/** The sign behind what is repeated. */
const REPETITIONS: Readonly<Record<string, string>> = { Repetition: '*', RepetitionMandatory: '+' };

function isClosingBrace(definition: readonly ISerializedGast[]): boolean {
  const [only] = definition;
  return definition.length === 1 && only !== undefined && textOf(only, 'name') === RightBrace.name;
}

function write(node: ISerializedGast): string {
  const { type, definition = [] } = node;
  switch (type) {
    case 'NonTerminal':
      return ruleName(textOf(node, 'name'));
    case 'Terminal':
      return terminal(textOf(node, 'name'));
    case 'Alternation':
      return grouped(choicesOf(node).map(sequence).join(' | '));
    case 'Alternative':
      return sequence(definition);
    case 'Option':
      // A missing brace is read over but reported, so it is no choice of the author.
      return isClosingBrace(definition) ? sequence(definition) : `${grouped(alternatives(definition))}?`;
    default:
      return `${grouped(alternatives(definition))}${REPETITIONS[type] ?? ''}`;
  }
}

/** A sequence; one that is nothing but a choice needs no parentheses of its own. */
function alternatives(definition: readonly ISerializedGast[]): string {
  const [only] = definition;
  if (definition.length === 1 && only?.type === 'Alternation') return choicesOf(only).map(sequence).join(' | ');
  return sequence(definition);
}

function sequence(definition: readonly ISerializedGast[]): string {
  return definition.map(write).join(' ');
}

/** The alternatives of a choice, without the one that only serves to report what starts no statement. */
function choicesOf({ definition = [] }: ISerializedGast): (readonly ISerializedGast[])[] {
  return definition
    .map((alternative) => alternative.definition ?? [])
    .filter(([first]) => first === undefined || first.type !== 'Terminal' || textOf(first, 'name') !== Stray.name);
}

function grouped(text: string): string {
  return /^[\w-]+[?*+]?$|^'[^']+'$/.test(text) ? text : `(${text})`;
}

/** `countedReference` as `counted-reference`. */
function ruleName(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function terminal(type: string): string {
  const known = CLASS_NAMES[type];
  if (known !== undefined) return known;
  const [word] = wordsOf(type);
  const pattern = CLASS_BY_NAME.get(type)?.PATTERN;
  return quoted(word ?? (typeof pattern === 'string' ? pattern : type));
}

const quoted = (text: string): string => `'${text}'`;

/** The keywords that a class, or one that counts as it, holds. */
function wordsOf(type: string): string[] {
  return [...KEYWORD_CLASSES].filter(([, own]) => isOf(own, type)).map(([word]) => word);
}

function isOf({ name, CATEGORIES }: TokenType, type: string): boolean {
  return name === type || (CATEGORIES ?? []).some((category) => category.name === type && type !== 'Word');
}

function classesIn(node: ISerializedGast): string[] {
  return [
    ...(node.type === 'Terminal' ? [textOf(node, 'name')] : []),
    ...(node.definition ?? []).flatMap((inner) => classesIn(inner)),
  ];
}

/** A property that the library writes into its nodes but leaves out of their common type. */
function textOf(node: ISerializedGast, property: string): string {
  const value: unknown = Object.entries(node).find(([key]) => key === property)?.[1];
  return typeof value === 'string' ? value : '';
}
