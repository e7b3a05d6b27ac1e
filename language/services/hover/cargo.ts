import type { PlacedName } from '../../semantics/analysis.ts';
import type { Item, Locker, Part, Seat, Tank, UnitModel } from '../../semantics/model.ts';
import { levelOf } from '../../semantics/sources.ts';
import type { RigResult, Source, StateResult } from '../../semantics/state.ts';
import { DENSITY, VOLUME } from '../../units/dimension.ts';
import { type DisplaySystem, formatLength, formatMass, formatValue } from '../../units/display.ts';
import { contributionTable, effectTable, massOf, type SourceTest } from '../contributions.ts';
import { levelWords, placeWords, sizeWords } from '../figures.ts';
import { list, paragraphs, plain, table } from '../markdown.ts';
import { marginWords } from '../ratings.ts';
import { caseTable, type Row } from '../tables.ts';
import { tankWindow } from './amount-window.ts';
import { type HoverContext, inRigs, statesShown, type UnitView } from './context.ts';
import { reachableLevelWords } from './reachable.ts';
import { heading } from './rig.ts';
import { stabilityEffect } from './stability.ts';
import { thingStability } from './stability-in-rigs.ts';

const ON_BOARD = 'on board';

/** The mass row that stands above contributions. */
function massRow(test: SourceTest, system: DisplaySystem, label = 'mass'): Row {
  return { label, value: (state) => massOf(state, test), format: (mass) => formatMass(mass, system) };
}

/** A tank: what it holds in each case, where, and what that does to the coupling and the axles. */
export function tankHover(context: HoverContext, tank: Tank, view: UnitView): string {
  const { system } = context;
  const { unit, result } = view;
  const name = `${unit.name}.${tank.name}`;
  const test: SourceTest = (source) => source.kind === 'tank' && source.name === name;
  const states = statesShown(context, result);
  const { fluid, capacity, content, empty } = tank;
  const facts = [
    `${formatValue(capacity, VOLUME, system)} of ${fluid.name}`,
    `${formatMass(content, system)} when full`,
    ...(empty > 0 ? [`empty ${formatMass(empty, system)}`] : []),
  ];
  return paragraphs(
    heading(tank.name, `tank of ${unit.name}`, tank.title),
    tank.documentation,
    `${plain(facts.join(', '))}; ${formatValue(fluid.density, DENSITY, system)} (${plain(fluid.source)}). Middle ${placeWords(tank.centre, system)}.`,
    reachableLevelWords(result, unit, tank),
    contributionTable(result, states, test, system, [levelRow(unit, tank), massRow(test, system)], content + empty),
    tankWindow(context, view, name),
    thingStability(context, view, test),
  );
}

/** The level of a tank in each state; the range where one is stated. */
function levelRow(unit: UnitModel, tank: Tank): Row {
  return {
    label: 'level',
    value: (state) => levelOf(unit, tank, state.case).value,
    format: (_, state) => levelWords(levelOf(unit, tank, state.case)),
  };
}

/** A fixed part of a unit. */
export function partHover(context: HoverContext, part: Part, view: UnitView): string {
  const { system } = context;
  const { unit, result } = view;
  const name = `${unit.name}.${part.name}`;
  const test: SourceTest = (source) => source.name === name;
  const tolerance = part.tolerance === undefined ? '' : ` ± ${formatMass(part.tolerance, system)}`;
  const size = part.size === undefined ? '' : ` ${sizeWords(part.size, system)}.`;
  return paragraphs(
    heading(part.name, `${part.kind} of ${unit.name}`, part.title),
    part.documentation,
    `${formatMass(part.body.mass, system)}${tolerance}, middle ${placeWords(part.body.centre, system)}.${size}`,
    contributionTable(result, statesShown(context, result), test, system),
    part.kind === 'fitting' ? thingStability(context, view, test) : undefined,
  );
}

/** A group of parts: what they weigh together. */
export function groupHover(context: HoverContext, name: string, { unit, result }: UnitView): string {
  const { system } = context;
  const prefix = `${unit.name}.${name}.`;
  const test: SourceTest = (source) => source.name.startsWith(prefix);
  const parts = unit.parts.filter((part) => part.name.startsWith(`${name}.`));
  return paragraphs(
    heading(name, `group of ${parts.length} part${parts.length === 1 ? '' : 's'} of ${unit.name}`),
    contributionTable(result, statesShown(context, result), test, system, [massRow(test, system)]),
  );
}

/** A seat and who sits in it. */
export function seatHover(context: HoverContext, seat: Seat, { unit, result }: UnitView): string {
  const { system } = context;
  const name = `${unit.name}.${seat.name}`;
  const test: SourceTest = (source) => source.kind === 'seat' && source.name === name;
  const contributions = contributionTable(result, statesShown(context, result), test, system, [
    massRow(test, system, ON_BOARD),
  ]);
  return paragraphs(
    heading(seat.name, `seat of ${unit.name}`, seat.title),
    `${formatMass(seat.mass, system)} when taken, ${placeWords(seat.centre, system)}.`,
    contributions || 'Not taken in any case shown here. When it is taken:',
    contributions
      ? undefined
      : effectTable(result, result.rig.units.indexOf(unit), seat.centre, seat.mass, 'adds', system),
  );
}

/** What is stowed in a locker, and the room that is left. */
export function lockerHover(context: HoverContext, locker: Locker, { unit, result, owner }: UnitView): string {
  const { system } = context;
  const index = result.rig.units.indexOf(unit);
  const test = inLocker(index, locker);
  const states = statesShown(context, result);
  const size = [
    ['long', locker.length],
    ['wide', locker.width],
    ['high', locker.height],
  ].flatMap(([word, extent]) => (typeof extent === 'number' ? `${formatLength(extent, system)} ${word}` : []));
  const { holds } = locker;
  const rows: Row[] = [massRow(test, system, 'stowed in it')];
  if (holds !== undefined) {
    rows.push({
      label: 'room left',
      value: (state) => holds.value - massOf(state, test),
      format: (margin) => (margin < 0 ? marginWords(margin, system) : formatMass(margin, system)),
    });
  }
  return paragraphs(
    heading(locker.name, `locker of ${unit.name}`, locker.title),
    locker.documentation,
    `Middle of its floor ${placeWords(locker.centre, system)}${size.length > 0 ? `; ${size.join(', ')}` : ''}${holds ? `; holds ${formatMass(holds.value, system)}` : ''}.`,
    states.some((state) => massOf(state, test) > 0) || !result.rig.standalone
      ? caseTable(states, rows, [])
      : inRigs(context, owner, (rig) => stowedInRig(rig, unit.name, locker, system)),
    contentTable(states, test, system),
    effectTable(result, index, locker.centre, TRIAL_MASS[system].mass, TRIAL_MASS[system].head, system),
  );
}

/** `35 kg stowed, 45 kg left`: the fullest case of a rig. */
function stowedInRig(
  { rig, states }: RigResult,
  unit: string,
  locker: Locker,
  system: DisplaySystem,
): string | undefined {
  const index = rig.units.findIndex(({ name }) => name === unit);
  const masses = states.map((state) => massOf(state, inLocker(index, locker)));
  const most = Math.max(0, ...masses);
  if (most === 0) return undefined;
  const left = locker.holds === undefined ? '' : `, ${marginWords(locker.holds.value - most, system)}`;
  return `${formatMass(most, system)} stowed${left}`;
}

function inLocker(unit: number, locker: Locker): SourceTest {
  return ({ stowed }) => stowed?.unit === unit && stowed.locker?.name === locker.name;
}

/** Mass (kg) whose effect on the loads a locker shows, and the head of the column. */
const TRIAL_MASS: Readonly<Record<DisplaySystem, { readonly mass: number; readonly head: string }>> = {
  metric: { mass: 10, head: '10 kg more in its middle' },
  US: { mass: 9.0718474, head: '20 lb more in its middle' },
};

/** More items than this are counted, not listed. */
const MOST_ITEMS = 8;

function contentTable(states: readonly StateResult[], test: SourceTest, system: DisplaySystem): string {
  const content = new Map<string, Source>();
  for (const { sources } of states) {
    for (const { id } of sources) if (test(id)) content.set(id.name, id);
  }
  const entries = [...content.values()].map(({ stowed, body }) => [
    plain(stowed?.item.name ?? ''),
    String(stowed?.count ?? 1),
    formatMass(body.mass, system),
  ]);
  const more = entries.length - MOST_ITEMS;
  const rows = more > 0 ? [...entries.slice(0, MOST_ITEMS), [`and ${more} more`, '', '']] : entries;
  return table(
    [
      { head: 'item', align: 'left' },
      { head: 'count', align: 'right' },
      { head: 'mass', align: 'right' },
    ],
    rows,
  );
}

/** An item as declared. */
export function itemFacts(item: Item, system: DisplaySystem): string {
  const tolerance = item.tolerance === undefined ? '' : ` ± ${formatMass(item.tolerance, system)}`;
  const size = item.size === undefined ? '' : `, ${sizeWords(item.size, system)}`;
  const tags = item.tags.length > 0 ? `; ${plain(item.tags.join(', '))}` : '';
  return `${formatMass(item.mass, system)}${tolerance}${size}${tags}.`;
}

/** An item where it is stowed: what it weighs, where it lies, what that does and what moving it would do. */
export function stowedHover(context: HoverContext, item: Item, result: RigResult, test: SourceTest): string {
  const { system } = context;
  const states = statesShown(context, result);
  const stowed = new Map<string, string>();
  for (const { sources } of states) {
    for (const { id } of sources) {
      if (!test(id) || id.stowed === undefined) continue;
      const { count, unit, locker, centre } = id.stowed;
      const name = result.rig.units[unit]?.name ?? '';
      const where = locker === undefined ? name : `${name}.${locker.name}`;
      const each = count === 1 ? '' : ` each, ${formatMass(count * item.mass, system)} together`;
      stowed.set(
        id.name,
        `${count === 1 ? '' : `${count} x `}in ${plain(where)}: ${formatMass(item.mass, system)}${each}; middle ${placeWords(centre, system)}`,
      );
    }
  }
  return paragraphs(
    heading(item.name, 'item', item.title),
    item.documentation,
    stowed.size === 0 ? itemFacts(item, system) : list([...stowed.values()]),
    stowed.size === 0
      ? `Not on board in ${states.length === 1 ? (states[0]?.label ?? 'this case') : 'any case shown here'}.`
      : contributionTable(result, states, test, system, [massRow(test, system, ON_BOARD)]),
    stowed.size === 0 ? undefined : stabilityEffect(result.rig, test, system),
  );
}

/** Whether a source is the item of an entry of a `stow` line, or any entry's item of a name. */
export function stowedTest(here: PlacedName, name: string, span?: { start: number; end: number }): SourceTest {
  return ({ stowed }) => {
    if (stowed?.item.name !== name) return false;
    if (span === undefined) return true;
    const { declaration, span: written } = stowed.location;
    return declaration === here.declaration && written.start <= span.end && span.start <= written.end;
  };
}
