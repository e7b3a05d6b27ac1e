import { type Field, LEVEL } from '../../mechanics/combination.ts';
import { bodyForceOf } from '../../mechanics/stability/train.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../../mechanics/statics.ts';
import { ACCELERATION } from '../../units/dimension.ts';
import { formatNumber, formatValue } from '../../units/display.ts';
import { toMechanics } from '../combination.ts';
import { systemOfRig } from '../display-system.ts';
import type { RigModel } from '../model.ts';

/** Who holds the train back where it has to be held back. */
export type Brakes = 'as fitted' | 'vehicle alone';

/** A road and a way of braking in which the rig is looked at. */
export interface Scenario {
  readonly kind: 'level' | 'climb' | 'descent' | 'braking';
  readonly brakes: Brakes;
  readonly field: Field;
  /** "on the level", "down the 8 % grade, the vehicle braking alone". */
  readonly text: string;
}

/** A scenario with the loads of all supports in it. */
export interface LoadedScenario extends Scenario {
  readonly loads: SupportSolution;
  /** Along the course on every kilogram, m/s², forward positive. */
  readonly bodyForce: number;
}

/** The level road, the steepest grades travelled, and braking; going down and braking with and without trailer brakes. */
export function scenariosOf(rig: RigModel): Scenario[] {
  const scenarios: Scenario[] = [{ kind: 'level', brakes: 'as fitted', field: LEVEL, text: 'on the level' }];
  const { travel } = rig;
  if (travel === undefined) return scenarios;
  const percent = (grade: number) => `${formatNumber(Math.abs(grade) * 100, 3)} %`;
  const braked = rig.units.some(({ kind, brakes }) => kind === 'trailer' && brakes !== 'unbraked');
  const add = (kind: Scenario['kind'], field: Field, text: string) => {
    if (braked) scenarios.push({ kind, brakes: 'as fitted', field, text: `${text}, the trailer braking itself` });
    scenarios.push({ kind, brakes: 'vehicle alone', field, text: `${text}, the vehicle braking alone` });
  };
  if (travel.up > 0) {
    const field = { grade: travel.up, deceleration: 0 };
    scenarios.push({ kind: 'climb', brakes: 'as fitted', field, text: `up the ${percent(travel.up)} grade` });
  }
  if (travel.down < 0)
    add('descent', { grade: travel.down, deceleration: 0 }, `down the ${percent(travel.down)} grade`);
  if (travel.braking !== undefined && travel.braking > 0) {
    add(
      'braking',
      { grade: 0, deceleration: travel.braking },
      `braking at ${formatValue(travel.braking, ACCELERATION, systemOfRig(rig))}`,
    );
  }
  return scenarios;
}

/** The support loads of a scenario; undefined where statics has no answer (reported with the loads). */
export function loadScenario(rig: RigModel, scenario: Scenario): LoadedScenario | undefined {
  const device = rig.weightDistribution ?? rig.units[0]?.weightDistribution;
  const fitted = toMechanics(rig.units, rig.units.length > 1 ? device : undefined);
  const combination =
    scenario.brakes === 'as fitted'
      ? fitted
      : { ...fitted, units: fitted.units.map((unit) => ({ ...unit, brakeShare: 0 })) };
  const loads = solveSupports(combination, scenario.field);
  return isStaticsProblem(loads) ? undefined : { ...scenario, loads, bodyForce: bodyForceOf(scenario.field) };
}
