import type { AlsoIn, LoadBreach } from '../diagnostics/wording.ts';
import { type Influence, sumInfluences } from '../mechanics/influence.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { RigResult, StateResult } from '../semantics/state.ts';

/** Masses nearer than a gram to their limit hold it: that is rounding, and would be shown as nothing. */
export const ROUNDING = 0.001;

/** The states at which plates are checked: standing on level ground, one for each case. */
export function levelStates(result: RigResult): readonly StateResult[] {
  return result.states.filter(({ motion }) => motion.kind === 'level');
}

/** A computed quantity of a state; undefined where the state has none of that name. */
export function quantityOf(state: StateResult, name: string): number | undefined {
  return state.quantities.get(name)?.value;
}

/** The sum of computed quantities; undefined unless the state has all of them. */
export function sumOf(state: StateResult, names: readonly string[]): number | undefined {
  let sum = 0;
  for (const name of names) {
    const value = quantityOf(state, name);
    if (value === undefined) return undefined;
    sum += value;
  }
  return sum;
}

/** The sum of loads as a function of all masses; undefined unless all of them are loads of the state. */
export function influenceOf(state: StateResult, names: readonly string[]): Influence | undefined {
  const influences: Influence[] = [];
  for (const name of names) {
    const influence = state.quantities.get(name)?.influence;
    if (influence === undefined) return undefined;
    influences.push(influence);
  }
  return sumInfluences(state.rig.units.length, influences);
}

/** A load less `limit` kg: positive where the load is more than that. */
export function beyond(load: Influence | undefined, limit: number): readonly Influence[] | undefined {
  return load && [{ ...load, constant: load.constant - limit }];
}

/** The worst of the states that break a limit, by how much, and the others. */
export interface Worst {
  readonly state: StateResult;
  readonly by: number;
  readonly also: readonly AlsoIn[];
}

/**
 * The states in which `excess` is more than `least` (0 unless said otherwise), as one breach: the worst, and the others
 * worst first; equals in the order of the states. Undefined where there are none.
 */
export function worstOf(
  states: readonly StateResult[],
  excess: (state: StateResult) => number | undefined,
  least = 0,
): Worst | undefined {
  const broken = states
    .map((state) => ({ state, by: excess(state) ?? Number.NEGATIVE_INFINITY }))
    .filter(({ by }) => by > least)
    .sort((a, b) => b.by - a.by);
  const [worst, ...others] = broken;
  if (worst === undefined) return undefined;
  return { ...worst, also: others.map(({ state, by }) => ({ state: state.label, by })) };
}

/** The words for a breach. */
export function breachOf({ state, also }: Worst, help?: string): LoadBreach {
  return { state: state.label, also, help, system: systemOfRig(state.rig) };
}
