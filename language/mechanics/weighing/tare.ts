import { type Component, componentIndex } from './design.ts';
import type { Determined } from './determined.ts';
import type { Fit } from './fit.ts';
import type { TareGuess } from './observation.ts';
import {
  type Estimate,
  type MissingReading,
  SIGNIFICANCE,
  type TareQuantity,
  type TareResult,
  type UnlistedMass,
} from './reconciliation.ts';

type Axis = 'x' | 'y' | 'z';

/** A fit with what it determines and the factor of its standard errors. */
export interface Judged {
  readonly fit: Fit;
  readonly determined: Determined;
  readonly factor: number;
}

/**
 * Mass and centre of a tare after the fit. A coordinate is the file's plus moment / mass, its standard error that of
 * this ratio, first order. A coordinate is estimated where mass and moment are both determined and the mass is
 * positive.
 */
export function judgeTare(judged: Judged, tare: TareGuess, index: number, missing: MissingReading[]): TareResult {
  const change = changeOfMass(judged, index);
  const mass = change === undefined ? undefined : { ...change, value: tare.mass + change.value };
  const place = (axis: Axis) =>
    quantity(
      tare.centre[axis],
      mass && mass.value > 0 ? ratio(judged, index, axis, mass.value, tare.centre[axis]) : undefined,
    );
  return {
    unit: tare.unit,
    mass: quantity(tare.mass, mass),
    x: place('x'),
    y: place('y'),
    z: place('z'),
    missing,
    unlisted: change && unlistedMass(judged, tare, index, change),
  };
}

function quantity(filed: number, estimate: Estimate | undefined): TareQuantity {
  return { filed, value: filed, ...estimate };
}

function changeOfMass({ fit, determined, factor }: Judged, index: number): Estimate | undefined {
  const at = componentIndex(index, 'mass');
  if (!determined.isDetermined(at)) return undefined;
  return { value: fit.correction[at] ?? 0, standardError: factor * Math.sqrt(fit.covariance.get(at, at)) };
}

function unlistedMass(judged: Judged, tare: TareGuess, index: number, mass: Estimate): UnlistedMass | undefined {
  if (!(Math.abs(mass.value) > SIGNIFICANCE * mass.standardError)) return undefined;
  const place = (axis: Axis) => ratio(judged, index, axis, mass.value, tare.centre[axis]);
  return { mass, x: place('x'), y: place('y'), z: place('z') };
}

/** origin + moment / mass with its standard error: √(σₚ² − 2·r·σₚₘ + r²·σₘ²) / |mass| with the ratio r. */
function ratio(judged: Judged, index: number, axis: Component, mass: number, origin: number): Estimate | undefined {
  const { fit, determined, factor } = judged;
  const p = componentIndex(index, axis);
  const m = componentIndex(index, 'mass');
  if (!determined.isDetermined(p)) return undefined;
  const value = (fit.correction[p] ?? 0) / mass;
  const { covariance } = fit;
  const variance = covariance.get(p, p) - 2 * value * covariance.get(p, m) + value ** 2 * covariance.get(m, m);
  return { value: origin + value, standardError: (factor * Math.sqrt(Math.max(0, variance))) / Math.abs(mass) };
}
