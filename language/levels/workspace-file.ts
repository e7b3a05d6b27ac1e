import type { Node } from 'jsonc-parser';
import { CATALOGUE, type CatalogueKey, type CatalogueParameters } from '../diagnostics/catalogue.ts';
import type { Diagnostic } from '../semantics/analysis.ts';
import { levelsByCode } from './apply.ts';
import { type JsonPlace, type JsonText, membersOf, placeOf, readJson, textOf } from './json.ts';
import type { Level, Levels, StatedLevel } from './level.ts';
import { codeProblem, isReason, readLevel } from './state-level.ts';

/** What such a file says, and what is wrong with it. What is not wrong is heeded. */
export interface WorkspaceFile {
  readonly levels: Levels;
  /** With offsets in the file. */
  readonly diagnostics: readonly Diagnostic[];
}

type Report = <K extends CatalogueKey>(key: K, parameters: CatalogueParameters[K], place: JsonPlace) => void;

/** Reads the text of a workspace file: `{ "levels": { "RW603": { "level": "off", "reason": "…" } } }`. Never throws. */
export function readWorkspaceFile(text: string): WorkspaceFile {
  const diagnostics: Diagnostic[] = [];
  const report: Report = (key, parameters, { start, end }) => {
    const { code, severity, message } = CATALOGUE[key];
    diagnostics.push({ key, code, severity, message: message(parameters), start, end, related: [] });
  };
  const root = readJson(text);
  if ('problem' in root) {
    const { found, expected } = root.problem;
    report('unreadable-settings', { found, expected }, root.problem);
    return { levels: new Map(), diagnostics };
  }
  const stated: (StatedLevel & { readonly place: JsonPlace })[] = [];
  for (const { name, value } of entriesOf(root, 'the file', 'an object with "levels"', report)) {
    if (name.value !== 'levels') {
      unexpected(`"${name.value}" has no meaning here`, 'write "levels"', name, report);
      continue;
    }
    for (const entry of entriesOf(value, '"levels"', 'an object with an entry for each code', report)) {
      const read = readEntry(entry.name, entry.value, report);
      if (read !== undefined) stated.push({ ...read, place: entry.name });
    }
  }
  const levels = levelsByCode(stated, ({ code, place }) => report('level-stated-twice', { code }, place));
  return { levels, diagnostics };
}

function unexpected(found: string, expected: string, place: JsonPlace, report: Report): void {
  report('unexpected-setting', { found, expected }, place);
}

function entriesOf(value: Node, what: string, expected: string, report: Report) {
  if (value.type === 'object') return membersOf(value);
  unexpected(`${capital(what)} holds ${NOUNS[value.type]}`, `write ${expected}`, placeOf(value), report);
  return [];
}

const NOUNS: Readonly<Record<Node['type'], string>> = {
  property: 'a member',
  object: 'an object',
  array: 'a list',
  string: 'text',
  number: 'a number',
  boolean: 'a truth value',
  null: 'nothing',
};

function readEntry(name: JsonText, value: Node, report: Report): StatedLevel | undefined {
  const code = name.value;
  const problem = codeProblem(code);
  if (problem !== undefined) {
    report(problem.key, problem.parameters, name);
    return undefined;
  }
  const example = `an object such as { "level": "off", "reason": "as on drawing 12" }`;
  if (value.type !== 'object') {
    unexpected(`"${code}" holds ${NOUNS[value.type]}`, `write ${example}`, placeOf(value), report);
    return undefined;
  }
  const members = membersOf(value);
  const text = (wanted: string): JsonText | undefined => {
    const found = members.find((member) => member.name.value === wanted)?.value;
    const written = found && textOf(found);
    if (found === undefined || written !== undefined) return written;
    const what = `The ${wanted} of ${code} is ${NOUNS[found.type]}`;
    unexpected(what, 'write text between double quotes', placeOf(found), report);
    return undefined;
  };
  for (const member of members) {
    if (member.name.value === 'level' || member.name.value === 'reason') continue;
    unexpected(`"${member.name.value}" has no meaning here`, 'write "level" and "reason"', member.name, report);
  }
  const level = levelOf(code, text('level'), name, report);
  const reason = text('reason');
  if (level === undefined) return undefined;
  if (isReason(reason?.value)) return { code, level, reason: reason.value, origin: 'workspace file' };
  const written = `"reason": "as on drawing 12"`;
  report('level-without-reason', { code, example: written }, reason ?? name);
  return undefined;
}

function levelOf(code: string, written: JsonText | undefined, name: JsonPlace, report: Report): Level | undefined {
  if (written === undefined) {
    unexpected(`The level of ${code} is missing`, 'write for example "level": "off"', name, report);
    return undefined;
  }
  const level = readLevel(written.value);
  if (typeof level === 'string') return level;
  report(level.key, level.parameters, written);
  return undefined;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
