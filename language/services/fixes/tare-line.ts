import { type Axis, sideOf } from '../../diagnostics/weighing-wording.ts';
import { LEVEL } from '../../mechanics/combination.ts';
import { influenceAt } from '../../mechanics/influence.ts';
import { isStaticsProblem, solveSupports } from '../../mechanics/statics.ts';
import { SIGNIFICANCE } from '../../mechanics/weighing/reconciliation.ts';
import { toMechanics } from '../../semantics/combination.ts';
import { systemOf } from '../../semantics/display-system.ts';
import { nameInfluences } from '../../semantics/influences.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { nameOf } from '../../semantics/names.ts';
import type { WeighedTare } from '../../semantics/weighing/weighing-result.ts';
import type { Statement, Value } from '../../syntax/tree.ts';
import { DIRECTIONS, RELATIONS } from '../../syntax/vocabulary.ts';
import { statementOf } from './fix.ts';
import { type WrittenEdit, writtenLength, writtenMass } from './written.ts';

/** What a tare line should say: without the parts that the file lists on top of it. kg and m. */
interface NewTare {
  readonly mass: number;
  readonly massError: number;
  /** Coordinates to be written; those left as they are are absent. */
  readonly place: Readonly<Partial<Record<Axis, { readonly value: number; readonly error: number }>>>;
}

const AXES = ['x', 'y', 'z'] as const;

/**
 * The tare line of a unit with mass and place as weighed and the old figures in a comment behind it. Undefined where
 * that is not plain: the line is that of a variant's original, has something else behind it, or holds readings by
 * support and the slip does not tell the place.
 */
export function rewriteTare(weighed: WeighedTare): readonly WrittenEdit[] | undefined {
  const { of } = weighed;
  const { declaration } = of.location;
  const part = of.parts.find(({ kind }) => kind === 'tare');
  if (part === undefined || part.location.declaration !== declaration) return undefined;
  const statement = statementOf(declaration, part.location.span);
  const tare = newTare(weighed);
  if (statement === undefined || statement.broken || tare === undefined) return undefined;
  const values = statement.arguments.flatMap((argument) =>
    argument.kind === 'value' && (argument.keyword === undefined || argument.keyword.text === 'at')
      ? [argument.value]
      : [],
  );
  const onSupports = values.some(({ direction }) => direction?.word.text === 'on');
  const changes = onSupports ? readingEdits(values, tare, of) : placeEdits(values, tare, of);
  const [first] = values;
  const last = values.at(-1);
  if (changes === undefined || first === undefined || last === undefined) return undefined;
  const was = declaration.text.slice(first.start, last.end).replace(/\s+/g, ' ');
  const comment = was.includes('#') ? undefined : commentEdit(declaration.text, statement, `was ${was}`);
  return comment && merged([...changes, comment]);
}

/** Edits in the order of the text; insertions at one place become one. */
function merged(edits: readonly WrittenEdit[]): readonly WrittenEdit[] {
  const byPlace = new Map<string, WrittenEdit>();
  for (const edit of [...edits].sort((a, b) => a.start - b.start)) {
    const place = `${edit.start} ${edit.end}`;
    byPlace.set(place, { ...edit, text: (byPlace.get(place)?.text ?? '') + edit.text });
  }
  return [...byPlace.values()];
}

function newTare({ of, mass, x, y, z }: WeighedTare): NewTare | undefined {
  const others = of.parts.filter(({ kind }) => kind !== 'tare');
  const listed = others.reduce((sum, { body }) => sum + body.mass, 0);
  const own = mass.value - listed;
  if (mass.standardError === undefined || !(own > 0)) return undefined;
  const place: { -readonly [A in Axis]?: { readonly value: number; readonly error: number } } = {};
  for (const [axis, found] of [
    ['x', x],
    ['y', y],
    ['z', z],
  ] as const) {
    const { filed, value, standardError } = found;
    if (standardError === undefined) continue;
    // Along the unit what is weighed is always better; across and in height only where it differs.
    if (axis !== 'x' && !(Math.abs(value - filed) > SIGNIFICANCE * standardError)) continue;
    const moment = others.reduce((sum, { body }) => sum + body.mass * body.centre[axis], 0);
    place[axis] = { value: (mass.value * value - moment) / own, error: standardError };
  }
  return { mass: own, massError: mass.standardError, place };
}

/** `1385 kg at 3205 mm back, 720 mm up`: mass and coordinates. */
function placeEdits(values: readonly Value[], tare: NewTare, of: UnitModel): readonly WrittenEdit[] | undefined {
  const system = systemOf(of.location.declaration);
  const mass = values.find(({ direction }) => direction === undefined)?.factors[0];
  const placed = values.filter(({ direction }) => direction !== undefined);
  const last = placed.at(-1);
  if (mass === undefined || last === undefined) return undefined;
  const edits: WrittenEdit[] = [{ ...spanOf(mass), text: writtenMass(tare.mass, tare.massError, system) }];
  for (const axis of AXES) {
    const found = tare.place[axis];
    if (found === undefined) continue;
    const { value, error } = found;
    const length = writtenLength(Math.abs(value), error, system);
    const side = sideOf(value, axis);
    const written = placed.find((each) => axisOf(each) === axis);
    const [factor] = written?.factors ?? [];
    if (written === undefined || factor === undefined) {
      if (axis === 'x') return undefined; // it stands at a thing
      edits.push({ start: last.end, end: last.end, text: `, ${length} ${side}` });
    } else if (written.direction?.word.text === side && written.direction.datum === undefined) {
      edits.push({ ...spanOf(factor), text: length });
    } else edits.push({ ...spanOf(written), text: `${length} ${side}` });
  }
  return edits;
}

const spanOf = ({ start, end }: { readonly start: number; readonly end: number }) => ({ start, end });

const SIDES: Readonly<Record<string, string>> = { ...DIRECTIONS, ...RELATIONS };

function axisOf({ direction }: Value): string | undefined {
  return SIDES[direction?.word.text ?? '']?.slice(1);
}

/** `1180 kg on front, 940 kg on rear`: what each support carries of the new tare. */
function readingEdits(values: readonly Value[], tare: NewTare, of: UnitModel): readonly WrittenEdit[] | undefined {
  const { x, y, z } = tare.place;
  const solution = solveSupports(toMechanics([of]), LEVEL);
  if (x === undefined || y !== undefined || isStaticsProblem(solution)) return undefined;
  const system = systemOf(of.location.declaration);
  const loads = nameInfluences([of], solution);
  const edits: WrittenEdit[] = [];
  for (const value of values) {
    const { direction } = value;
    const [factor] = value.factors;
    if (factor === undefined) continue;
    if (direction?.word.text === 'on' && direction.datum !== undefined) {
      const influence = loads.get(`${of.name}.${nameOf(direction.datum)}.load`);
      if (influence === undefined) return undefined;
      const load = tare.mass * influenceAt(influence, 0, { x: x.value, y: 0, z: 0 });
      edits.push({ ...spanOf(factor), text: writtenMass(load, tare.massError, system) });
    } else if (axisOf(value) === 'z' && z !== undefined) {
      edits.push({
        ...spanOf(value),
        text: `${writtenLength(Math.abs(z.value), z.error, system)} ${sideOf(z.value, 'z')}`,
      });
    }
  }
  return edits;
}

/** A comment at the end of the line of a statement; undefined where something else stands behind it. */
function commentEdit(text: string, { end }: Statement, comment: string): WrittenEdit | undefined {
  const [rest = ''] = text.slice(end).split('\n', 1);
  const lineEnd = end + rest.trimEnd().length;
  if (rest.trim() === '') return { start: end, end, text: `  # ${comment}` };
  return rest.trimStart().startsWith('#') ? { start: lineEnd, end: lineEnd, text: `; ${comment}` } : undefined;
}
