import type { Analysis, Entity, PlacedName } from '../semantics/analysis.ts';
import { systemOf, systemOfRig } from '../semantics/display-system.ts';
import type { Declaration, Statement } from '../syntax/tree.ts';
import type { DisplaySystem } from '../units/display.ts';
import { headOf, lookupFirst, type Member, membersIn, membersOf, UNIT_HEADS, unitsInReach } from './names.ts';
import type { Place, Role } from './nodes.ts';

/** What a name stands for: a whole declaration, or a line of one. */
export type Target =
  | { readonly kind: 'declaration'; readonly placed: PlacedName }
  | {
      readonly kind: 'member';
      readonly member: Member;
      /** The unit, as the reader's place names it: of a variant's line the variant. */
      readonly owner: PlacedName;
    };

/** Heads of the lines that a name may stand for in its role; every line where none are listed. */
const MEMBER_HEADS: Readonly<Partial<Record<Role, ReadonlySet<string>>>> = {
  seat: new Set(['seat']),
  aboard: new Set(['seat']),
  subject: new Set(['tank']),
  reading: new Set(['axles', 'coupling']),
  case: new Set(['case']),
  let: new Set(['let']),
};

/** Heads of the declarations that a name may stand for in its role; every one where none are listed. */
const DECLARATION_HEADS: Readonly<Partial<Record<Role, ReadonlySet<string>>>> = {
  vehicle: new Set(['vehicle', 'variant']),
  trailer: new Set(['trailer', 'variant']),
  unit: UNIT_HEADS,
  item: new Set(['item']),
  aboard: new Set(['item']),
  fluid: new Set(['fluid']),
  material: new Set(['material']),
  tyre: new Set(['tyre']),
  let: new Set(['let']),
};

/** Roles whose names stand for whole declarations and never for a line of the declaration they are written in. */
const GLOBAL_ROLES: ReadonlySet<Role> = new Set(['vehicle', 'trailer', 'unit', 'item', 'fluid', 'material', 'tyre']);

/** Roles of words that stand for no line of a file. */
const WORDS_ONLY: ReadonlySet<Role> = new Set(['market', 'tag', 'code']);

/** The declaration at a place, as a name. */
export function hereOf(place: Place): PlacedName {
  const { declaration, start } = place.placed;
  return { name: declaration.statement?.name?.text ?? '', uri: place.uri, declaration, start };
}

/**
 * What the words of a path up to and including `part` stand for at a place. A computed quantity resolves as far as it
 * names things: `TourerB.coupling.load` to the coupling.
 */
export function resolve(analysis: Analysis, place: Place, words: readonly string[], role: Role): Target | undefined {
  if (WORDS_ONLY.has(role)) return undefined;
  const here = hereOf(place);
  const [first = '', ...rest] = words;
  const top = lookupFirst(analysis, place.uri, first);
  // The whole combination, in the names of computed quantities.
  if (role === 'computed' && first === 'rig' && top === undefined) return declared(here);
  if (rest.length === 0) {
    const local = GLOBAL_ROLES.has(role) ? undefined : findLocal(analysis, place, here, first, role);
    return local ?? (top && accepts(DECLARATION_HEADS, role, headOf(top)) ? declared(top) : undefined);
  }
  if (top !== undefined && UNIT_HEADS.has(headOf(top))) return memberOf(analysis, top, rest) ?? declared(top);
  return findLocal(analysis, place, here, words.join('.'), role);
}

const declared = (placed: PlacedName): Target => ({ kind: 'declaration', placed });

/** The line of a unit that the longest beginning of a path names. */
function memberOf(analysis: Analysis, owner: PlacedName, words: readonly string[]): Target | undefined {
  const members = membersOf(analysis, owner);
  for (let length = words.length; length > 0; length--) {
    const name = words.slice(0, length).join('.');
    const member = members.find((candidate) => candidate.name === name);
    if (member !== undefined) return { kind: 'member', member, owner };
  }
  return undefined;
}

/** A line of the blocks around the place, of the declaration itself, or of the first unit that has one of that name. */
function findLocal(analysis: Analysis, place: Place, here: PlacedName, name: string, role: Role): Target | undefined {
  const fits = (member: Member, wanted: string): boolean =>
    member.name === wanted && accepts(MEMBER_HEADS, role, member.head);
  const own = [...membersIn(here.declaration.statement?.block?.statements ?? [], here)];
  for (const prefix of groupPrefixes(place)) {
    const member = own.find((candidate) => fits(candidate, prefix + name));
    if (member !== undefined) return { kind: 'member', member, owner: here };
  }
  for (const owner of ownersAt(analysis, place, here, role)) {
    const member = membersOf(analysis, owner).find((candidate) => fits(candidate, name));
    if (member !== undefined) return { kind: 'member', member, owner };
  }
  return undefined;
}

/** The units whose lines a name may stand for: of a place in a `stow` line only the unit that things are stowed in. */
function ownersAt(analysis: Analysis, place: Place, here: PlacedName, role: Role): readonly PlacedName[] {
  const statement = role === 'datum' ? place.path.at(-1)?.statement : undefined;
  return statement === undefined ? unitsInReach(analysis, here) : unitsAt(analysis, here, statement);
}

/** The units in reach of a declaration; of a statement that stows things in one unit, that unit. */
export function unitsAt(analysis: Analysis, here: PlacedName, statement: Statement): readonly PlacedName[] {
  const reach = unitsInReach(analysis, here);
  const name = stowedIn(statement);
  return reach.some((unit) => unit.name === name) ? reach.filter((unit) => unit.name === name) : reach;
}

/** First word of what stands behind `in` of a `stow` line. */
function stowedIn({ head, arguments: written }: Statement): string | undefined {
  if (head.text !== 'stow') return undefined;
  for (const argument of written) {
    if (argument.kind === 'references' && argument.keyword.text === 'in') {
      return argument.references[0]?.reference.path[0]?.text;
    }
  }
  return undefined;
}

/** What stands before the names of a unit's lines as seen from inside its groups, the innermost group first. */
export function groupPrefixes(place: Pick<Place, 'path'>): readonly string[] {
  const prefixes = [''];
  for (const { statement, spec } of place.path) {
    if (spec?.keyword === 'group' && statement.name) prefixes.unshift(`${prefixes[0]}${statement.name.text}.`);
  }
  return prefixes;
}

function accepts(heads: Readonly<Partial<Record<Role, ReadonlySet<string>>>>, role: Role, head: string): boolean {
  return heads[role]?.has(head) ?? true;
}

/** The units that figures of a declaration are shown in: of a rig those of its market, if it names one. */
export function systemShown(declaration: Declaration, entity: Entity | undefined): DisplaySystem {
  return entity?.kind === 'rig' ? systemOfRig(entity.rig) : systemOf(declaration);
}
