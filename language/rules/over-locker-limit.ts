import { finding } from '../diagnostics/create.ts';
import type { Finding, Location } from '../diagnostics/finding.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { MassSource } from '../mechanics/influence.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { Limit, Locker } from '../semantics/model.ts';
import type { RigResult, Source, StateResult } from '../semantics/state.ts';
import { formatMass } from '../units/display.ts';
import type { Goal } from './goal.ts';
import { helpFor } from './moves.ts';
import { compareNames, isOwn, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, levelStates, ROUNDING, worstOf } from './states.ts';

/** What is stowed in each locker that states a limit, in every case. */
export const overLockerLimit: Rule = {
  keys: ['over-locker-limit'],
  *check(result) {
    for (const [unit, { name, lockers }] of result.rig.units.entries()) {
      for (const locker of lockers) {
        const found = locker.holds && checkLocker(result, unit, `${name}.${locker.name}`, locker, locker.holds);
        if (found !== undefined) yield found;
      }
    }
  },
};

function checkLocker(result: RigResult, unit: number, name: string, locker: Locker, limit: Limit): Finding | undefined {
  const over = (state: StateResult) =>
    contentOf(state, unit, locker).reduce((sum, { mass }) => sum + mass, 0) - limit.value;
  const worst = worstOf(levelStates(result), over, ROUNDING);
  if (worst === undefined) return undefined;
  const { state, by } = worst;
  const heaviestFirst = contentOf(state, unit, locker).sort(
    (a, b) => b.mass - a.mass || compareNames(a.id.name, b.id.name),
  );
  const inHere: Goal = {
    at: (place) => (place.unit === unit && place.locker?.name === locker.name ? 1 : 0),
    excess: by,
  };
  const heaviest = heaviestFirst.map(stowedAt).find((location) => isOwn(result, location));
  const shown = heaviest ?? limitPlace(result, state, limit);
  const system = systemOfRig(result.rig);
  const parameters = {
    subject: name,
    value: limit.value + by,
    limit: limit.value,
    limitName: 'its limit',
    ...breachOf(worst, helpFor(state, inHere)),
  };
  return finding('over-locker-limit', LOADS['over-locker-limit'], parameters, shown, [
    ...pointAt(shown, limit.location, `${name} holds ${formatMass(limit.value, system)}`),
    ...heaviestFirst
      .slice(0, 3)
      .flatMap((source) => pointAt(shown, stowedAt(source), `${source.id.name} (${formatMass(source.mass, system)})`)),
  ]);
}

function contentOf({ sources }: StateResult, unit: number, locker: Locker): MassSource<Source>[] {
  return sources.filter(({ id: { stowed } }) => stowed?.unit === unit && stowed.locker?.name === locker.name);
}

/** The line that stows it. */
function stowedAt({ id }: MassSource<Source>): Location {
  return id.stowed?.location ?? id.location;
}
