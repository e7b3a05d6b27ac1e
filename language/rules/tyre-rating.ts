import { bindingMarkets } from '../catalogue/markets.ts';
import { isTyreMarking, parseTyreMarking } from '../catalogue/tyres.ts';
import { type Influence, scaleInfluence } from '../mechanics/influence.ts';
import type { AxleGroup, RigModel, Tyres, UnitModel } from '../semantics/model.ts';
import type { StateResult } from '../semantics/state.ts';
import { beyond, influenceOf, quantityOf } from './states.ts';
import { axlesOf } from './subjects.ts';

/** What the rating of a passenger tyre is divided by on a trailer or a truck: 49 CFR 571.110 S4.2.2.2. */
export const DERATING = 1.1;

/** What one tyre counts for, with the words for it. */
export interface TyreRating {
  /** kg */
  readonly capacity: number;
  /** Within a sentence: `its capacity`. */
  readonly name: string;
}

/** Whether a marking is that of a passenger tyre. */
export function isPassengerTyre({ marking }: Pick<Tyres, 'marking'>): boolean {
  const parsed = parseTyreMarking(marking);
  return isTyreMarking(parsed) && parsed.service === 'passenger';
}

/** kg that a passenger tyre of `capacity` kg counts for on a trailer or a truck. */
export function derated(capacity: number): number {
  return capacity / DERATING;
}

/** Whether passenger tyres are derated on a unit: on trailers, and on vehicles certified as anything but a passenger car. */
export function deratesPassengerTyres({ kind, vehicleType }: UnitModel): boolean {
  return kind === 'trailer' || (vehicleType !== undefined && vehicleType !== 'passenger_car');
}

/** Whether the markets of a rig derate passenger tyres. */
export function inDeratingMarket({ markets }: Pick<RigModel, 'markets'>): boolean {
  const binding = bindingMarkets(markets);
  return binding.has('US') || binding.has('CA');
}

/** What one tyre of a unit counts for where the rig is used; undefined where its capacity is not known. */
export function tyreRatingOf(rig: Pick<RigModel, 'markets'>, unit: UnitModel, tyres: Tyres): TyreRating | undefined {
  const { capacity } = tyres;
  if (capacity === undefined) return undefined;
  if (inDeratingMarket(rig) && deratesPassengerTyres(unit) && isPassengerTyre(tyres)) {
    return { capacity: derated(capacity), name: 'its capacity divided by 1.10 (49 CFR 571.110 S4.2.2.2)' };
  }
  return { capacity, name: 'its capacity' };
}

/** kg on each tyre of the heaviest wheel of a group in a state; undefined where it has none. `count`: tyres of the group. */
export function heaviestTyre(unit: UnitModel, group: AxleGroup, count: number) {
  const perWheel = count / (2 * group.axles.length);
  const names = axlesOf(unit, group).flatMap(({ prefix }) => [`${prefix}.left`, `${prefix}.right`]);
  return (state: StateResult): number | undefined => {
    const wheels = names.flatMap((name) => quantityOf(state, name) ?? []);
    return wheels.length === 0 ? undefined : Math.max(...wheels) / perWheel;
  };
}

/** The load on each tyre of each wheel of a group less `capacity` kg: one for each wheel. */
export function heaviestTyreBeyond(
  unit: UnitModel,
  group: AxleGroup,
  count: number,
  capacity: number,
  state: StateResult,
): readonly Influence[] {
  const perWheel = count / (2 * group.axles.length);
  return axlesOf(unit, group).flatMap(({ prefix }) =>
    ['left', 'right'].flatMap((side) => {
      const wheel = influenceOf(state, [`${prefix}.${side}`]);
      return beyond(wheel && scaleInfluence(wheel, 1 / perWheel), capacity) ?? [];
    }),
  );
}
