import type { Fit } from './fit.ts';
import type { Contradiction } from './reconciliation.ts';

const CRITICAL_CHI_SQUARES = [10.828, 13.816, 16.266, 18.467, 20.515, 22.458, 24.322, 26.124, 27.877, 29.588];

/**
 * Standardised residual beyond which a reading is suspect, 3.29: two-sided 0.1 % of a normal distribution, the usual
 * choice of data snooping (W. Baarda, A testing procedure for use in geodetic networks, Delft 1968, from memory).
 */
export const CRITICAL_RESIDUAL = Math.sqrt(10.828);

/** Redundancy below which nothing checks a reading. */
const UNCHECKED = 1e-6;

/**
 * Readings whose omission lowers the chi square by as much as that of the worst, less this, are suspects too: the
 * readings are less than 20 times as likely with the one wrong as with the other (2·ln 20).
 */
const ALIKE = 2 * Math.log(20);

/** Residuals after the fit in their standard deviations; undefined where nothing checks the reading. */
export function standardise({ weighted, weightedVariances, redundancies }: Fit): (number | undefined)[] {
  return weighted.map((value, index) =>
    (redundancies[index] ?? 0) > UNCHECKED ? value / Math.sqrt(weightedVariances[index] ?? Number.NaN) : undefined,
  );
}

/**
 * Chi square that chance exceeds once in a thousand times: the tabulated values for one to ten degrees of freedom
 * (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, from memory), beyond that the approximation of Wilson
 * and Hilferty (1931, from memory), within 0.6 %.
 */
export function criticalChiSquare(degrees: number): number {
  const tabulated = CRITICAL_CHI_SQUARES[degrees - 1];
  if (tabulated !== undefined) return tabulated;
  const part = 2 / (9 * degrees);
  return degrees * (1 - part + 3.0902 * Math.sqrt(part)) ** 3;
}

/** Whether readings whose residuals have this chi square agree as well as their deviations promise. */
export function agreementOf(chiSquare: number, degrees: number): 'agree' | 'disagree' | 'untested' {
  if (degrees <= 0) return 'untested';
  return chiSquare > criticalChiSquare(degrees) ? 'disagree' : 'agree';
}

/**
 * Data snooping: the reading with the largest standardised residual w, if it is beyond the critical value, with those
 * that cannot be told apart from it. Leaving out a reading lowers the chi square by w². With one degree of freedom all
 * readings that check each other are equally suspect.
 */
export function findContradiction(
  standardised: readonly (number | undefined)[],
  chiSquare: number,
  degrees: number,
): Contradiction | undefined {
  const order = standardised
    .map((value, index) => ({ index, size: Math.abs(value ?? 0) }))
    .sort((a, b) => b.size - a.size || a.index - b.index);
  const worst = order[0];
  if (worst === undefined || !(worst.size > CRITICAL_RESIDUAL)) return undefined;
  const suspects = order.filter(({ size }) => size > 0 && size ** 2 >= worst.size ** 2 - ALIKE);
  const othersAgree = agreementOf(chiSquare - worst.size ** 2, degrees - 1) !== 'disagree';
  return { suspects: suspects.map(({ index }) => index), othersAgree };
}
