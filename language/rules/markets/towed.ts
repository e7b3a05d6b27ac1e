import type { RigModel, UnitModel } from '../../semantics/model.ts';
import type { StateResult } from '../../semantics/state.ts';
import { MASS } from '../../units/dimension.ts';
import { lessOf } from '../goal.ts';
import type { Limited, Unstated } from '../limits/limit-rule.ts';
import { beyond, influenceOf, sumOf } from '../states.ts';

/** A vehicle with trailers behind it. */
export interface Tow {
  readonly vehicle: UnitModel;
  /** Not empty. */
  readonly trailers: readonly UnitModel[];
  /** Those without service brakes. */
  readonly unbraked: readonly UnitModel[];
  /** At least one has service brakes. */
  readonly braked: boolean;
}

/** What tows and what is towed; undefined for a unit alone and for trailers without a vehicle. */
export function towOf({ units }: RigModel): Tow | undefined {
  const [vehicle, ...trailers] = units;
  if (vehicle?.kind !== 'vehicle' || trailers.length === 0) return undefined;
  const unbraked = trailers.filter(({ brakes }) => brakes === 'unbraked');
  return { vehicle, trailers, unbraked, braked: unbraked.length < trailers.length };
}

/** kg that trailers come to in a state. */
export function towedIn(state: StateResult, trailers: readonly UnitModel[]): number | undefined {
  return sumOf(state, massNames(trailers));
}

/** The mass of trailers, held against so many kg. */
export function towedLimit(
  trailers: readonly UnitModel[],
  limit: number,
  more: Pick<Limited, 'limitName' | 'location' | 'toldElsewhere'>,
): Limited {
  return {
    kind: 'limited',
    subject: namesOf(trailers),
    quantity: TOWED,
    sense: 'at most',
    dimension: MASS,
    compare: (state) => {
      const value = towedIn(state, trailers);
      return value === undefined ? undefined : { value, limit };
    },
    excess: (state) => beyond(influenceOf(state, massNames(trailers)), limit),
    goal: (state, by) => {
      const mass = influenceOf(state, massNames(trailers));
      return mass && lessOf(mass, by);
    },
    ...more,
  };
}

/** The mass of trailers, where the file lacks what it is held against. */
export function towedUnstated(trailers: readonly UnitModel[], missing: string): Unstated {
  return { kind: 'unstated', subject: namesOf(trailers), quantity: TOWED, missing };
}

const TOWED = 'the mass towed';

const massNames = (trailers: readonly UnitModel[]) => trailers.map(({ name }) => `${name}.mass`);
const namesOf = (trailers: readonly UnitModel[]) => trailers.map(({ name }) => name).join(' and ');
