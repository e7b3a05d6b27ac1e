import type { Location } from '../diagnostics/finding.ts';
import type { Reference } from '../syntax/tree.ts';
import type { UnitModel } from './model.ts';
import { type Line, leaveOut, leftOutOf, locate, type Scope } from './scope.ts';

/** Heads of lines that loads do not depend on. */
const WITHOUT_LOADS: ReadonlySet<string> = new Set([
  'limits',
  'require',
  'brakes',
  'vehicle_type',
  'trailer_type',
  'berths',
  'off_road',
  'rule',
  'weighing',
]);

/**
 * Lists that lines with errors are left out of a unit or a rig whose loads are shown all the same, if there are any.
 * `lines` are all its lines.
 */
export function assumeLeftOut(scope: Scope, header: Line, lines: readonly Line[]): void {
  const { statement } = header;
  const harmless = lines.filter(({ statement: { head } }) => WITHOUT_LOADS.has(head.text));
  const missing = leftOutOf(scope).some((place) => !harmless.some((line) => holds(line, place)));
  if (!missing || statement.name === undefined) return;
  scope.assumptions.push({
    text: `lines with errors are left out of ${statement.name.text}: its loads are not complete`,
    basis: 'rule of the language: an error costs its own line, not the whole result',
    general: true,
    incomplete: true,
    ...(scope.findings.some(({ severity }) => severity === 'error') ? { shown: true } : {}),
    location: locate(header, statement.name),
  });
}

function holds({ declaration, statement }: Line, { declaration: other, span }: Location): boolean {
  return declaration === other && statement.start <= span.start && span.end <= statement.end;
}

/**
 * Whether a name stands for a tank, locker or seat of the units whose line has an error. Then what is said of it is left
 * out, and the error is not told a second time.
 */
export function isUnreadable(reference: Reference, units: readonly UnitModel[], line: Line, scope: Scope): boolean {
  const name = reference.path.map(({ text }) => text).join('.');
  const unreadable = units.some((unit) =>
    unit.unreadable.some((known) => known === name || `${unit.name}.${known}` === name),
  );
  if (unreadable) leaveOut(scope, locate(line, reference));
  return unreadable;
}
