import { Matrix } from 'ml-matrix';
import { evaluateLoadValue } from '../influence.ts';
import { agreementOf, findContradiction, standardise } from './contradiction.ts';
import { COMPONENTS, derivativesOfLoad } from './design.ts';
import { findDetermined, findMissing } from './determined.ts';
import { type Fit, fitCorrection } from './fit.ts';
import type { Observation, TareGuess } from './observation.ts';
import {
  COVERAGE,
  GREATEST_VALUE,
  LEAST_DEVIATION,
  type ReadingResult,
  type Reconciliation,
  type Refusal,
  type UsedReading,
} from './reconciliation.ts';
import { judgeTare } from './tare.ts';
import { covarianceFromSources, varianceFromTares } from './uncertainty.ts';

/**
 * Readings of scales against a file: what the file predicts, what the tares of some units have to be for the readings
 * to come out, and which reading contradicts the others.
 *
 * Generalised least squares for mass, first moments and product moment of each tare, in which all loads are linear. The
 * covariance of a reading is that of its scale and of the stated spreads of its sources, so that a listed mass that is
 * uncertain is not taken for an unlisted one. Components that the readings do not determine keep the file's value;
 * fitted loads then come from the smallest correction, and any other that fits gives the same ones. Wheel loads of the
 * tare that was found, as one mass at its centre, differ from the fitted ones by what the product moment does: it is
 * fitted, but no figure of a tare. A mass that the file does not list and a tare that is off are the same thing to a
 * scale.
 *
 * Never throws; readings that cannot be used are refused with a reason and the rest is reconciled without them.
 */
export function reconcile<S>(observations: readonly Observation<S>[], tares: readonly TareGuess[]): Reconciliation {
  const refusals = observations.map((observation) => findRefusal(observation, tares));
  const used = observations.filter((_, index) => refusals[index] === undefined);
  const predicted = used.map(({ influence, sources }) => evaluateLoadValue(influence, sources));
  const fromSources = covarianceFromSources(used);
  const size = tares.length * COMPONENTS.length;
  const rows = used.map(({ influence }) => derivativesOfLoad(influence, tares));
  const determined = findDetermined(rows, size);
  const fit = fitCorrection({
    rows,
    residuals: used.map(({ reading }, index) => reading - (predicted[index] ?? 0)),
    covariance: Matrix.add(fromSources, Matrix.diag(used.map(({ deviation }) => deviation ** 2))),
    determined,
  });
  const degreesOfFreedom = used.length - determined.rank;
  const scale = degreesOfFreedom > 0 ? Math.sqrt(fit.chiSquare / degreesOfFreedom) : undefined;
  const factor = Math.max(1, scale ?? 1);
  const standardised = standardise(fit);
  const places = observations.flatMap((_, index) => (refusals[index] === undefined ? [index] : []));
  const contradiction = findContradiction(standardised, fit.chiSquare, degreesOfFreedom);
  const results = used.map((observation, index) =>
    usedReading(observation, {
      predicted: predicted[index] ?? 0,
      variance: fromSources.get(index, index) + varianceFromTares(observation, tares),
      fit,
      index,
      standardised: standardised[index],
    }),
  );
  return {
    readings: weave(refusals, results),
    tares: tares.map((tare, index) =>
      judgeTare({ fit, determined, factor }, tare, index, findMissing(rows, determined, index)),
    ),
    degreesOfFreedom,
    chiSquare: fit.chiSquare,
    scale,
    standardErrorFactor: factor,
    agreement: contradiction === undefined ? agreementOf(fit.chiSquare, degreesOfFreedom) : 'disagree',
    contradiction: contradiction && {
      ...contradiction,
      suspects: contradiction.suspects.map((index) => places[index] ?? index),
    },
  };
}

interface Judgement {
  readonly predicted: number;
  readonly variance: number;
  readonly fit: Fit;
  readonly index: number;
  readonly standardised: number | undefined;
}

function usedReading(
  { reading, deviation }: Observation<unknown>,
  { predicted, variance, fit, index, standardised }: Judgement,
): UsedReading {
  const residual = reading - predicted;
  const fittedResidual = fit.residuals[index] ?? 0;
  return {
    predicted,
    predictedDeviation: Math.sqrt(variance),
    residual,
    beyondTolerance: Math.abs(residual) > COVERAGE * Math.sqrt(variance + deviation ** 2),
    fitted: reading - fittedResidual,
    fittedResidual,
    redundancy: fit.redundancies[index] ?? 0,
    standardised,
  };
}

/** The results in the places of the readings that were used. */
function weave(refusals: readonly (Refusal | undefined)[], results: readonly UsedReading[]): ReadingResult[] {
  const left = [...results];
  return refusals.flatMap((refused): ReadingResult[] => {
    if (refused !== undefined) return [{ refused }];
    const next = left.shift();
    return next === undefined ? [] : [next];
  });
}

function findRefusal(observation: Observation<unknown>, tares: readonly TareGuess[]): Refusal | undefined {
  const { influence, sources, reading, deviation } = observation;
  const numbers = [
    reading,
    deviation,
    evaluateLoadValue(influence, sources),
    ...derivativesOfLoad(influence, tares),
    Math.sqrt(covarianceFromSources([observation]).get(0, 0) + varianceFromTares(observation, tares)),
  ];
  if (!numbers.every((value) => Math.abs(value) <= GREATEST_VALUE)) return 'out-of-range';
  return deviation >= LEAST_DEVIATION ? undefined : 'deviation-too-small';
}
