import { isStabilityProblem, type StabilityProblem } from '../../../language/mechanics/stability/problems.ts';
import type { Train } from '../../../language/mechanics/stability/train.ts';

/** What is not a problem; a problem fails the test that asks. */
export function solved<T extends object>(result: T | StabilityProblem | undefined): T {
  if (result === undefined) throw new Error('no result');
  if (isStabilityProblem(result)) throw new Error(`${result.problem}, unit ${result.unit}`);
  return result;
}

/** A vehicle and one trailer by the lengths of the textbooks, all positive; places from the CG of the vehicle back. */
export interface TextbookRig {
  readonly m1: number;
  readonly I1: number;
  /** CG to front and to rear axle, to hitch. */
  readonly a: number;
  readonly b: number;
  readonly d: number;
  readonly Cf: number;
  readonly Cr: number;
  readonly m2: number;
  readonly I2: number;
  /** Hitch to CG and to axle of the trailer. */
  readonly e: number;
  readonly L: number;
  readonly C2: number;
  /** Hitch damper and spring. */
  readonly c?: number;
  readonly k?: number;
}

export function textbookTrain(rig: TextbookRig, relaxation = 0): Train {
  const { m1, I1, a, b, d, Cf, Cr, m2, I2, e, L, C2, c, k } = rig;
  const axle = (x: number, stiffness: number) => ({ x, stiffness, relaxation });
  return {
    units: [
      { mass: m1, x: 0, yawInertia: I1, axles: [axle(a, Cf), axle(-b, Cr)], hitch: -d },
      { mass: m2, x: -e, yawInertia: I2, axles: [axle(-L, C2)], coupling: 0, joint: { damping: c, spring: k } },
    ],
  };
}

/** An invented car and tourer of usual proportions, for tests of directions and of single functions. */
export const TOURING: TextbookRig = {
  m1: 1750,
  I1: 3000,
  a: 1.3,
  b: 1.45,
  d: 2.45,
  Cf: 95_000,
  Cr: 105_000,
  m2: 1500,
  I2: 3600,
  e: 4.05,
  L: 4.3,
  C2: 85_000,
};
