import { CATALOGUE, type CatalogueKey } from '../diagnostics/catalogue.ts';
import type { DiagnosticDefinition } from '../diagnostics/define.ts';
import { RULES } from '../rules/index.ts';
import { MARKET_RULES } from '../rules/markets/index.ts';
import { REACH_KEYS } from '../rules/reach/index.ts';
import { STABILITY_RULES } from '../rules/stability/index.ts';
import { nearestName } from '../semantics/nearest.ts';

/**
 * What is reported by other means than a rule and is a matter of levels all the same: the author's own limits, and halves of
 * a joint that do not fit; loads are computed in spite of either.
 */
const OTHER_KEYS: readonly CatalogueKey[] = ['requirement-violated', 'coupling-mismatch', 'coupling-classes-differ'];

let keys: ReadonlySet<string> | undefined;

/** Whether a level can be stated for an entry of the catalogue: rules report it. */
export function isRuleKey(key: string): boolean {
  keys ??= new Set<string>([
    ...[...RULES, ...STABILITY_RULES].flatMap((rule): readonly string[] => rule.keys),
    ...MARKET_RULES.map(({ key }): string => key),
    ...REACH_KEYS,
    ...OTHER_KEYS,
  ]);
  return keys.has(key);
}

/** A code of the catalogue with what it stands for. */
export interface CodeEntry {
  readonly key: string;
  readonly definition: DiagnosticDefinition<never>;
}

let entries: ReadonlyMap<string, CodeEntry> | undefined;

/** The entries of the catalogue by code, in the order of the codes. */
export function catalogueByCode(): ReadonlyMap<string, CodeEntry> {
  entries ??= new Map(
    Object.entries(CATALOGUE)
      .map(([key, definition]): [string, CodeEntry] => [definition.code, { key, definition }])
      .sort(([a], [b]) => a.localeCompare(b)),
  );
  return entries;
}

/** Codes of rules, in their order. */
export function ruleCodes(): readonly string[] {
  return [...catalogueByCode()].flatMap(([code, { key }]) => (isRuleKey(key) ? [code] : []));
}

/** The code that was probably meant: by its letters, of equally near ones that of the nearest number. */
export function nearestCode(written: string, codes: readonly string[]): string | undefined {
  const number = Number(/\d{1,6}/.exec(written)?.[0]);
  if (Number.isNaN(number)) return nearestName(written, codes);
  const apart = (code: string) => Math.abs(Number(code.slice(2)) - number);
  const byNumber = [...codes].sort((a, b) => apart(a) - apart(b));
  return nearestName(written, byNumber) ?? byNumber[0];
}
