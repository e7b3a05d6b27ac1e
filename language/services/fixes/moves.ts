import type { MassSource } from '../../mechanics/influence.ts';
import { NUDGES, nudgeAction, stowageAction } from '../../rules/moves.ts';
import type { Analysis } from '../../semantics/analysis.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { Source, StateResult } from '../../semantics/state.ts';
import { stepOf } from '../../semantics/unit/directions.ts';
import type { Declaration, Expression, Reference, Statement, Value } from '../../syntax/tree.ts';
import { LENGTH, sameDimension } from '../../units/dimension.ts';
import { toSI } from '../../units/parse-unit.ts';
import { parseNumber } from '../../units/quantity.ts';
import { parseUnit } from '../../units/units.ts';
import { editOf, type FixEdit, type Fixer, indentAt, resultAt, statementOf, takenOut } from './fix.ts';

/** Makes the move that the advice of a finding proposes, where one line of the text says where the thing is. */
export const moveAsAdvised: Fixer = (analysis, uri, diagnostic) => {
  const { message } = diagnostic;
  if (!message.includes('Moving ')) return [];
  for (const state of resultAt(analysis, uri, diagnostic.start)?.states ?? []) {
    const advised = state.sources.flatMap((source) => proposalsOf(analysis, state, source)).find(proposes(message));
    if (advised === undefined) continue;
    const edits = advised.edits();
    return edits === undefined ? [] : [{ title: sentence(message, advised.action), edits, diagnostic }];
  }
  return [];
};

interface Proposal {
  /** As advice words it. */
  readonly action: string;
  readonly edits: () => readonly FixEdit[] | undefined;
}

/** Whether a message proposes a move. Its effect follows the words for the move. */
const proposes =
  (message: string) =>
  ({ action }: Proposal): boolean =>
    message.includes(`${action} takes off `) || message.includes(`${action} adds `);

/** The sentence of a message that starts with the words for a move, without its full stop. */
function sentence(message: string, action: string): string {
  const from = message.slice(message.indexOf(action));
  return from.replace(/\.(?:\s[\s\S]*)?$/, '');
}

function proposalsOf(analysis: Analysis, { rig }: StateResult, source: MassSource<Source>): Proposal[] {
  const { stowed } = source.id;
  const system = systemOfRig(rig);
  const lockers = rig.units.flatMap((unit) => unit.lockers.map(({ name }) => `${unit.name}.${name}`));
  const moves = (stowed === undefined ? [] : lockers).flatMap((locker): Proposal[] =>
    stowed === undefined
      ? []
      : [{ action: stowageAction(stowed, source.mass, locker, system), edits: () => restow(analysis, source, locker) }],
  );
  const nudges = NUDGES.map(
    ({ x, y, word }): Proposal => ({
      action: nudgeAction(source, word, system),
      // Of a variant, the line may be its original's: other units would change with it.
      edits: () =>
        stowed === undefined && rig.units[source.unit]?.location.declaration !== source.id.location.declaration
          ? undefined
          : shiftPlace(analysis, source, { axis: x === 0 ? 'y' : 'x', by: x + y }),
    }),
  );
  return [...moves, ...nudges];
}

/** Puts one thing of a `stow` line into another locker: the line itself, or a line of its own. */
function restow(analysis: Analysis, { id }: MassSource<Source>, locker: string): readonly FixEdit[] | undefined {
  const { declaration, span } = id.location;
  const statement = statementOf(declaration, span);
  if (statement?.head.text !== 'stow' || statement.broken) return undefined;
  const { text } = declaration;
  const object = statement.objects.find(({ start }) => start === span.start);
  if (object === undefined) return undefined;
  const line = `stow ${text.slice(object.start, object.end)} in ${locker}`;
  const gone = takenOut(statement, span);
  if (gone === undefined) return all(editOf(analysis, declaration, statement, line));
  const { start } = statement;
  return all(
    editOf(analysis, declaration, { start, end: start }, `${line}\n${indentAt(text, start)}`),
    editOf(analysis, declaration, gone, ''),
  );
}

function all(...edits: readonly (FixEdit | undefined)[]): readonly FixEdit[] | undefined {
  const known = edits.flatMap((edit) => edit ?? []);
  return known.length === edits.length ? known : undefined;
}

interface Shift {
  readonly axis: 'x' | 'y';
  /** m along the axis. */
  readonly by: number;
}

/** Changes the one distance that says where a thing is along an axis. */
function shiftPlace(
  analysis: Analysis,
  { id }: MassSource<Source>,
  { axis, by }: Shift,
): readonly FixEdit[] | undefined {
  const { declaration, span } = id.location;
  const statement = statementOf(declaration, span);
  if (statement === undefined || statement.broken || statement.objects.length > 1) return undefined;
  const values = statement.arguments.flatMap((argument) =>
    argument.kind === 'value' && axisOf(argument.value) === axis ? [argument] : [],
  );
  const [argument] = values;
  if (argument === undefined || values.length > 1 || argument.keyword?.text === 'from') return undefined;
  if (id.stowed === undefined && isDatum(declaration, statement, id.name)) return undefined;
  const sign = stepOf(argument.value.direction?.word.text ?? '')?.sign ?? 1;
  const measure = loneMeasure(argument.value);
  const number = measure && parseNumber(measure.number.text);
  const length = measure?.unit && parseUnit(measure.unit.text);
  if (measure === undefined || number === undefined || length === undefined) return undefined;
  if (!sameDimension(length.dimension, LENGTH)) return undefined;
  const value = number + (sign * by) / toSI(1, length);
  // Less than nothing in a direction reads as a slip: the author had better turn the direction round.
  if (value < 0) return undefined;
  return all(editOf(analysis, declaration, measure.number, written(value)));
}

function axisOf({ direction }: Value): string | undefined {
  return direction && stepOf(direction.word.text)?.axis;
}

/** To a thousandth of the unit: a tenth of a millimetre in inches, a millimetre in metres. */
const written = (value: number): string => String(Math.round(value * 1000) / 1000);

/** The number and unit of a value that is one measure and nothing else. */
function loneMeasure({ factors, upTo, startDirection }: Value) {
  const [only] = factors;
  if (factors.length !== 1 || upTo !== undefined || startDirection !== undefined) return undefined;
  return only?.kind === 'quantity' && only.measures.length === 1 ? only.measures[0] : undefined;
}

/** Whether another line of the unit counts its place from a thing: it would be moved too. */
function isDatum({ statement: top }: Declaration, own: Statement, name: string): boolean {
  const [, ...path] = name.split('.');
  const last = path.at(-1);
  const names = (reference: Reference | undefined) => reference?.path.at(-1)?.text === last;
  const counts = (statement: Statement): boolean =>
    (statement !== own && statement.arguments.some((argument) => argument.kind === 'value' && from(argument.value))) ||
    (statement.block?.statements ?? []).some(counts);
  const from = ({ direction, factors }: Value): boolean =>
    names(direction?.datum) ||
    factors.some((factor: Expression) => factor.kind === 'reference' && names(factor.reference));
  return top !== undefined && counts(top);
}
