import type { Severity } from '../diagnostics/finding.ts';
import { FLAGS } from '../syntax/vocabulary.ts';

/** How much a rule weighs: what it finds is not reported, or reported with a severity. */
export type Level = 'off' | Severity;

/** Where a level is stated; the earlier ones go before the later ones. */
export type LevelOrigin = 'block' | 'file' | 'workspace file' | 'settings';

/** A level that someone states for a rule, and why. */
export interface StatedLevel {
  /** Code of what the rule reports. */
  readonly code: string;
  readonly level: Level;
  /** As written; for the settings of an editor, which have none, where it was said. */
  readonly reason: string;
  readonly origin: LevelOrigin;
}

/** Stated levels by code. */
export type Levels = ReadonlyMap<string, StatedLevel>;

/** Levels stated outside the files, for the documents below a folder. */
export interface FolderLevels {
  /** URI of the folder, without a slash at its end; empty for all documents. */
  readonly folder: string;
  readonly levels: Levels;
}

/** The levels there are, in the order in which messages list them. */
export const LEVELS: readonly Level[] = Object.keys(FLAGS.level).filter(isLevel);

export function isLevel(word: string): word is Level {
  return Object.hasOwn(FLAGS.level, word);
}

/** `off, information, warning or error`. */
export const LEVELS_LISTED = `${LEVELS.slice(0, -1).join(', ')} or ${LEVELS.at(-1)}`;
