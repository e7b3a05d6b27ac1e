import { finding } from '../../diagnostics/create.ts';
import { STABILITY } from '../../diagnostics/stability.ts';
import type { StabilityProblem, StabilityProblemKind } from '../../mechanics/stability/problems.ts';
import { GREATEST_SPEED } from '../../mechanics/stability/problems.ts';
import type { RigModel } from '../../semantics/model.ts';
import { ownPlace, pointAt } from '../places.ts';
import type { StabilityRule } from './rule.ts';

/** What a train lacks, as a clause about `unit`. */
const PROBLEMS: Readonly<Record<StabilityProblemKind, (unit: string, axle: string) => string>> = {
  'no-units': () => 'it has no unit',
  'no-axles': (unit) => `${unit} has no axle`,
  'not-finite': (unit) => `a place, a mass or a spring of ${unit} is too large to be a number`,
  'mass-not-positive': (unit) => `${unit} weighs nothing, or less`,
  'inertia-not-positive': (unit) => `the yaw inertia of ${unit} comes to nothing: its masses are all in one point`,
  'stiffness-negative': (unit, axle) => `the cornering stiffness of the tyres of ${axle} of ${unit} is below zero`,
  'relaxation-negative': (unit, axle) => `the relaxation length of the tyres of ${axle} of ${unit} is below zero`,
  'joint-negative': (unit) => `the damper or the spring at the coupling of ${unit} is below zero`,
  'no-coupling': (unit) => `${unit} has no coupling`,
  'no-hitch': (unit) => `${unit} has no hitch for what it tows`,
  'zero-wheelbase': (unit) => `all axles of ${unit} are in one place: it has no wheelbase`,
  'axle-at-coupling': (unit) => `the axles of ${unit} are right at its coupling: they have no lever to steer it by`,
  'no-such-unit': () => 'a force acts on a unit that is not there',
  'speed-out-of-range': () => 'the intended speed, and half as much again, has to be above 0 and at most 1 000 km/h',
  overflow: () => 'its numbers are so large or so small that the results are none',
};

/** Why there is no stability of a rig that tows. What is out of range in the travel line is reported there. */
export const notComputed: StabilityRule = {
  keys: ['stability-not-computed'],
  *check({ rig, speed, problem }) {
    if (problem === undefined) return;
    if (problem.problem === 'speed-out-of-range' && speed > GREATEST_SPEED) return;
    const unit = unitOf(rig, problem);
    const place = ownPlace({ rig }, problem.problem === 'speed-out-of-range' ? rig.travel?.location : undefined);
    const axle = problem.axle === undefined ? 'an axle' : `axle ${problem.axle + 1}`;
    const reason = PROBLEMS[problem.problem](unit?.name ?? rig.name, axle);
    const parameters = { rig: rig.name, reason };
    const key = 'stability-not-computed';
    yield finding(key, STABILITY[key], parameters, place, pointAt(place, unit?.location, unit?.name ?? ''));
  },
};

/** The rig's unit that a unit of the train belongs to: a full trailer's steered frame is one of its own there. */
function unitOf({ units }: RigModel, { unit }: StabilityProblem) {
  if (unit === undefined) return undefined;
  let last = -1;
  return units.find(({ coupling, groups }) => {
    last += coupling?.kind === 'drawbar' && groups.length > 1 ? 2 : 1;
    return unit <= last;
  });
}
