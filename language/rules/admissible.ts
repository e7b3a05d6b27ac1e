import { evaluateLoadValue, influenceAt } from '../mechanics/influence.ts';
import type { StateResult } from '../semantics/state.ts';
import type { Place } from './goal.ts';
import { limitedLoads } from './limited-loads.ts';
import { influenceOf, ROUNDING, sumOf } from './states.ts';
import { carriesLoad } from './subjects.ts';

/** So many kg more (or fewer) at a place. */
export interface MassChange {
  readonly mass: number;
  readonly place: Place;
}

/** Tells whether changes of masses break no limit of the rig that now holds, and leave no coupling pulled up. */
export function admissibility(state: StateResult): (changes: readonly MassChange[]) => boolean {
  const bounds = boundsOf(state).filter(({ room }) => room >= 0);
  return (changes) => bounds.every(({ room, rise }) => sumChanges(changes, rise) <= room + ROUNDING);
}

function sumChanges(changes: readonly MassChange[], rise: (place: Place) => number): number {
  return changes.reduce((sum, { mass, place }) => sum + mass * rise(place), 0);
}

interface Bound {
  /** kg left to the limit. */
  readonly room: number;
  readonly rise: (place: Place) => number;
}

function boundsOf(state: StateResult): Bound[] {
  const bounds: Bound[] = [];
  for (const { names, limit } of limitedLoads(state.rig)) {
    const influence = influenceOf(state, names);
    const value = sumOf(state, names);
    if (influence === undefined || value === undefined) continue;
    bounds.push({ room: limit.value - value, rise: ({ unit, centre }) => influenceAt(influence, unit, centre) });
  }
  for (const { name, coupling } of state.rig.units) {
    if (coupling === undefined || !carriesLoad(coupling)) continue;
    const influence = influenceOf(state, [`${name}.coupling.load`]);
    if (influence === undefined) continue;
    bounds.push({
      room: evaluateLoadValue(influence, state.sources),
      rise: ({ unit, centre }) => -influenceAt(influence, unit, centre),
    });
  }
  return bounds;
}
