import { reconcile } from '../../mechanics/weighing/reconcile.ts';
import {
  COVERAGE,
  type Reconciliation,
  type TareResult,
  type UsedReading,
} from '../../mechanics/weighing/reconciliation.ts';
import type { RigModel, UnitModel } from '../model.ts';
import type { RigResult } from '../state.ts';
import { differencesOf, type PassDifference } from './differences.ts';
import { observe } from './observations.ts';
import { tareGuesses } from './spreads.ts';
import type { PassModel, ReadingModel, WeighingModel } from './weighing-model.ts';

/** How a reading stands: to the computed load, and to the other readings. */
export type ReadingVerdict =
  | 'agrees'
  /** Further from the computed load than the tolerance. */
  | 'beyond tolerance'
  /** It, or another one that cannot be told from it, contradicts the other readings, whatever the tares are. */
  | 'contradicts';

/** A reading beside the load computed for it. Masses in kg. */
export interface WeighedReading extends UsedReading {
  readonly pass: PassModel;
  readonly reading: ReadingModel;
  /** Twice the standard deviation of scale and prediction together. */
  readonly tolerance: number;
  readonly verdict: ReadingVerdict;
}

/** What a slip says of the tare of a unit. */
export interface WeighedTare extends TareResult {
  readonly of: UnitModel;
}

/** A slip against the file. */
export interface WeighingResult {
  readonly weighing: WeighingModel;
  readonly readings: readonly WeighedReading[];
  /** Of each unit of the rig. */
  readonly tares: readonly WeighedTare[];
  readonly differences: readonly PassDifference[];
  /** Readings that contradict the others, the worst first; of several that cannot be told apart one is off. */
  readonly suspects: readonly WeighedReading[];
  readonly reconciliation: Reconciliation;
}

/** The slips of a rig, or of a unit alone, reconciled; none while its loads cannot be computed. */
export function reconcileWeighings(result: RigResult): readonly WeighingResult[] {
  if (result.states.length === 0) return [];
  return result.rig.weighings.map((weighing) => reconcileWeighing(result, weighing));
}

/** The tares of a rig with their units. */
export function weighedTares({ units }: Pick<RigModel, 'units'>, { tares }: Reconciliation): readonly WeighedTare[] {
  return tares.flatMap((tare) => {
    const of = units[tare.unit];
    return of === undefined ? [] : [{ ...tare, of }];
  });
}

function reconcileWeighing(result: RigResult, weighing: WeighingModel): WeighingResult {
  const observed = observe(result, weighing);
  const reconciliation = reconcile(
    observed.map(({ observation }) => observation),
    tareGuesses(result.rig),
  );
  const suspected = reconciliation.contradiction?.suspects ?? [];
  const readings = observed.map(({ pass, reading }, index): WeighedReading | undefined => {
    const used = reconciliation.readings[index];
    if (used === undefined || used.refused !== undefined) return undefined;
    const verdict = suspected.includes(index) ? 'contradicts' : used.beyondTolerance ? 'beyond tolerance' : 'agrees';
    const tolerance = COVERAGE * Math.hypot(used.predictedDeviation, reading.deviation);
    return { ...used, pass, reading, tolerance, verdict };
  });
  return {
    weighing,
    readings: readings.flatMap((reading) => reading ?? []),
    tares: weighedTares(result.rig, reconciliation),
    differences: differencesOf(result, weighing),
    suspects: suspected.flatMap((index) => readings[index] ?? []),
    reconciliation,
  };
}
