import type { Finding } from '../diagnostics/finding.ts';
import type { RigResult } from '../semantics/state.ts';
import { assumptions } from './assumptions.ts';
import { caseUnreachable } from './case-unreachable.ts';
import { couplingNegative } from './coupling-negative.ts';
import { couplingShare } from './coupling-share.ts';
import { itemOutsideLocker } from './item-outside-locker.ts';
import { itemTooLarge } from './item-too-large.ts';
import { lifted } from './lifted.ts';
import { bindingRules, checkLimits } from './limits/check-limits.ts';
import type { MissingRating } from './limits/limit-rule.ts';
import { PLATED_LIMITS } from './limits/plated.ts';
import { STATED_RATINGS } from './limits/stated-ratings.ts';
import { type LimitRow, limitTable } from './limits/table.ts';
import { MARKET_RULES } from './markets/index.ts';
import { outsideBody } from './outside-body.ts';
import { overLimits } from './over-limits.ts';
import { overLockerLimit } from './over-locker-limit.ts';
import { ratingsContradict } from './ratings-contradict.ts';
import { rearHeavy } from './rear-heavy.ts';
import { restoresTooMuch } from './restores-too-much.ts';
import type { Rule } from './rule.ts';
import { sideImbalance } from './side-imbalance.ts';
import { steeringAxleLightened } from './steering-axle-lightened.ts';
import { tankLevels } from './tank-levels.ts';
import { trailerHeavier } from './trailer-heavier.ts';
import { tyreOverloaded } from './tyre-overloaded.ts';
import { tyreTooSlow } from './tyre-too-slow.ts';
import { tyresBelowRating } from './tyres-below-rating.ts';
import { weighings } from './weighings.ts';

/** All rules, in the order in which their findings at one place are listed: plates first, practice last. */
export const RULES: readonly Rule[] = [
  overLimits,
  tyreOverloaded,
  overLockerLimit,
  couplingNegative,
  lifted,
  rearHeavy,
  tankLevels,
  caseUnreachable,
  tyreTooSlow,
  tyresBelowRating,
  ratingsContradict,
  itemTooLarge,
  itemOutsideLocker,
  outsideBody,
  restoresTooMuch,
  couplingShare,
  steeringAxleLightened,
  sideImbalance,
  trailerHeavier,
  weighings,
  assumptions,
];

/** Everything the rules find in a rig or a unit alone, all inside its own declaration. */
export function checkRig(result: RigResult): readonly Finding[] {
  return [...RULES.flatMap(({ check }) => [...check(result)]), ...checkLimits(result, MARKET_RULES)];
}

/** Ratings of plates that a rig or a unit alone does not state. */
export function missingRatings(result: RigResult): readonly MissingRating[] {
  return bindingRules(PLATED_LIMITS, result.rig).flatMap((rule) =>
    [...rule.assess(result)].flatMap((each) => (each.kind === 'unstated' ? (each.rating ?? []) : [])),
  );
}

/** The limits of a rig or a unit alone: plates first, then the texts of its markets. */
export function limitsOf(result: RigResult): readonly LimitRow[] {
  return limitTable(result, [...PLATED_LIMITS, ...STATED_RATINGS, ...MARKET_RULES]);
}
