import { type Lever, leverOf } from './levers.ts';
import type { Train } from './train.ts';

/**
 * One generalised force that goes with a heading: on coordinate `row` of (Y, ψ1 … ψn), N or N m per rad of the heading of
 * unit `unit`, plus `square` times the square of speed. `course`: the heading is that over the course, which for the
 * first unit counts only where the course is fixed in space; else only differences of headings occur.
 */
export type HeadingVisitor = (row: number, unit: number, value: number, square: number, course: boolean) => void;

/** What longitudinal force of an axle turns with its unit. */
export interface AxleForce {
  readonly unit: number;
  readonly lever: Lever;
  readonly force: number;
}

/**
 * Visits all that acts through headings alone: longitudinal forces, weight on a grade and hitch springs.
 *
 * A force P along unit i does the virtual work P·lever[k]·(ψi − ψk) on coordinate k, one along the course F·lever[k]·(course
 * − ψk), to first order in the angles; ψ0 stands for ψ1.
 */
export function visitHeadingForces(
  train: Train,
  centres: readonly Lever[],
  axles: readonly AxleForce[],
  visit: HeadingVisitor,
): void {
  for (const { unit, lever, force } of axles) if (force !== 0) alongUnit(lever, unit, force, 0, visit);
  for (const { unit, x, force, perSpeedSquared = 0, direction } of train.forces ?? []) {
    const lever = leverOf(train, unit, x);
    if (direction === 'unit') alongUnit(lever, unit, force, perSpeedSquared, visit);
    else alongCourse(lever, force, perSpeedSquared, visit);
  }
  const { bodyForce = 0 } = train;
  for (const [unit, lever] of centres.entries()) {
    if (bodyForce !== 0) alongCourse(lever, bodyForce * (train.units[unit]?.mass ?? 0), 0, visit);
  }
  for (const [unit, { joint }] of train.units.entries()) {
    if (unit > 0 && joint?.spring !== undefined) straighten(unit, joint.spring, visit);
  }
}

function alongUnit(lever: Lever, unit: number, force: number, square: number, visit: HeadingVisitor): void {
  for (let row = 0; row < lever.length; row++) {
    const arm = lever[row] ?? 0;
    if (arm === 0) continue;
    visit(row, unit, force * arm, square * arm, false);
    visit(row, Math.max(0, row - 1), -force * arm, -square * arm, false);
  }
}

function alongCourse(lever: Lever, force: number, square: number, visit: HeadingVisitor): void {
  for (let row = 0; row < lever.length; row++) {
    const arm = lever[row] ?? 0;
    if (arm !== 0) visit(row, Math.max(0, row - 1), -force * arm, -square * arm, true);
  }
}

function straighten(unit: number, spring: number, visit: HeadingVisitor): void {
  visit(unit, unit, spring, 0, false);
  visit(unit, unit - 1, -spring, 0, false);
  visit(unit + 1, unit, -spring, 0, false);
  visit(unit + 1, unit - 1, spring, 0, false);
}
