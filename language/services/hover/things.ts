import { marketNamed } from '../../catalogue/markets.ts';
import { catalogueByCode } from '../../levels/rule-codes.ts';
import type { PlacedName } from '../../semantics/analysis.ts';
import type { Statement } from '../../syntax/tree.ts';
import { findNamed } from '../details.ts';
import { bold, code, enumerate, list, paragraphs, plain } from '../markdown.ts';
import { ownTerms } from '../markets.ts';
import { headOf, lookupFirst, pathText, tagsOf } from '../names.ts';
import type { Node, Place } from '../nodes.ts';
import { quantityRow } from '../ratings.ts';
import { reachTable } from '../reach-figures.ts';
import { resolve, type Target } from '../resolve.ts';
import {
  groupHover,
  itemFacts,
  lockerHover,
  partHover,
  seatHover,
  stowedHover,
  stowedTest,
  tankHover,
} from './cargo.ts';
import { builtInFluidHover, catalogueHover } from './catalogue.ts';
import {
  assumptionList,
  assumptionsOfLine,
  entityOf,
  type HoverContext,
  incompleteList,
  statesShown,
  turnedOffWords,
  type UnitView,
  unitView,
} from './context.ts';
import { quantityWords } from './numbers.ts';
import { reachShown } from './reach.ts';
import { caseHover, heading, rigHover } from './rig.ts';
import { axlesHover, couplingHover, hitchHover } from './supports.ts';
import { unitHover } from './unit.ts';
import { evaluate } from './values.ts';
import { readingHover, weighingHover } from './weighing.ts';

type ReferenceNode = Extract<Node, { readonly kind: 'reference' }>;

/** The name that a declaration or one of its lines declares. */
export function nameHover(context: HoverContext, place: Place): string | undefined {
  const { here } = context;
  if (place.path.length === 1) return declarationHover(context, here);
  const { spec, statement } = place.path.at(-1) ?? {};
  if (spec?.keyword === 'weighing') return weighingHover(context, statement?.name?.text ?? '');
  const words = place.path.slice(1).flatMap(({ statement }) => statement.name?.text ?? []);
  const role = spec?.keyword === 'case' ? 'case' : 'datum';
  return targetHover(context, resolve(context.analysis, place, words.slice(-1), role));
}

/** A name where it is used. */
export function referenceHover(context: HoverContext, node: ReferenceNode): string | undefined {
  const { analysis, place, here, result, system } = context;
  const words = node.reference.path.slice(0, node.part + 1).map(({ text }) => text);
  if (node.role === 'market') return marketHover(node.span.text);
  if (node.role === 'code') return codeHover(node.span.text);
  if (node.role === 'reading') {
    const reading = readingHover(context, node.span);
    if (reading !== undefined) return reading;
  }
  if (node.role === 'tag') return tagHover(context, pathText(node.reference));
  const target = resolve(analysis, place, words, node.role);
  const whole = pathText(node.reference);
  if (node.role === 'computed' && node.part === node.reference.path.length - 1) {
    const computed = computedHover(context, whole);
    if (computed !== undefined) return computed;
  }
  if (target === undefined) return node.role === 'fluid' ? builtInFluidHover(whole, system) : undefined;
  if (target.kind === 'declaration' && headOf(target.placed) === 'item' && result !== undefined) {
    const entity = entityOf(analysis, target.placed);
    if (entity?.kind !== 'item') return undefined;
    const inStow = place.path.at(-1)?.spec?.keyword === 'stow';
    return stowedHover(
      context,
      entity.item,
      result,
      stowedTest(here, entity.item.name, inStow ? node.reference : undefined),
    );
  }
  return targetHover(context, target);
}

/** What a diagnostic of a code says, with what gives it its force. */
function codeHover(written: string): string | undefined {
  const entry = catalogueByCode().get(written);
  if (entry === undefined) return undefined;
  const { severity, title, meaning, source, authority } = entry.definition;
  return paragraphs(
    `${bold(written)} — ${severity}: ${plain(title)}`,
    plain(meaning),
    source && `Source: ${plain(source)}${authority === undefined ? '' : ` (${authority})`}.`,
  );
}

function marketHover(market: string): string | undefined {
  const known = marketNamed(market);
  if (known === undefined) return undefined;
  const terms = ownTerms(known.name).map(([name, { short, full }]) =>
    short === full ? `${name}: ${full}` : `${name}: ${short}, ${full}`,
  );
  return paragraphs(
    `**${market}** — market: ${known.title}. Its terms, units and rules apply.`,
    terms.length > 0 ? `Its words for what the language calls:\n${list(terms)}` : undefined,
  );
}

/** A computed quantity of the rig or unit hovered in, case by case. */
function computedHover(context: HoverContext, name: string): string | undefined {
  const { result, system } = context;
  const states = result ? statesShown(context, result) : [];
  if (!states.some((state) => state.quantities.has(name))) return undefined;
  return paragraphs(
    `**${plain(name)}**`,
    reachTable(result && reachShown(context, result), states, [quantityRow(name, 'value', system)], [], system),
    result && incompleteList(result),
  );
}

function targetHover(context: HoverContext, target: Target | undefined): string | undefined {
  if (target === undefined) return undefined;
  if (target.kind === 'declaration') return declarationHover(context, target.placed);
  const { member, owner } = target;
  if (member.head === 'let') return letHover(context, target);
  if (member.head === 'case') {
    const entity = entityOf(context.analysis, owner);
    const result = entity?.kind === 'rig' || entity?.kind === 'unit' ? entity.result : undefined;
    const model = result?.rig.cases.find(({ name }) => name === member.name);
    return result && model && caseHover(model, result, context.system);
  }
  const view = unitView(context, owner);
  if (view === undefined) return undefined;
  const hover = MEMBER_HOVERS[member.head]?.(context, member.name, view);
  const assumed = assumptionsOfLine(view.result, member.placed, member.statement, member.head);
  return hover && paragraphs(hover, assumptionList(assumed));
}

type MemberHover = (context: HoverContext, name: string, view: UnitView) => string | undefined;

const fixedPart: MemberHover = (context, name, view) => {
  const part = findNamed(view.unit.parts, name);
  return part && partHover(context, part, view);
};

/** What is shown for a line of a unit, by its head. */
const MEMBER_HOVERS: Readonly<Record<string, MemberHover>> = {
  tank: (context, name, view) => {
    const tank = findNamed(view.unit.tanks, name);
    return tank && tankHover(context, tank, view);
  },
  locker: (context, name, view) => {
    const locker = findNamed(view.unit.lockers, name);
    return locker && lockerHover(context, locker, view);
  },
  seat: (context, name, view) => {
    const seat = findNamed(view.unit.seats, name);
    return seat && seatHover(context, seat, view);
  },
  axles: (context, name, view) => {
    const group = findNamed(view.unit.groups, name);
    return group && axlesHover(context, [group], view);
  },
  coupling: (context, _, view) => couplingHover(context, view),
  hitch: (context, _, view) => hitchHover(context, view),
  group: groupHover,
  fitting: fixedPart,
  panel: fixedPart,
  member: fixedPart,
  tare: fixedPart,
  growth: fixedPart,
};

/** A whole declaration. */
function declarationHover(context: HoverContext, placed: PlacedName): string | undefined {
  const { analysis, system } = context;
  const entity = entityOf(analysis, placed);
  const { statement } = placed.declaration;
  if (entity === undefined) {
    return statement && paragraphs(heading(placed.name, statement.head.text), statement.documentation);
  }
  if (entity.kind === 'rig') {
    return paragraphs(rigHover(entity.rig, entity.result, system), turnedOffWords(context.analysis, placed));
  }
  if (entity.kind === 'unit') {
    const view = unitView(context, placed);
    return view && unitHover(context, placed, view);
  }
  if (entity.kind === 'item') {
    const { name, title, documentation } = entity.item;
    const facts = itemFacts(entity.item, system);
    return paragraphs(heading(name, 'item', title), documentation, facts, stowedIn(context, placed));
  }
  const title = statement?.arguments.find((argument) => argument.kind === 'text');
  const text = title?.kind === 'text' ? title.text.value : undefined;
  return catalogueHover(entity, system, text, statement?.documentation);
}

/** A named quantity of a block. */
function letHover(context: HoverContext, { member }: Extract<Target, { readonly kind: 'member' }>): string | undefined {
  const { expression, documentation } = member.statement;
  const value = expression && evaluate(context, member.placed, expression);
  return value && paragraphs(`**${plain(member.name)}**: ${quantityWords(value)}`, documentation);
}

/** More places than this are counted, not listed. */
const MOST_PLACES = 6;

/** The rigs of the workspace, and the cases of them and of units, in which an item is stowed, and where. */
function stowedIn({ analysis }: HoverContext, item: PlacedName): string | undefined {
  const places = analysis.users(item.name).flatMap(({ uri, declaration }) => {
    const { statement } = declaration;
    if (statement === undefined || lookupFirst(analysis, uri, item.name)?.declaration !== item.declaration) return [];
    const owner = `${statement.head.text} ${plain(statement.name?.text ?? '')}`;
    return stowLines(statement.block?.statements ?? [], item.name, owner, declaration.text);
  });
  if (places.length === 0) return undefined;
  const more = places.length - MOST_PLACES;
  return list(more > 0 ? [...places.slice(0, MOST_PLACES), `and ${more} more`] : places);
}

/** The `stow` lines that put an item somewhere, also those inside cases. */
function stowLines(lines: readonly Statement[], item: string, owner: string, text: string): readonly string[] {
  return lines.flatMap((line) => {
    const { head, name, block, objects, arguments: written, start, end } = line;
    if (head.text === 'case')
      return stowLines(block?.statements ?? [], item, `${owner}, case ${plain(name?.text ?? '')}`, text);
    const isPlaced =
      head.text === 'stow' && written.some((part) => part.kind === 'references' && part.keyword.text === 'in');
    if (!isPlaced || !objects.some(({ reference }) => pathText(reference) === item)) return [];
    return [`${owner}: ${code(text.slice(start, end).replace(/\s+/g, ' '))}`];
  });
}

/** The items that carry a tag. */
function tagHover({ analysis, place }: HoverContext, tag: string): string {
  const items = analysis.names(place.uri).filter(({ declaration }) => tagsOf(declaration.statement).includes(tag));
  const names = items.map(({ name }) => name);
  return paragraphs(heading(tag, 'tag'), `Carried by ${plain(enumerate(names, 12)) || 'no item'}.`);
}

/** The names that a `use` line brings. */
export function useHover(context: HoverContext): string | undefined {
  const { analysis, here } = context;
  const entity = entityOf(analysis, here);
  if (entity?.kind !== 'use') return undefined;
  const names = analysis.entities(entity.uri).flatMap(({ declaration }) => declaration.statement?.name?.text ?? []);
  return names.length > 0 ? `Declares ${plain(enumerate(names, 12))}.` : 'Declares no names.';
}
