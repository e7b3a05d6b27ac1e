import { type Influence, influenceAt } from '../influence.ts';
import type { TareGuess } from './observation.ts';

/**
 * The numbers in which a tare is corrected, about the place where the file has its centre: change of mass (kg), change
 * of the first moments (kg m, forward, left, up) and of the product moment Σ m·x·y (kg m²).
 *
 * The product moment is a number of its own, because wheel loads depend on it and a tare is no point: 100 kg at one
 * corner change it by far more than the same shift of the whole tare would. With it every load is linear in a
 * correction, exactly; nothing has to be iterated, and a diagonal pair of wheels that carries more does not pass for a
 * shift of the centre.
 */
export const COMPONENTS = ['mass', 'x', 'y', 'z', 'product'] as const;

export type Component = (typeof COMPONENTS)[number];

/** A correction of tares: the numbers of `COMPONENTS` for each, in the order of the tares. */
export type Correction = readonly number[];

/** Index in a correction. */
export function componentIndex(tare: number, component: Component): number {
  return tare * COMPONENTS.length + COMPONENTS.indexOf(component);
}

/** Derivatives of a load (kg) by the numbers of a correction: the change of the load is their product with it. */
export function derivativesOfLoad(influence: Influence, tares: readonly TareGuess[]): number[] {
  return tares.flatMap(({ unit, centre }) => {
    const { x, y, z, xy } = influence.units[unit] ?? { x: 0, y: 0, z: 0, xy: 0 };
    return [influenceAt(influence, unit, centre), x + xy * centre.y, y + xy * centre.x, z, xy];
  });
}
