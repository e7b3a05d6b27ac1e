import type { Reference } from '../syntax/tree.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Entity } from './analysis.ts';
import { evaluateExpression, type NameLookup } from './expressions.ts';
import { nearestName } from './nearest.ts';
import { type Found, type Line, locate, report, type Scope } from './scope.ts';
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
    reportUnknown(scope, line, reference, wanted, scope.visibleNames(line.uri));
    return undefined;
  }
  const entity = scope.entityOf(found);
  if (entity === 'cycle') {
    report(scope, 'name-cycle', { cycle: name }, locate(line, reference));
    return undefined;
  }
  if (entity === undefined) return undefined;
  if (!isKind(entity, kind)) {
    report(
      scope,
      'wrong-kind',
      { name, found: kindOfDeclaration(found), wanted: article(wanted) },
      locate(line, reference),
    );
    return undefined;
  }
  return entity;
}

function isKind<K extends Entity['kind']>(entity: Entity, kind: K): entity is Extract<Entity, { kind: K }> {
  return entity.kind === kind;
}

/** Looks names up among the `let` lines of a block, then among those of the file and the files it uses. */
export function namesOf(
  scope: Scope,
  line: Line,
  locals: ReadonlyMap<string, Line> = new Map(),
  underWay: readonly string[] = [],
): NameLookup {
  return (reference): Quantity | undefined => {
    const name = nameOf(reference);
    const local = locals.get(name);
    if (local !== undefined) {
      if (underWay.includes(name)) {
        report(scope, 'name-cycle', { cycle: [...underWay, name].join(' → ') }, locate(line, reference));
        return undefined;
      }
      const { expression } = local.statement;
      if (expression === undefined) return undefined;
      return evaluateExpression(expression, {
        scope,
        line: local,
        names: namesOf(scope, local, locals, [...underWay, name]),
      });
    }
    return resolveEntity(scope, line, reference, 'let', 'quantity')?.quantity;
  };
}
