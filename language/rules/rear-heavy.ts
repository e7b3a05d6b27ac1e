import { finding } from '../diagnostics/create.ts';
import { LOADS } from '../diagnostics/loads.ts';
import { unitInfluence } from '../mechanics/influence.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { AxleGroup, UnitModel } from '../semantics/model.ts';
import type { StateResult } from '../semantics/state.ts';
import { formatMassMoment } from '../units/display.ts';
import { lessOf } from './goal.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, levelStates, worstOf } from './states.ts';
import { carriesLoad } from './subjects.ts';

/** A tenth of a millimetre is rounding, m. */
const ROUNDING = 1e-4;

/** Centre of gravity of a trailer on one axle or group, behind the middle of it, on level ground. */
export const rearHeavy: Rule = {
  keys: ['rear-heavy'],
  *check(result) {
    const system = systemOfRig(result.rig);
    for (const [index, unit] of result.rig.units.entries()) {
      const group = balancedOn(unit);
      const worst = worstOf(levelStates(result), (state) => behindAxles(state, index), ROUNDING);
      if (group === undefined || worst === undefined) continue;
      const { state, by: behind } = worst;
      const moment = (state.units[index]?.mass ?? 0) * behind;
      const overturning = unitInfluence(result.rig.units.length, index, { one: group.x, x: -1 });
      const coupling = influenceOf(state, [`${unit.name}.coupling.load`]);
      const help = helpFor(state, { ...lessOf(overturning, moment, coupling), of: 'coupling load', wanted: 'more' });
      const place = limitPlace(result, state);
      const parameters = { unit: unit.name, behind, moment, ...breachOf(worst, help) };
      yield finding('rear-heavy', LOADS['rear-heavy'], parameters, place, [
        ...pointAt(place, group.location, `axles of ${unit.name}`),
        ...contributors(state, overturning, { format: (kilogramMetres) => formatMassMoment(kilogramMetres, system) }),
      ]);
    }
  },
};

/** How far (m) the centre of gravity of a trailer on one axle or group is behind it; undefined for other units. */
export function behindAxles(state: StateResult, index: number): number | undefined {
  const unit = state.rig.units[index];
  const group = unit && balancedOn(unit);
  const centre = state.units[index]?.centre;
  return group === undefined || centre === undefined ? undefined : group.x - centre.x;
}

/** The one group that a trailer rests on beside its coupling. */
function balancedOn({ coupling, groups }: UnitModel): AxleGroup | undefined {
  return coupling !== undefined && carriesLoad(coupling) && groups.length === 1 ? groups[0] : undefined;
}
