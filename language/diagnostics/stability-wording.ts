/** Turns of phrase that the messages on lateral stability share. */

import { STANDARD_GRAVITY } from '../mechanics/combination.ts';
import { SPEED } from '../units/dimension.ts';
import { formatNumber, formatQuantity } from '../units/display.ts';
import type { Breach } from './wording.ts';

/** A breach by what the linear model says. */
export interface StabilityBreach extends Breach {
  /** What swings or folds. */
  readonly subject: string;
  /** Intended speed, m/s. */
  readonly intended: number;
  /** Whether anything had to be assumed. */
  readonly assumed: boolean;
}

/** `92 km/h`: a computed speed is not worth more digits. */
export function wholeSpeed(speed: number): string {
  return formatQuantity({ value: speed, dimension: SPEED }, undefined, { significant: 1, maximumDecimals: 0 });
}

/** `by the linear model with assumed figures`: what stands behind a figure, in every message that gives one. */
export function byTheModel(assumed: boolean): string {
  return `by the linear model${assumed ? ' with assumed figures' : ''}`;
}

/** An understeer gradient (rad per m/s²) as `0.35 deg/g`. */
export function inDegreesPerG(gradient: number): string {
  return `${formatNumber((gradient * 180 * STANDARD_GRAVITY) / Math.PI, 2, 2)} deg/g`;
}
