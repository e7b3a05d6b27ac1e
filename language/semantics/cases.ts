import type { Reference, Span, Value } from '../syntax/tree.ts';
import { readStatement, resolveSpec } from './arguments.ts';
import type { NameLookup } from './expressions.ts';
import { isUnreadable } from './left-out.ts';
import { type ReadingContext, readMeasured } from './measured.ts';
import type { CaseModel, LevelRange, Stowed, UnitModel } from './model.ts';
import { nameOf, reportUnknown } from './names.ts';
import { type Line, locate, report, type Scope } from './scope.ts';
import { specOf } from './specs.ts';
import { itemNames, readStow } from './stow.ts';
import { levelWanted, toLevel } from './unit/tanks.ts';

/** Reads the `case` blocks of a rig or a trailer. */
export function readCases(
  lines: readonly Line[],
  units: readonly UnitModel[],
  scope: Scope,
  namesFor: (line: Line) => NameLookup,
  stowed: readonly Stowed[] = [],
): CaseModel[] {
  const cases: CaseModel[] = [];
  for (const line of lines) {
    const { statement } = line;
    if (statement.name === undefined) continue;
    const name = statement.name.text;
    const before = cases.find((other) => other.name === name);
    if (before !== undefined) {
      report(scope, 'duplicate-name', { name, other: 'case' }, locate(line, statement.name), [
        { location: before.location, message: 'The first one.' },
      ]);
      continue;
    }
    const spec = specOf('rig', 'case');
    if (spec !== undefined)
      cases.push(readCase(line, readStatement(line, spec, scope).text?.value, units, scope, namesFor, stowed));
  }
  return cases;
}

function readCase(
  line: Line,
  title: string | undefined,
  units: readonly UnitModel[],
  scope: Scope,
  namesFor: (line: Line) => NameLookup,
  stowed: readonly Stowed[],
): CaseModel {
  const { statement } = line;
  const name = statement.name?.text ?? '';
  const levels = new Map<string, LevelRange>();
  const levelsInError = new Set<string>();
  const absent = new Set<string>();
  const extra: Stowed[] = [];
  let occupants: string[] | undefined;
  for (const inner of statement.block?.statements ?? []) {
    const innerLine: Line = { ...line, statement: inner };
    const context = { scope, line: innerLine, names: namesFor(innerLine) };
    if (inner.subject !== undefined) {
      const unread = readLevel(innerLine, inner.subject, levels, units, context, 'case');
      if (unread !== undefined) levelsInError.add(unread);
      continue;
    }
    const spec = resolveSpec(innerLine, 'case', `case ${name}`, scope);
    if (spec === undefined) continue;
    const read = readStatement(innerLine, spec, scope);
    if (spec.keyword === 'stow') extra.push(...readStow(read, units, context));
    else if (spec.keyword === 'absent') {
      const known = [...itemNames(stowed)];
      for (const { reference } of inner.objects) {
        if (known.includes(nameOf(reference))) absent.add(nameOf(reference));
        else reportUnknown(scope, innerLine, reference, 'item stowed in this rig', known);
      }
    } else if (spec.keyword === 'occupants') {
      occupants = inner.objects.flatMap(({ reference }) => findSeat(reference, units, innerLine, scope) ?? []);
    }
  }
  return {
    name,
    levels,
    ...(levelsInError.size > 0 ? { levelsInError } : {}),
    absent,
    stowed: extra,
    location: locate(line, statement.name ?? statement.head),
    ...(title !== undefined ? { title } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
    ...(occupants ? { occupants } : {}),
  };
}

/**
 * Reads a line that states the level of a tank, `Hauler.fresh 0 % to 40 %`, into `levels`. Returns the tank whose level an error
 * of the line leaves unknown.
 */
export function readLevel(
  line: Line,
  subject: Reference,
  levels: Map<string, LevelRange>,
  units: readonly UnitModel[],
  context: ReadingContext,
  head: string,
): string | undefined {
  const { scope } = context;
  const tank = findTank(subject, units, line, scope);
  const value = plainLevel(line, subject, tank, scope);
  const read = value && readMeasured(value, levelWanted(`the level of ${nameOf(subject)}`), context);
  if (tank === undefined || value === undefined || read === undefined) return tank;
  const before = levels.get(tank);
  if (before !== undefined) {
    report(scope, 'repeated-part', { part: `the level of ${tank}`, head }, locate(line, subject), [
      { location: before.location, message: 'The first one.' },
    ]);
    return undefined;
  }
  levels.set(tank, toLevel(read, locate(line, value), nameOf(subject), scope));
  return undefined;
}

/** The one value that a line of a level holds. What else is there is reported, and what is missing. */
function plainLevel(line: Line, subject: Reference, tank: string | undefined, scope: Scope): Value | undefined {
  const { declaration, statement } = line;
  const [first, second] = statement.arguments;
  if (statement.broken) return first?.kind === 'value' && second === undefined ? first.value : undefined;
  if (first === undefined) {
    if (tank === undefined) return undefined;
    const parts = { what: nameOf(subject), part: 'its level', example: `${nameOf(subject)} 60 %` };
    report(scope, 'missing-part', parts, locate(line, subject));
    return undefined;
  }
  const quoted = ({ start, end }: Span) => `'${declaration.text.slice(start, end).replace(/\s+/g, ' ')}'`;
  const value = first.kind === 'value' && first.keyword === undefined ? first.value : undefined;
  const strange = value === undefined ? first : (value.startDirection ?? value.direction ?? second);
  if (strange === undefined) return value;
  const behind = strange === second && second !== undefined ? ` behind ${quoted(first)}` : '';
  const accepted = 'one level or one range of levels; another tank has a line of its own';
  report(
    scope,
    'unexpected-part',
    { part: `${quoted(strange)}${behind}`, head: nameOf(subject), accepted },
    locate(line, strange),
  );
  return undefined;
}

/** `Unit.tank` for a tank named with or without its unit. */
function findTank(reference: Reference, units: readonly UnitModel[], line: Line, scope: Scope): string | undefined {
  const name = nameOf(reference);
  const all = units.flatMap((unit) =>
    unit.tanks.map((tank) => ({ full: `${unit.name}.${tank.name}`, short: tank.name })),
  );
  const found = all.filter(({ full, short }) => full === name || short === name);
  if (found.length === 1) return found[0]?.full;
  if (found.length === 0 && isUnreadable(reference, units, line, scope)) return undefined;
  const wanted =
    found.length > 1 ? `single tank (${found.map(({ full }) => full).join(' or ')})` : 'tank of these units';
  if (units.every(({ computable }) => computable) || all.length > 0)
    reportUnknown(
      scope,
      line,
      reference,
      wanted,
      all.flatMap(({ full, short }) => [short, full]),
    );
  return undefined;
}

/** `Unit.seat` for a seat named with or without its unit. */
export function findSeat(
  reference: Reference,
  units: readonly UnitModel[],
  line: Line,
  scope: Scope,
): string | undefined {
  const name = nameOf(reference);
  const all = units.flatMap((unit) =>
    unit.seats.map((seat) => ({ full: `${unit.name}.${seat.name}`, short: seat.name })),
  );
  const found = all.find(({ full, short }) => full === name || short === name);
  if (found === undefined && !isUnreadable(reference, units, line, scope))
    reportUnknown(
      scope,
      line,
      reference,
      'seat of the vehicle',
      all.map(({ short }) => short),
    );
  return found?.full;
}
