import { type Influence, influenceAt } from '../mechanics/influence.ts';
import type { Position } from '../mechanics/vector.ts';
import type { Locker } from '../semantics/model.ts';

/** Somewhere a mass can be. */
export interface Place {
  /** Index of the unit in the rig. */
  readonly unit: number;
  readonly centre: Position;
  readonly locker?: Locker;
  /** What sort of mass is there, for loads that count some sorts only. */
  readonly sort?: string | undefined;
}

/** What a change of the loading is wanted for. */
export interface Goal {
  /** What is to become less: kg per kg of mass at a place. */
  readonly at: (place: Place) => number;
  /** kg that have to go; positive. */
  readonly excess: number;
  /** The load the effect is told in, where it is another one than `at`. */
  readonly told?: (place: Place) => number;
  /**
   * Which way that load has to go, where the goal is a share of something else: what reaches it the other way, such as less
   * mass for a share that is too low, reads as the contrary of help.
   */
  readonly wanted?: 'more' | 'less';
  /** What that load is called, where the message has not named it. */
  readonly of?: string;
}

/** Takes so many kg off a load. */
export function lessOf(influence: Influence, excess: number, told?: Influence): Goal {
  return { at: at(influence), excess, ...(told === undefined ? {} : { told: at(told) }) };
}

/** Brings so many kg more onto a load. */
export function moreOf(influence: Influence, missing: number, told: Influence = influence): Goal {
  const load = at(influence);
  return { at: (place) => -load(place), excess: missing, told: at(told) };
}

function at(influence: Influence): (place: Place) => number {
  return ({ unit, centre, sort }) => influenceAt(influence, unit, centre, sort);
}
