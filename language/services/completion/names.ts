import { FLUIDS } from '../../catalogue/fluids.ts';
import { catalogueByCode, ruleCodes } from '../../levels/rule-codes.ts';
import type { Analysis, PlacedName } from '../../semantics/analysis.ts';
import type { Statement } from '../../syntax/tree.ts';
import type { ThingKind } from '../../syntax/vocabulary.ts';
import { DENSITY } from '../../units/dimension.ts';
import { formatValue } from '../../units/display.ts';
import { MARKET_NAMES } from '../markets.ts';
import {
  headOf,
  type Member,
  membersIn,
  membersOf,
  originals,
  pathText,
  tagsOf,
  unitKind,
  unitsInReach,
} from '../names.ts';
import { groupPrefixes, unitsAt } from '../resolve.ts';
import type { Caret } from './caret.ts';
import type { CompletionKind, Proposal } from './entry.ts';

/** What the providers of names work from. */
export interface NameScope {
  readonly analysis: Analysis;
  readonly caret: Caret;
  /** The declaration the caret is in. */
  readonly here: PlacedName;
}

type Provider = (scope: NameScope) => readonly Proposal[];

/** Names that fit behind a keyword or head, by what they stand for. */
export const NAME_PROVIDERS: Readonly<Record<ThingKind, Provider>> = {
  unit: (scope) => [...units(scope, 'vehicle'), ...units(scope, 'trailer')],
  vehicle: (scope) => units(scope, 'vehicle'),
  trailer: (scope) => units(scope, 'trailer'),
  item: (scope) => declared(scope, 'item'),
  fluid: (scope) => [...declared(scope, 'fluid'), ...builtInFluids()],
  material: (scope) => declared(scope, 'material'),
  tyre: (scope) => declared(scope, 'tyre'),
  seat: (scope) => lines(scope, 'seat').map(({ member, owner }) => memberProposal(member, member.name, owner)),
  aboard: (scope) => {
    const stowed = stowedNames(scope.here.declaration.statement?.block?.statements ?? []);
    return [...NAME_PROVIDERS.seat(scope), ...NAME_PROVIDERS.item(scope).filter(({ label }) => stowed.has(label))];
  },
  stowage,
  case: ({ here }) =>
    [...membersIn(here.declaration.statement?.block?.statements ?? [], here)]
      .filter(({ head }) => head === 'case')
      .map((member) => memberProposal(member, member.name, here)),
  market: () => [...MARKET_NAMES].map(([label, detail]) => ({ label, kind: 'market', detail })),
  tag: tags,
  code: () =>
    ruleCodes().map((label) => ({
      label,
      kind: 'code',
      detail: catalogueByCode().get(label)?.definition.title ?? '',
    })),
};

/** Items that the `stow` lines of a block name, those of its cases included. */
function stowedNames(lines: readonly Statement[]): ReadonlySet<string> {
  const names = lines.flatMap(({ head, objects, block }) => [
    ...(head.text === 'stow' ? objects.map(({ reference }) => pathText(reference)) : []),
    ...(head.text === 'case' ? stowedNames(block?.statements ?? []) : []),
  ]);
  return new Set(names);
}

/** Visible declarations of one head. */
function declared({ analysis, caret, here }: NameScope, head: CompletionKind): readonly Proposal[] {
  return analysis
    .names(caret.uri)
    .filter((name) => headOf(name) === head && name.declaration !== here.declaration)
    .map((name) => declarationProposal(name, head));
}

function units({ analysis, caret, here }: NameScope, kind: 'vehicle' | 'trailer'): readonly Proposal[] {
  return analysis
    .names(caret.uri)
    .filter((name) => unitKind(analysis, name) === kind && name.declaration !== here.declaration)
    .map((name) => declarationProposal(name, kind));
}

function declarationProposal({ name, declaration }: PlacedName, kind: CompletionKind): Proposal {
  const { statement } = declaration;
  const detail = statement === undefined ? kind : factsOf(statement, declaration.text, kind);
  return {
    label: name,
    kind,
    detail,
    ...(statement?.documentation ? { documentation: statement.documentation } : {}),
  };
}

/** The bare value and the title as written: `38 kg, Roll-out awning`. */
function factsOf(statement: Statement, text: string, otherwise: string): string {
  const facts = statement.arguments.flatMap((argument) => {
    if (argument.kind === 'text') return argument.text.value;
    return argument.kind === 'value' && !argument.keyword ? text.slice(argument.value.start, argument.value.end) : [];
  });
  return facts.length > 0 ? facts.join(', ') : otherwise;
}

function builtInFluids(): readonly Proposal[] {
  return FLUIDS.map(({ name, density, source, note }) => ({
    label: name,
    kind: 'fluid',
    detail: `built in, ${formatValue(density, DENSITY)}`,
    documentation: [`Source: ${source}.`, ...(note ? [note] : [])].join('\n\n'),
  }));
}

interface OwnedLine {
  readonly member: Member;
  readonly owner: PlacedName;
}

/** Lines of one head of the units in reach of the declaration. */
function lines({ analysis, here }: NameScope, head: string): readonly OwnedLine[] {
  return unitsInReach(analysis, here).flatMap((owner) =>
    membersOf(analysis, owner)
      .filter((member) => member.head === head)
      .map((member) => ({ member, owner })),
  );
}

/** Icon of a line by its head. */
const KIND_OF_HEAD: Readonly<Record<string, CompletionKind>> = {
  axles: 'axles',
  coupling: 'coupling',
  hitch: 'coupling',
  seat: 'seat',
  tank: 'tank',
  locker: 'locker',
  case: 'case',
  let: 'let',
};

function memberProposal({ head, statement, placed }: Member, label: string, owner: PlacedName): Proposal {
  const facts = factsOf(statement, placed.declaration.text, '');
  const { documentation } = statement;
  return {
    label,
    kind: KIND_OF_HEAD[head] ?? 'part',
    detail: [`${head} of ${owner.name}`, ...(facts ? [facts] : [])].join(', '),
    ...(documentation ? { documentation } : {}),
  };
}

/** Lockers, and units for things with a place of their own. In a unit's own case its lockers need no unit before them. */
function stowage(scope: NameScope): readonly Proposal[] {
  const inRig = headOf(scope.here) === 'rig';
  if (scope.caret.step?.spec?.keyword === 'without') return removable(scope);
  const lockers = lines(scope, 'locker').map(({ member, owner }) =>
    memberProposal(member, inRig ? `${owner.name}.${member.name}` : member.name, owner),
  );
  if (!inRig) return lockers;
  const whole = unitsInReach(scope.analysis, scope.here).map((unit) =>
    declarationProposal(unit, unitKind(scope.analysis, unit) ?? 'trailer'),
  );
  return [...lockers, ...whole];
}

/** What a variant may leave out: the lines of what it varies. */
function removable({ analysis, here }: NameScope): readonly Proposal[] {
  const original = originals(analysis, here)[1];
  if (original === undefined) return [];
  return membersOf(analysis, original)
    .filter(({ head }) => head !== 'case' && head !== 'weighing')
    .map((member) => memberProposal(member, member.name, original));
}

/** Tanks that a case may speak of: with the unit's name where another unit has a tank of that name. */
export function tankProposals(scope: NameScope): readonly Proposal[] {
  const tanks = lines(scope, 'tank');
  const qualified = headOf(scope.here) === 'rig';
  const unique = tanks.filter(({ member }) => tanks.filter((other) => other.member.name === member.name).length === 1);
  return [
    ...unique.map(({ member, owner }) => memberProposal(member, member.name, owner)),
    ...(qualified ? tanks : []).map(({ member, owner }) =>
      memberProposal(member, `${owner.name}.${member.name}`, owner),
    ),
  ];
}

/** Heads of what a reading may stand on. */
const SUPPORTS: ReadonlySet<string> = new Set(['axles', 'coupling']);
/** Heads of lines that have no place. */
const PLACELESS: ReadonlySet<string> = new Set(['let', 'case', 'weighing', 'body', 'limits', 'growth']);

/** Things of the unit that a place may be counted from; seen from inside a group without the group's name. */
export function datumProposals(scope: NameScope, supportsOnly: boolean): readonly Proposal[] {
  const { analysis, here, caret } = scope;
  const [prefix = ''] = groupPrefixes({ path: caret.blocks });
  const own = caret.step?.statement.name?.text;
  const owners = caret.step ? unitsAt(analysis, here, caret.step.statement) : unitsInReach(analysis, here);
  return owners.flatMap((owner) =>
    membersOf(analysis, owner)
      .filter(({ head }) => (supportsOnly ? SUPPORTS.has(head) : !PLACELESS.has(head)))
      .map((member) => ({ member, label: localName(member.name, owner === here ? prefix : '') }))
      .filter(({ label }) => label !== own)
      .map(({ member, label }) => memberProposal(member, label, owner)),
  );
}

function localName(name: string, prefix: string): string {
  return prefix !== '' && name.startsWith(prefix) ? name.slice(prefix.length) : name;
}

/** Tags that visible items carry. */
function tags({ analysis, caret }: NameScope): readonly Proposal[] {
  const found = new Set(analysis.names(caret.uri).flatMap(({ declaration }) => tagsOf(declaration.statement)));
  return [...found].map((label) => ({ label, kind: 'tag', detail: 'tag' }));
}
