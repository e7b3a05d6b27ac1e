import { STANDARD_GRAVITY } from '../../mechanics/combination.ts';
import { evaluateLoadValue, type Influence, massInfluence, scaleInfluence } from '../../mechanics/influence.ts';
import type { Body, MassProperties } from '../../mechanics/mass.ts';
import { AIR_DENSITY, dragForce } from '../../mechanics/stability/drag.ts';
import type { AxleLoading, UnitTotals } from '../../mechanics/stability/items.ts';
import type { PointForce, Train, TrainAxle, TrainUnit } from '../../mechanics/stability/train.ts';
import { axleStiffness } from '../../mechanics/stability/tyres.ts';
import { type DisplaySystem, formatLength, formatMass, formatNumber } from '../../units/display.ts';
import { systemOfRig } from '../display-system.ts';
import type { Assumption, AxleGroup, RigModel, UnitModel } from '../model.ts';
import type { StateResult } from '../state.ts';
import type { RigTyres } from './cornering.ts';
import type { LoadedScenario } from './scenarios.ts';

/** The masses of a rig: each, and those of each unit together. */
export type RigMasses = Pick<StateResult, 'rig' | 'sources' | 'units'>;

/** A rig in a case and a scenario as a train, with what its sensitivities need. */
export interface RigTrain {
  readonly train: Train;
  /** Index in the train of the unit that carries the masses of each unit of the rig. */
  readonly bodies: readonly number[];
  /** Totals of the train's units. */
  readonly totals: readonly UnitTotals[];
  readonly loadings: readonly AxleLoading[];
  readonly assumptions: readonly Assumption[];
}

/** m; a relaxation length below it is no lag that anything swings with, and would only cost precision. */
const SHORTEST_LAG = 1e-3;

/** The steered frame of a full trailer: its share of the tare and its radius of gyration, where nothing else is known. */
const FRAME_SHARE = 0.08;
const FRAME_GYRATION = 0.6;

/**
 * Builds the train; undefined where a unit weighs nothing. Stiffnesses follow the wheel loads of the scenario.
 */
export function trainOf(state: RigMasses, scenario: LoadedScenario, tyres: RigTyres): RigTrain | undefined {
  const { rig, sources } = state;
  const units: TrainUnit[] = [];
  const forces: PointForce[] = [];
  const totals: UnitTotals[] = [];
  const bodies: number[] = [];
  const loadings: AxleLoading[] = [];
  const assumptions: Assumption[] = [];
  const held = Math.max(0, scenario.bodyForce);
  for (const [index, unit] of rig.units.entries()) {
    const whole = state.units[index];
    if (whole?.centre === undefined) return undefined;
    const frame = frameOf(unit, whole, assumptions, systemOfRig(rig));
    const own = frame?.rest ?? whole;
    const bodyIndex = units.length + (frame === undefined ? 0 : 1);
    const axles = readAxles(rig, index, frame?.group, bodyIndex);
    if (frame !== undefined) {
      const [steered] = unit.groups;
      const front = steered === undefined ? [] : axlesOf(steered, 0, index, bodyIndex - 1);
      units.push({
        mass: frame.mass,
        x: frame.x,
        yawInertia: frame.yawInertia,
        axles: front,
        coupling: unit.coupling?.x ?? 0,
        hitch: frame.x,
        joint: jointOf(rig, index),
      });
      totals.push({ mass: frame.mass, centre: { x: frame.x, y: 0 } });
    }
    units.push({
      mass: own.mass,
      x: own.centre.x,
      yawInertia: own.inertia.zz,
      axles,
      ...(index > 0 && frame === undefined ? { coupling: unit.coupling?.x ?? 0, joint: jointOf(rig, index) } : {}),
      // Its steered frame turns freely under a full trailer's body; what resists at the hitch acts on the drawbar.
      ...(frame === undefined ? {} : { coupling: frame.x }),
      ...(index < rig.units.length - 1 && unit.hitch ? { hitch: unit.hitch.x } : {}),
    });
    totals.push({ mass: own.mass, centre: own.centre });
    bodies.push(bodyIndex);
    forces.push(...dragOf(unit, bodyIndex));
    if (index > 0) assumptions.push(...assumedDrag(unit));
  }
  const placed = loadings.map((loading) => ({
    ...loading,
    left: byTrainUnit(loading.left, bodies, units.length),
    right: byTrainUnit(loading.right, bodies, units.length),
    ...(loading.force ? { force: byTrainUnit(loading.force, bodies, units.length) } : {}),
  }));
  return { train: { units, forces, bodyForce: scenario.bodyForce }, bodies, totals, loadings: placed, assumptions };

  /** Axles of a unit's groups, those of the steered frame left out. */
  function readAxles(model: RigModel, index: number, left: AxleGroup | undefined, trainUnit: number): TrainAxle[] {
    const groups = model.units[index]?.groups ?? [];
    const axles: TrainAxle[] = [];
    for (const [position, group] of groups.entries()) {
      if (group === left) continue;
      axles.push(...axlesOf(group, position, index, trainUnit, axles.length));
    }
    return axles;
  }

  function axlesOf(group: AxleGroup, position: number, index: number, trainUnit: number, offset = 0): TrainAxle[] {
    const unit = rig.units[index];
    const loads = scenario.loads.units[index]?.groups[position];
    const cornering = tyres[index]?.[position];
    if (unit === undefined || loads === undefined || cornering === undefined) return [];
    const count = unit.groups.reduce((sum, { axles }) => sum + axles.length, 0);
    const brakes = index > 0 && unit.brakes !== 'unbraked' && scenario.brakes === 'as fitted' && held > 0;
    const force: Influence | undefined = brakes
      ? scaleInfluence(massInfluence(rig.units.length, [index]), -held / STANDARD_GRAVITY / count)
      : undefined;
    return group.axles.map(({ x }, order) => {
      const sides = loads.axles[order];
      const left = sides === undefined ? 0 : evaluateLoadValue(sides.left, sources) * STANDARD_GRAVITY;
      const right = sides === undefined ? 0 : evaluateLoadValue(sides.right, sources) * STANDARD_GRAVITY;
      const { value, leftSlope, rightSlope } = axleStiffness(cornering.curve, cornering.tyresPerSide, left, right);
      if (sides !== undefined) {
        loadings.push({
          unit: trainUnit,
          axle: offset + order,
          left: sides.left,
          right: sides.right,
          leftSlope,
          rightSlope,
          ...(force ? { force } : {}),
        });
      }
      return {
        x,
        stiffness: value,
        relaxation: cornering.relaxation < SHORTEST_LAG ? 0 : cornering.relaxation,
        ...(force ? { force: evaluateLoadValue(force, sources) * STANDARD_GRAVITY } : {}),
        ...(index === 0 ? { steered: group.steered } : {}),
      };
    });
  }
}

/** An influence counted by the units of the train: the masses of a rig's unit sit on its body, none on a steered frame. */
function byTrainUnit({ constant, units }: Influence, bodies: readonly number[], count: number): Influence {
  const none = { one: 0, x: 0, y: 0, z: 0, xy: 0 };
  return {
    constant,
    units: Array.from({ length: count }, (_, index) => units[bodies.indexOf(index)] ?? none),
  };
}

/** Drag on the body of a unit, at its lengthwise middle. */
function dragOf({ body }: UnitModel, trainUnit: number): readonly PointForce[] {
  return body?.drag === undefined ? [] : [dragForce(trainUnit, (body.front + body.rear) / 2, body.drag)];
}

/** What is taken of the drag of a trailer; that of the first unit changes nothing of the lateral motion. */
function assumedDrag({ name, body, location }: UnitModel): readonly Assumption[] {
  if (body?.drag === undefined) {
    return [
      {
        text: `no drag of the air on ${name} counted: it would stretch the coupling, raise the zero-damping speed and lessen the understeer`,
        basis: 'rule of the language: none where none is stated',
        general: true,
        location: body?.location ?? location,
      },
    ];
  }
  return [
    ...body.drag.assumptions,
    {
      text: `drag on ${name} in air at rest of ${formatNumber(AIR_DENSITY, 4)} kg/m³, at the middle of its body; what it shifts between axles and coupling is not counted`,
      basis: 'standard atmosphere at sea level, 15 °C, ISO 2533 (from memory)',
      general: true,
      location: body.location,
    },
  ];
}

/** Damper and spring at the coupling of a unit to the one ahead: stated on the hitch that it hangs on. */
function jointOf(rig: RigModel, index: number): { damping?: number; spring?: number } {
  const hitch = rig.units[index - 1]?.hitch;
  return {
    ...(hitch?.damper !== undefined ? { damping: hitch.damper } : {}),
    ...(hitch?.spring !== undefined ? { spring: hitch.spring } : {}),
  };
}

interface SteeredFrame {
  readonly group: AxleGroup;
  readonly mass: number;
  readonly x: number;
  readonly yawInertia: number;
  /** The unit without the frame. */
  readonly rest: Body;
}

/** A full trailer's front axle turns under it: its frame is a unit of its own, with an assumed part of the tare. */
function frameOf(
  unit: UnitModel,
  whole: MassProperties,
  assumptions: Assumption[],
  system: DisplaySystem,
): SteeredFrame | undefined {
  const [group, ...others] = unit.groups;
  if (unit.coupling?.kind !== 'drawbar' || group === undefined || others.length === 0 || whole.centre === undefined)
    return undefined;
  // Only of what is stated as tare, where it is: so that a fitting's mass sits on the body alone, as its sensitivity says.
  const stated = unit.parts.filter(({ kind }) => kind === 'tare');
  const tare = (stated.length > 0 ? stated : unit.parts).reduce((sum, { body }) => sum + body.mass, 0);
  const mass = Math.min(FRAME_SHARE * tare, whole.mass / 2);
  if (!(mass > 0)) return undefined;
  const { centre, inertia } = whole;
  const rest = whole.mass - mass;
  const x = (whole.mass * centre.x - mass * group.x) / rest;
  const y = (whole.mass * centre.y) / rest;
  const apart = mass * ((group.x - centre.x) ** 2 + centre.y ** 2) + rest * ((x - centre.x) ** 2 + (y - centre.y) ** 2);
  const yawInertia = mass * FRAME_GYRATION ** 2;
  assumptions.push({
    text: `steered frame of ${unit.name} not stated: ${formatMass(mass, system)} with a radius of gyration of ${formatLength(FRAME_GYRATION, system)} taken`,
    basis: `${FRAME_SHARE * 100} % of the tare; common practice, no source`,
    location: group.location,
  });
  return {
    group,
    mass,
    x: group.x,
    yawInertia,
    rest: {
      mass: rest,
      centre: { x, y, z: centre.z },
      inertia: { ...inertia, zz: Math.max(inertia.zz - yawInertia - apart, 1e-3 * inertia.zz) },
    },
  };
}
