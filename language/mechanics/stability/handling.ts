import type { AxleTerm } from './axle-terms.ts';
import { solveInPlace } from './dense.ts';
import { type Equations, equationsOf } from './equations.ts';
import { visitHeadingForces } from './headings.ts';
import type { StabilityProblem } from './problems.ts';
import { type Train, withoutTrailers } from './train.ts';

/**
 * Steady turning: steering angle = wheelbase·curvature + gradient·lateral acceleration.
 */
export interface Handling {
  /** rad per m/s², above 0 understeers: the driver has to steer more the faster the same turn is taken. */
  readonly understeer: number;
  /** m; the wheelbase of a two-axled vehicle, and what stands for it with more axles or a stiff coupling. */
  readonly wheelbase: number;
  /** √(−wheelbase/gradient): above it steering answers the wrong way; undefined if it understeers. m/s */
  readonly criticalSpeed?: number;
  /** √(wheelbase/gradient): where steering answers most; undefined if it oversteers. m/s */
  readonly characteristicSpeed?: number;
}

/**
 * The first unit in steady turning, with all it tows. Undefined where steering has no definite answer (steered tyres
 * that carry nothing). Forces that grow with speed are taken at `speed` m/s (0 if not given).
 */
export function handlingOf(train: Train, speed = 0): Handling | undefined | StabilityProblem {
  const equations = equationsOf(train);
  return 'problem' in equations ? equations : steadyTurn(equations, speed);
}

/** The same of the first unit without what it tows; its axles' stiffnesses should be those it has alone. */
export function handlingAlone(train: Train, speed = 0): Handling | undefined | StabilityProblem {
  return handlingOf(withoutTrailers(train), speed);
}

/**
 * Balance of forces and moments in a steady turn: unknown are v/V, the headings θ2 … θn over the first unit's and the
 * steering angle δ; curvature κ and lateral acceleration V²·κ are given. All units have one yaw rate, so that hitch
 * dampers rest. Linear, hence solved for κ and for the acceleration alone; for one trailer this is the rule
 * K = Ff/Cf − Fr/Cr with the axle forces that hold vehicle and hitch load in the turn.
 */
function steadyTurn(equations: Equations, speed: number): Handling | undefined {
  const { layout } = equations;
  const count = layout.velocities;
  const matrix = new Float64Array(count * count);
  const values = new Float64Array(count * 2);
  for (const axle of equations.axles) addTyres(matrix, values, count, axle);
  visitHeadingForces(equations.train, equations.centres, equations.axles, (row, unit, value, square) => {
    if (unit > 0) add(matrix, row * count + unit, value + square * speed * speed);
  });
  for (const [unit, lever] of equations.centres.entries()) {
    const mass = equations.train.units[unit]?.mass ?? 0;
    for (let row = 0; row < count; row++) add(values, row * 2 + 1, -mass * (lever[row] ?? 0));
  }
  if (!solveInPlace(matrix, count, values, 2)) return undefined;
  const wheelbase = -(values[(count - 1) * 2] ?? 0);
  const understeer = -(values[(count - 1) * 2 + 1] ?? 0);
  if (!Number.isFinite(wheelbase) || !Number.isFinite(understeer)) return undefined;
  const square = wheelbase / understeer;
  return {
    wheelbase,
    understeer,
    ...(square < 0 ? { criticalSpeed: Math.sqrt(-square) } : {}),
    ...(square > 0 && square < Number.POSITIVE_INFINITY ? { characteristicSpeed: Math.sqrt(square) } : {}),
  };
}

/** Tyre forces −C·(v/V + κ·place − θ − δ): unknowns on the left, what goes with κ on the right, both with one sign. */
function addTyres(
  matrix: Float64Array,
  values: Float64Array,
  count: number,
  { unit, lever, stiffness, steered }: AxleTerm,
): void {
  let place = 0;
  for (let k = 1; k < count; k++) place += lever[k] ?? 0;
  for (let row = 0; row < count; row++) {
    const force = -stiffness * (lever[row] ?? 0);
    add(matrix, row * count, force);
    if (unit > 0) add(matrix, row * count + unit, -force);
    if (steered) add(matrix, row * count + count - 1, -force);
    add(values, row * 2, force * place);
  }
}

function add(values: Float64Array, index: number, value: number): void {
  values[index] = (values[index] ?? 0) + value;
}
