import type { CatalogueParameters } from '../diagnostics/catalogue.ts';
import { isLevel, LEVELS_LISTED, type Level } from './level.ts';
import { catalogueByCode, isRuleKey, nearestCode, ruleCodes } from './rule-codes.ts';

/** Diagnostics of stated levels that the words alone bring out. */
type LevelKey = 'unknown-code' | 'fixed-level' | 'unknown-level' | 'level-without-reason';

/** What is wrong with a stated level, as an entry of the catalogue and its parameters. */
export type LevelProblem = {
  readonly [K in LevelKey]: { readonly key: K; readonly parameters: CatalogueParameters[K] };
}[LevelKey];

/** Why a level cannot be stated for a code; undefined where it can. */
export function codeProblem(code: string): LevelProblem | undefined {
  const entry = catalogueByCode().get(code);
  if (entry === undefined) {
    const nearest = nearestCode(code, ruleCodes());
    return { key: 'unknown-code', parameters: { code, ...(nearest === undefined ? {} : { nearest }) } };
  }
  if (isRuleKey(entry.key)) return undefined;
  return { key: 'fixed-level', parameters: { code, title: lowerFirst(entry.definition.title) } };
}

/** A level as written, or what is wrong with it. */
export function readLevel(word: string): Level | LevelProblem {
  return isLevel(word) ? word : { key: 'unknown-level', parameters: { level: word, levels: LEVELS_LISTED } };
}

/** A reason says something. */
export function isReason(text: string | undefined): text is string {
  return text !== undefined && text.trim() !== '';
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
