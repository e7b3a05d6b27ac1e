import { type Combination, type Field, STANDARD_GRAVITY, type Unit } from '../../../language/mechanics/combination.ts';
import {
  evaluateLoadValue,
  type Influence,
  massInfluence,
  scaleInfluence,
} from '../../../language/mechanics/influence.ts';
import type { AxleLoading, MovableMass, UnitTotals } from '../../../language/mechanics/stability/items.ts';
import {
  bodyForceOf,
  type Joint,
  type PointForce,
  type Train,
  type TrainAxle,
  type TrainUnit,
} from '../../../language/mechanics/stability/train.ts';
import { axleStiffness, type CorneringCurve } from '../../../language/mechanics/stability/tyres.ts';
import type { SupportSolution } from '../../../language/mechanics/statics.ts';

/** The tyres of one axle. */
export interface AxleTyres {
  readonly curve: CorneringCurve;
  /** 1, or 2 for dual wheels. */
  readonly perSide: number;
  /** Relaxation length, m; absent: none. */
  readonly relaxation?: number;
  readonly steered?: boolean;
}

/** What a unit has beside its geometry. */
export interface UnitFittings {
  /** One entry an axle, front to rear through all groups. */
  readonly tyres: readonly AxleTyres[];
  /** At the coupling to the unit ahead. */
  readonly joint?: Joint;
}

/** A train in one state of loading and motion, and how it hangs together with the masses in it. */
export interface LoadedTrain {
  readonly train: Train;
  readonly units: readonly UnitTotals[];
  /** In the order of the units and their axles. */
  readonly axles: readonly AxleLoading[];
}

/**
 * The train that a combination is in a state of motion: masses summed, every axle's stiffness from the loads of its own
 * wheels, the grade or deceleration as body force, and what towed units brake themselves as a force on their tyres (on
 * which axle makes no difference). A unit without mass has mass 0, which the dynamics reports. Masses of units outside
 * the combination count nothing.
 */
export function loadTrain(
  combination: Combination,
  { units: supports }: SupportSolution,
  field: Field,
  fittings: readonly UnitFittings[],
  masses: readonly MovableMass[],
  forces: readonly PointForce[] = [],
): LoadedTrain {
  const sources = masses.map(({ unit, mass, centre }) => ({ id: '', unit, mass, centre }));
  const count = combination.units.length;
  const bodyForce = bodyForceOf(field);
  const axles: AxleLoading[] = [];
  const totals: UnitTotals[] = [];
  const units = combination.units.map((unit, index): TrainUnit => {
    const { mass, x, y, yawInertia } = totalOf(masses, index);
    totals.push({ mass, centre: { x, y } });
    const wheels = (supports[index]?.groups ?? []).flatMap((group) => group.axles);
    const places = unit.groups.flatMap((group) => group.axles);
    const trainAxles = places.map((place, axle): TrainAxle => {
      const tyres = fittings[index]?.tyres[axle];
      const [left, right] = [wheels[axle]?.left, wheels[axle]?.right];
      if (tyres === undefined || left === undefined || right === undefined) return { x: place.x, stiffness: 0 };
      const load = (side: Influence) => evaluateLoadValue(side, sources) * STANDARD_GRAVITY;
      const { value, leftSlope, rightSlope } = axleStiffness(tyres.curve, tyres.perSide, load(left), load(right));
      const force = axle === 0 && index > 0 ? brakingOf(unit, index, count, bodyForce) : undefined;
      axles.push({ unit: index, axle, left, right, leftSlope, rightSlope, force });
      return {
        x: place.x,
        stiffness: value,
        relaxation: tyres.relaxation,
        steered: tyres.steered,
        force: force === undefined ? 0 : evaluateLoadValue(force, sources) * STANDARD_GRAVITY,
      };
    });
    const { coupling, hitch } = unit;
    return {
      mass,
      x,
      yawInertia,
      axles: trainAxles,
      coupling: coupling?.x,
      hitch: hitch?.x,
      joint: fittings[index]?.joint,
    };
  });
  return { train: { units, forces, bodyForce }, units: totals, axles };
}

/** What a towed unit's own tyres hold back when it has to be held back, kg; else nothing. */
function brakingOf({ brakeShare }: Unit, index: number, count: number, bodyForce: number): Influence | undefined {
  if (!(bodyForce > 0) || brakeShare === 0) return undefined;
  return scaleInfluence(massInfluence(count, [index]), (-brakeShare * bodyForce) / STANDARD_GRAVITY);
}

interface Total {
  readonly mass: number;
  readonly x: number;
  readonly y: number;
  /** About the vertical through the centre. */
  readonly yawInertia: number;
}

function totalOf(masses: readonly MovableMass[], unit: number): Total {
  const own = masses.filter((each) => each.unit === unit);
  let mass = 0;
  let x = 0;
  let y = 0;
  for (const each of own) {
    mass += each.mass;
    x += each.mass * each.centre.x;
    y += each.mass * each.centre.y;
  }
  if (!(mass > 0)) return { mass: 0, x: 0, y: 0, yawInertia: 0 };
  x /= mass;
  y /= mass;
  let yawInertia = 0;
  for (const each of own) {
    yawInertia += each.yawInertia + each.mass * ((each.centre.x - x) ** 2 + (each.centre.y - y) ** 2);
  }
  return { mass, x, y, yawInertia };
}
