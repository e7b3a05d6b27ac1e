import { type Field, LEVEL } from '../mechanics/combination.ts';
import { evaluateLoad, evaluateLoadValue } from '../mechanics/influence.ts';
import { type Body, combine, type MassProperties } from '../mechanics/mass.ts';
import type { StaticsProblem } from '../mechanics/problems.ts';
import { isStaticsProblem, type StaticAssumption, solveSupports } from '../mechanics/statics.ts';
import { ACCELERATION, MASS } from '../units/dimension.ts';
import { formatNumber, formatValue } from '../units/display.ts';
import { toMechanics } from './combination.ts';
import { addDerived } from './derived.ts';
import { systemOfRig } from './display-system.ts';
import { nameInfluences, soloFrontLoad } from './influences.ts';
import type { Assumption, CaseModel, LevelRange, RigModel } from './model.ts';
import { sourcesOf } from './sources.ts';
import type { Computed, Motion, MotionLoads, RigResult, StateResult } from './state.ts';
import { describeStaticAssumption, LATERAL_ASSUMPTIONS } from './unit/statics-text.ts';

/** A rig's states, or why its geometry has no loads. */
export function evaluateRig(rig: RigModel): RigResult | StaticsProblem {
  const cases = rig.cases.length > 0 ? rig.cases : [impliedCase(rig)];
  const device = rig.weightDistribution ?? rig.units[0]?.weightDistribution;
  const combination = toMechanics(rig.units, rig.units.length > 1 ? device : undefined);
  const motions: MotionLoads[] = [];
  const found: StaticAssumption[] = [];
  for (const motion of motionsOf(rig)) {
    const solution = solveSupports(combination, motion.field);
    if (isStaticsProblem(solution)) return solution;
    if (motions.length === 0) found.push(...solution.assumptions);
    motions.push({
      motion,
      influences: nameInfluences(rig.units, solution),
      soloFront: soloFrontLoad(rig, motion.field),
    });
  }
  const states = cases.flatMap((state) => {
    const sources = sourcesOf(rig, state);
    const label = rig.standalone && rig.cases.length === 0 ? (state.title ?? state.name) : `case ${state.name}`;
    const units = unitsWith(rig, sources);
    return motions.map((loads) => stateWith(rig, loads, state, sources, units, label));
  });
  const sane = ({ value }: Computed) => Math.abs(value) < LARGEST_LOAD;
  if (!states.every(({ quantities }) => [...quantities.values()].every(sane))) return { problem: 'overflow' };
  const statics = found.map(
    (each): Assumption => ({
      ...describeStaticAssumption(each, rig.units),
      location: rig.location,
      ...(LATERAL_ASSUMPTIONS.has(each.assumption) ? { general: true } : {}),
    }),
  );
  return {
    rig,
    states,
    motions,
    assumptions: [
      ...rig.units.flatMap(({ assumptions }) => assumptions),
      ...rig.assumptions,
      ...statics,
      ...assumedBrakes(
        rig,
        motions.map(({ motion }) => motion),
      ),
    ],
  };
}

/** The masses of each unit together. */
export function unitsWith(rig: RigModel, sources: StateResult['sources']): readonly MassProperties[] {
  return rig.units.map((_, index) => combine(bodiesOf(sources, index)));
}

/**
 * A state of a rig with any masses (`units`: those of each unit together) in one motion; `label` says what it is a state of:
 * `case departing`. The loads of any masses come from the same influences, so that nothing is solved anew.
 */
export function stateWith(
  rig: RigModel,
  { motion, influences, soloFront }: MotionLoads,
  state: CaseModel,
  sources: StateResult['sources'],
  units: readonly MassProperties[],
  label: string,
): StateResult {
  const quantities = new Map<string, Computed>();
  for (const [name, influence] of influences) {
    quantities.set(name, { name, value: evaluateLoadValue(influence, sources), dimension: MASS, influence });
  }
  addDerived(rig, sources, units, quantities, soloFront && evaluateLoadValue(soloFront, sources));
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
}

function* bodiesOf(sources: StateResult['sources'], unit: number): Iterable<Body> {
  for (const source of sources) if (source.unit === unit) yield source.id.body;
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
