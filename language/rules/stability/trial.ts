import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { influenceAt, type MassSource } from '../../mechanics/influence.ts';
import { handlingOf } from '../../mechanics/stability/handling.ts';
import { leastDamped, modesOf } from '../../mechanics/stability/modes.ts';
import { isStabilityProblem } from '../../mechanics/stability/problems.ts';
import { type CriticalSpeed, type SpeedSweep, sweepSpeeds } from '../../mechanics/stability/sweep.ts';
import type { Train, TrainAxle, TrainUnit } from '../../mechanics/stability/train.ts';
import type { Position } from '../../mechanics/vector.ts';
import type { RigTrain } from '../../semantics/stability/train-of.ts';
import type { Source } from '../../semantics/state.ts';

/** A change of masses in one unit of the train. */
interface TrainChange {
  /** kg, negative where it goes. */
  readonly mass: number;
  readonly centre: Position;
  /** Of its own, kg m², with the sign of the mass. */
  readonly yawInertia: number;
}

/**
 * The train of a rig with one mass moved along its unit by `distance` m (ahead positive), or taken off where that is
 * undefined. Masses and inertias are exact; tyres stay the same and follow their loads by the slopes of their curves.
 */
export function trialTrain(built: RigTrain, source: MassSource<Source>, distance: number | undefined): Train {
  const index = built.bodies[source.unit] ?? source.unit;
  const own = source.id.body.inertia.zz;
  const { centre, mass } = source;
  const changes: TrainChange[] = [{ mass: -mass, centre, yawInertia: -own }];
  if (distance !== undefined) changes.push({ mass, centre: { ...centre, x: centre.x + distance }, yawInertia: own });
  const units = built.train.units.map((unit, position) =>
    position === index ? changeUnit(unit, built.totals[position]?.centre.y ?? 0, changes) : unit,
  );
  return { ...built.train, units: changeAxles(units, built, index, changes) };
}

/** Composition of rigid bodies about the new common centre of gravity. */
function changeUnit(unit: TrainUnit, y: number, changes: readonly TrainChange[]): TrainUnit {
  const total = (of: (change: TrainChange) => number) => changes.reduce((sum, change) => sum + of(change), 0);
  const mass = unit.mass + total((change) => change.mass);
  const x = (unit.mass * unit.x + total((change) => change.mass * change.centre.x)) / mass;
  const left = (unit.mass * y + total((change) => change.mass * change.centre.y)) / mass;
  const yawInertia =
    unit.yawInertia +
    unit.mass * ((unit.x - x) ** 2 + (y - left) ** 2) +
    total((change) => change.yawInertia + change.mass * ((change.centre.x - x) ** 2 + (change.centre.y - left) ** 2));
  return { ...unit, mass, x, yawInertia };
}

function changeAxles(
  units: readonly TrainUnit[],
  { loadings }: RigTrain,
  index: number,
  changes: readonly TrainChange[],
): TrainUnit[] {
  const axles: TrainAxle[][] = units.map((unit) => [...unit.axles]);
  for (const { unit, axle, left, right, leftSlope, rightSlope, force } of loadings) {
    const before = axles[unit]?.[axle];
    if (before === undefined) continue;
    const rise = (influence: typeof left) =>
      changes.reduce((sum, { mass, centre }) => sum + mass * influenceAt(influence, index, centre), 0) *
      STANDARD_GRAVITY;
    const stiffness = Math.max(0, before.stiffness + leftSlope * rise(left) + rightSlope * rise(right));
    const changed = { ...before, stiffness, ...(force ? { force: (before.force ?? 0) + rise(force) } : {}) };
    axles[unit]?.splice(axle, 1, changed);
  }
  return units.map((unit, position) => ({ ...unit, axles: axles[position] ?? unit.axles }));
}

/** How a train moves by itself at a speed. */
export interface TrialMotion {
  /** Damping ratio of the least damped swing, 1 where nothing swings. */
  readonly damping: number;
  /** Something grows without swinging. */
  readonly folds: boolean;
}

/** The motion at `speed` m/s; undefined where it cannot be computed. */
export function motionOf(train: Train, speed: number): TrialMotion | undefined {
  const modes = modesOf(train, speed);
  if (isStabilityProblem(modes)) return undefined;
  return {
    damping: leastDamped(modes)?.damping ?? 1,
    folds: modes.some(({ eigenvalue, frequency }) => frequency === 0 && eigenvalue.real > 0),
  };
}

/** The speed that a train folds from, looked for at the speeds (m/s) of a sweep; undefined where it cannot be computed. */
export function foldSpeedOf(train: Train, { speeds }: SpeedSweep): CriticalSpeed | undefined {
  const sweep = sweepSpeeds(train, { least: speeds[0] ?? 0, most: speeds.at(-1) ?? 0, points: speeds.length });
  return isStabilityProblem(sweep) ? undefined : sweep.divergence;
}

/** Understeer gradient, rad per m/s², with the drag of the air at `speed` m/s; undefined where it cannot be computed. */
export function understeerOf(train: Train, speed: number): number | undefined {
  const handling = handlingOf(train, speed);
  return handling === undefined || isStabilityProblem(handling) ? undefined : handling.understeer;
}
