import { excessOf, roundingOf } from '../../rules/limits/check-limits.ts';
import type { Limited } from '../../rules/limits/limit-rule.ts';
import { type ReachBreach, reachBreaches } from '../../rules/reach/check-reach.ts';
import type { ReachLimit } from '../../rules/reach/reach-limit.ts';
import { unsteadyStates } from '../../rules/reach/stability.ts';
import type { Analysis, Diagnostic } from '../../semantics/analysis.ts';
import { wholeReach } from '../../semantics/envelope/reach.ts';
import { motionsIn } from '../../semantics/envelope/reach-stability.ts';
import type { RigModel } from '../../semantics/model.ts';
import { stabilityOf } from '../../semantics/results.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import type { Declaration, Statement } from '../../syntax/tree.ts';
import { editOf, type FixEdit, type Fixer, indentAt, indentStep, resultAt, statementOf } from './fix.ts';
import { caseLines, type ReachedState, roundedState } from './reached-state.ts';

/** Names the state of a finding: a case of its own, in which the limit is then reported as broken. */
export const addReachedCase: Fixer = (analysis, uri, diagnostic) => {
  const found = breachAt(analysis, uri, diagnostic) ?? unsteadyAt(analysis, uri, diagnostic);
  if (found === undefined) return [];
  const { result, reached, limit } = found;
  const { rig } = result;
  const state = roundedState(result, reached);
  const lines = state && caseLines(rig, state);
  const name = freshName(rig);
  const { declaration } = rig.location;
  const added = lines && insertion(declaration, `case ${name} {`, lines);
  const edits = [
    added && editOf(analysis, declaration, added, added.text),
    ...(limit ? namedIn(analysis, rig, limit, name) : []),
  ];
  const known = edits.flatMap((edit) => edit ?? []);
  if (known.length < edits.length) return [];
  const title = `Add this state as a case: ${name}, ${reached.witness.state.label}`;
  return [{ title, edits: known, diagnostic }];
};

/** The state that a finding is told of, and the limit on a load that it breaks, if it is that. */
interface FoundState {
  readonly result: RigResult;
  readonly reached: ReachedState;
  readonly limit?: ReachLimit;
}

/** What a finding on a limited load was made of. */
export function breachAt(
  analysis: Analysis,
  uri: string,
  { start, message }: Diagnostic,
): (FoundState & { readonly breach: ReachBreach }) | undefined {
  const result = resultAt(analysis, uri, start);
  const breach = result && reachBreaches(result).find(({ finding }) => finding.message === message);
  if (result === undefined || breach === undefined) return undefined;
  const { reach, worst, limit } = breach;
  const isFaulty = (state: StateResult) => isBroken(limit.limited, state);
  return { result, reached: { reach, witness: worst.witness, isFaulty }, limit, breach };
}

/** What a finding on the lateral motion was made of. */
function unsteadyAt(analysis: Analysis, uri: string, { start, message }: Diagnostic): FoundState | undefined {
  const result = resultAt(analysis, uri, start);
  const stability = result && stabilityOf(result.rig);
  if (result === undefined || stability === undefined) return undefined;
  const found = unsteadyStates(stability).find(({ finding }) => finding.message === message);
  if (found === undefined) return undefined;
  const isFaulty = (state: StateResult) => found.isFaulty(motionsIn(result, stability, state));
  return { result, reached: { reach: wholeReach(result), witness: found.worst.witness, isFaulty } };
}

/** Whether a state breaks a limit as another rule does not tell it already. */
function isBroken(limited: Limited, state: StateResult): boolean {
  const comparison = limited.compare(state);
  if (comparison === undefined || limited.toldElsewhere?.(state) === true) return false;
  return excessOf(limited, comparison) > roundingOf(limited, comparison.limit);
}

/** `reached`, `reached_2`: a name that no case has. */
function freshName({ cases }: RigModel): string {
  const taken = new Set(cases.map(({ name }) => name));
  for (let number = 1; ; number++) {
    const name = number === 1 ? 'reached' : `reached_${number}`;
    if (!taken.has(name)) return name;
  }
}

/** A limit that is required in some cases only is required in the new one too; undefined where that line is not the rig's. */
function namedIn(
  analysis: Analysis,
  rig: RigModel,
  { cases, limited }: ReachLimit,
  name: string,
): readonly (FixEdit | undefined)[] {
  if (cases === undefined) return [];
  const { location } = limited;
  const statement = location && statementOf(location.declaration, location.span);
  const listed = statement?.arguments.find((argument) => argument.kind === 'references');
  const last = listed?.kind === 'references' ? listed.references.at(-1) : undefined;
  if (location?.declaration !== rig.location.declaration || last === undefined) return [undefined];
  return [editOf(analysis, location.declaration, { start: last.end, end: last.end }, `, ${name}`)];
}

interface Insertion {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A block with its lines behind the last case of a declaration, or else behind its last line. */
export function insertion(declaration: Declaration, head: string, lines: readonly string[]): Insertion | undefined {
  const { statement: top, text } = declaration;
  const statements = top?.block?.statements ?? [];
  const after = statements.findLast((each) => each.head.text === 'case') ?? statements.at(-1);
  if (after === undefined || after.broken) return undefined;
  const indent = indentOf(text, after);
  const step = indentStep(indent);
  const block = [head, ...lines.map((line) => `${step}${line}`), '}'].map((line) => `\n${indent}${line}`).join('');
  const [rest = ''] = text.slice(after.end).split(/\r?\n/, 1);
  // A remark at the end of the line belongs to that line; anything else goes on the next one.
  const isRemark = /^\s*(?:#.*)?$/.test(rest);
  const at = after.end + (isRemark ? rest.length : 0);
  const outer = rest.trim() === '}' ? indent.slice(step.length) : indent;
  return isRemark
    ? { start: at, end: at, text: block }
    : { start: at, end: at + (/^\s*/.exec(rest)?.[0].length ?? 0), text: `${block}\n${outer}` };
}

/** Of a statement that does not start its line: two blanks, as for the first line of a block. */
function indentOf(text: string, { start }: Statement): string {
  const line = text.slice(text.lastIndexOf('\n', start - 1) + 1, start);
  return line.trim() === '' ? indentAt(text, start) : '  ';
}
