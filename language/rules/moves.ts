import type { MassSource } from '../mechanics/influence.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { Locker, Stowed, Tank } from '../semantics/model.ts';
import { levelOf } from '../semantics/sources.ts';
import type { Source, StateResult } from '../semantics/state.ts';
import { type DisplaySystem, formatLength, formatMass, formatShare } from '../units/display.ts';
import { admissibility, type MassChange } from './admissible.ts';
import { shortfall } from './fit.ts';
import type { Goal, Place } from './goal.ts';
import { compareNames } from './places.ts';
import { ROUNDING } from './states.ts';

/** A change of the loading that helps. */
interface Help {
  /** `Moving awning (38 kg) to TourerB.galley`. */
  readonly action: string;
  readonly changes: readonly MassChange[];
  /** kg by which it brings the goal nearer. */
  readonly effect: number;
  /** kg it moves or drains: less is less trouble. */
  readonly mass: number;
}

/** What helps less than this share of what is wanted is not worth a word. */
const WORTH = 0.02;
const NUDGE = 0.1;
/** Levels are proposed in steps of 5 %. */
const LEVEL_STEP = 0.05;

/**
 * What would bring a load nearer to its goal, in one sentence: "Moving awning (38 kg) to TourerB.galley takes off 41 kg."
 * In this order: the lightest stowed items that another locker with room takes and that mend it all; else the move or
 * the draining of a tank that does most; else what most is gained by moving by 100 mm; else what would stay behind.
 * Nothing is proposed that would break another limit of the rig. Undefined where nothing helps.
 */
export function helpFor(state: StateResult, goal: Goal): string | undefined {
  const { isAdmissible } = stowageOf(state);
  const best = (helps: readonly Help[]): Help | undefined => {
    const worthwhile = helps.filter((each) => each.effect >= WORTH * goal.excess && isWanted(goal, each));
    return worthwhile.sort((a, b) => compareHelps(goal, a, b)).find(({ changes }) => isAdmissible(changes));
  };
  const move = best(stowageMoves(state, goal));
  const draining = best(drainings(state, goal));
  const drains = draining !== undefined && (move === undefined || prefersDraining(goal, move, draining));
  const system = systemOfRig(state.rig);
  const whole = drains ? draining : move;
  if (whole !== undefined) return tell(whole, goal, system, mends(goal, whole));
  // A short move tells what a longer one does.
  const nudge = best(nudges(state, goal));
  if (nudge !== undefined) return tell(nudge, goal, system, true);
  const leaving = best(leavings(state, goal));
  return leaving && tell(leaving, goal, system, mends(goal, leaving));
}

/** What mends all comes first, the lightest first; then what does most. */
function compareHelps(goal: Goal, a: Help, b: Help): number {
  const mending = Number(mends(goal, b)) - Number(mends(goal, a));
  const lighter = a.mass - b.mass;
  const stronger = b.effect - a.effect;
  const order = mends(goal, a) ? lighter || stronger : stronger || lighter;
  return mending || order || compareNames(a.action, b.action);
}

/** Draining changes what is on board, so it has to do more than a move that does not mend all. */
function prefersDraining(goal: Goal, move: Help, draining: Help): boolean {
  return !mends(goal, move) && draining.effect > move.effect;
}

/** Whether the load that the effect is told in goes the way that is wanted. */
function isWanted({ wanted, told, at }: Goal, { changes }: Help): boolean {
  if (wanted === undefined) return true;
  const change = total(changes, told ?? at);
  return wanted === 'more' ? change > 0 : change < 0;
}

function mends(goal: Goal, { effect }: Help): boolean {
  return effect >= goal.excess - ROUNDING;
}

function tell({ action, changes }: Help, goal: Goal, system: DisplaySystem, isEnough: boolean): string {
  const change = total(changes, goal.told ?? goal.at);
  const effect = `${change < 0 ? 'takes off' : 'adds'} ${formatMass(Math.abs(change), system)}`;
  return `${action} ${effect}${goal.of === undefined ? '' : ` of ${goal.of}`}${isEnough ? '' : ', which is not enough'}.`;
}

function total(changes: readonly MassChange[], at: (place: Place) => number): number {
  return changes.reduce((sum, { mass, place }) => sum + mass * at(place), 0);
}

function help(action: string, mass: number, changes: readonly MassChange[], goal: Goal): Help {
  return { action, changes, mass, effect: -total(changes, goal.at) };
}

/** Moves of what is stowed to other lockers that have room for it. */
function stowageMoves(state: StateResult, goal: Goal): Help[] {
  const { loads, lockers } = worthPairing(stowageOf(state), goal);
  const moves: Help[] = [];
  const system = systemOfRig(state.rig);
  for (const { source, stowed } of loads) {
    for (const { unit, locker, name, room } of lockers) {
      const here = stowed.unit === unit && stowed.locker?.name === locker.name;
      if (here || source.mass > room + ROUNDING || !fits(stowed, locker)) continue;
      const action = stowageAction(stowed, source.mass, name, system);
      const target = { unit, locker, centre: standingIn(locker, stowed) };
      moves.push(help(action, source.mass, shift(source, target), goal));
    }
  }
  return moves;
}

/** So many pairs of a stowed load and a locker are looked at for one goal, so that help takes a bounded time. */
const MOST_PAIRS = 4096;
/** So many lockers are paired where there are more pairs than that. */
const MOST_LOCKERS = 64;

/** All pairs where they are few; else the lockers in which a mass weighs least, and the loads that gain most there. */
function worthPairing({ loads, lockers }: Stowage, goal: Goal): Pick<Stowage, 'loads' | 'lockers'> {
  if (loads.length * lockers.length <= MOST_PAIRS) return { loads, lockers };
  const targets = least(lockers, MOST_LOCKERS, goal.at);
  const lowest = Math.min(...targets.map(goal.at));
  const count = Math.floor(MOST_PAIRS / targets.length);
  return {
    loads: least(loads, count, ({ source }) => source.mass * (lowest - goal.at(placeOf(source)))),
    lockers: targets,
  };
}

/** The `count` of them with the least measure; equals in the order of their names. */
function least<T extends { readonly name: string }>(
  all: readonly T[],
  count: number,
  measure: (each: T) => number,
): T[] {
  const measured = all.map((each) => ({ each, value: measure(each) }));
  measured.sort((a, b) => a.value - b.value || compareNames(a.each.name, b.each.name));
  return measured.slice(0, count).map(({ each }) => each);
}

function shift(source: MassSource<Source>, target: Place): MassChange[] {
  return [
    { mass: -source.mass, place: placeOf(source) },
    { mass: source.mass, place: { ...target, sort: source.sort } },
  ];
}

function placeOf({ id, unit, centre, sort }: MassSource<Source>): Place {
  return { unit, centre, locker: id.stowed?.locker, sort };
}

/** What there is to move in a state and where to, whatever the goal. */
interface Stowage {
  readonly isAdmissible: (changes: readonly MassChange[]) => boolean;
  readonly loads: readonly { readonly name: string; readonly source: MassSource<Source>; readonly stowed: Stowed }[];
  /** Those that still take the lightest load; `room` is in kg, without bound where no limit is stated. */
  readonly lockers: readonly (Place & { readonly name: string; readonly locker: Locker; readonly room: number })[];
}

const stowages = new WeakMap<StateResult, Stowage>();

function stowageOf(state: StateResult): Stowage {
  const known = stowages.get(state);
  if (known !== undefined) return known;
  const loads = state.sources.flatMap((source) => {
    const { stowed } = source.id;
    return stowed === undefined ? [] : [{ name: stowed.item.name, source, stowed }];
  });
  const lightest = loads.reduce((mass, { source }) => Math.min(mass, source.mass), Infinity);
  const lockers = lockersOf(state).filter(({ room }) => lightest <= room + ROUNDING);
  const stowage = { isAdmissible: admissibility(state), loads, lockers };
  stowages.set(state, stowage);
  return stowage;
}

/** All lockers, with what each may still take. */
function lockersOf(state: StateResult): Stowage['lockers'] {
  const held = new Map<string, number>();
  for (const { id, mass } of state.sources) {
    if (id.stowed?.locker === undefined) continue;
    const name = `${state.rig.units[id.stowed.unit]?.name}.${id.stowed.locker.name}`;
    held.set(name, (held.get(name) ?? 0) + mass);
  }
  return state.rig.units.flatMap((model, unit) =>
    model.lockers.map((locker) => {
      const name = `${model.name}.${locker.name}`;
      const room = (locker.holds?.value ?? Infinity) - (held.get(name) ?? 0);
      return { unit, locker, centre: locker.centre, name, room };
    }),
  );
}

function fits({ item }: Stowed, locker: Locker): boolean {
  return item.size === undefined || shortfall(item.size, locker) === 0;
}

/** Centre of an item that stands in the middle of the floor. */
function standingIn({ centre }: Locker, { item }: Stowed) {
  return { ...centre, z: centre.z + (item.size?.height ?? 0) / 2 };
}

function itemWords({ item, count }: Stowed, mass: number, system: DisplaySystem): string {
  return `${count === 1 ? '' : `${count} x `}${item.name} (${formatMass(mass, system)})`;
}

/** What is on board to be burnt or used up on the way is not proposed to be left behind. */
const FUELS: ReadonlySet<string> = new Set(['diesel', 'petrol', 'LPG', 'AUS32']);

/** Draining of each tank as far as it takes, in the place where its fluid is now. */
function drainings(state: StateResult, goal: Goal): Help[] {
  const drained: Help[] = [];
  for (const source of state.sources) {
    const tank = source.id.kind === 'tank' ? tankOf(state, source) : undefined;
    const unit = state.rig.units[source.unit];
    const level = unit && tank && levelOf(unit, tank, state.case).value;
    const place = placeOf(source);
    const perLevel = tank === undefined ? 0 : tank.content * goal.at(place);
    if (tank === undefined || level === undefined || perLevel <= 0 || FUELS.has(tank.fluid.name)) continue;
    const steps = Math.floor((level - goal.excess / perLevel) / LEVEL_STEP + 1e-9);
    const left = Math.max(0, steps * LEVEL_STEP);
    const mass = tank.content * (level - left);
    const action = `Draining ${source.id.name} from ${formatShare(level)} to ${formatShare(left)}`;
    drained.push(help(action, mass, [{ mass: -mass, place }], goal));
  }
  return drained;
}

function tankOf(state: StateResult, { id, unit }: MassSource<Source>): Tank | undefined {
  const model = state.rig.units[unit];
  return model?.tanks.find(({ name }) => `${model.name}.${name}` === id.name);
}

const MOVABLE: ReadonlySet<string> = new Set(['item', 'tank', 'fitting']);

/** Short moves of what can be moved, m, with the words for them. */
export const NUDGES = [
  { x: NUDGE, y: 0, word: 'ahead' },
  { x: -NUDGE, y: 0, word: 'back' },
  { x: 0, y: NUDGE, word: 'to the left' },
  { x: 0, y: -NUDGE, word: 'to the right' },
] as const;

/** Moves of items, tanks and fittings by 100 mm. */
function nudges(state: StateResult, goal: Goal): Help[] {
  const system = systemOfRig(state.rig);
  return state.sources
    .filter(({ id }) => MOVABLE.has(id.kind))
    .flatMap((source) =>
      NUDGES.map(({ x, y, word }) => {
        const place = placeOf(source);
        const { centre } = source;
        const target = { ...place, centre: { x: centre.x + x, y: centre.y + y, z: centre.z } };
        return help(nudgeAction(source, word, system), source.mass, shift(source, target), goal);
      }),
    );
}

/** How advice speaks of moving what is stowed to another locker: `Moving awning (38 kg) to TourerB.galley`. */
export function stowageAction(stowed: Stowed, mass: number, locker: string, system: DisplaySystem): string {
  return `Moving ${itemWords(stowed, mass, system)} to ${locker}`;
}

/** How advice speaks of moving something by 100 mm: `Moving TourerB.fresh 100 mm ahead`. */
export function nudgeAction({ id, mass }: MassSource<Source>, word: string, system: DisplaySystem): string {
  const what = id.stowed === undefined ? id.name : itemWords(id.stowed, mass, system);
  return `Moving ${what} ${formatLength(NUDGE, system)} ${word}`;
}

/** How advice speaks of leaving behind what is stowed: `Leaving awning (38 kg) behind`. */
export function leaveAction(stowed: Stowed, mass: number, system: DisplaySystem): string {
  return `Leaving ${itemWords(stowed, mass, system)} behind`;
}

/** Leaving behind what is stowed. */
function leavings(state: StateResult, goal: Goal): Help[] {
  const system = systemOfRig(state.rig);
  return state.sources.flatMap((source) => {
    const { stowed } = source.id;
    if (stowed === undefined) return [];
    const changes = [{ mass: -source.mass, place: placeOf(source) }];
    return [help(leaveAction(stowed, source.mass, system), source.mass, changes, goal)];
  });
}
