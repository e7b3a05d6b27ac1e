import type { Train } from './train.ts';

/**
 * How a point moves with the coordinates of a train: its sideways displacement is Σ lever[k]·coordinate[k] over
 * (Y, ψ1 … ψn), Y that of the first unit's frame origin. lever[0] is 1, lever[k] a length in m, 0 for units behind the
 * point's. Forwards the same point is displaced by −½ Σ lever[k]·ψk² for k ≥ 1, which is all that is needed of it.
 */
export type Lever = Float64Array;

/** The lever of the point `x` (m, unit frame) of unit `unit`. */
export function leverOf(train: Train, unit: number, x: number): Lever {
  const lever = new Float64Array(train.units.length + 1);
  lever[0] = 1;
  for (let index = 0; index < unit; index++) {
    const each = train.units[index];
    lever[index + 1] = (each?.hitch ?? 0) - (index > 0 ? (each?.coupling ?? 0) : 0);
  }
  lever[unit + 1] = x - (unit > 0 ? (train.units[unit]?.coupling ?? 0) : 0);
  return lever;
}
