import {
  type Complex,
  type ComplexVector,
  complex,
  component,
  difference,
  divide,
  magnitude,
  plus,
  scaled,
  times,
  weigh,
} from './complex.ts';
import { choleskySolve } from './dense.ts';
import { type Equations, stateMatrix } from './equations.ts';
import { bilinear, dot, leftVector } from './left-vector.ts';
import { type Lever, leverOf } from './levers.ts';

/** Derivatives of one figure with respect to what a train is made of; shapes as in `Train`. */
export interface TrainGradient {
  readonly units: readonly UnitGradient[];
  /** Per m/s² of body force. */
  readonly bodyForce: number;
  /** Per N of each of the train's forces. */
  readonly forces: readonly number[];
  /** Per m/s. */
  readonly speed: number;
}

export interface UnitGradient {
  /** Per kg, the centre of gravity and the yaw inertia about it held. */
  readonly mass: number;
  /** Per m the centre of gravity moves forward, all loads held. */
  readonly x: number;
  /** Per kg m². */
  readonly yawInertia: number;
  readonly axles: readonly AxleGradient[];
  /** Per N m s/rad and per N m/rad of the joint ahead; 0 for the first unit. */
  readonly jointDamping: number;
  readonly jointSpring: number;
}

export interface AxleGradient {
  /** Per N/rad. */
  readonly stiffness: number;
  /** Per N of longitudinal force; 0 on the first unit. */
  readonly force: number;
}

/** Turns the change of an eigenvalue into that of a figure. */
export type Figure = (change: Complex) => number;

/** One mode with its left eigenvector: all that derivatives need, whatever they are with respect to. */
export interface Adjoint {
  readonly eigenvalue: Complex;
  readonly speed: number;
  /** The motion: v, yaw rates, headings (see `StateLayout`). */
  readonly right: ComplexVector;
  /** Generalised forces (of coordinates Y, ψ1 … ψn) a unit of which changes the eigenvalue by 1/s. */
  readonly left: ComplexVector;
  /** Headings of the units over the first one's, and over the course. */
  readonly headings: readonly Complex[];
  readonly courseHeadings: readonly Complex[];
  /** Accelerations of (Y, ψ1 … ψn), sideways that of the first unit's frame origin. */
  readonly accelerations: ComplexVector;
  /** dλ/dV, 1/m. */
  readonly perSpeed: Complex;
}

/**
 * The left eigenvector that belongs to an eigenvalue and its right one at `speed` m/s, by inverse iteration. Undefined
 * if both are orthogonal: a multiple eigenvalue, which has no derivative.
 */
export function adjointOf(
  equations: Equations,
  speed: number,
  eigenvalue: Complex,
  right: ComplexVector,
): Adjoint | undefined {
  const { layout, massFactor } = equations;
  const matrix = stateMatrix(equations, speed);
  const found = leftVector(matrix, layout.size, eigenvalue);
  if (found === undefined) return undefined;
  const product = dot(found, right);
  if (!(magnitude(product) > 1e-12)) return undefined;
  const perSpeed = divide(bilinear(found, speedDerivative(equations, speed), right), product);
  const left = momentumPart(found, product, massFactor, layout.velocities);
  const headings = [complex(0)];
  for (let unit = 1; unit < layout.units; unit++) headings.push(component(right, layout.headings + unit - 1));
  // A heading over a fixed course that is no part of the state still is the integral of the yaw rate.
  const course = equations.train.course === 'space' ? divide(component(right, 1), eigenvalue) : complex(0);
  return {
    eigenvalue,
    speed,
    right,
    left,
    headings,
    courseHeadings: headings.map((each) => plus(each, course)),
    accelerations: accelerationsOf(right, eigenvalue, speed, layout.velocities),
    perSpeed,
  };
}

/** The left eigenvector's part that takes forces, the mass matrix divided out, for a product of both vectors of 1. */
function momentumPart(left: ComplexVector, product: Complex, massFactor: Float64Array, count: number): ComplexVector {
  const part = { real: new Float64Array(count), imaginary: new Float64Array(count) };
  for (let k = 0; k < count; k++) {
    const { real, imaginary } = divide(component(left, k), product);
    part.real[k] = real;
    part.imaginary[k] = imaginary;
  }
  choleskySolve(massFactor, count, part.real, 1);
  choleskySolve(massFactor, count, part.imaginary, 1);
  return part;
}

/** λ·(v, r1 … rn) + (V·r1, 0 …): the first unit's yaw turns its forward velocity sideways. */
function accelerationsOf(right: ComplexVector, eigenvalue: Complex, speed: number, count: number): ComplexVector {
  const result = { real: new Float64Array(count), imaginary: new Float64Array(count) };
  for (let k = 0; k < count; k++) {
    const turning = k === 0 ? scaled(component(right, 1), speed) : complex(0);
    const { real, imaginary } = plus(times(eigenvalue, component(right, k)), turning);
    result.real[k] = real;
    result.imaginary[k] = imaginary;
  }
  return result;
}

/** dA/dV */
function speedDerivative({ inverse, linear, square }: Equations, speed: number): Float64Array {
  return linear.map((value, i) => value - (inverse[i] ?? 0) / (speed * speed) + 2 * speed * (square[i] ?? 0));
}

/**
 * The derivatives of a figure that depends on one eigenvalue, exact, with one pass over the parts: in a mode every part
 * contributes left·(its generalised force), and the eigenvalue moves by the change of the sum.
 */
export function gradientOf(equations: Equations, adjoint: Adjoint, figure: Figure): TrainGradient {
  const { train, axles, centres } = equations;
  const bodyForce = train.bodyForce ?? 0;
  let perBodyForce = complex(0);
  const units = train.units.map((unit, index): UnitGradient => {
    const lever = centres[index] ?? new Float64Array(0);
    const own = index + 1;
    const heading = adjoint.courseHeadings[index] ?? complex(0);
    const left = component(adjoint.left, own);
    const weight = courseForce(adjoint, lever);
    const onCentre = weigh(lever, adjoint.left);
    const acceleration = weigh(lever, adjoint.accelerations);
    const yaw = component(adjoint.accelerations, own);
    perBodyForce = plus(perBodyForce, scaled(weight, unit.mass));
    const perMass = plus(scaled(times(onCentre, acceleration), -1), scaled(weight, bodyForce));
    const moved = plus(times(left, acceleration), times(onCentre, yaw));
    return {
      mass: figure(perMass),
      x: figure(scaled(plus(moved, scaled(times(left, heading), bodyForce)), -unit.mass)),
      yawInertia: figure(scaled(times(left, yaw), -1)),
      axles: axles
        .filter((axle) => axle.unit === index)
        .map(({ lever: place, relaxation }) => ({
          stiffness: figure(scaled(times(weigh(place, adjoint.left), slipOf(adjoint, place, index, relaxation)), -1)),
          force: index === 0 ? 0 : figure(unitForce(adjoint, place, index)),
        })),
      ...jointGradient(adjoint, index, figure),
    };
  });
  const forces = (train.forces ?? []).map(({ unit, x, direction }) => {
    const lever = leverOf(train, unit, x);
    return figure(direction === 'unit' ? unitForce(adjoint, lever, unit) : courseForce(adjoint, lever));
  });
  return { units, bodyForce: figure(perBodyForce), forces, speed: figure(adjoint.perSpeed) };
}

function jointGradient(adjoint: Adjoint, unit: number, figure: Figure): { jointDamping: number; jointSpring: number } {
  if (unit === 0) return { jointDamping: 0, jointSpring: 0 };
  const left = difference(component(adjoint.left, unit + 1), component(adjoint.left, unit));
  const rate = difference(component(adjoint.right, unit + 1), component(adjoint.right, unit));
  const angle = difference(adjoint.headings[unit] ?? complex(0), adjoint.headings[unit - 1] ?? complex(0));
  return { jointDamping: figure(scaled(times(left, rate), -1)), jointSpring: figure(scaled(times(left, angle), -1)) };
}

/** Slip angle in the mode, with lag: slip/(1 + σ·λ/V). */
function slipOf({ right, headings, speed, eigenvalue }: Adjoint, lever: Lever, unit: number, lag: number): Complex {
  const slip = difference(scaled(weigh(lever, right), 1 / speed), headings[unit] ?? complex(0));
  return lag > 0 ? divide(slip, plus(complex(1), scaled(eigenvalue, lag / speed))) : slip;
}

/** Σ left·lever·(ψi − ψk): what 1 N along unit i does. */
function unitForce({ left, headings }: Adjoint, lever: Lever, unit: number): Complex {
  let sum = complex(0);
  for (let k = 0; k < lever.length; k++) {
    const angle = difference(headings[unit] ?? complex(0), headings[Math.max(0, k - 1)] ?? complex(0));
    sum = plus(sum, scaled(times(component(left, k), angle), lever[k] ?? 0));
  }
  return sum;
}

/** −Σ left·lever·ψk: what 1 N along the course does. */
function courseForce({ left, courseHeadings }: Adjoint, lever: Lever): Complex {
  let sum = complex(0);
  for (let k = 0; k < lever.length; k++) {
    const angle = courseHeadings[Math.max(0, k - 1)] ?? complex(0);
    sum = plus(sum, scaled(times(component(left, k), angle), -(lever[k] ?? 0)));
  }
  return sum;
}
