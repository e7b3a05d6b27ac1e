import type { UnitModel } from '../../semantics/model.ts';
import { massInRunningOrder } from '../../semantics/running-order.ts';

/** A limit on the mass towed, kg, with what gives it. */
export interface Towable {
  readonly limit: number;
  /** `the towing rating of Truck`. */
  readonly limitName: string;
  /** It is the maker's own figure, which the plates are checked for anyway. */
  readonly isMakers: boolean;
}

/** kg; with brakes and without. */
const MOST_BRAKED = 3500;
const MOST_UNBRAKED = 750;
const OFF_ROAD = 1.5;
const SHARE_UNBRAKED = 0.5;

/** The lowest of the maker's value, the maximum laden mass (1.5 times that off-road) and 3500 kg; undefined without a GVM. */
export function towableBraked({ name, limits, offRoad }: UnitModel): Towable | undefined {
  const { GVM, towing } = limits;
  if (GVM === undefined) return undefined;
  const laden = `the maximum laden mass of ${name}`;
  return lowest([
    makers(towing?.value, `the towing rating of ${name}`),
    offRoad === true
      ? { limit: OFF_ROAD * GVM.value, limitName: `1.5 times ${laden}`, isMakers: false }
      : { limit: GVM.value, limitName: laden, isMakers: false },
    { limit: MOST_BRAKED, limitName: 'the most for any trailer with brakes', isMakers: false },
  ]);
}

/** The lowest of the maker's value, half the mass in running order and 750 kg. */
export function towableUnbraked(vehicle: UnitModel): Towable | undefined {
  const { name, limits } = vehicle;
  return lowest([
    makers(limits.towing_unbraked?.value, `the towing rating of ${name} without brakes`),
    {
      limit: SHARE_UNBRAKED * massInRunningOrder(vehicle),
      limitName: `half the mass in running order of ${name}`,
      isMakers: false,
    },
    { limit: MOST_UNBRAKED, limitName: 'the most for any trailer without brakes', isMakers: false },
  ]);
}

function makers(limit: number | undefined, limitName: string): Towable | undefined {
  return limit === undefined ? undefined : { limit, limitName, isMakers: true };
}

/** The first of the lowest. */
function lowest(candidates: readonly (Towable | undefined)[]): Towable | undefined {
  let least: Towable | undefined;
  for (const candidate of candidates) {
    if (candidate !== undefined && (least === undefined || candidate.limit < least.limit)) least = candidate;
  }
  return least;
}
