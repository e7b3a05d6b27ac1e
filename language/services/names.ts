import type { Analysis, PlacedName } from '../semantics/analysis.ts';
import type { Reference, Statement } from '../syntax/tree.ts';
import { canonicalHead } from './statements.ts';

/*
 * What is named where, read off the tree alone: it also holds while a file is being edited and cannot be computed.
 */

/** A named line of a unit, of a rig or of a group in one. */
export interface Member {
  /** Dotted for what stands in a group: `kitchen.sink`. */
  readonly name: string;
  /** Keyword of the line's head. */
  readonly head: string;
  readonly statement: Statement;
  /** The declaration the line is written in: of a variant's line perhaps its original. */
  readonly placed: PlacedName;
}

/** Variants of variants are followed no further than this. */
const MOST_ORIGINALS = 16;

/** Lines without a name that are spoken of by their head. */
const NAMED_BY_HEAD: ReadonlySet<string> = new Set(['axles', 'coupling', 'hitch', 'body', 'tare', 'growth', 'limits']);

/** Heads of lines that declare a name. */
const LINES_WITH_NAME: ReadonlySet<string> = new Set([
  'axles',
  'seat',
  'tank',
  'locker',
  'fitting',
  'panel',
  'member',
  'group',
  'let',
  'case',
  'weighing',
]);

/** A declaration's keyword: `vehicle`, `item`, `variant`. */
export function headOf(placed: PlacedName): string {
  return placed.declaration.statement?.head.text ?? '';
}

/** A unit and, for a variant, what it varies: itself first. Cycles end where they close. */
export function originals(analysis: Analysis, unit: PlacedName): readonly PlacedName[] {
  const chain: PlacedName[] = [];
  for (let current: PlacedName | undefined = unit; current !== undefined && chain.length < MOST_ORIGINALS; ) {
    const next: PlacedName = current;
    if (chain.some(({ declaration }) => declaration === next.declaration)) break;
    chain.push(next);
    const original: Reference | undefined = varied(next.declaration.statement);
    current = original && lookupFirst(analysis, next.uri, original.path[0]?.text ?? '');
  }
  return chain;
}

/** The name behind `of` of a variant. */
function varied(statement: Statement | undefined): Reference | undefined {
  if (statement?.head.text !== 'variant') return undefined;
  for (const argument of statement.arguments) {
    if (argument.kind === 'references' && argument.keyword.text === 'of') return argument.references[0]?.reference;
  }
  return undefined;
}

/** Whether a name stands for a vehicle or a trailer, variants followed. */
export function unitKind(analysis: Analysis, placed: PlacedName): 'vehicle' | 'trailer' | undefined {
  const head = headOf(originals(analysis, placed).at(-1) ?? placed);
  return head === 'vehicle' || head === 'trailer' ? head : undefined;
}

export function lookupFirst(analysis: Analysis, uri: string, name: string): PlacedName | undefined {
  return name === '' ? undefined : analysis.lookup(uri, name)[0];
}

/** The named lines of a unit; a variant's own lines stand before, and in place of, those of what it varies. */
export function membersOf(analysis: Analysis, unit: PlacedName): readonly Member[] {
  const members = new Map<string, Member>();
  const removed = new Set<string>();
  for (const placed of originals(analysis, unit)) {
    const statements = placed.declaration.statement?.block?.statements ?? [];
    for (const member of membersIn(statements, placed)) {
      const [first = ''] = member.name.split('.');
      if (members.has(member.name) || removed.has(member.name) || removed.has(first)) continue;
      members.set(member.name, member);
    }
    for (const { head, objects } of statements) {
      if (head.text !== 'without') continue;
      for (const { reference } of objects) removed.add(pathText(reference));
    }
  }
  return [...members.values()];
}

/** The named lines among statements, those of groups with the group's name before theirs. */
export function* membersIn(statements: readonly Statement[], placed: PlacedName, prefix = ''): Generator<Member> {
  for (const statement of statements) {
    if (statement.subject) continue;
    const head = canonicalHead(statement.head.text);
    if (head === 'wheelbase') {
      for (const name of WHEELBASE_AXLES) yield { name, head: 'axles', statement, placed };
      continue;
    }
    const own = LINES_WITH_NAME.has(head) ? statement.name?.text : undefined;
    const name = own ?? (NAMED_BY_HEAD.has(head) ? head : undefined);
    if (name === undefined) continue;
    yield { name: prefix + name, head, statement, placed };
    if (head === 'group') yield* membersIn(statement.block?.statements ?? [], placed, `${prefix}${name}.`);
  }
}

/** Axles that a wheelbase gives their places. */
const WHEELBASE_AXLES = ['front', 'rear'] as const;

/** The units a rig tows and hauls, from the front, with the names as written; unknown ones are left out. */
export function unitsOfRig(analysis: Analysis, uri: string, rig: Statement): readonly PlacedName[] {
  const units: PlacedName[] = [];
  for (const head of ['tow', 'haul']) {
    for (const statement of rig.block?.statements ?? []) {
      if (statement.head.text !== head) continue;
      for (const { reference } of statement.objects) {
        const unit = lookupFirst(analysis, uri, pathText(reference));
        if (unit !== undefined) units.push(unit);
      }
    }
  }
  return units;
}

/** The units that a declaration speaks of: those of a rig, or a unit itself. */
export function unitsInReach(analysis: Analysis, here: PlacedName): readonly PlacedName[] {
  const statement = here.declaration.statement;
  if (statement?.head.text === 'rig') return unitsOfRig(analysis, here.uri, statement);
  return UNIT_HEADS.has(headOf(here)) ? [here] : [];
}

export const UNIT_HEADS: ReadonlySet<string> = new Set(['vehicle', 'trailer', 'variant']);

/** The tags of an item, as written. */
export function tagsOf(item: Statement | undefined): readonly string[] {
  return (item?.arguments ?? []).flatMap((argument) =>
    argument.kind === 'references' && argument.keyword.text === 'tags'
      ? argument.references.map(({ reference }) => pathText(reference))
      : [],
  );
}

export function pathText(reference: Reference): string {
  return reference.path.map(({ text }) => text).join('.');
}
