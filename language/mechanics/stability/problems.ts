import type { PointForce, Train, TrainAxle, TrainUnit } from './train.ts';

/** Why the lateral motion of a train cannot be computed. */
export type StabilityProblemKind =
  /** The train has no unit. */
  | 'no-units'
  /** A unit has no axle. */
  | 'no-axles'
  /** A place, force, spring or other figure is not a finite number. */
  | 'not-finite'
  /** A mass is zero or negative. */
  | 'mass-not-positive'
  /** A yaw inertia is zero or negative. */
  | 'inertia-not-positive'
  /** A cornering stiffness is negative. */
  | 'stiffness-negative'
  /** A relaxation length is negative. */
  | 'relaxation-negative'
  /** The damping or the spring rate of a joint is negative. */
  | 'joint-negative'
  /** A unit behind another has no coupling. */
  | 'no-coupling'
  /** A unit with another behind it has no hitch. */
  | 'no-hitch'
  /** All axles of the first unit are in one place. */
  | 'zero-wheelbase'
  /** All axles of a towed unit are right at its coupling: no lever. */
  | 'axle-at-coupling'
  /** A force acts on a unit that the train has not. */
  | 'no-such-unit'
  /** A speed is not above 0 and at most 1000 km/h, or a range of speeds is empty. */
  | 'speed-out-of-range'
  /** The given numbers are finite but so large or small that the results are not. */
  | 'overflow';

/** A train whose motion cannot be computed: why, and at which unit and axle (indices), as far as they apply. */
export interface StabilityProblem {
  readonly problem: StabilityProblemKind;
  readonly unit?: number;
  readonly axle?: number;
}

/** Greatest speed anything is computed for, m/s: 1000 km/h. */
export const GREATEST_SPEED = 1000 / 3.6;

/** Axles closer than this to each other or to the coupling, m, count as in one place. */
const SAME_PLACE = 1e-6;

/** Figures in SI units past it, and masses and inertias below its inverse, belong to no train. */
const GREATEST_FIGURE = 1e15;

export function isStabilityProblem<T extends object>(result: T | StabilityProblem): result is StabilityProblem {
  return 'problem' in result;
}

/** A speed (m/s) that nothing is computed for. */
export function findSpeedProblem(speed: number): StabilityProblem | undefined {
  return speed > 0 && speed <= GREATEST_SPEED ? undefined : { problem: 'speed-out-of-range' };
}

/** What a train lacks, or a number that cannot be one of a real train; the first found from the front. */
export function findTrainProblem(train: Train): StabilityProblem | undefined {
  const { units } = train;
  if (units.length === 0) return { problem: 'no-units' };
  for (const [index, unit] of units.entries()) {
    const problem =
      unitProblem(unit) ??
      jointProblem(unit, index, units.length) ??
      axlesProblem(unit, index) ??
      placeProblem(unit, index);
    if (problem !== undefined)
      return typeof problem === 'string' ? { problem, unit: index } : { ...problem, unit: index };
  }
  if (!isFigure(train.bodyForce)) return { problem: 'not-finite' };
  for (const force of train.forces ?? []) {
    const problem = forceProblem(force, units.length);
    if (problem !== undefined) return problem;
  }
  return isInRange(train) ? undefined : { problem: 'overflow' };
}

function isInRange({ units, forces = [], bodyForce = 0 }: Train): boolean {
  const figures = [bodyForce];
  for (const { mass, x, yawInertia, axles, coupling = 0, hitch = 0, joint } of units) {
    if (Math.min(mass, yawInertia) < 1 / GREATEST_FIGURE) return false;
    figures.push(mass, x, yawInertia, coupling, hitch, joint?.damping ?? 0, joint?.spring ?? 0);
    for (const axle of axles) figures.push(axle.x, axle.stiffness, axle.relaxation ?? 0, axle.force ?? 0);
  }
  for (const { x, force, perSpeedSquared = 0 } of forces) figures.push(x, force, perSpeedSquared);
  return figures.every((figure) => Math.abs(figure) <= GREATEST_FIGURE);
}

function unitProblem({ mass, x, yawInertia }: TrainUnit): StabilityProblemKind | undefined {
  if (!isFigure(mass) || !isFigure(x) || !isFigure(yawInertia)) return 'not-finite';
  if (mass <= 0) return 'mass-not-positive';
  return yawInertia > 0 ? undefined : 'inertia-not-positive';
}

function jointProblem(unit: TrainUnit, index: number, count: number): StabilityProblemKind | undefined {
  if (index > 0 && unit.coupling === undefined) return 'no-coupling';
  if (index < count - 1 && unit.hitch === undefined) return 'no-hitch';
  const { coupling, hitch, joint } = unit;
  if (![coupling, hitch, joint?.damping, joint?.spring].every(isFigure)) return 'not-finite';
  return (joint?.damping ?? 0) < 0 || (joint?.spring ?? 0) < 0 ? 'joint-negative' : undefined;
}

function axlesProblem({ axles }: TrainUnit, index: number): StabilityProblemKind | StabilityProblem | undefined {
  if (axles.length === 0) return 'no-axles';
  for (const [axle, each] of axles.entries()) {
    const problem = axleProblem(each);
    if (problem !== undefined) return { problem, unit: index, axle };
  }
  return undefined;
}

function axleProblem({ x, stiffness, relaxation, force }: TrainAxle): StabilityProblemKind | undefined {
  if (!isFigure(x) || !isFigure(stiffness) || !isFigure(relaxation) || !isFigure(force)) return 'not-finite';
  if (stiffness < 0) return 'stiffness-negative';
  return (relaxation ?? 0) < 0 ? 'relaxation-negative' : undefined;
}

function placeProblem({ axles, coupling }: TrainUnit, index: number): StabilityProblemKind | undefined {
  const at = (index === 0 ? axles[0]?.x : coupling) ?? 0;
  if (axles.some(({ x }) => Math.abs(x - at) > SAME_PLACE)) return undefined;
  return index === 0 ? 'zero-wheelbase' : 'axle-at-coupling';
}

function forceProblem({ unit, x, force, perSpeedSquared }: PointForce, count: number): StabilityProblem | undefined {
  if (!Number.isInteger(unit) || unit < 0 || unit >= count) return { problem: 'no-such-unit' };
  return isFigure(x) && isFigure(force) && isFigure(perSpeedSquared) ? undefined : { problem: 'not-finite', unit };
}

function isFigure(value: number | undefined): boolean {
  return value === undefined || Number.isFinite(value);
}
