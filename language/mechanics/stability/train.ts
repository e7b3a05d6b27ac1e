/**
 * A train of rigid units on the road, as far as its lateral motion is concerned. SI units; places are x in each unit's
 * own frame (ISO 8855: forward), angles positive to the left.
 */

import { type Field, STANDARD_GRAVITY } from '../combination.ts';

/** One axle as its tyres see it. */
export interface TrainAxle {
  /** m in the unit's frame. */
  readonly x: number;
  /** Lateral force per slip angle, all tyres of the axle, N/rad; 0 for an axle that carries nothing. */
  readonly stiffness: number;
  /** Relaxation length of its tyres, m: their slip angle follows with a first-order lag. 0 or absent: none. */
  readonly relaxation?: number;
  /** Longitudinal force of the road on the axle, along the unit, N, forward positive (brake and rolling negative). */
  readonly force?: number;
  /** Whether the driver steers it; when no axle of the first unit says so, its foremost one is. */
  readonly steered?: boolean;
}

/** What resists articulation at a coupling, beside the units' inertia. */
export interface Joint {
  /** N m s/rad */
  readonly damping?: number;
  /** N m/rad */
  readonly spring?: number;
}

/** A rigid unit of a train. A trailer on a steered front axle is two units: the steered frame, and the body on it. */
export interface TrainUnit {
  /** kg */
  readonly mass: number;
  /** Centre of gravity, m in the unit's frame. */
  readonly x: number;
  /** About the vertical through the centre of gravity, kg m². */
  readonly yawInertia: number;
  readonly axles: readonly TrainAxle[];
  /** Where it is coupled to the unit ahead, m; every unit but the first has one. */
  readonly coupling?: number;
  /** Where the next unit is coupled, m; every unit but the last has one. */
  readonly hitch?: number;
  /** At the coupling to the unit ahead. */
  readonly joint?: Joint;
}

/** A longitudinal force at a point of a unit that is neither tyre force nor weight: drag, a tether. */
export interface PointForce {
  /** Index of the unit. */
  readonly unit: number;
  /** m in the unit's frame, on its plane of symmetry. */
  readonly x: number;
  /** N, forward positive. */
  readonly force: number;
  /** Added to it times the square of speed, N s²/m²; aerodynamic drag is negative. */
  readonly perSpeedSquared?: number;
  /** Turning with the unit it acts on, or keeping the direction of the course. */
  readonly direction: 'unit' | 'course';
}

/**
 * Units coupled in a row, from the front, running straight at constant speed.
 *
 * Longitudinal forces bend the lateral motion because they pull a train straight or push it aside. Of the first unit's
 * tyres only the sum counts, and that follows from the balance: they carry whatever the other forces leave over.
 */
export interface Train {
  readonly units: readonly TrainUnit[];
  readonly forces?: readonly PointForce[];
  /** Along the course on every kilogram, m/s², forward positive: gravity on a grade less the acceleration. */
  readonly bodyForce?: number;
  /**
   * What the direction of gravity and of forces with the direction of the course goes by. `vehicle`, if absent: the
   * heading of the first unit, since its driver follows the road. `space`: a fixed direction, as on a test belt; the
   * heading of the first unit then belongs to the motion.
   */
  readonly course?: 'vehicle' | 'space';
}

/** Gravity's part along the road and the deceleration of a quasi-static state, as the body force of a train, m/s². */
export function bodyForceOf({ grade, deceleration }: Field): number {
  return deceleration - (STANDARD_GRAVITY * grade) / Math.hypot(1, grade);
}

/** The first unit without what it tows. */
export function withoutTrailers(train: Train): Train {
  return {
    ...train,
    units: train.units.slice(0, 1),
    forces: (train.forces ?? []).filter(({ unit }) => unit === 0),
  };
}

/** The longitudinal balance of a train. */
export interface LongitudinalBalance {
  /** Force of the road on the first unit's tyres, N, driving positive. */
  readonly traction: number;
  /** Tension in the coupling ahead of each unit, N, stretched positive; by unit index, 0 for the first. */
  readonly tension: readonly number[];
}

/**
 * The axial force in every coupling and what the first unit's tyres have to give, at `speed` m/s: forces along the
 * course, summed from the rear. Of the first unit's axles no force is read.
 */
export function longitudinalBalance(train: Train, speed: number): LongitudinalBalance {
  const tension = new Array<number>(train.units.length).fill(0);
  let behind = 0;
  for (let index = train.units.length - 1; index >= 0; index--) {
    const unit = train.units[index];
    if (unit === undefined) continue;
    let sum = (train.bodyForce ?? 0) * unit.mass;
    if (index > 0) for (const axle of unit.axles) sum += axle.force ?? 0;
    for (const each of train.forces ?? []) if (each.unit === index) sum += pointForceAt(each, speed);
    behind -= sum;
    tension[index] = behind;
  }
  const traction = tension[0] ?? 0;
  tension[0] = 0;
  return { traction, tension };
}

/** N at `speed` m/s. */
export function pointForceAt({ force, perSpeedSquared = 0 }: PointForce, speed: number): number {
  return force + perSpeedSquared * speed * speed;
}
