import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { evaluateLoadValue } from '../../mechanics/influence.ts';
import { type Handling, handlingAlone } from '../../mechanics/stability/handling.ts';
import { isStabilityProblem } from '../../mechanics/stability/problems.ts';
import type { TrainAxle } from '../../mechanics/stability/train.ts';
import { axleStiffness } from '../../mechanics/stability/tyres.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../../mechanics/statics.ts';
import { toMechanics } from '../combination.ts';
import type { RigModel } from '../model.ts';
import type { StateResult } from '../state.ts';
import type { Cornering } from './cornering.ts';
import type { LoadedScenario } from './scenarios.ts';
import type { RigTrain } from './train-of.ts';

/** The support loads of the tow vehicle alone on the road of a scenario; undefined where statics has no answer. */
export function vehicleAloneLoads(rig: RigModel, { field }: LoadedScenario): SupportSolution | undefined {
  const loads = solveSupports(toMechanics(rig.units.slice(0, 1)), field);
  return isStaticsProblem(loads) ? undefined : loads;
}

/**
 * Handling of the tow vehicle alone, with the masses it has in the state and on the same `tyres` (of its groups): only
 * their loads differ. Undefined where its steering has no definite answer.
 */
export function handlingOfVehicleAlone(
  state: StateResult,
  built: RigTrain,
  tyres: readonly Cornering[],
  alone: SupportSolution,
): Handling | undefined {
  const vehicle = state.rig.units[0];
  const unit = built.train.units[0];
  if (vehicle === undefined || unit === undefined) return undefined;
  const sources = state.sources.filter((source) => source.unit === 0);
  const stiffnesses = vehicle.groups.flatMap((group, position) => {
    const cornering = tyres[position];
    const loads = alone.units[0]?.groups[position];
    return group.axles.map((_, order) => {
      const sides = loads?.axles[order];
      if (cornering === undefined || sides === undefined) return 0;
      const left = evaluateLoadValue(sides.left, sources) * STANDARD_GRAVITY;
      const right = evaluateLoadValue(sides.right, sources) * STANDARD_GRAVITY;
      return axleStiffness(cornering.curve, cornering.tyresPerSide, left, right).value;
    });
  });
  const axles = unit.axles.map((axle, index): TrainAxle => ({ ...axle, stiffness: stiffnesses[index] ?? 0 }));
  const handling = handlingAlone({ ...built.train, units: [{ ...unit, axles }] });
  return handling === undefined || isStabilityProblem(handling) ? undefined : handling;
}
