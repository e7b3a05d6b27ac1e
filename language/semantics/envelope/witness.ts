import { listed } from '../../diagnostics/wording.ts';
import type { Choice } from '../../mechanics/envelope.ts';
import { type DisplaySystem, formatLength, formatMass, formatShare } from '../../units/display.ts';
import { systemOfRig } from '../display-system.ts';
import { stateWith, unitsWith } from '../evaluate.ts';
import type { CaseModel, LevelRange, RigModel } from '../model.ts';
import type { MotionLoads, StateResult } from '../state.ts';
import type { FreeSource } from './free-source.ts';
import type { Reach } from './reach.ts';

/** A state that no case names, told by what is other in it than in a named case. */
export interface Witness {
  readonly state: StateResult;
  /** The named case that it is told by. */
  readonly base: CaseModel;
  /** What moves most first. */
  readonly differences: readonly Difference[];
}

/** One thing that is other than in a named case. */
export interface Difference {
  /** `fresh 12 %`, `awning`, `Tourer.tare 28 kg heavier`. */
  readonly text: string;
  /** Of what is on board in one of the two states only. */
  readonly presence?: 'with' | 'without';
}

/**
 * The state in which every mass is as chosen (by index of `masses`), save those that `effect` gives nothing for: these are as
 * in the named case. `effect`: what a choice in place of another does to the figure that is looked at.
 */
export function witnessOf(
  { result: { rig } }: Reach,
  masses: readonly FreeSource[],
  choices: readonly Choice[],
  base: CaseModel,
  loads: MotionLoads,
  effect: (chosen: Choice, instead: Choice) => number,
): Witness {
  const told = masses.map((source, index) => {
    const own = source.inCase(base);
    const chosen = choices[index] ?? own;
    const does = chosen === own ? 0 : Math.abs(effect(chosen, own));
    return does > NO_EFFECT ? { source, chosen, own, does } : { source, chosen: own, own, does: 0 };
  });
  const differences = told
    .filter(({ does }) => does > 0)
    .sort((a, b) => b.does - a.does)
    .flatMap(({ source, chosen, own }) => differenceOf(rig, source, chosen, own));
  const state = caseWith(rig, base, told);
  const sources = told.flatMap(({ source, chosen }) => source.sourcesOf(chosen));
  const label = differencesText({ differences, base }, MOST_TOLD);
  return { state: stateWith(rig, loads, state, sources, unitsWith(rig, sources), label), base, differences };
}

/** kg (of whatever the figure counts): less is rounding. */
const NO_EFFECT = 1e-6;

/** As many differences are told; the others are counted. */
const MOST_TOLD = 4;

/** `with fresh 0 % and waste 100 %, without awning, else as in case homebound`; more than `most` differences are counted. */
export function differencesText(
  { differences, base: { name } }: Pick<Witness, 'differences' | 'base'>,
  most: number,
): string {
  if (differences.length === 0) return `in case ${name}`;
  const told = differences.slice(0, most);
  const rest = differences.length - told.length;
  const is = told.flatMap(({ text, presence }) => (presence === undefined ? [text] : []));
  const has = (wanted: Difference['presence']) =>
    told.flatMap(({ text, presence }) => (presence === wanted ? [text] : []));
  const phrase = (word: string, things: readonly string[]) =>
    things.length === 0 ? [] : [`${word} ${listed(things)}`];
  const phrases = [...phrase('with', [...is, ...has('with')]), ...phrase('without', has('without'))];
  return `${phrases.join(', ')}${rest > 0 ? `, ${rest} more` : ''}, else as in case ${name}`;
}

interface Told {
  readonly source: FreeSource;
  readonly chosen: Choice;
}

/** The load state as a case of its own: levels of all tanks, who is aboard, and what is stowed. */
function caseWith(rig: RigModel, base: CaseModel, told: readonly Told[]): CaseModel {
  const levels = new Map<string, LevelRange>();
  const occupants: string[] = [];
  const stowed = told.flatMap(({ source, chosen }) => source.stowedIn?.(chosen) ?? []);
  for (const { source, chosen } of told) {
    const value = source.levelIn?.(chosen);
    if (value !== undefined) levels.set(source.name, { value, least: value, most: value, location: base.location });
    if (source.kind === 'seat' && chosen.length > 0) occupants.push(source.name);
  }
  const kept = new Set(stowed);
  const gone = rig.stowed.filter((each) => !kept.has(each)).map(({ item }) => item.name);
  const absent = new Set(gone);
  const own = new Set(rig.stowed.filter(({ item }) => !absent.has(item.name)));
  const { name, title, location } = base;
  return {
    name,
    levels,
    occupants,
    absent,
    stowed: stowed.filter((each) => !own.has(each)),
    location,
    ...(title === undefined ? {} : { title }),
  };
}

function differenceOf(rig: RigModel, source: FreeSource, chosen: Choice, own: Choice): Difference[] {
  const system = systemOfRig(rig);
  const name = shortName(rig, source);
  const level = source.levelIn?.(chosen);
  if (level !== undefined && Math.abs(level - (source.levelIn?.(own) ?? 0)) > 1e-9)
    return [{ text: `${name} ${formatShare(level)}` }];
  if (chosen.length === 0) return [{ text: name, presence: 'without' }];
  if (own.length === 0) return [{ text: name, presence: 'with' }];
  const [a, b] = [source.stowedIn?.(chosen), source.stowedIn?.(own)];
  if (a !== undefined && b !== undefined && a.some((stowed) => !b.includes(stowed))) {
    const places = a.map(({ locker, unit }) => locker?.name ?? rig.units[unit]?.name ?? '');
    return [{ text: `${name} in ${places.join(' and ')}` }];
  }
  return toleranceWords(name, chosen, own, system);
}

function toleranceWords(name: string, chosen: Choice, own: Choice, system: DisplaySystem): Difference[] {
  const mass = (choice: Choice) => choice.reduce((sum, placed) => sum + placed.mass, 0);
  const [a, b] = [chosen[0], own[0]];
  const steps: string[] = [];
  const heavier = mass(chosen) - mass(own);
  if (Math.abs(heavier) > 1e-9)
    steps.push(`${formatMass(Math.abs(heavier), system)} ${heavier > 0 ? 'heavier' : 'lighter'}`);
  if (a !== undefined && b !== undefined) {
    const moves = [
      [a.centre.x - b.centre.x, 'ahead', 'back'],
      [a.centre.y - b.centre.y, 'left', 'right'],
      [a.centre.z - b.centre.z, 'up', 'down'],
    ] as const;
    for (const [by, positive, negative] of moves) {
      if (Math.abs(by) > 1e-9) steps.push(`${formatLength(Math.abs(by), system)} ${by > 0 ? positive : negative}`);
    }
  }
  return steps.length === 0 ? [] : [{ text: `${name} ${steps.join(' and ')}` }];
}

/** Tanks and seats by their own name where it is the only one in the rig. */
function shortName({ units }: RigModel, { name, kind }: FreeSource): string {
  if (kind !== 'tank' && kind !== 'seat') return name;
  const own = name.slice(name.indexOf('.') + 1);
  const all = units.flatMap(({ tanks, seats }) => [...tanks, ...seats].map((each) => each.name));
  return all.filter((each) => each === own).length === 1 ? own : name;
}
