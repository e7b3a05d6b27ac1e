import type { Location } from '../../diagnostics/finding.ts';

/** What the scale is known by. */
export interface ScaleAccuracy {
  /** `assumed`: the slip says nothing of the scale. */
  readonly kind: 'division' | 'accuracy' | 'assumed';
  /** kg; the smallest division, or for `accuracy` one standard deviation. */
  readonly value: number;
  /** Standard deviation of a reading, kg. */
  readonly deviation: number;
}

/** One reading of a slip. */
export interface ReadingModel {
  /** Full name of what was weighed: `Hauler.axles.left`, `YardTruck`, `total`. */
  readonly name: string;
  /** The load that the scale weighed, by the name of the computed quantity in the rig or in the unit alone. */
  readonly quantity: string;
  /** kg */
  readonly value: number;
  /** Standard deviation, kg: of the scale, or from a tolerance of its own. */
  readonly deviation: number;
  /** The name as written. */
  readonly location: Location;
}

/** How one end of a unit was raised. */
export interface RaisedEnd {
  /** `coupling`, or the name of an axle group. */
  readonly support: string;
  /** How far the unit is out of level, rad, above 0. */
  readonly pitch: number;
  /** Height of the wheel centres, m. */
  readonly wheelRadius: number;
}

/** Readings taken in one state of the rig: coupled up, or one unit alone, level or with one end raised. */
export interface PassModel {
  readonly kind: 'coupled' | 'solo' | 'raised';
  /** Index of the unit that stands alone; absent for `coupled`. */
  readonly unit?: number;
  readonly raised?: RaisedEnd;
  /** Name of the case it was taken in; absent where the rig has none. */
  readonly case?: string;
  readonly readings: readonly ReadingModel[];
  /** The head of its line, or the name of the weighing. */
  readonly location: Location;
}

/** More readings than this are not reconciled together: nobody takes them, and the time grows with their cube. */
export const MOST_READINGS = 400;

/** A weighbridge slip. */
export interface WeighingModel {
  readonly name: string;
  readonly title?: string;
  readonly documentation?: string;
  /** Name of the case it was taken in; absent where the rig has none. */
  readonly case?: string;
  readonly scale: ScaleAccuracy;
  /** Those with readings; that of the rig as it stands, in the case of the slip, first. */
  readonly passes: readonly PassModel[];
  /** Whether all of its lines could be read. */
  readonly complete: boolean;
  /** Readings that cannot all be true, which has been reported. */
  readonly impossible: readonly ReadingModel[];
  /** Its name. */
  readonly location: Location;
}
