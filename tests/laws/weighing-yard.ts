import { type Combination, LEVEL, type Unit } from '../../language/mechanics/combination.ts';
import { type Influence, massInfluence, renumberInfluence } from '../../language/mechanics/influence.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../../language/mechanics/statics.ts';
import { raisedSupportInfluence, tiltSupports } from '../../language/mechanics/weighing/tilt.ts';

/** A vehicle whose axles and hitch are all that counts. */
export const VEHICLE: Unit = {
  groups: [
    { axles: [{ x: 0, track: 1.6 }], suspension: 'equalised' },
    { axles: [{ x: -2.7, track: 1.6 }], suspension: 'equalised' },
  ],
  couplingCarries: false,
  hitch: { x: -3.7, z: 0.45 },
  brakeShare: 1,
};

/** A trailer behind it on one axle. */
export const TRAILER: Unit = {
  groups: [{ axles: [{ x: -4.5, track: 1.9 }], suspension: 'equalised' }],
  coupling: { x: 0, z: 0.45 },
  couplingCarries: true,
  brakeShare: 1,
};

/** Something a scale can read of a combination, in terms of its units, and the units that stand there. */
export interface Weighable {
  readonly influence: Influence;
  readonly units: readonly number[];
}

/** Everything scales can read: the combination coupled, every unit by itself, and every unit with an end raised. */
export function everythingWeighable(combination: Combination): Weighable[] {
  const { units } = combination;
  const coupled = units.map((_, index) => index);
  return [
    ...readingsOf(combination, coupled, units.length),
    ...units.flatMap((unit, index) => [
      ...readingsOf({ units: [unit] }, [index], units.length),
      ...raisedReadings(unit, index, units.length),
    ]),
  ];
}

function readingsOf(combination: Combination, units: readonly number[], count: number): Weighable[] {
  const solution = solveSupports(combination, LEVEL);
  if (isStaticsProblem(solution)) return [];
  return [...loadsOf(solution), massInfluence(units.length, [...units.keys()])].map((influence) => ({
    influence: renumberInfluence(influence, units, count),
    units,
  }));
}

function loadsOf(solution: SupportSolution): Influence[] {
  return solution.units.flatMap(({ coupling, groups }) => [
    ...(coupling ? [coupling] : []),
    ...groups.flatMap(({ load, axles }) => [load, ...axles.flatMap(({ left, right }) => [left, right])]),
  ]);
}

function raisedReadings(unit: Unit, index: number, count: number): Weighable[] {
  return ([0, 1, 'coupling'] as const).flatMap((end) => {
    const supports = tiltSupports(unit, end, 0.35);
    const influence = supports && raisedSupportInfluence(count, index, { ...supports, pitch: 0.2 });
    return influence ? [{ influence, units: [index] }] : [];
  });
}

/** Numbers evenly spread over 0–1 (mulberry32), and normally distributed ones (Box and Muller), the same for a seed. */
export function seeded(seed: number): { readonly even: () => number; readonly normal: () => number } {
  let state = seed;
  const even = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even());
  return { even, normal };
}
