import type { Axle, Combination, CouplingPoint, Field, Unit } from './combination.ts';

/** Why the loads of a combination cannot be found. */
export type StaticsProblemKind =
  /** The combination has no unit. */
  | 'no-units'
  /** A unit, or one of its groups, has no axle. */
  | 'no-axles'
  /** A place of an axle, coupling or hitch is not a finite number. */
  | 'place-not-finite'
  /** A track is zero, negative or not finite. */
  | 'track-not-positive'
  /** A spring rate is zero, negative or not finite. */
  | 'rate-not-positive'
  /** A brake share is negative or not finite. */
  | 'brake-share-out-of-range'
  /** A unit behind another has no coupling. */
  | 'no-coupling'
  /** A unit with another behind it has no hitch. */
  | 'no-hitch'
  /** A support of the axles is right at a coupling that carries load: no lever. */
  | 'coupling-at-axle'
  /** A support of the axles is ahead of a coupling that carries load. */
  | 'axle-ahead-of-coupling'
  /** A unit without a carrying coupling stands on one support only. */
  | 'single-support'
  /** The supports of a unit without a carrying coupling are all in one place. */
  | 'supports-coincide'
  /** There is a weight-distribution device, but nothing behind the first unit. */
  | 'weight-distribution-without-trailer'
  /** There is a weight-distribution device, but the first unit is a trailer standing alone. */
  | 'weight-distribution-without-vehicle'
  /** The weight-distribution device is at a drawbar that is hinged and cannot pass its moment. */
  | 'weight-distribution-on-hinged-drawbar'
  /** The moment or share of the weight-distribution device is not a finite number. */
  | 'weight-distribution-not-finite'
  /** The front axle group loses nothing to the trailer (hitch not behind the rear axles), so there is no share of it. */
  | 'nothing-to-restore'
  /** Grade or deceleration is not a finite number. */
  | 'field-not-finite'
  /** The given numbers are finite but so large or small that the loads are not. */
  | 'overflow';

/** A combination whose loads cannot be found: why, and at which unit, group and axle (indices), as far as they apply. */
export interface StaticsProblem {
  readonly problem: StaticsProblemKind;
  readonly unit?: number;
  readonly group?: number;
  readonly axle?: number;
}

/** What has no unit, or a number that cannot be one of a real combination; the first found from the front. */
export function findProblem(combination: Combination, field: Field): StaticsProblem | undefined {
  const { units } = combination;
  if (units.length === 0) return { problem: 'no-units' };
  if (!Number.isFinite(field.grade) || !Number.isFinite(field.deceleration)) return { problem: 'field-not-finite' };
  for (const [index, unit] of units.entries()) {
    const found = findUnitProblem(unit, index) ?? findJointProblem(unit, index, index === units.length - 1);
    if (found !== undefined) return found;
  }
  return findDeviceProblem(combination);
}

function findUnitProblem(unit: Unit, index: number): StaticsProblem | undefined {
  if (unit.groups.length === 0) return { problem: 'no-axles', unit: index };
  for (const [group, { axles }] of unit.groups.entries()) {
    if (axles.length === 0) return { problem: 'no-axles', unit: index, group };
    for (const [axle, each] of axles.entries()) {
      const problem = axleProblem(each);
      if (problem !== undefined) return { problem, unit: index, group, axle };
    }
  }
  return undefined;
}

function axleProblem(axle: Axle): StaticsProblemKind | undefined {
  if (!Number.isFinite(axle.x)) return 'place-not-finite';
  if (!isPositive(axle.track)) return 'track-not-positive';
  if (axle.rate !== undefined && !isPositive(axle.rate)) return 'rate-not-positive';
  return undefined;
}

function findJointProblem(unit: Unit, index: number, isLast: boolean): StaticsProblem | undefined {
  if (index > 0 && unit.coupling === undefined) return { problem: 'no-coupling', unit: index };
  if (!isLast && unit.hitch === undefined) return { problem: 'no-hitch', unit: index };
  if (!isPlaced(unit.coupling) || !isPlaced(unit.hitch)) return { problem: 'place-not-finite', unit: index };
  if (unit.coupling !== undefined && !(unit.brakeShare >= 0 && unit.brakeShare < Number.POSITIVE_INFINITY)) {
    return { problem: 'brake-share-out-of-range', unit: index };
  }
  return undefined;
}

function findDeviceProblem(combination: Combination): StaticsProblem | undefined {
  const device = combination.weightDistribution;
  if (device === undefined) return undefined;
  const [vehicle, trailer] = combination.units;
  if (trailer === undefined) return { problem: 'weight-distribution-without-trailer', unit: 0 };
  if (vehicle?.coupling !== undefined) return { problem: 'weight-distribution-without-vehicle', unit: 0 };
  if (!trailer.couplingCarries) return { problem: 'weight-distribution-on-hinged-drawbar', unit: 1 };
  const given = device.kind === 'moment' ? device.moment : device.share;
  return Number.isFinite(given) ? undefined : { problem: 'weight-distribution-not-finite', unit: 0 };
}

function isPositive(value: number): boolean {
  return value > 0 && value < Number.POSITIVE_INFINITY;
}

function isPlaced(point: CouplingPoint | undefined): boolean {
  return point === undefined || (Number.isFinite(point.x) && Number.isFinite(point.z));
}
