import type { MassSource } from '../../mechanics/influence.ts';
import { leaveAction } from '../../rules/moves.ts';
import { REACH_KEYS } from '../../rules/reach/index.ts';
import type { Analysis } from '../../semantics/analysis.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { RigResult, Source, StateResult } from '../../semantics/state.ts';
import { editOf, type FixEdit, type Fixer, intoBlock, resultAt, statementOf, takenOut } from './fix.ts';

/**
 * Drains the tank, in the case that is worst, that the advice of a finding proposes to drain. In a state that no case names there
 * is no level to lower.
 */
export const drainAsAdvised: Fixer = (analysis, uri, diagnostic) => {
  if (REACH_KEYS.some((key) => key === diagnostic.key)) return [];
  const { message } = diagnostic;
  const advised = / (Draining (\S+) from \S+ % to (\S+ %) (?:takes off|adds) .*)\.$/.exec(message);
  const result = resultAt(analysis, uri, diagnostic.start);
  const [, title, tank, level] = advised ?? [];
  if (result === undefined || title === undefined || tank === undefined || level === undefined) return [];
  const state = worstState(result, message);
  const edit = state && levelEdit(analysis, state, tank, level);
  return state === undefined || edit === undefined
    ? []
    : [{ title: `${title} in case ${state.case.name}`, edits: [edit], diagnostic }];
};

/** Takes out of its `stow` line what the advice of a finding proposes to leave behind. */
export const leaveAsAdvised: Fixer = (analysis, uri, diagnostic) => {
  const advised = / (Leaving .* behind) (?:takes off|adds) .*\.$/.exec(diagnostic.message);
  const result = resultAt(analysis, uri, diagnostic.start);
  const [sentence, action] = advised ?? [];
  if (result === undefined || sentence === undefined || action === undefined) return [];
  const state = worstState(result, diagnostic.message);
  const source = state?.sources.find((each) => isLeft(state, each, action));
  const edits = source && unstow(analysis, source);
  return edits === undefined ? [] : [{ title: sentence.trim().replace(/\.$/, ''), edits, diagnostic }];
};

/** The state that a message names first: what it says of further ones and of help comes later. */
function worstState({ states }: RigResult, message: string): StateResult | undefined {
  let first: { readonly state: StateResult; readonly at: number; readonly length: number } | undefined;
  for (const state of states) {
    const { label } = state;
    const at = message.indexOf(` in ${label}`);
    if (label === '' || at < 0) continue;
    // Of two labels at one place the longer one is named: `case out` and `case out_again`.
    if (first === undefined || at < first.at || (at === first.at && label.length > first.length)) {
      first = { state, at, length: label.length };
    }
  }
  return first?.state;
}

/** Writes a level in the line of a case, or adds the line; nothing where the line says more than one plain level. */
function levelEdit(
  analysis: Analysis,
  { case: loaded }: StateResult,
  tank: string,
  level: string,
): FixEdit | undefined {
  const stated = loaded.levels.get(tank);
  const { declaration, span } = stated?.location ?? loaded.location;
  const statement = statementOf(declaration, span);
  if (statement === undefined || statement.broken) return undefined;
  if (stated !== undefined)
    return stated.least === stated.most ? editOf(analysis, declaration, span, level) : undefined;
  if (statement.head.text !== 'case') return undefined;
  const insertion = intoBlock(declaration, statement, `${tank} ${level}`);
  const place = insertion && { start: insertion.offset, end: insertion.offset };
  return insertion && place && editOf(analysis, declaration, place, insertion.text);
}

function isLeft({ rig }: StateResult, { id, mass }: MassSource<Source>, action: string): boolean {
  return id.stowed !== undefined && action === leaveAction(id.stowed, mass, systemOfRig(rig));
}

function unstow(analysis: Analysis, { id }: MassSource<Source>): readonly FixEdit[] | undefined {
  const { declaration, span } = id.location;
  const statement = statementOf(declaration, span);
  if (statement?.head.text !== 'stow' || statement.broken) return undefined;
  const gone = takenOut(statement, span) ?? wholeLine(declaration.text, statement);
  const edit = editOf(analysis, declaration, gone, '');
  return edit && [edit];
}

/** A statement with its line, where nothing else stands on that. */
function wholeLine(text: string, { start, end }: { readonly start: number; readonly end: number }) {
  const from = text.lastIndexOf('\n', start - 1) + 1;
  const to = text.indexOf('\n', end);
  const isAlone = to >= 0 && text.slice(from, start).trim() === '' && text.slice(end, to).trim() === '';
  return isAlone ? { start: from, end: to + 1 } : { start, end };
}
