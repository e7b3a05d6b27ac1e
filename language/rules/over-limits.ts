import { COUPLINGS } from '../diagnostics/couplings.ts';
import { finding } from '../diagnostics/create.ts';
import type { DiagnosticDefinition } from '../diagnostics/define.ts';
import type { Finding } from '../diagnostics/finding.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { OverLimit } from '../diagnostics/wording.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import type { RigResult, StateResult } from '../semantics/state.ts';
import { formatMass } from '../units/display.ts';
import { lessOf } from './goal.ts';
import { type LimitedLoad, type LimitKey, limitedLoads } from './limited-loads.ts';
import { helpFor } from './moves.ts';
import { contributors, limitPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { breachOf, influenceOf, levelStates, ROUNDING, sumOf, worstOf } from './states.ts';

const DEFINITIONS: Readonly<Record<LimitKey, DiagnosticDefinition<OverLimit>>> = {
  'over-axle-rating': LOADS['over-axle-rating'],
  'over-group-rating': LOADS['over-group-rating'],
  'over-GVM': LOADS['over-GVM'],
  'over-ATM': LOADS['over-ATM'],
  'over-GTM': LOADS['over-GTM'],
  'over-GCM': LOADS['over-GCM'],
  'over-towing': LOADS['over-towing'],
  'over-towing-unbraked': LOADS['over-towing-unbraked'],
  'over-payload': LOADS['over-payload'],
  'over-coupling-rating': COUPLINGS['over-coupling-rating'],
};

/** Ratings of axles, units, combinations and couplings, in every case on level ground; one finding for each limit. */
export const overLimits: Rule = {
  keys: [
    'over-axle-rating',
    'over-group-rating',
    'over-GVM',
    'over-ATM',
    'over-GTM',
    'over-GCM',
    'over-towing',
    'over-towing-unbraked',
    'over-payload',
    'over-coupling-rating',
  ],
  *check(result) {
    for (const limited of limitedLoads(result.rig)) {
      const found = checkLimit(result, limited);
      if (found !== undefined) yield found;
    }
  },
};

function checkLimit(result: RigResult, limited: LimitedLoad): Finding | undefined {
  const { key, subject, names, limit, limitName } = limited;
  const over = (state: StateResult) => {
    const value = sumOf(state, names);
    return value === undefined ? undefined : value - limit.value;
  };
  const worst = worstOf(levelStates(result), over, ROUNDING);
  if (worst === undefined) return undefined;
  const { state, by } = worst;
  const influence = influenceOf(state, names);
  const help = influence && helpFor(state, lessOf(influence, by));
  const place = limitPlace(result, state, limit);
  const system = systemOfRig(result.rig);
  const parameters = { subject, value: limit.value + by, limit: limit.value, limitName, ...breachOf(worst, help) };
  return finding(key, DEFINITIONS[key], parameters, place, [
    ...pointAt(place, limit.location, `${limitName} of ${formatMass(limit.value, system)}`),
    ...contributors(state, influence),
  ]);
}
