import { type AxleTerm, axleTerms, dependsOnCourse, fastSize } from './axle-terms.ts';
import { choleskyFactor, choleskySolve } from './dense.ts';
import { type HeadingVisitor, visitHeadingForces } from './headings.ts';
import { type Lever, leverOf } from './levers.ts';
import { findTrainProblem, type StabilityProblem } from './problems.ts';
import type { Train } from './train.ts';

/**
 * Where things are in the state of a train of n units with s lagging axles:
 * v (m/s, sideways velocity of the first unit's frame origin over the road, across its heading), yaw rates r1 … rn
 * (rad/s), headings θ2 … θn over that of the first unit (rad), the first unit's heading ψ1 over the course if that is
 * fixed in space and anything acts along it (rad), and what lags: of few axles the slip angles (rad), of more than n + 1
 * with one relaxation length the accelerations of (Y, ψ1 … ψn) their tyres cause, which are fewer. Place across the road, and the heading where nothing depends
 * on it, are left out: they would only add eigenvalues 0.
 */
export interface StateLayout {
  readonly units: number;
  /** n + 1: v and the yaw rates come first. */
  readonly velocities: number;
  /** Index of θ2. */
  readonly headings: number;
  /** Index of ψ1, or −1. */
  readonly course: number;
  readonly size: number;
}

/**
 * The linear motion of a train: ẋ = A(V)·x, A(V) = constant + inverse/V + linear·V + square·V². Matrices are row by row,
 * `size` × `size`.
 */
export interface Equations {
  readonly train: Train;
  readonly layout: StateLayout;
  /** Levers of the units' centres of gravity. */
  readonly centres: readonly Lever[];
  readonly axles: readonly AxleTerm[];
  /** Cholesky factor of the mass matrix, `velocities` × `velocities`. */
  readonly massFactor: Float64Array;
  readonly constant: Float64Array;
  readonly inverse: Float64Array;
  readonly linear: Float64Array;
  readonly square: Float64Array;
}

/** Coefficients past it (SI) belong to no train, and their squares and cubes soon to no number. */
const GREATEST = 1e40;

/** The matrices while they are filled: derivatives of momentum, before the masses are divided out. */
interface Draft {
  readonly layout: StateLayout;
  readonly constant: Float64Array;
  readonly inverse: Float64Array;
  readonly linear: Float64Array;
  readonly square: Float64Array;
}

/**
 * The equations of lateral motion about straight running, from Lagrange's equations with the coordinates (Y, ψ1 … ψn).
 *
 * Single-track: the tyres of an axle act at its middle, force −C·α across the wheel, α = (sideways velocity)/V − heading,
 * with σ/V·α̇' + α' = α where they lag. Longitudinal forces act through the headings. Written in the velocity of the first unit over the road, so that a state of constant
 * deceleration (a body force like gravity) is as steady as one of constant speed. Never throws.
 */
export function equationsOf(train: Train): Equations | StabilityProblem {
  const problem = findTrainProblem(train);
  if (problem !== undefined) return problem;
  const axles = axleTerms(train);
  const layout = layoutOf(train, axles);
  const { size } = layout;
  const blank = () => new Float64Array(size * size);
  const draft: Draft = { layout, constant: blank(), inverse: blank(), linear: blank(), square: blank() };
  const centres = train.units.map(({ x }, unit) => leverOf(train, unit, x));
  const mass = massMatrix(train, centres);
  addInertia(draft, mass);
  for (const axle of axles) addAxle(draft, axle);
  addDampers(draft, train);
  visitHeadingForces(train, centres, axles, addHeadingForces(draft));
  const massFactor = choleskyFactor(mass, layout.velocities);
  if (massFactor === undefined) return { problem: 'overflow' };
  const blocks = [0, ...laggingBlocks(axles)];
  for (const matrix of [draft.constant, draft.inverse, draft.linear, draft.square]) {
    for (const row of blocks) choleskySolve(massFactor, layout.velocities, matrix.subarray(row * size), size);
  }
  addKinematics(draft, axles);
  const all = [draft.constant, draft.inverse, draft.linear, draft.square];
  const inRange = all.every((matrix) => matrix.every((value) => Math.abs(value) < GREATEST));
  return inRange ? { ...draft, train, centres, axles, massFactor } : { problem: 'overflow' };
}

/** A(V) for speed V in m/s, written to `out` (row by row) if given. */
export function stateMatrix(equations: Equations, speed: number, out?: Float64Array): Float64Array {
  const { constant, inverse, linear, square } = equations;
  const matrix = out ?? new Float64Array(constant.length);
  const reciprocal = 1 / speed;
  const squared = speed * speed;
  for (let i = 0; i < matrix.length; i++) {
    matrix[i] =
      (constant[i] ?? 0) + reciprocal * (inverse[i] ?? 0) + speed * (linear[i] ?? 0) + squared * (square[i] ?? 0);
  }
  return matrix;
}

function layoutOf(train: Train, axles: readonly AxleTerm[]): StateLayout {
  const units = train.units.length;
  const ends = axles.map(({ slip, lagging }) => (lagging >= 0 ? lagging + units + 1 : slip + 1));
  return {
    units,
    velocities: units + 1,
    headings: units + 1,
    course: dependsOnCourse(train) ? 2 * units : -1,
    size: Math.max(fastSize(train), ...ends),
  };
}

function massMatrix(train: Train, centres: readonly Lever[]): Float64Array {
  const count = train.units.length + 1;
  const matrix = new Float64Array(count * count);
  for (const [unit, { mass, yawInertia }] of train.units.entries()) {
    const lever = centres[unit];
    if (lever === undefined) continue;
    for (let row = 0; row < count; row++) {
      for (let column = 0; column < count; column++) {
        add(matrix, row * count + column, mass * at(lever, row) * at(lever, column));
      }
    }
    add(matrix, (unit + 1) * (count + 1), yawInertia);
  }
  return matrix;
}

/** The first unit's yaw turns its forward velocity sideways: −M·(V·r1, 0 …). */
function addInertia({ layout, linear }: Draft, mass: Float64Array): void {
  for (let row = 0; row < layout.velocities; row++) {
    add(linear, row * layout.size + 1, -at(mass, row * layout.velocities));
  }
}

/** Forces −C·α on all coordinates, at once or as what the lagging accelerations tend to. */
function addAxle(draft: Draft, { lever, stiffness, slip, lagging, relaxation, unit }: AxleTerm): void {
  const { layout } = draft;
  for (let row = 0; row < layout.velocities; row++) {
    const force = -stiffness * at(lever, row);
    const start = row * layout.size;
    if (slip >= 0) {
      add(draft.constant, start + slip, force);
    } else if (lagging >= 0) {
      addForce(draft.constant, draft.linear, layout, lagging + row, lever, unit, force / relaxation);
    } else {
      addForce(draft.inverse, draft.constant, layout, row, lever, unit, force);
    }
  }
}

/** A force on `row` of `factor` times the slip angle lever·(v, r)/V − θ, the two parts to the matrices of their powers of V. */
function addForce(
  ofVelocities: Float64Array,
  ofHeadings: Float64Array,
  layout: StateLayout,
  row: number,
  lever: Lever,
  unit: number,
  factor: number,
): void {
  for (let column = 0; column < layout.velocities; column++) {
    add(ofVelocities, row * layout.size + column, factor * at(lever, column));
  }
  addHeading(ofHeadings, layout, row, unit, -factor);
}

function addDampers({ layout, constant }: Draft, train: Train): void {
  for (let unit = 1; unit < layout.units; unit++) {
    const damping = train.units[unit]?.joint?.damping ?? 0;
    for (const [row, sign] of [
      [unit, 1],
      [unit + 1, -1],
    ] as const) {
      add(constant, row * layout.size + unit, -sign * damping);
      add(constant, row * layout.size + unit + 1, sign * damping);
    }
  }
}

/** Headings over the first unit's are θ; those over a course fixed in space θ + ψ1. */
function addHeadingForces({ layout, constant, square }: Draft): HeadingVisitor {
  return (row, unit, value, perSpeedSquared, course) => {
    addHeading(constant, layout, row, unit, value);
    addHeading(square, layout, row, unit, perSpeedSquared);
    if (!course || layout.course < 0) return;
    add(constant, row * layout.size + layout.course, value);
    add(square, row * layout.size + layout.course, perSpeedSquared);
  };
}

/** Adds `value` times the heading of `unit` over the first unit's to a row; the first unit's is no part of the state. */
function addHeading(matrix: Float64Array, layout: StateLayout, row: number, unit: number, value: number): void {
  if (unit > 0) add(matrix, row * layout.size + layout.headings + unit - 1, value);
}

/** θ̇i = ri − r1, ψ̇1 = r1, σ·α̇ = V·(slip − α) = v + lever·r − V·(θ + α), and the same lag of accelerations. */
function addKinematics({ layout, constant, linear }: Draft, axles: readonly AxleTerm[]): void {
  const { size } = layout;
  for (let unit = 1; unit < layout.units; unit++) {
    const row = (layout.headings + unit - 1) * size;
    add(constant, row + unit + 1, 1);
    add(constant, row + 1, -1);
  }
  if (layout.course >= 0) add(constant, layout.course * size + 1, 1);
  for (const { slip, relaxation, lever, unit } of axles) {
    if (slip < 0) continue;
    addForce(constant, linear, layout, slip, lever, unit, 1 / relaxation);
    add(linear, slip * (size + 1), -1 / relaxation);
  }
  for (const row of laggingBlocks(axles)) {
    const relaxation = axles.find(({ lagging }) => lagging === row)?.relaxation ?? 1;
    for (let k = 0; k < layout.velocities; k++) {
      add(constant, k * size + row + k, 1);
      add(linear, (row + k) * (size + 1), -1 / relaxation);
    }
  }
}

/** Where every set of lagging accelerations starts in the state. */
function laggingBlocks(axles: readonly AxleTerm[]): number[] {
  return [...new Set(axles.map(({ lagging }) => lagging))].filter((row) => row >= 0);
}

function at(values: Float64Array, index: number): number {
  return values[index] ?? 0;
}

function add(values: Float64Array, index: number, value: number): void {
  values[index] = (values[index] ?? 0) + value;
}
