import type { Reference } from '../syntax/tree.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Entity } from './analysis.ts';
import { evaluateExpression, type NameLookup, referencesIn } from './expressions.ts';
import { nearestName } from './nearest.ts';
import { inOrder, wayBack } from './ordering.ts';
import { type Found, type Line, leaveOut, locate, report, type Scope } from './scope.ts';
import { article } from './unit-lines.ts';

/** Text of a dotted name. */
export function nameOf(reference: Reference): string {
  return reference.path.map(({ text }) => text).join('.');
}

/** How messages speak of what a declaration is: `an item`, `a trailer`. */
export function kindOfDeclaration(found: Found): string {
  return article(found.declaration.statement?.head.text ?? 'declaration');
}

/** Reports a name that stands for nothing, with the nearest that would fit. */
export function reportUnknown(
  scope: Scope,
  line: Line,
  reference: Reference,
  wanted: string,
  candidates: Iterable<string>,
): void {
  const name = nameOf(reference);
  const nearest = nearestName(name, candidates);
  report(scope, 'unknown-name', { name, wanted, ...(nearest ? { nearest } : {}) }, locate(line, reference));
}

/** As many near names of another kind as are passed over for one of the right kind. */
const MOST_PASSED_OVER = 5;

/** The nearest name that stands for something of the kind wanted, alone in a list; empty where none is near. */
function nearestOfKind(scope: Scope, line: Line, name: string, kind: Entity['kind']): readonly string[] {
  const passedOver = new Set<string>();
  while (passedOver.size < MOST_PASSED_OVER) {
    const nearest = nearestName(
      name,
      scope.visibleNames(line.uri).filter((candidate) => !passedOver.has(candidate)),
    );
    if (nearest === undefined) return [];
    const head = scope.find(line.uri, nearest)?.declaration.statement?.head.text ?? '';
    if (KIND_OF_HEAD.get(head) === kind) return [nearest];
    passedOver.add(nearest);
  }
  return [];
}

/**
 * The entity that a name stands for, of one of the kinds wanted. Reports an unknown name and one of another kind;
 * a declaration with errors of its own gives undefined without a second report.
 */
export function resolveEntity<K extends Entity['kind']>(
  scope: Scope,
  line: Line,
  reference: Reference,
  kind: K,
  wanted: string,
): Extract<Entity, { kind: K }> | undefined {
  const name = nameOf(reference);
  const found = scope.find(line.uri, name);
  if (found === undefined) {
    reportUnknown(scope, line, reference, wanted, nearestOfKind(scope, line, name, kind));
    return undefined;
  }
  const head = found.declaration.statement?.head.text ?? '';
  if (KIND_OF_HEAD.get(head) !== kind) {
    report(
      scope,
      'wrong-kind',
      { name, found: kindOfDeclaration(found), wanted: article(wanted) },
      locate(line, reference),
    );
    return undefined;
  }
  const entity = scope.entityOf(found);
  if (entity === 'cycle') {
    report(scope, 'name-cycle', { cycle: name }, locate(line, reference));
    return undefined;
  }
  if (entity !== undefined && isKind(entity, kind)) return entity;
  leaveOut(scope, locate(line, reference));
  return undefined;
}

/** What a declaration is, told without evaluating it: a name of the wrong kind must not lead into a circle. */
const KIND_OF_HEAD: ReadonlyMap<string, Entity['kind']> = new Map([
  ['let', 'let'],
  ['item', 'item'],
  ['fluid', 'fluid'],
  ['material', 'material'],
  ['tyre', 'tyre'],
  ['vehicle', 'unit'],
  ['trailer', 'unit'],
  ['variant', 'unit'],
  ['rig', 'rig'],
]);

function isKind<K extends Entity['kind']>(entity: Entity, kind: K): entity is Extract<Entity, { kind: K }> {
  return entity.kind === kind;
}

/** Looks names up among the `let` lines of a block, then among those of the file and the files it uses. */
export function namesOf(scope: Scope, line: Line, locals: ReadonlyMap<string, Line> = NO_LETS): NameLookup {
  return (reference): Quantity | undefined => {
    const name = nameOf(reference);
    if (locals.has(name)) return settleLets(scope, locals).get(name);
    return resolveEntity(scope, line, reference, 'let', 'quantity')?.quantity;
  };
}

/** Adds a `let` line of a block to its names; a second one of the same name is reported, and counts. */
export function addLet(lets: Map<string, Line>, line: Line, scope: Scope): void {
  const { name } = line.statement;
  if (name === undefined) return;
  const before = lets.get(name.text);
  if (before?.statement.name !== undefined && before.declaration === line.declaration) {
    report(scope, 'duplicate-name', { name: name.text, other: 'let' }, locate(line, name), [
      { location: locate(before, before.statement.name), message: 'The first one.' },
    ]);
  }
  lets.set(name.text, line);
}

const NO_LETS: ReadonlyMap<string, Line> = new Map();
const settledLets = new WeakMap<ReadonlyMap<string, Line>, ReadonlyMap<string, Quantity>>();

/** The values of the `let` lines of a block, each computed once, from those it needs on; circles are reported. */
export function settleLets(scope: Scope, locals: ReadonlyMap<string, Line>): ReadonlyMap<string, Quantity> {
  const known = settledLets.get(locals);
  if (known !== undefined) return known;
  const values = new Map<string, Quantity>();
  settledLets.set(locals, values);
  const next = (name: string): readonly string[] =>
    referencesIn(locals.get(name)?.statement.expression)
      .map(nameOf)
      .filter((other) => locals.has(other));
  for (const { members, circular } of inOrder(locals.keys(), next)) {
    const circle = circular ? describeCircle(wayBack(members[0] ?? '', next) ?? []) : '';
    for (const name of members) {
      const line = locals.get(name);
      const expression = line?.statement.expression;
      if (line === undefined || expression === undefined) continue;
      if (circular) {
        report(scope, 'name-cycle', { cycle: circle }, locate(line, expression));
        continue;
      }
      const value = evaluateExpression(expression, { scope, line, names: namesOf(scope, line, locals) });
      if (value !== undefined) values.set(name, value);
    }
  }
  return values;
}

const MOST_SHOWN = 8;

/** `a → b → a`; the middle of a long circle is left out. */
export function describeCircle(names: readonly string[]): string {
  const shown = names.length <= MOST_SHOWN ? names : [...names.slice(0, MOST_SHOWN - 2), '…', ...names.slice(-1)];
  return shown.join(' → ');
}
