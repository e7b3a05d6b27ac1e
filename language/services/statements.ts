import { flagGroupOf, specOf } from '../semantics/specs.ts';
import type { Statement } from '../syntax/tree.ts';
import {
  ARGUMENTS,
  type ArgumentKeyword,
  type ArgumentSpec,
  type Context,
  FLAGS,
  type StatementSpec,
  type ThingKind,
} from '../syntax/vocabulary.ts';

/** A statement inside a declaration with where it stands. */
export interface PathStep {
  readonly statement: Statement;
  /** Undefined in the block of a statement that has none. */
  readonly context: Context | undefined;
  /** The vocabulary's entry; undefined where the head is a name (`fresh 100 %`) or unknown. */
  readonly spec: StatementSpec | undefined;
}

/** One step down: a statement in the block of another one. The top of a declaration stands in the file. */
export function stepInto(statement: Statement, parent?: PathStep): PathStep {
  const context = parent === undefined ? 'file' : parent.spec?.block;
  const named = statement.subject !== undefined || context === undefined;
  return { statement, context, spec: named ? undefined : specOf(context, statement.head.text) };
}

/** Whether lines of a block that start with a name are readings of a scale. */
export function holdsReadings(context: Context | undefined): boolean {
  return context === 'weighing' || context === 'pass';
}

/** The keyword that the head of a line in a unit's block is read as: itself, or what it is a synonym of. */
export function canonicalHead(head: string): string {
  return specOf('variant', head)?.keyword ?? head;
}

export function isArgumentKeyword(word: string): word is ArgumentKeyword {
  return Object.hasOwn(ARGUMENTS, word);
}

export function argumentSpec(word: string): ArgumentSpec | undefined {
  return isArgumentKeyword(word) ? ARGUMENTS[word] : undefined;
}

/** What a flag means. */
export function flagDocumentation(word: string): string | undefined {
  const group = flagGroupOf(word);
  return group && Object.entries(FLAGS[group]).find(([flag]) => flag === word)?.[1];
}

/** What the names behind a keyword stand for; `of` and `in` depend on the statement they stand in. */
export function namesAfter(keyword: string, head: string): ThingKind | undefined {
  const kind = argumentSpec(keyword)?.names;
  if (keyword === 'of') return NAMES_AFTER_OF[head] ?? kind;
  if (keyword === 'in') return NAMES_AFTER_IN[head] ?? kind;
  return kind;
}

const NAMES_AFTER_OF: Readonly<Record<string, ThingKind>> = { panel: 'material', member: 'material', variant: 'unit' };
const NAMES_AFTER_IN: Readonly<Record<string, ThingKind>> = {
  rig: 'market',
  require: 'case',
  weighing: 'case',
  coupled: 'case',
  solo: 'case',
  raised: 'case',
};
