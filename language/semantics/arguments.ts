import type { CountedReference, Span, Statement, Text, Value, Word } from '../syntax/tree.ts';
import {
  ARGUMENTS,
  type ArgumentKeyword,
  type ArgumentSpec,
  type Context,
  FLAGS,
  type FlagGroup,
  type FlagOf,
  type StatementSpec,
} from '../syntax/vocabulary.ts';
import { loneReference } from './expressions.ts';
import { nearestName } from './nearest.ts';
import { type Line, locate, report, type Scope } from './scope.ts';
import { contextsOf, flagGroupOf, headsIn, specOf } from './specs.ts';

/** A statement's arguments, sorted by what they are and checked against the vocabulary; values are not computed yet. */
export interface ReadStatement {
  readonly line: Line;
  readonly spec: StatementSpec;
  /** How messages speak of it: `tank fresh`, `tare`. */
  readonly what: string;
  /** Values without keyword and direction. */
  readonly values: readonly Value[];
  /** Values with a direction, bare or behind `at`: they place the thing. */
  readonly directed: readonly Value[];
  /** Values behind `at` without a direction: a thing to stand at, or a pressure. */
  readonly at: readonly Value[];
  readonly keywords: ReadonlyMap<ArgumentKeyword, readonly Value[]>;
  readonly names: ReadonlyMap<ArgumentKeyword, readonly CountedReference[]>;
  readonly flags: ReadonlyMap<FlagGroup, Word>;
  /** `left` or `right` standing alone. */
  readonly side?: Word;
  readonly text?: Text;
  /** True where a part does not fit and was reported: what it was meant to say is not missing as well. */
  readonly isRefused?: boolean;
}

/** How messages speak of a statement. */
export function describeStatement({ head, name }: Statement): string {
  return name === undefined ? head.text : `${head.text} ${name.text}`;
}

/**
 * The spec of a line in its context, or undefined when the block holds no such statement (reported).
 * `block` names the block in messages: "a trailer", "limits".
 */
export function resolveSpec(line: Line, context: Context, block: string, scope: Scope): StatementSpec | undefined {
  const { head, subject } = line.statement;
  const spec = subject === undefined ? specOf(context, head.text) : undefined;
  if (spec !== undefined) return spec;
  if (
    line.statement.broken &&
    subject !== undefined &&
    subject.path.length === 1 &&
    contextsOf(head.text).length === 0
  ) {
    return undefined; // what is left of a statement whose error has been reported
  }
  const found = subject === undefined ? head.text : subject.path.map(({ text }) => text).join('.');
  const nearest = nearestName(found, headsIn(context));
  const elsewhere = contextsOf(found).filter((other) => other !== context);
  const accepted = nearest
    ? `; the nearest is '${nearest}'`
    : elsewhere.length > 0
      ? `; it belongs in the block of ${elsewhere.slice(0, 2).join(' or ')}`
      : `. It holds: ${headsIn(context).join(', ')}`;
  report(
    scope,
    'unknown-statement',
    { found, block, accepted, ...(nearest ? { nearest } : {}) },
    locate(line, subject ?? head),
  );
  return undefined;
}

/** Keywords whose value has a direction. */
const DIRECTED: ReadonlySet<string> = new Set(['from', 'floor']);

const isArgumentKeyword = (text: string): text is ArgumentKeyword => text in ARGUMENTS;

/** Sorts the arguments of a statement and reports those that do not fit it. */
export function readStatement(line: Line, spec: StatementSpec, scope: Scope): ReadStatement {
  const { statement } = line;
  const what = describeStatement(statement);
  const values: Value[] = [];
  const directed: Value[] = [];
  const at: Value[] = [];
  const keywords = new Map<ArgumentKeyword, Value[]>();
  const names = new Map<ArgumentKeyword, readonly CountedReference[]>();
  const flags = new Map<FlagGroup, Word>();
  let side: Word | undefined;
  let text: Text | undefined;
  const accepts = (keyword: ArgumentKeyword) =>
    (spec.arguments ?? []).some((accepted) => accepted === keyword) || (keyword === 'at' && spec.place === true);
  let isRefused = false;
  const refuse = (
    part: string,
    span: { start: number; end: number },
    accepted = acceptedParts(spec),
    nearest: { readonly nearest?: string } = {},
  ) => {
    isRefused = true;
    report(scope, 'unexpected-part', { part, head: statement.head.text, accepted, ...nearest }, locate(line, span));
  };
  const refuseValue = (argument: Span, value: Value) => {
    const word = loneReference(value.factors[0])
      ?.path.map(({ text: each }) => each)
      .join('.');
    if (word === undefined || value.factors.length > 1) refuse('bare value', argument);
    else refuse(`'${word}'`, argument, acceptedParts(spec), nearestFlag(spec, word));
  };
  const repeated = (part: string, span: { start: number; end: number }) =>
    report(scope, 'repeated-part', { part, head: what }, locate(line, span));

  for (const argument of statement.arguments) {
    switch (argument.kind) {
      case 'text':
        if (text !== undefined) repeated('a text', argument);
        else if (!spec.title && spec.head !== 'own form') refuse('text', argument);
        else text = argument.text;
        break;
      case 'flag': {
        const { word } = argument;
        const group = flagGroupOf(word.text);
        if (word.text === 'left' || word.text === 'right') {
          if (spec.keyword !== 'locker') refuse(`'${word.text}' without a distance`, argument);
          else side = word;
        } else if (group === undefined) refuse(`'${word.text}' without a distance`, argument);
        else if (!(spec.flags ?? []).includes(group)) refuse(`'${word.text}'`, argument);
        else if (spec.unfit?.includes(word.text))
          refuse(`'${word.text}'`, argument, fittingFlags(spec, group).join(' or '));
        else if (flags.has(group)) repeated(`'${flags.get(group)?.text}' and '${word.text}'`, argument);
        else flags.set(group, word);
        break;
      }
      case 'references': {
        const keyword = argument.keyword.text;
        if (!isArgumentKeyword(keyword) || !accepts(keyword)) refuse(`'${keyword}'`, argument.keyword);
        else if (names.has(keyword)) repeated(`'${keyword}'`, argument.keyword);
        else {
          const listed: ArgumentSpec = ARGUMENTS[keyword];
          const second = argument.references[1];
          if (listed.list !== true && second !== undefined) refuse(`second name behind '${keyword}'`, second);
          const count = argument.references.find((reference) => reference.count !== undefined)?.count;
          if (count !== undefined) refuse(`count behind '${keyword}'`, count);
          names.set(keyword, argument.references);
        }
        break;
      }
      case 'value': {
        const keyword = argument.keyword?.text ?? '';
        const { value } = argument;
        if (keyword !== '' && keyword !== 'at') {
          if (!isArgumentKeyword(keyword) || !accepts(keyword)) refuse(`'${keyword}'`, argument);
          else if (value.direction !== undefined && !DIRECTED.has(keyword))
            refuse(`direction behind '${keyword}'`, value.direction);
          else if (keywords.has(keyword) && keyword !== 'from') repeated(`'${keyword}'`, argument);
          else keywords.set(keyword, [...(keywords.get(keyword) ?? []), value]);
        } else if (value.direction !== undefined) {
          if (!spec.place) refuse(`place`, argument);
          else directed.push(value);
        } else if (keyword === 'at') {
          if (accepts('at')) at.push(value);
          else refuse(`'at'`, argument);
        } else if (spec.value === undefined && spec.keyword !== 'tyres') refuseValue(argument, value);
        else if (values.length > 0) repeated('its value', argument);
        else values.push(value);
        break;
      }
    }
  }
  if (statement.block !== undefined && spec.block === undefined)
    refuse('block', { start: statement.block.start, end: statement.block.start + 1 });
  return {
    line,
    spec,
    what,
    values,
    directed,
    at,
    keywords,
    names,
    flags,
    ...(side ? { side } : {}),
    ...(text ? { text } : {}),
    ...(isRefused ? { isRefused } : {}),
  };
}

/** The flag given of a group. */
export function flagOf<G extends FlagGroup>(read: ReadStatement, group: G): FlagOf<G> | undefined {
  const text = read.flags.get(group)?.text;
  return text !== undefined && isFlagOf(group, text) ? text : undefined;
}

function isFlagOf<G extends FlagGroup>(group: G, text: string): text is FlagOf<G> {
  return text in FLAGS[group];
}

/** Words of a flag group that fit a statement, between quotes. */
function fittingFlags({ unfit = [] }: StatementSpec, group: FlagGroup): readonly string[] {
  return Object.keys(FLAGS[group]).flatMap((word) => (unfit.includes(word) ? [] : [`'${word}'`]));
}

/** The flag that a word of a statement was probably meant to be. */
function nearestFlag(spec: StatementSpec, word: string): { readonly nearest?: string } {
  const { unfit = [] } = spec;
  const words = (spec.flags ?? [])
    .flatMap((group) => Object.keys(FLAGS[group]))
    .filter((each) => !unfit.includes(each));
  const nearest = nearestName(word, words);
  return nearest === undefined ? {} : { nearest };
}

function acceptedParts(spec: StatementSpec): string {
  const parts = [
    ...(spec.value ?? []).map((kind) => `a ${kind}`),
    ...(spec.title ? ['a text'] : []),
    ...(spec.place ? ['a place'] : []),
    ...(spec.arguments ?? []).map((keyword) => `'${keyword}'`),
    ...(spec.flags ?? []).flatMap((group) => fittingFlags(spec, group)),
    ...(spec.block ? ['a block'] : []),
  ];
  return parts.length > 0 ? [...new Set(parts)].join(', ') : 'nothing';
}
