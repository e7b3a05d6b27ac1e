import { listed } from '../../diagnostics/wording.ts';
import type { Amounts, FreeSource } from '../../semantics/envelope/free-source.ts';
import type { Item, RigModel, Tank } from '../../semantics/model.ts';
import { nearestName } from '../../semantics/nearest.ts';
import type { Reaches } from '../reach/check-reach.ts';

/** A tank or an item whose amount is chosen. */
export type Chosen = {
  /** `Tourer.fresh`, or the item's name. */
  readonly name: string;
  /** `fresh`, where no other tank of the rig and no item is called that. */
  readonly short: string;
  /** The amounts that are looked at: levels from 0 to 1, or pieces. */
  readonly least: number;
  readonly most: number;
} & (
  | { readonly kind: 'tank'; readonly tank: Tank }
  | { readonly kind: 'item'; readonly item: Item; readonly pieces: number }
);

/** A name that stands for nothing that can be chosen, and what may have been meant: one sentence. */
export interface ChoiceProblem {
  readonly problem: string;
}

/** The tanks and items of a rig that an amount can be chosen of. */
export function choosable({ whole }: Reaches): readonly Chosen[] {
  const { rig } = whole.result;
  return whole.free.flatMap((source) => chosenOf(rig, source) ?? []);
}

/** The tank or item of a name, with or without its unit. */
export function choose(reaches: Reaches, name: string): Chosen | ChoiceProblem {
  const all = choosable(reaches);
  const found = all.find((each) => each.name === name) ?? oneOf(all.filter((each) => ownName(each) === name));
  if (found === undefined) return { problem: unknownWords(reaches, all, name) };
  if ('problem' in found) return found;
  if (found.least < found.most) return found;
  return { problem: `the reachable states of the rig leave ${found.short} at one level; there is nothing to choose` };
}

/** Two of them, which have to be different. */
export function chooseTwo(
  reaches: Reaches,
  [one, other]: readonly [string, string],
): readonly [Chosen, Chosen] | ChoiceProblem {
  const [first, second] = [choose(reaches, one), choose(reaches, other)];
  if ('problem' in first) return first;
  if ('problem' in second) return second;
  if (first.name === second.name) return { problem: `${first.name} is named twice; name two different ones` };
  return [first, second];
}

function oneOf(found: readonly Chosen[]): Chosen | ChoiceProblem | undefined {
  if (found.length < 2) return found[0];
  return { problem: `it can be ${found.map(({ name }) => name).join(' or ')}; name its unit too` };
}

const ownName = ({ name, kind }: Pick<Chosen, 'name' | 'kind'>): string =>
  kind === 'tank' ? name.slice(name.indexOf('.') + 1) : name;

function chosenOf(rig: RigModel, { name, kind, amounts }: FreeSource): Chosen | undefined {
  if (amounts === undefined) return undefined;
  const { least, most } = amounts;
  if (kind === 'tank') {
    const unit = rig.units.find((each) => name.startsWith(`${each.name}.`));
    const tank = unit?.tanks.find((each) => `${unit.name}.${each.name}` === name);
    return tank && { name, short: shortName(rig, name, tank.name), least, most, kind, tank };
  }
  const item = itemNamed(rig, name);
  return item && { name, short: name, least, most, kind: 'item', item, pieces: most };
}

function shortName({ units }: RigModel, name: string, own: string): string {
  const called = units.flatMap(({ tanks }) => tanks).filter((each) => each.name === own);
  return called.length === 1 ? own : name;
}

function itemNamed({ stowed, cases }: RigModel, name: string): Item | undefined {
  return [...stowed, ...cases.flatMap((each) => each.stowed)].find(({ item }) => item.name === name)?.item;
}

/** As many names are told where none is near. */
const MOST_TOLD = 6;

function unknownWords({ whole }: Reaches, all: readonly Chosen[], name: string): string {
  const { rig } = whole.result;
  const other = otherKind(rig, name);
  const names = all.map(({ short }) => short);
  const some = names.length > MOST_TOLD ? [...names.slice(0, MOST_TOLD), `${names.length - MOST_TOLD} more`] : names;
  const there = names.length === 0 ? 'it has none' : `it has ${listed(some)}`;
  if (other !== undefined) return `${name} is a ${other} of ${rig.name}, no tank or item; ${there}`;
  const near = nearestName(name, [...names, ...all.map((each) => each.name)]);
  return `no tank or item of ${rig.name} is called ${name}; ${near === undefined ? there : `did you mean ${near}?`}`;
}

function otherKind({ units }: RigModel, name: string): 'seat' | 'part' | undefined {
  const isOne = (unit: string, own: string) => name === own || name === `${unit}.${own}`;
  if (units.some((unit) => unit.seats.some((seat) => isOne(unit.name, seat.name)))) return 'seat';
  return units.some((unit) => unit.parts.some((part) => isOne(unit.name, part.name))) ? 'part' : undefined;
}

/** What there is of something chosen, as masses; undefined of something that is not on board in a reach. */
export function amountsIn(masses: readonly FreeSource[], { name }: Pick<Chosen, 'name'>): Amounts | undefined {
  return masses.find((source) => source.name === name)?.amounts;
}
