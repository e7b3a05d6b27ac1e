import { LEVEL } from '../../mechanics/combination.ts';
import { type Influence, renumberInfluence } from '../../mechanics/influence.ts';
import { isStaticsProblem, solveSupports } from '../../mechanics/statics.ts';
import type { Observation } from '../../mechanics/weighing/observation.ts';
import { raisedSupportInfluence, standingSupportInfluence } from '../../mechanics/weighing/tilt.ts';
import { toMechanics } from '../combination.ts';
import { nameInfluences } from '../influences.ts';
import type { UnitModel } from '../model.ts';
import type { RigResult, StateResult } from '../state.ts';
import { standingSupport, tiltOf } from './raised-end.ts';
import { weighedSources } from './spreads.ts';
import type { PassModel, RaisedEnd, ReadingModel, WeighingModel } from './weighing-model.ts';

/** A reading with the pass it was taken in and what mechanics makes of it. */
export interface ObservedReading {
  readonly pass: PassModel;
  readonly reading: ReadingModel;
  readonly observation: Observation;
}

/** The readings of a slip, pass by pass; those without a load in the case they were taken in are left out. */
export function observe(result: RigResult, { name, passes }: WeighingModel): readonly ObservedReading[] {
  return passes.flatMap((pass) => {
    const state = stateOf(result, pass);
    if (state === undefined) return [];
    const loads = loadsOf(state, pass);
    const sources = weighedSources(state, `${result.rig.name} ${name}`);
    return pass.readings.flatMap((reading) => {
      const influence = loads(reading.quantity);
      if (influence === undefined) return [];
      const { value, deviation } = reading;
      return [{ pass, reading, observation: { influence, sources, reading: value, deviation } }];
    });
  });
}

/** The case on level ground that a pass was taken in. */
export function stateOf({ states }: RigResult, pass: Pick<PassModel, 'case'>): StateResult | undefined {
  return states.find(
    ({ motion, case: { name } }) => motion.kind === 'level' && (pass.case === undefined || name === pass.case),
  );
}

/** The loads of a pass by name, as functions of all masses of the rig. */
function loadsOf(
  { rig, quantities }: StateResult,
  { unit: index, raised }: PassModel,
): (name: string) => Influence | undefined {
  const unit = index === undefined ? undefined : rig.units[index];
  if (index === undefined || unit === undefined) return (name) => quantities.get(name)?.influence;
  const alone = raised === undefined ? loadsAlone(unit) : loadsRaised(unit, raised);
  return (name) => {
    const influence = alone.get(name);
    return influence && renumberInfluence(influence, [index], rig.units.length);
  };
}

function loadsAlone(unit: UnitModel): ReadonlyMap<string, Influence> {
  const solution = solveSupports(toMechanics([unit]), LEVEL);
  if (isStaticsProblem(solution)) return new Map();
  return nameInfluences([unit], solution);
}

function loadsRaised(unit: UnitModel, end: RaisedEnd): ReadonlyMap<string, Influence> {
  const tilt = tiltOf(unit, end);
  const loads = new Map<string, Influence>();
  const add = (name: string, influence: Influence | undefined) => {
    if (influence !== undefined) loads.set(name, influence);
  };
  if (tilt === undefined) return loads;
  // All of it weighs the same however it stands.
  for (const name of ['rig.mass', `${unit.name}.mass`]) add(name, loadsAlone(unit).get(name));
  add(`${unit.name}.${end.support}.load`, raisedSupportInfluence(1, 0, tilt));
  add(`${unit.name}.${standingSupport(unit, end.support)}.load`, standingSupportInfluence(1, 0, tilt));
  return loads;
}
