import { type Choice, findExtremes, isSameChoice } from '../../mechanics/envelope.ts';
import type { CaseModel, RigModel } from '../model.ts';
import type { MotionLoads } from '../state.ts';
import { figureOf } from './figures.ts';
import type { FreeSource } from './free-source.ts';
import type { Choices } from './trial-states.ts';

/**
 * States of the masses in which what damping hangs on is least and greatest: mass and centre of gravity of each unit, load and
 * share on each coupling, yaw inertia of each trailer about its axles. Different ones only. `loads`: those on level ground.
 */
export function stabilityCorners(rig: RigModel, masses: readonly FreeSource[], loads: MotionLoads): Choices[] {
  const figures = rig.units.flatMap(({ name }, index) => [
    ...(index > 0 ? [`${name}.coupling.load`, `${name}.coupling.share`] : []),
    `${name}.mass`,
    `${name}.cg.back`,
  ]);
  const extremes = figures.flatMap((name) => {
    const found = figureOf(rig, loads, name);
    const ends = found && findExtremes(found.figure, masses);
    return ends === undefined ? [] : [ends.most.witness, ends.least.witness];
  });
  return [...rig.units.keys()]
    .slice(1)
    .flatMap((unit) => spreadCorners(rig, masses, unit))
    .concat(extremes);
}

/** The masses as far from the middle of the axles of a unit as they can be, and as near. */
function spreadCorners({ units }: RigModel, masses: readonly FreeSource[], index: number): Choices[] {
  const axles = units[index]?.groups.flatMap((group) => group.axles) ?? [];
  const middle = axles.reduce((sum, { x }) => sum + x, 0) / Math.max(1, axles.length);
  const inertiaOf = (choice: Choice) =>
    choice.reduce((sum, { unit, mass, centre }) => {
      return unit === index ? sum + mass * ((centre.x - middle) ** 2 + centre.y ** 2) : sum;
    }, 0);
  return ([1, -1] as const).map((sign) =>
    masses.map(({ choices }) => {
      let best = choices[0] ?? [];
      for (const choice of choices) if (sign * (inertiaOf(choice) - inertiaOf(best)) > 0) best = choice;
      return best;
    }),
  );
}

/** What the masses are in a case, its levels brought within what is reachable where they are not; a corner where it is one. */
export function choicesInCase(masses: readonly FreeSource[], state: CaseModel): Choices {
  return masses.map((source) => {
    const own = source.inCase(state);
    const reached = source.atLevel && source.levelIn ? source.atLevel(source.levelIn(own)) : own;
    return source.choices.find((choice) => isSameChoice(choice, reached)) ?? reached;
  });
}

/** Whether the state that a case is shown in, its ranges at their middle, is one that these masses can be in. */
export function isShownWithin(masses: readonly FreeSource[], state: CaseModel): boolean {
  const reached = choicesInCase(masses, state);
  return masses.every((source, index) => isSameChoice(source.inCase(state), reached[index] ?? []));
}
