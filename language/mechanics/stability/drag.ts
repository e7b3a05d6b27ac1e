import type { PointForce } from './train.ts';

/** Density of air at 15 °C and 101.325 kPa, kg/m³: the standard atmosphere at sea level, ISO 2533 (from memory). */
export const AIR_DENSITY = 1.225;

/** What of a unit stands in the wind of driving. */
export interface DragArea {
  /** m² of its outline seen from the front. */
  readonly frontalArea: number;
  /** Drag over dynamic pressure times frontal area. */
  readonly coefficient: number;
}

/**
 * The drag −½·ρ·cd·A·V² on a unit of a train, by the definition of the drag coefficient (SAE J1594, from memory): air at
 * rest, met from ahead. Assumed to act at `x` m in the unit's frame, which should be the lengthwise middle of the body, and
 * to turn with the unit; side force and yaw moment of the air are left out. On the first unit it asks for traction only.
 */
export function dragForce(unit: number, x: number, { frontalArea, coefficient }: DragArea): PointForce {
  const perSpeedSquared = -(AIR_DENSITY / 2) * coefficient * frontalArea;
  return { unit, x, force: 0, perSpeedSquared, direction: 'unit' };
}
