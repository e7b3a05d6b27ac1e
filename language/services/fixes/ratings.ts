import { missingRatings } from '../../rules/index.ts';
import type { MissingRating } from '../../rules/limits/limit-rule.ts';
import { ratingsContradict } from '../../rules/ratings-contradict.ts';
import { levelStates, sumOf } from '../../rules/states.ts';
import type { Analysis, PlacedEntity } from '../../semantics/analysis.ts';
import { systemOf } from '../../semantics/display-system.ts';
import type { Limit, UnitModel } from '../../semantics/model.ts';
import type { RigResult } from '../../semantics/state.ts';
import type { Declaration, Span, Statement } from '../../syntax/tree.ts';
import { formatMass } from '../../units/display.ts';
import { rigsWith } from '../hover/context.ts';
import { editOf, type Fix, type Insertion, intoBlock, statementOf } from './fix.ts';

const REMARK = "# not from a plate but the computed load: replace by the plate's figure";

/** kg; computed loads are rounded up to a whole number of these, or of as many pounds. */
const STEP = 10;
const KILOGRAMS_PER_POUND = 0.45359237;

/**
 * Ratings that the lines of a unit at a range do not state, each with the greatest load computed for it over the cases of the
 * unit alone and of the rigs that have it; none where lines with errors leave something out of it. At the unit's first line
 * all of them are offered.
 */
export function addRatings(analysis: Analysis, uri: string, range: Span): readonly Fix[] {
  const placed = analysis.entityAt(uri, range.start);
  if (placed?.entity?.kind !== 'unit') return [];
  const { declaration, start } = placed;
  const { unit, result } = placed.entity;
  const at = { start: range.start - start, end: range.end - start };
  const results = [result, ...rigsWith(analysis, { name: unit.name, uri, declaration, start })];
  // A load without some of the masses would make a rating that is too low.
  if (results.some(isIncomplete)) return [];
  return gapsOf(results, placed)
    .filter((gap) => touches(declaration, gap, at))
    .flatMap((gap) => addRating(analysis, declaration, gap, results) ?? []);
}

const isIncomplete = ({ assumptions }: RigResult): boolean => assumptions.some(({ incomplete }) => incomplete === true);

/** The ratings that a unit does not state, each once, as far as its own lines would state them. */
function gapsOf(results: readonly RigResult[], { declaration }: PlacedEntity): readonly MissingRating[] {
  const gaps = new Map<string, MissingRating>();
  for (const gap of results.flatMap(missingRatings)) {
    const { unit, line = unit.location } = gap;
    if (unit.location.declaration !== declaration || line.declaration !== declaration) continue;
    gaps.set(`${gap.name} ${line.span.start} ${gap.quantities}`, gap);
  }
  return [...gaps.values()];
}

function touches(declaration: Declaration, { line, unit }: MissingRating, at: Span): boolean {
  const { statement } = declaration;
  if (statement === undefined) return false;
  const first = { start: statement.start, end: statement.block?.start ?? statement.end };
  if (meets(first, at)) return true;
  if (line === undefined) return limitsOf(declaration).some((limits) => meets(limits, at));
  return line.declaration === unit.location.declaration && meets(statementOf(declaration, line.span) ?? line.span, at);
}

const meets = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;

function limitsOf({ statement }: Declaration): readonly Statement[] {
  return (statement?.block?.statements ?? []).filter(({ head }) => head.text === 'limits');
}

function addRating(
  analysis: Analysis,
  declaration: Declaration,
  gap: MissingRating,
  results: readonly RigResult[],
): Fix | undefined {
  const loads = results.flatMap((result) => levelStates(result).flatMap((state) => sumOf(state, gap.quantities) ?? []));
  const least = Math.max(...loads);
  if (!Number.isFinite(least) || least <= 0) return undefined;
  const figure = roundedUp(least, declaration);
  // A figure that contradicts what is stated would be an error of the quick fix's own making.
  if (contradicts(results, gap, figure.value)) return undefined;
  const insertion =
    gap.line === undefined
      ? limitInsertion(declaration, gap, figure.text)
      : lineInsertion(declaration, gap.line.span, figure.text);
  const edit =
    insertion && editOf(analysis, declaration, { start: insertion.offset, end: insertion.offset }, insertion.text);
  const what = gap.line === undefined ? gap.name : `rating of ${gap.quantities.join(' and ').replace(/\.load$/, '')}`;
  const greatest = formatMass(least, systemOf(declaration));
  const title = `Add ${what} of ${figure.text}, from the greatest computed load ${greatest}: replace it by the plate’s figure`;
  return edit && { title, edits: [edit] };
}

interface Figure {
  readonly text: string;
  /** kg */
  readonly value: number;
}

function roundedUp(load: number, declaration: Declaration): Figure {
  const [unit, size] = systemOf(declaration) === 'US' ? (['lb', KILOGRAMS_PER_POUND] as const) : (['kg', 1] as const);
  const number = Math.ceil(load / size / STEP) * STEP;
  return { text: `${number} ${unit}`, value: number * size };
}

/** Whether a unit with the rating contradicts itself where it did not before. */
function contradicts(results: readonly RigResult[], gap: MissingRating, value: number): boolean {
  const alone = results.find(({ rig }) => rig.standalone);
  if (alone === undefined) return false;
  const count = (unit: UnitModel) =>
    [...ratingsContradict.check({ ...alone, rig: { ...alone.rig, units: [unit] } })].length;
  return count(withRating(gap, value)) > count(gap.unit);
}

function withRating({ unit, name, line }: MissingRating, value: number): UnitModel {
  const limit: Limit = { value, location: line ?? unit.location };
  if (name !== 'rating') return { ...unit, limits: { ...unit.limits, [name]: limit } };
  const { coupling, groups } = unit;
  return {
    ...unit,
    groups: groups.map((group) => (group.location === line ? { ...group, rating: limit } : group)),
    ...(coupling === undefined
      ? {}
      : { coupling: coupling.location === line ? { ...coupling, rating: limit } : coupling }),
  };
}

/** At the end of the line that has no rating; undefined where something else would become part of the remark. */
function lineInsertion(declaration: Declaration, span: Span, figure: string): Insertion | undefined {
  const statement = statementOf(declaration, span);
  if (statement === undefined || statement.broken) return undefined;
  const { text } = declaration;
  const { block, head } = statement;
  if (head.text === 'wheelbase') return undefined; // it speaks of two axles
  if (block !== undefined) {
    if (head.text !== 'axle' && head.text !== 'axles') return undefined;
    return intoBlock(declaration, statement, `rating ${figure} ${REMARK}`);
  }
  const rest = text.slice(statement.end).split('\n', 1)[0] ?? '';
  if (!/^\s*(?:#.*)?$/.test(rest)) return undefined;
  return { offset: statement.end, text: `, rating ${figure} ${REMARK}` };
}

/** Into the limits of the unit; a block of limits is added where there is none. */
function limitInsertion(declaration: Declaration, { name }: MissingRating, figure: string): Insertion | undefined {
  const line = `${name} ${figure} ${REMARK}`;
  const { statement } = declaration;
  const [limits] = limitsOf(declaration);
  if (limits !== undefined) return limits.broken ? undefined : intoBlock(declaration, limits, line);
  if (statement === undefined || statement.broken) return undefined;
  return intoBlock(declaration, statement, `limits {\n    ${line}\n  }`);
}
