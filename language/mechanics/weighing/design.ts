import type { Influence } from '../influence.ts';
import type { TareGuess } from './observation.ts';

/**
 * A correction of tares: four numbers each, in the order of the tares. The change of the mass (kg), and the first moments
 * (kg m, forward, left, up) of the corrected tare about the place where the file has its centre.
 */
export type Correction = readonly number[];

export const COMPONENTS = ['mass', 'x', 'y', 'z'] as const;

/** One of the four numbers of a tare in a correction. */
export type Component = (typeof COMPONENTS)[number];

/** Index in a correction. */
export function componentIndex(tare: number, component: Component): number {
  return tare * COMPONENTS.length + COMPONENTS.indexOf(component);
}

/** A tare's part of a correction, with the mass it then has. */
interface Corrected {
  readonly change: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly mass: number;
}

function corrected(tare: TareGuess, index: number, correction: Correction): Corrected {
  const at = (component: Component) => correction[componentIndex(index, component)] ?? 0;
  return { change: at('mass'), x: at('x'), y: at('y'), z: at('z'), mass: tare.mass + at('mass') };
}

/** The reading's derivatives by the components of one tare as the file has it. */
function slopes(influence: Influence, { unit, centre }: TareGuess) {
  const { one, x, y, z, xy } = influence.units[unit] ?? { one: 0, x: 0, y: 0, z: 0, xy: 0 };
  return {
    mass: one + x * centre.x + y * centre.y + z * centre.z + xy * centre.x * centre.y,
    x: x + xy * centre.y,
    y: y + xy * centre.x,
    z,
    xy,
  };
}

/**
 * Change (kg) of a load when tares are corrected. Linear but for wheel loads, which depend on the product of x and y of a
 * mass: a tare is one mass at its centre, so that this product is (moment x · moment y) / mass, as in the file. The term
 * is left out while the mass is not positive.
 */
export function changeOfLoad(influence: Influence, tares: readonly TareGuess[], correction: Correction): number {
  let sum = 0;
  for (const [index, tare] of tares.entries()) {
    const slope = slopes(influence, tare);
    const { change, x, y, z, mass } = corrected(tare, index, correction);
    sum += slope.mass * change + slope.x * x + slope.y * y + slope.z * z;
    if (mass > 0) sum += (slope.xy * x * y) / mass;
  }
  return sum;
}

/** Derivatives of `changeOfLoad` by the numbers of the correction. */
export function derivativesOfLoad(influence: Influence, tares: readonly TareGuess[], correction: Correction): number[] {
  return tares.flatMap((tare, index) => {
    const slope = slopes(influence, tare);
    const { x, y, mass } = corrected(tare, index, correction);
    const product = mass > 0 ? slope.xy / mass : 0;
    const byMass = mass > 0 ? (product * x * y) / mass : 0;
    return [slope.mass - byMass, slope.x + product * y, slope.y + product * x, slope.z];
  });
}
