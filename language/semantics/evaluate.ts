import { type Field, LEVEL } from '../mechanics/combination.ts';
import { evaluateLoad, evaluateLoadValue, type Influence, sumInfluences } from '../mechanics/influence.ts';
import { type Body, combine, type MassProperties } from '../mechanics/mass.ts';
import type { StaticsProblem } from '../mechanics/problems.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../mechanics/statics.ts';
import { ACCELERATION, DIMENSIONLESS, type Dimension, INERTIA, LENGTH, MASS } from '../units/dimension.ts';
import { formatNumber, formatValue } from '../units/display.ts';
import { toMechanics } from './combination.ts';
import { systemOfRig } from './display-system.ts';
import type { Assumption, CaseModel, LevelRange, RigModel } from './model.ts';
import { type NamedInfluence, nameInfluences } from './named-influences.ts';
import { massInRunningOrder, tareOf } from './running-order.ts';
import { sourcesOf } from './sources.ts';
import type { Computed, Motion, RigResult, StateResult } from './state.ts';
import { describeStaticAssumption, LATERAL_ASSUMPTIONS } from './unit/statics-text.ts';

/** A rig's states, or why its geometry has no loads. */
export function evaluateRig(rig: RigModel): RigResult | StaticsProblem {
  const cases = rig.cases.length > 0 ? rig.cases : [impliedCase(rig)];
  const device = rig.weightDistribution ?? rig.units[0]?.weightDistribution;
  const combination = toMechanics(rig.units, rig.units.length > 1 ? device : undefined);
  const solutions: { motion: Motion; named: readonly NamedInfluence[]; solution: SupportSolution; solo?: Influence }[] =
    [];
  for (const motion of motionsOf(rig)) {
    const solution = solveSupports(combination, motion.field);
    if (isStaticsProblem(solution)) return solution;
    solutions.push({
      motion,
      solution,
      named: nameInfluences(rig.units, solution),
      solo: soloFrontLoad(rig, motion.field),
    });
  }
  const states = cases.flatMap((state) => {
    const sources = sourcesOf(rig, state);
    const units = rig.units.map((_, index) => combine(bodiesOf(sources, index)));
    return solutions.map(({ motion, named, solo }): StateResult => {
      const quantities = new Map<string, Computed>();
      const influences = new Map<string, Influence>();
      for (const { name, influence } of named) {
        influences.set(name, influence);
        quantities.set(name, { name, value: evaluateLoadValue(influence, sources), dimension: MASS, influence });
      }
      addDerived(rig, units, quantities, solo && evaluateLoadValue(solo, sources));
      const label = rig.standalone && rig.cases.length === 0 ? (state.title ?? state.name) : `case ${state.name}`;
      return {
        rig,
        case: state,
        motion,
        label: motion.text === '' ? label : `${label}, ${motion.text}`,
        sources,
        units,
        quantities,
        load: (name) => {
          const influence = influences.get(name);
          return influence && evaluateLoad(influence, sources);
        },
      };
    });
  });
  const sane = ({ value }: Computed) => Math.abs(value) < LARGEST_LOAD;
  if (!states.every(({ quantities }) => [...quantities.values()].every(sane))) return { problem: 'overflow' };
  const first = solutions[0];
  const statics = (first?.solution.assumptions ?? []).map(
    (found): Assumption => ({
      ...describeStaticAssumption(found, rig.units),
      location: rig.location,
      ...(LATERAL_ASSUMPTIONS.has(found.assumption) ? { general: true } : {}),
    }),
  );
  return {
    rig,
    states,
    assumptions: [
      ...rig.units.flatMap(({ assumptions }) => assumptions),
      ...rig.assumptions,
      ...statics,
      ...assumedBrakes(
        rig,
        solutions.map(({ motion }) => motion),
      ),
    ],
  };
}

/** On descents and while braking somebody holds the trailer back: who, decides the coupling load. */
function assumedBrakes(rig: RigModel, motions: readonly Motion[]): readonly Assumption[] {
  const braked = rig.units.filter(({ kind, brakes }) => kind === 'trailer' && brakes !== 'unbraked');
  if (braked.length === 0 || motions.every(({ kind }) => kind === 'level' || kind === 'climb')) return [];
  const names = braked.map(({ name, brakes }) => `${name} (${brakes})`).join(', ');
  return [
    {
      text: `going down and braking, ${names} hold back their own mass in full, with no push on the hitch`,
      basis: 'rule of the language; overrun brakes need some push to work, so that a little of it stays on the hitch',
      location: rig.travel?.location ?? rig.location,
      general: true,
    },
  ];
}

/** SI. Far beyond any rig, and far enough below the largest number that margins and moments still are numbers. */
const LARGEST_LOAD = 1e30;

/** The state of a rig without cases: a unit alone is empty, a rig has its tanks as stated or full. */
function impliedCase(rig: RigModel): CaseModel {
  const levels = new Map<string, LevelRange>();
  if (rig.standalone) {
    for (const unit of rig.units) {
      for (const tank of unit.tanks)
        levels.set(`${unit.name}.${tank.name}`, { value: 0, least: 0, most: 0, location: tank.location });
    }
  }
  const name = rig.standalone ? 'empty' : 'full';
  const title = rig.standalone ? 'the empty state' : 'the state with full tanks';
  return { name, title, levels, absent: new Set(), stowed: [], location: rig.location };
}

/** Level road first, then the steepest grades and the braking the rig travels with. */
function motionsOf(rig: RigModel): Motion[] {
  const motions: Motion[] = [{ kind: 'level', field: LEVEL, text: '' }];
  const { travel } = rig;
  const percent = (grade: number) => `${formatNumber(Math.abs(grade) * 100, 3)} %`;
  const add = (kind: Motion['kind'], field: Field, text: string) => motions.push({ kind, field, text });
  if (travel === undefined) return motions;
  if (travel.up > 0) add('climb', { grade: travel.up, deceleration: 0 }, `on the ${percent(travel.up)} climb`);
  if (travel.down < 0)
    add('descent', { grade: travel.down, deceleration: 0 }, `on the ${percent(travel.down)} descent`);
  if (travel.braking !== undefined && travel.braking > 0) {
    add(
      'braking',
      { grade: 0, deceleration: travel.braking },
      `braking at ${formatValue(travel.braking, ACCELERATION, systemOfRig(rig))}`,
    );
  }
  return motions;
}

/** Load of the vehicle's first axle group without its trailers in the same state of motion; undefined without vehicle or trailer. */
function soloFrontLoad(rig: RigModel, field: Field): Influence | undefined {
  const [vehicle] = rig.units;
  if (vehicle?.kind !== 'vehicle' || rig.units.length < 2) return undefined;
  const solution = solveSupports(toMechanics([vehicle]), field);
  const load = isStaticsProblem(solution) ? undefined : solution.units[0]?.groups[0]?.load;
  // The other units' masses count nothing here; the influence is padded to the rig's number of units.
  return (
    load &&
    sumInfluences(rig.units.length, [
      {
        constant: load.constant,
        units: rig.units.map((_, index) => load.units[index] ?? { one: 0, x: 0, y: 0, z: 0, xy: 0 }),
      },
    ])
  );
}

function* bodiesOf(sources: StateResult['sources'], unit: number): Iterable<Body> {
  for (const source of sources) if (source.unit === unit) yield source.id.body;
}

/** Masses, places and shares that follow from the loads. */
function addDerived(
  rig: RigModel,
  units: readonly MassProperties[],
  quantities: Map<string, Computed>,
  soloFront: number | undefined,
): void {
  const figure = (name: string) => quantities.get(name)?.value;
  const add = (name: string, value: number | undefined, dimension: Dimension) => {
    if (value !== undefined && Number.isFinite(value)) quantities.set(name, { name, value, dimension });
  };
  rig.units.forEach((unit, index) => {
    const { name } = unit;
    const whole = units[index];
    const mass = figure(`${name}.mass`) ?? 0;
    add(`${name}.payload`, mass - tareOf(unit), MASS);
    add(`${name}.mass_in_running_order`, massInRunningOrder(unit), MASS);
    if (whole?.centre !== undefined) {
      add(`${name}.cg.back`, -whole.centre.x, LENGTH);
      add(`${name}.cg.left`, whole.centre.y, LENGTH);
      add(`${name}.cg.up`, whole.centre.z, LENGTH);
      add(`${name}.yaw_inertia`, whole.inertia.zz, INERTIA);
    }
    const coupling = figure(`${name}.coupling.load`);
    if (coupling !== undefined && mass > 0) add(`${name}.coupling.share`, coupling / mass, DIMENSIONLESS);
    unit.groups.forEach((group, position) => {
      const load = figure(`${name}.${group.name}.load`);
      const left = figure(`${name}.${group.name}.left`);
      const right = figure(`${name}.${group.name}.right`);
      if (load !== undefined && left !== undefined && right !== undefined && load > 0) {
        add(`${name}.${group.name}.imbalance`, Math.abs(left - right) / load, DIMENSIONLESS);
      }
      if (index === 0 && position === 0 && soloFront !== undefined && soloFront > 0 && load !== undefined) {
        add(`${name}.${group.name}.lost`, 1 - load / soloFront, DIMENSIONLESS);
      }
    });
  });
  const [first, ...others] = rig.units;
  if (first?.kind === 'vehicle' && others.length > 0) {
    const vehicle = figure(`${first.name}.mass`) ?? 0;
    const trailers = others.reduce((sum, { name }) => sum + (figure(`${name}.mass`) ?? 0), 0);
    if (vehicle > 0) add('rig.mass_ratio', trailers / vehicle, DIMENSIONLESS);
  }
}
