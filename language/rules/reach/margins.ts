import type { Reach } from '../../semantics/envelope/reach.ts';
import type { RigResult } from '../../semantics/state.ts';
import { excessOf, roundingOf } from '../limits/check-limits.ts';
import { type Standing, standingOf } from './breach.ts';
import type { Reaches } from './check-reach.ts';
import { type ReachLimit, reachLimits } from './reach-limit.ts';

/** How a limit stands over everything that a reach holds, in its worst state. */
export interface ReachMargin extends Standing {
  readonly limit: ReachLimit;
  /** Within the limit where positive, SI. */
  readonly margin: number;
  readonly verdict: 'holds' | 'broken';
}

/**
 * How every limit of a rig stands over a reach, tolerances apart, in the order of the limits. One that binds in some cases only
 * is looked at in these. A limit that no state of the reach speaks of is left out.
 */
export function reachMargins(result: RigResult, reaches: Reaches, reach: Reach): readonly ReachMargin[] {
  return reachLimits(result).flatMap((limit): ReachMargin[] => {
    const standing = worstStanding(limit, reaches, reach);
    if (standing === undefined) return [];
    const { worst } = standing;
    const excess = excessOf(limit.limited, worst);
    const isBroken = excess > roundingOf(limit.limited, worst.limit);
    return [{ ...standing, limit, margin: -excess, verdict: isBroken ? 'broken' : 'holds' }];
  });
}

function worstStanding({ limited, cases: names }: ReachLimit, reaches: Reaches, reach: Reach): Standing | undefined {
  const { cases, bases, loads, whole } = reaches;
  if (reach === whole && names === undefined) return standingOf(limited, whole, whole.free, bases, loads);
  let worst: Standing | undefined;
  for (const { reach: own, state } of cases) {
    if (reach !== whole && own.case !== reach.case) continue;
    if (names !== undefined && !names.includes(state.case.name)) continue;
    const standing = standingOf(limited, own, own.free, [state], loads);
    if (standing !== undefined && (worst === undefined || standing.worst.by > worst.worst.by)) worst = standing;
  }
  return worst;
}
