import type { Location } from '../diagnostics/finding.ts';
import type { Reference } from '../syntax/tree.ts';
import { readStatement, resolveSpec } from './arguments.ts';
import { readLevel } from './cases.ts';
import type { NameLookup } from './expressions.ts';
import { isUnreadable } from './left-out.ts';
import type { LevelRange, Reachable, Stowed, UnitModel } from './model.ts';
import { nameOf, reportUnknown } from './names.ts';
import { type Line, locate, report, type Scope } from './scope.ts';
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
  const levelsInError = new Set<string>();
  const seats = new Set<string>();
  const items = new Set<string>();
  const named = new Map<string, Location>();
  for (const inner of statement.block?.statements ?? []) {
    const innerLine: Line = { ...line, statement: inner };
    if (inner.subject !== undefined) {
      const context = { scope, line: innerLine, names: namesFor(innerLine) };
      const unread = readLevel(innerLine, inner.subject, levels, units, context, 'reachable');
      if (unread !== undefined) levelsInError.add(unread);
      continue;
    }
    const spec = resolveSpec(innerLine, 'reachable', 'reachable states', scope);
    if (spec === undefined) continue;
    readStatement(innerLine, spec, scope);
    if (spec.keyword !== 'optional') continue;
    for (const { reference } of inner.objects)
      readOptional(reference, innerLine, { seats, items, named }, units, stowed, scope);
  }
  return { levels, levelsInError, seats, items, location: locate(line, statement.head) };
}

/** What is optional, with the place where each is first named. */
interface Optional {
  readonly seats: Set<string>;
  readonly items: Set<string>;
  readonly named: Map<string, Location>;
}

/** A seat by its name with or without its unit, or else an item that the rig or one of its cases stows. */
function readOptional(
  reference: Reference,
  line: Line,
  into: Optional,
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
  const thing = seat?.full ?? (items.includes(name) ? name : undefined);
  const place = locate(line, reference);
  const before = thing === undefined ? undefined : into.named.get(thing);
  if (before !== undefined) {
    const related = [{ location: before, message: 'The first one.' }];
    report(scope, 'repeated-part', { part: name, head: 'optional' }, place, related);
  } else if (thing !== undefined) {
    into.named.set(thing, place);
    (seat === undefined ? into.items : into.seats).add(thing);
  } else if (!isUnreadable(reference, units, line, scope)) {
    reportUnknown(scope, line, reference, 'seat or stowed item of this rig', [
      ...seats.map(({ short }) => short),
      ...items,
    ]);
  }
}
