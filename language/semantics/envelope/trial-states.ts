import type { Choice } from '../../mechanics/envelope.ts';
import type { MassSource } from '../../mechanics/influence.ts';
import { type Equations, equationsOf } from '../../mechanics/stability/equations.ts';
import { leastDampingAt } from '../../mechanics/stability/least-damping.ts';
import { isStabilityProblem } from '../../mechanics/stability/problems.ts';
import { criticalSpeedSensitivityAt, dampingSensitivityAt } from '../../mechanics/stability/sensitivities.ts';
import { unitsWith } from '../evaluate.ts';
import type { RigModel } from '../model.ts';
import type { RigTyres } from '../stability/cornering.ts';
import { answersOf } from '../stability/evaluate-stability.ts';
import type { LoadedScenario } from '../stability/scenarios.ts';
import { type RigMasses, type RigTrain, trainOf } from '../stability/train-of.ts';
import type { Source } from '../state.ts';
import type { FreeSource } from './free-source.ts';

/** What every mass is, by index of the masses of a reach. */
export type Choices = readonly Choice[];

/** What each mass is asked to be instead, by index of the masses. */
export type Options = readonly (readonly Choice[])[];

/** A state of the masses on a road. */
export interface Trial {
  readonly choices: Choices;
  readonly road: LoadedScenario;
  /** Damping ratio of all that moves at the intended speed: 1 where nothing swings, −1 where the rig folds. */
  readonly damping: number;
  readonly built: RigTrain;
  readonly equations: Equations;
}

/** Looks at states of a rig one by one, and counts them. */
export interface TrialStates {
  /** How many different states have been looked at, on whatever road. */
  readonly tried: () => number;
  /** Undefined where there is no motion to compute. */
  readonly on: (choices: Choices, road: LoadedScenario) => Trial | undefined;
  /**
   * First-order changes if, in place of what a mass is in a trial, it was each of `options` (by index of the masses): of the
   * damping ratio, or of the speed that the rig folds from where that is given (m/s). Exact derivatives by mass and place;
   * undefined where there are none: nothing swings, or the rig folds at the intended speed.
   */
  readonly changes: (trial: Trial, options: Options, foldsFrom?: number) => readonly (readonly number[])[] | undefined;
}

/** Masses that have been looked at, with what came of it on each road. */
interface State {
  readonly masses: RigMasses;
  readonly roads: Map<LoadedScenario, Trial | undefined>;
}

export function createTrialStates(
  rig: RigModel,
  masses: readonly FreeSource[],
  tyres: RigTyres,
  speed: number,
): TrialStates {
  const known = new WeakMap<Choice, { readonly id: number; readonly sources: readonly MassSource<Source>[] }>();
  let choicesMet = 0;
  const look = (choice: Choice, index: number) => {
    let met = known.get(choice);
    if (met === undefined) {
      met = { id: choicesMet++, sources: masses[index]?.sourcesOf(choice) ?? [] };
      known.set(choice, met);
    }
    return met;
  };
  const states = new Map<string, State>();
  const stateOf = (choices: Choices): State => {
    const key = choices.map((choice, index) => look(choice, index).id).join(' ');
    let state = states.get(key);
    if (state === undefined) {
      const sources = choices.flatMap((choice, index) => look(choice, index).sources);
      state = { masses: { rig, sources, units: unitsWith(rig, sources) }, roads: new Map() };
      states.set(key, state);
    }
    return state;
  };
  const compute = (choices: Choices, masses: RigMasses, road: LoadedScenario): Trial | undefined => {
    const built = trainOf(masses, road, tyres);
    const equations = built && equationsOf(built.train);
    if (built === undefined || equations === undefined || isStabilityProblem(equations)) return undefined;
    const damping = leastDampingAt(equations, speed);
    return damping === undefined ? undefined : { choices, road, damping, built, equations };
  };
  return {
    tried: () => states.size,
    on: (choices, road) => {
      const state = stateOf(choices);
      if (!state.roads.has(road)) state.roads.set(road, compute(choices, state.masses, road));
      return state.roads.get(road);
    },
    changes: ({ choices, built, equations, damping }, options, foldsFrom) => {
      if (damping <= -1) return undefined;
      const sensitivity =
        foldsFrom === undefined
          ? dampingSensitivityAt(equations, speed)
          : criticalSpeedSensitivityAt(equations, foldsFrom, false);
      if (sensitivity === undefined || isStabilityProblem(sensitivity)) return undefined;
      const wanted = options.map((each, index) => {
        const own = each.length === 0 ? undefined : choices[index];
        return own === undefined ? [] : [own, ...each].map((choice) => look(choice, index).sources);
      });
      const answers = answersOf(built, sensitivity.gradient, wanted.flat(2));
      let next = 0;
      const worthOf = (sources: readonly MassSource<Source>[]) =>
        sources.reduce((sum, { mass }) => sum + mass * (answers[next++]?.mass ?? 0), 0);
      return wanted.map((each) => {
        const [own = 0, ...others] = each.map(worthOf);
        return others.map((worth) => worth - own);
      });
    },
  };
}
