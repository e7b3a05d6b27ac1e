import type { Finding } from '../diagnostics/finding.ts';
import type { FolderLevels, Levels, StatedLevel } from './level.ts';
import { LEVELS, type Level } from './level.ts';
import { isRuleKey } from './rule-codes.ts';

/** A finding with the severity it is reported with; `level` where somebody stated another one for its rule. */
export interface LevelledFinding extends Finding {
  readonly level?: StatedLevel;
}

/** A finding that is not reported because its rule is turned off. */
export interface TurnedOffFinding extends Finding {
  readonly level: StatedLevel;
}

/**
 * Findings as they are reported, and those turned off: every one is in one of the two. Of several levels for a rule the
 * first counts: `levels` are those of the block, of the file, and of what is outside, in this order. What no rule
 * finds keeps its severity. A finding that follows another rule is turned off with it, and otherwise has the level of its own
 * rule; where none is stated it weighs no more than what it follows.
 */
export function applyLevels(
  findings: readonly Finding[],
  levels: readonly Levels[],
): { readonly shown: readonly LevelledFinding[]; readonly off: readonly TurnedOffFinding[] } {
  const heeded = levels.filter(({ size }) => size > 0);
  if (heeded.length === 0) return { shown: findings, off: [] };
  const shown: LevelledFinding[] = [];
  const off: TurnedOffFinding[] = [];
  for (const finding of findings) {
    const level = isRuleKey(finding.key) ? levelOfFinding(finding, heeded) : undefined;
    if (level === undefined || level.level === finding.severity) shown.push(finding);
    else if (level.level === 'off') off.push({ ...finding, level });
    else shown.push({ ...finding, severity: level.level, level });
  }
  return { shown, off };
}

function levelOfFinding({ code, severity, follows }: Finding, levels: readonly Levels[]): StatedLevel | undefined {
  const own = levelOf(code, levels);
  const followed = follows === undefined ? undefined : levelOf(follows, levels);
  if (followed?.level === 'off') return followed;
  if (own !== undefined || followed === undefined) return own;
  return weightOf(followed.level) < weightOf(severity) ? followed : undefined;
}

const weightOf = (level: Level): number => LEVELS.indexOf(level);

function levelOf(code: string, levels: readonly Levels[]): StatedLevel | undefined {
  for (const each of levels) {
    const level = each.get(code);
    if (level !== undefined) return level;
  }
  return undefined;
}

/** The levels stated outside the files that bind a document: those of the nearest folder first. */
export function levelsOutside(uri: string, folders: readonly FolderLevels[]): Levels[] {
  return folders
    .filter(({ folder }) => folder === '' || uri.startsWith(`${folder}/`))
    .sort((a, b) => b.folder.length - a.folder.length)
    .map(({ levels }) => levels);
}

/** Levels by code; of several for one code the first counts, and the others are handed to `twice`. */
export function levelsByCode<T extends StatedLevel>(
  stated: Iterable<T>,
  twice: (again: T, first: T) => void = () => undefined,
): ReadonlyMap<string, T> {
  const levels = new Map<string, T>();
  for (const each of stated) {
    const first = levels.get(each.code);
    if (first === undefined) levels.set(each.code, each);
    else twice(each, first);
  }
  return levels;
}
