import type { Reference } from '../syntax/tree.ts';
import { readStatement, resolveSpec } from './arguments.ts';
import { readLevel } from './cases.ts';
import type { NameLookup } from './expressions.ts';
import { isUnreadable } from './left-out.ts';
import type { LevelRange, Reachable, Stowed, UnitModel } from './model.ts';
import { nameOf, reportUnknown } from './names.ts';
import { type Line, locate, type Scope } from './scope.ts';
import { itemNames } from './stow.ts';

/** Reads the `reachable` block of a rig or a trailer. */
export function readReachable(
  line: Line,
  units: readonly UnitModel[],
  scope: Scope,
  namesFor: (line: Line) => NameLookup,
  stowed: readonly Stowed[] = [],
): Reachable {
  const { statement } = line;
  const levels = new Map<string, LevelRange>();
  const seats = new Set<string>();
  const items = new Set<string>();
  for (const inner of statement.block?.statements ?? []) {
    const innerLine: Line = { ...line, statement: inner };
    if (inner.subject !== undefined) {
      readLevel(
        innerLine,
        inner.subject,
        levels,
        units,
        { scope, line: innerLine, names: namesFor(innerLine) },
        'reachable',
      );
      continue;
    }
    const spec = resolveSpec(innerLine, 'reachable', 'reachable states', scope);
    if (spec === undefined) continue;
    readStatement(innerLine, spec, scope);
    if (spec.keyword !== 'optional') continue;
    for (const { reference } of inner.objects)
      readOptional(reference, innerLine, { seats, items }, units, stowed, scope);
  }
  return { levels, seats, items, location: locate(line, statement.head) };
}

/** A seat by its name with or without its unit, or else an item that the rig or one of its cases stows. */
function readOptional(
  reference: Reference,
  line: Line,
  into: { readonly seats: Set<string>; readonly items: Set<string> },
  units: readonly UnitModel[],
  stowed: readonly Stowed[],
  scope: Scope,
): void {
  const name = nameOf(reference);
  const seats = units.flatMap((unit) =>
    unit.seats.map((seat) => ({ full: `${unit.name}.${seat.name}`, short: seat.name })),
  );
  const seat = seats.find(({ full, short }) => full === name || short === name);
  const items = itemNames(stowed);
  if (seat !== undefined) into.seats.add(seat.full);
  else if (items.includes(name)) into.items.add(name);
  else if (!isUnreadable(reference, units, line, scope)) {
    reportUnknown(scope, line, reference, 'seat or stowed item of this rig', [
      ...seats.map(({ short }) => short),
      ...items,
    ]);
  }
}
