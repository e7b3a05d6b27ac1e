/** Turns of phrase that the messages on lateral stability share. */

import { STANDARD_GRAVITY } from '../mechanics/combination.ts';
import { SPEED } from '../units/dimension.ts';
import { type DisplaySystem, formatNumber, formatQuantity } from '../units/display.ts';
import { type Breach, firstFew, helpSentence } from './wording.ts';

/** What no figure of lateral stability is to be read without. */
export const COMPARE_ONLY = 'Compare layouts with it, never take a speed from it as safe.';
export const MAKES_IT_WORSE =
  'Wind, wet roads, worn or soft tyres make it worse, and the energy of a swing grows with the square of speed.';

/** How figures on grades and while braking are to be read. */
export const BRAKING_GRIP =
  "Braking takes none of the tyres' sideways grip in this model: a rig that brakes hard holds less than these figures say.";
export const OFF_THE_LEVEL = `Grades and braking pull or push at the coupling and shift load between axles and coupling; the load shift can outweigh. ${BRAKING_GRIP}`;

/** What stands behind a figure of the model. */
export interface Basis {
  /** Units on tyres whose cornering stiffness is assumed. */
  readonly tyresOf: readonly string[];
  /** Whether anything at all had to be assumed. */
  readonly assumed: boolean;
  /** Whether the file states the intended speed. */
  readonly intendedStated: boolean;
  /** The units that speeds and masses are told in. */
  readonly system: DisplaySystem;
}

/** A breach by what the linear model says. */
export interface StabilityBreach extends Breach, Basis {
  /** What swings or folds. */
  readonly subject: string;
  /** Intended speed, m/s. */
  readonly intended: number;
}

/** `92 km/h`, `57 mph`: a computed speed is not worth more digits. */
export function wholeSpeed(speed: number, system: DisplaySystem): string {
  return formatQuantity({ value: speed, dimension: SPEED }, undefined, { significant: 1, maximumDecimals: 0, system });
}

/** `the intended 90 km/h`; says so where nobody intends it. */
export function intendedSpeed({ intended, intendedStated, system }: StabilityBreach): string {
  const speed = wholeSpeed(intended, system);
  return intendedStated ? `the intended ${speed}` : `${speed} (taken because no speed is intended)`;
}

/** A damping ratio, or a change of one: `0.12`, `0.008`. */
export function dampingText(ratio: number): string {
  return formatNumber(ratio, 2, 3);
}

/**
 * ` (linear model, small angles; tyres of Runabout and Tourer assumed)`: what stands behind a figure, at the end of the
 * sentence that gives it.
 */
export function byTheModel({ tyresOf, assumed }: Basis): string {
  const tyres = tyresOf.length > 0 ? `; tyres of ${firstFew(tyresOf)} assumed` : '';
  return ` (linear model, small angles${tyres === '' && assumed ? '; with assumed figures' : tyres})`;
}

/**
 * What every message on stability ends with: ` Also in case empty, on the level (from 61 km/h) and 2 other states.` and
 * what would help. Labels of states are long here, so that only the next worst one is named.
 */
export function stabilityEnd({ also, help }: Breach, format: (by: number) => string): string {
  const [next, ...others] = also;
  if (next === undefined) return helpSentence(help);
  const more = others.length === 0 ? '' : ` and ${others.length} other state${others.length === 1 ? '' : 's'}`;
  return ` Also in ${next.state} (${format(next.by)})${more}.${helpSentence(help)}`;
}

/** An understeer gradient (rad per m/s²) as `0.35 deg/g`. */
export function inDegreesPerG(gradient: number): string {
  return `${formatNumber((gradient * 180 * STANDARD_GRAVITY) / Math.PI, 2, 2)} deg/g`;
}

/** `sampled: 26 states tried, others can be worse`: what no figure of a search over states is to be read without. */
export function sampled(tried: number): string {
  return `sampled: ${formatNumber(tried)} state${tried === 1 ? '' : 's'} tried, others can be worse`;
}
