import { STANDARD_GRAVITY } from '../combination.ts';
import { type Influence, influenceAt } from '../influence.ts';
import type { Position } from '../vector.ts';
import type { TrainGradient } from './gradient.ts';

/** A mass whose place is asked about. */
export interface MovableMass {
  /** Index of its unit. */
  readonly unit: number;
  /** kg */
  readonly mass: number;
  /** m in the unit's frame. */
  readonly centre: Position;
  /** Own inertia about the vertical through its centre, kg m²; it grows with the mass. */
  readonly yawInertia: number;
}

/** What a unit weighs with all that is in it. */
export interface UnitTotals {
  /** kg */
  readonly mass: number;
  /** Centre of gravity, m in the unit's frame. */
  readonly centre: { readonly x: number; readonly y: number };
}

/** How an axle of the train follows from the masses: its wheel loads and what they are worth. */
export interface AxleLoading {
  readonly unit: number;
  /** Index in its unit's axles. */
  readonly axle: number;
  /** Loads of its sides over g, kg. */
  readonly left: Influence;
  readonly right: Influence;
  /** Stiffness gained with load on each side, N/rad per N (see `axleStiffness`). */
  readonly leftSlope: number;
  readonly rightSlope: number;
  /** Its longitudinal force over g, kg, forward positive, where it depends on the masses. */
  readonly force?: Influence;
}

/** First derivatives of a figure with respect to one mass. */
export interface ItemSensitivity {
  /** Per kg of its mass. */
  readonly mass: number;
  /** Per m it is moved forward, left, up. */
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/**
 * How a figure answers to every one of `masses`: through the mass, centre of gravity and yaw inertia of its unit, and
 * through the load, hence the stiffness (and the longitudinal force), of every axle of the train. Exact; the body force
 * is held. In the order of `masses`.
 */
export function itemSensitivities(
  gradient: TrainGradient,
  units: readonly UnitTotals[],
  axles: readonly AxleLoading[],
  masses: readonly MovableMass[],
): ItemSensitivity[] {
  const loads = combinedLoads(gradient, axles);
  return masses.map((each) => itemSensitivity(gradient, units[each.unit], loads, each));
}

function itemSensitivity(
  gradient: TrainGradient,
  unit: UnitTotals | undefined,
  loads: Influence,
  { unit: index, mass, centre, yawInertia }: MovableMass,
): ItemSensitivity {
  const own = gradient.units[index];
  if (own === undefined || unit === undefined || !(unit.mass > 0)) return { mass: 0, x: 0, y: 0, z: 0 };
  const dx = centre.x - unit.centre.x;
  const dy = centre.y - unit.centre.y;
  const spread = dx * dx + dy * dy + (mass > 0 ? yawInertia / mass : 0);
  const slope = loads.units[index] ?? { x: 0, y: 0, z: 0, xy: 0 };
  return {
    mass: own.mass + (own.x * dx) / unit.mass + own.yawInertia * spread + influenceAt(loads, index, centre),
    x: mass * (own.x / unit.mass + own.yawInertia * 2 * dx + slope.x + slope.xy * centre.y),
    y: mass * (own.yawInertia * 2 * dy + slope.y + slope.xy * centre.x),
    z: mass * slope.z,
  };
}

/** The figure's change per kg through all loads, as one influence: they are added before any item is looked at. */
function combinedLoads(gradient: TrainGradient, axles: readonly AxleLoading[]): Influence {
  const units = gradient.units.map(() => ({ one: 0, x: 0, y: 0, z: 0, xy: 0 }));
  const addScaled = (influence: Influence, factor: number) => {
    if (factor === 0) return;
    for (const [index, sum] of units.entries()) {
      const own = influence.units[index];
      if (own === undefined) continue;
      sum.one += factor * own.one;
      sum.x += factor * own.x;
      sum.y += factor * own.y;
      sum.z += factor * own.z;
      sum.xy += factor * own.xy;
    }
  };
  for (const { unit, axle, left, right, leftSlope, rightSlope, force } of axles) {
    const own = gradient.units[unit]?.axles[axle];
    if (own === undefined) continue;
    addScaled(left, own.stiffness * leftSlope * STANDARD_GRAVITY);
    addScaled(right, own.stiffness * rightSlope * STANDARD_GRAVITY);
    if (force !== undefined) addScaled(force, own.force * STANDARD_GRAVITY);
  }
  return { constant: 0, units };
}
