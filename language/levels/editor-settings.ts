import { levelsByCode } from './apply.ts';
import { isLevel, type Levels, type StatedLevel } from './level.ts';
import { codeProblem } from './state-level.ts';

/** Name of the setting, in the notation of editors. */
export const LEVELS_SETTING = 'rigwright.levels';

/** What such a setting says, and sentences on what is wrong with it. */
export interface EditorLevels {
  readonly levels: Levels;
  readonly problems: readonly string[];
}

/** Reads the setting: an object with a level for each code. Anything else is passed over and told. Never throws. */
export function readEditorLevels(value: unknown): EditorLevels {
  if (value === undefined || value === null) return { levels: new Map(), problems: [] };
  if (typeof value !== 'object' || Array.isArray(value)) {
    return { levels: new Map(), problems: [`${LEVELS_SETTING} holds no object with a level for each code`] };
  }
  const problems: string[] = [];
  const stated = Object.entries(value).flatMap(([code, level]: [string, unknown]): StatedLevel[] => {
    const problem = codeProblem(code);
    if (problem !== undefined) problems.push(`${LEVELS_SETTING}: ${code} is not the code of a rule`);
    else if (typeof level === 'string' && isLevel(level)) {
      return [{ code, level, reason: `setting ${LEVELS_SETTING}`, origin: 'settings' }];
    } else problems.push(`${LEVELS_SETTING}: ${code} has no level that there is`);
    return [];
  });
  return { levels: levelsByCode(stated), problems };
}
