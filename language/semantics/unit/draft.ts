import type { Statement, Word } from '../../syntax/tree.ts';
import type { Context, StatementSpec } from '../../syntax/vocabulary.ts';
import { type ReadStatement, readStatement, resolveSpec } from '../arguments.ts';
import { loneReference, type NameLookup } from '../expressions.ts';
import type { ReadingContext } from '../measured.ts';
import { addLet, nameOf, namesOf } from '../names.ts';
import { type Line, locate, report, type Scope } from '../scope.ts';
import type { UnitLines } from '../unit-lines.ts';

/** A line of a unit with its arguments sorted; parts of groups know the group. */
export interface UnitEntry {
  readonly read: ReadStatement;
  readonly spec: StatementSpec;
  readonly line: Line;
  /** Name within the unit: `fridge`, `kitchen.sink`; the head where the line has no name. */
  readonly name: string;
  readonly group?: UnitEntry;
}

/** A unit being read: its lines, sorted, and what they can be looked up by. */
export interface UnitDraft {
  readonly scope: Scope;
  readonly kind: 'vehicle' | 'trailer';
  readonly name: string;
  readonly header: Line;
  readonly entries: readonly UnitEntry[];
  readonly byName: ReadonlyMap<string, UnitEntry>;
  readonly lets: ReadonlyMap<string, Line>;
  /** True when a line could not be read: what is missing from the unit is then not reported. */
  readonly broken: boolean;
  /** Names that lines with an unknown head may have meant to declare: `fresh` of `tnk fresh 95 L`. */
  readonly strays: readonly string[];
  /** Its `rule` lines, in the order in which they count: those of a variant before those of its original. */
  readonly rules: readonly Line[];
}

/** Statements that appear at most once in a unit. */
const ONCE: ReadonlySet<string> = new Set([
  'body',
  'wheelbase',
  'coupling',
  'hitch',
  'tare',
  'growth',
  'brakes',
  'weight_distribution',
  'vehicle_type',
  'trailer_type',
  'berths',
  'off_road',
  'reachable',
]);

/** Statements whose names are no names of parts: two of one kind are found where they are read. */
const OWN_NAMES: ReadonlySet<string> = new Set(['case', 'weighing']);

/** Reads and sorts the lines of a unit; reports unknown lines, duplicates and lines that may stand once. */
export function draftUnit(header: Line, unit: UnitLines, name: string, scope: Scope): UnitDraft {
  const entries: UnitEntry[] = [];
  const byName = new Map<string, UnitEntry>();
  const lets = new Map<string, Line>();
  const strays: string[] = [];
  const rules: Line[] = [];
  let broken = header.statement.broken;

  const addName = (entry: UnitEntry, word: Word | undefined) => {
    const before = byName.get(entry.name);
    if (before === undefined) {
      byName.set(entry.name, entry);
      return;
    }
    if (word === undefined && !ONCE.has(entry.spec.keyword)) return;
    const location = locate(entry.line, word ?? entry.line.statement.head);
    const other = locate(before.line, before.line.statement.name ?? before.line.statement.head);
    if (word === undefined)
      report(scope, 'repeated-part', { part: `'${entry.name}'`, head: name }, location, [
        { location: other, message: 'The first one.' },
      ]);
    else {
      report(scope, 'duplicate-name', { name: entry.name, other: before.read.what }, location, [
        { location: other, message: `'${entry.name}' is declared here too.` },
      ]);
    }
  };

  const addLines = (lines: readonly Line[], context: Context, block: string, group?: UnitEntry) => {
    for (const line of lines) {
      const { statement } = line;
      if (statement.broken) broken = true;
      const spec = resolveSpec(line, context, block, scope);
      if (spec === undefined) {
        broken = true;
        strays.push(...strayName(statement));
        continue;
      }
      if (spec.keyword === 'rule') {
        rules.push(line);
        continue;
      }
      if (spec.keyword === 'let') addLet(lets, line, scope);
      const prefix = group === undefined ? '' : `${group.name}.`;
      const ownName = statement.name?.text ?? (spec.keyword === 'axles' ? 'axles' : spec.keyword);
      const entry: UnitEntry = {
        read: readStatement(line, spec, scope),
        spec,
        line,
        name: prefix + ownName,
        ...(group ? { group } : {}),
      };
      entries.push(entry);
      if (spec.keyword === 'group') {
        addName(entry, statement.name);
        addLines(
          (statement.block?.statements ?? []).map((inner) => ({ ...line, statement: inner })),
          'group',
          `group ${entry.name}`,
          entry,
        );
      } else if (spec.keyword === 'axles') addName(entry, statement.name ?? statement.head);
      else if (spec.head === 'declares' && !OWN_NAMES.has(spec.keyword)) addName(entry, statement.name);
      else if (ONCE.has(spec.keyword)) addName(entry, undefined);
    }
  };
  addLines(unit.lines, unit.kind, `a ${unit.kind}`);
  return { scope, kind: unit.kind, name, header, entries, byName, lets, broken, strays, rules: latestFirst(rules) };
}

/** Lines of later declarations first, those of one in their order: a variant's lines follow those of its original. */
function latestFirst(lines: readonly Line[]): readonly Line[] {
  const declarations = [...new Set(lines.map(({ declaration }) => declaration))].reverse();
  return declarations.flatMap((own) => lines.filter(({ declaration }) => declaration === own));
}

/** The name directly behind an unknown head. */
function strayName({ arguments: [first] }: Statement): readonly string[] {
  const name =
    first?.kind === 'value' && first.keyword === undefined ? loneReference(first.value.factors[0]) : undefined;
  return name === undefined ? [] : [nameOf(name)];
}

/** Entries of one kind of statement, in order. */
export function entriesOf(draft: UnitDraft, keyword: string): readonly UnitEntry[] {
  return draft.entries.filter(({ spec }) => spec.keyword === keyword);
}

export function namesIn(draft: UnitDraft, line: Line): NameLookup {
  return namesOf(draft.scope, line, draft.lets);
}

/** What reading the values of an entry needs. */
export function contextOf(draft: UnitDraft, entry: UnitEntry): ReadingContext {
  return { scope: draft.scope, line: entry.line, names: namesIn(draft, entry.line) };
}
