import type { ReadStatement } from '../arguments.ts';
import type { NameLookup } from '../expressions.ts';
import type { CaseModel, UnitModel } from '../model.ts';
import { nameOf, reportUnknown } from '../names.ts';
import { type Line, locate, report, type Scope } from '../scope.ts';

/** What the slips of a rig, or of a unit alone, are read against. */
export interface WeighedRig {
  readonly units: readonly UnitModel[];
  readonly cases: readonly CaseModel[];
  readonly scope: Scope;
  readonly namesFor: (line: Line) => NameLookup;
}

/** The case that something was weighed in; without a name the only state of a rig that has no cases. */
export interface CaseOf {
  readonly name?: string;
}

/** The case behind `in`, or the only one; what is wrong or open is reported, and gives undefined. */
export function readCaseOf(read: ReadStatement, what: string, { cases, scope }: WeighedRig): CaseOf | undefined {
  const { line } = read;
  const { statement } = line;
  const names = cases.map(({ name }) => name);
  const [named, second] = read.names.get('in') ?? [];
  if (second !== undefined) {
    const accepted = 'one case: that in which it was weighed';
    report(scope, 'unexpected-part', { part: 'second case', head: what, accepted }, locate(line, second));
  }
  if (named !== undefined) {
    const name = nameOf(named.reference);
    if (names.includes(name)) return { name };
    reportUnknown(scope, line, named.reference, 'case of its load', names);
    return undefined;
  }
  const [only, another] = names;
  if (another === undefined) return only === undefined ? {} : { name: only };
  if (!statement.broken) {
    const example = `weighing ${statement.name?.text ?? 'october'} in ${only} { … }`;
    const part = `the case it was taken in (${names.join(', ')})`;
    report(
      scope,
      'missing-part',
      { what: `The ${what}`, part, example },
      locate(line, statement.name ?? statement.head),
    );
  }
  return undefined;
}
