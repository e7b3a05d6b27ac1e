import type { Location } from '../diagnostics/finding.ts';
import { isLevel, LEVELS_LISTED, type StatedLevel } from '../levels/level.ts';
import { codeProblem, isReason, readLevel } from '../levels/state-level.ts';
import { nameOf } from './names.ts';
import { type Line, locate, report, type Scope } from './scope.ts';

/** A level that a `rule` line states. */
export interface LineLevel extends StatedLevel {
  /** Its code in the line. */
  readonly location: Location;
}

/** Reads a `rule` line: a level for each of its codes. What is wrong with it is reported, and what is left is heeded. */
export function readRuleLine(line: Line, origin: 'block' | 'file', scope: Scope): readonly LineLevel[] {
  const { statement } = line;
  if (statement.objects.some(({ reference }) => isLevel(nameOf(reference)))) {
    reportMissing('a code before its level', line, scope);
    return [];
  }
  const codes = statement.objects.flatMap(({ count, reference }) => {
    if (count !== undefined) {
      const accepted = 'codes with commas between them';
      report(scope, 'unexpected-part', { part: 'count', head: 'rule', accepted }, locate(line, count));
    }
    const code = nameOf(reference);
    const problem = codeProblem(code);
    if (problem === undefined) return [{ code, location: locate(line, reference) }];
    report(scope, problem.key, problem.parameters, locate(line, reference));
    return [];
  });
  const level = levelIn(line, codes.length === statement.objects.length, scope);
  const reason = reasonIn(line, codes[0]?.code, level, scope);
  if (level === undefined || reason === undefined) return [];
  return codes.map((each) => ({ ...each, level, reason, origin }));
}

/**
 * The levels of the `rule` lines of a block. A code stated twice in one declaration is reported; a variant's own line
 * goes before that of its original, so `lines` are in the order in which they count.
 */
export function readRuleLines(lines: readonly Line[], scope: Scope): readonly LineLevel[] {
  const heeded = new Map<string, LineLevel>();
  for (const level of lines.flatMap((line) => readRuleLine(line, 'block', scope))) {
    const before = heeded.get(level.code);
    if (before === undefined) heeded.set(level.code, level);
    else if (before.location.declaration === level.location.declaration) {
      report(scope, 'level-stated-twice', { code: level.code }, level.location, [statedHere(before)]);
    }
  }
  return [...heeded.values()];
}

/** Points at the level that counts. */
export function statedHere({ location, code }: LineLevel): { location: Location; message: string } {
  return { location, message: `The level of ${code} that counts.` };
}

/** The level that is written. That it is missing is told where the codes are in order. */
function levelIn(line: Line, codesAreKnown: boolean, scope: Scope): StatedLevel['level'] | undefined {
  const { statement } = line;
  const [written, second] = statement.arguments.flatMap((argument) =>
    argument.kind === 'flag' ? [argument.word] : [],
  );
  if (second !== undefined && written !== undefined) {
    const part = `'${written.text}' and '${second.text}'`;
    report(scope, 'repeated-part', { part, head: 'rule' }, locate(line, second));
  }
  if (written === undefined) {
    if (codesAreKnown && !statement.broken) reportMissing(`its level: ${LEVELS_LISTED}`, line, scope);
    return undefined;
  }
  const level = readLevel(written.text);
  if (typeof level === 'string') return level;
  report(scope, level.key, level.parameters, locate(line, written));
  return undefined;
}

/** One error a line: where the level is wrong or missing, the reason is not asked for yet. */
function reasonIn(
  line: Line,
  code: string | undefined,
  level: StatedLevel['level'] | undefined,
  scope: Scope,
): string | undefined {
  const { statement } = line;
  const [text, second] = statement.arguments.flatMap((argument) => (argument.kind === 'text' ? [argument.text] : []));
  if (second !== undefined) report(scope, 'repeated-part', { part: 'a text', head: 'rule' }, locate(line, second));
  if (isReason(text?.value)) return text.value;
  if (code === undefined || level === undefined || statement.broken) return undefined;
  const example = `rule ${code} ${level} "as on drawing 12"`;
  report(scope, 'level-without-reason', { code, example }, locate(line, text ?? statement));
  return undefined;
}

function reportMissing(part: string, line: Line, scope: Scope): void {
  const example = `rule ${exampleCode(line)} off "why it is off"`;
  report(scope, 'missing-part', { what: 'This rule line', part, example }, locate(line, line.statement));
}

function exampleCode({ statement }: Line): string {
  const code = statement.objects[0]?.reference;
  return code === undefined || codeProblem(nameOf(code)) !== undefined ? 'RW603' : nameOf(code);
}
