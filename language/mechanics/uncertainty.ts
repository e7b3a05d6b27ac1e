import { type Choice, type Figure, valueAt } from './envelope.ts';

/** Something uncertain of one mass, at its two ends with everything else as stated. */
export interface UncertainEnds {
  readonly lower: Choice;
  readonly upper: Choice;
}

/**
 * The standard deviation of something that is known to lie within a half width of what is stated, and of which nothing more is
 * known: a rectangular distribution, half width / √3 (JCGM 100:2008 (GUM), 4.3.7). In the unit of the half width.
 */
export function rectangularDeviation(halfWidth: number): number {
  return Math.abs(halfWidth) / Math.sqrt(3);
}

/**
 * The combined standard deviation of what several uncertain things do together that know nothing of each other, each given by
 * what its half width does at first order: the root of the sum of squares (JCGM 100:2008, 5.1.2).
 */
export function combinedDeviation(effects: readonly number[]): number {
  return Math.hypot(...effects.map(rectangularDeviation));
}

/** A figure in one state: the values of its two loads there; 1 below one load. */
export interface FigureValue {
  readonly above: number;
  readonly below: number;
}

/** The loads of a figure when everything is as chosen. */
export function figureAt({ numerator, denominator }: Figure, choices: readonly Choice[]): FigureValue {
  return {
    above: valueAt(numerator, choices),
    below: denominator === undefined ? 1 : valueAt(denominator, choices),
  };
}

/**
 * What the upper end of something uncertain does to a figure at first order: its half width times the derivative of the figure
 * in a state, in the unit of the figure. A load is linear in each mass and in each coordinate, so that half the difference of
 * the ends is its derivative exactly; of a ratio N/D the derivative is (N' − N/D·D')/D.
 */
export function firstOrderEffect(
  { numerator, denominator }: Figure,
  { above, below }: FigureValue,
  { lower, upper }: UncertainEnds,
): number {
  const half = (load: Figure['numerator']) => (valueAt(load, [upper]) - valueAt(load, [lower])) / 2;
  if (denominator === undefined) return half(numerator);
  return (half(numerator) - (above / below) * half(denominator)) / below;
}
