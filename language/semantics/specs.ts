import { type Context, FLAGS, type FlagGroup, STATEMENTS, type StatementSpec } from '../syntax/vocabulary.ts';

const BY_CONTEXT: ReadonlyMap<string, StatementSpec> = indexStatements();
const CONTEXTS_OF: ReadonlyMap<string, readonly Context[]> = indexContexts();
const GROUP_OF_FLAG: ReadonlyMap<string, FlagGroup> = new Map(
  Object.entries(FLAGS).flatMap(([group, words]) =>
    isFlagGroup(group) ? Object.keys(words).map((word) => [word, group] as const) : [],
  ),
);

function isFlagGroup(text: string): text is FlagGroup {
  return text in FLAGS;
}

function indexStatements(): Map<string, StatementSpec> {
  const index = new Map<string, StatementSpec>();
  for (const spec of STATEMENTS) {
    for (const context of spec.contexts) {
      for (const word of [spec.keyword, ...(spec.synonyms ?? [])]) index.set(`${context} ${word}`, spec);
    }
  }
  return index;
}

function indexContexts(): Map<string, Context[]> {
  const index = new Map<string, Context[]>();
  for (const spec of STATEMENTS) {
    for (const word of [spec.keyword, ...(spec.synonyms ?? [])]) {
      index.set(word, [...(index.get(word) ?? []), ...spec.contexts]);
    }
  }
  return index;
}

/** The statement that a head word starts in a context; a variant's block holds the lines of either kind of unit. */
export function specOf(context: Context, head: string): StatementSpec | undefined {
  const own = BY_CONTEXT.get(`${context} ${head}`);
  if (own !== undefined || context !== 'variant') return own;
  return BY_CONTEXT.get(`trailer ${head}`) ?? BY_CONTEXT.get(`vehicle ${head}`);
}

/** Heads that may stand in a context. */
export function headsIn(context: Context): readonly string[] {
  return STATEMENTS.filter(({ contexts }) => contexts.includes(context)).map(({ keyword }) => keyword);
}

/** Contexts in which a word is a head; empty for a word that is none. */
export function contextsOf(head: string): readonly Context[] {
  return CONTEXTS_OF.get(head) ?? [];
}

export function flagGroupOf(word: string): FlagGroup | undefined {
  return GROUP_OF_FLAG.get(word);
}
