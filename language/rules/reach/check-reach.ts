import { finding } from '../../diagnostics/create.ts';
import type { Finding } from '../../diagnostics/finding.ts';
import { REACH } from '../../diagnostics/reach.ts';
import { evaluateLoadValue, type Influence, scaleInfluence } from '../../mechanics/influence.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import { casesOf, type Reach, reachOfCase, wholeReach } from '../../semantics/envelope/reach.ts';
import { isReachable } from '../../semantics/envelope/reachable-levels.ts';
import type { RigModel } from '../../semantics/model.ts';
import type { MotionLoads, RigResult, StateResult } from '../../semantics/state.ts';
import { DIMENSIONLESS, MASS, sameDimension } from '../../units/dimension.ts';
import { type Goal, lessOf } from '../goal.ts';
import { excessOf, formatDifference, formatLimited, roundingOf } from '../limits/check-limits.ts';
import type { Limited } from '../limits/limit-rule.ts';
import { helpFor } from '../moves.ts';
import { contributors, limitPlace, ownPlace, pointAt } from '../places.ts';
import { levelStates } from '../states.ts';
import { type Bases, brokenIn, isProvedToHold, type Standing, type Worst } from './breach.ts';
import { type ReachLimit, reachLimits } from './reach-limit.ts';
import { toleranceBreach } from './tolerance.ts';

/** A limit that all named cases hold and other states do not. */
export interface ReachBreach {
  /** Made when it is asked for: advice takes longer than finding the state. */
  readonly finding: Finding;
  /** Within the ranges of a case, in what is reachable otherwise, or only with tolerances. */
  readonly kind: 'range' | 'reach' | 'tolerance';
  readonly limit: ReachLimit;
  readonly reach: Reach;
  readonly worst: Worst;
}

/** The cases of a rig with what can vary in each, and everything reachable. */
export interface Reaches {
  readonly loads: MotionLoads;
  readonly cases: readonly { readonly reach: Reach; readonly state: StateResult }[];
  readonly whole: Reach;
  readonly bases: Bases;
}

/** Undefined for a rig without loads. */
export function reachesOf(result: RigResult): Reaches | undefined {
  const [loads] = result.motions;
  const [first, ...others] = levelStates(result);
  if (loads === undefined || first === undefined) return undefined;
  const byCase = new Map([first, ...others].map((state) => [state.case, state]));
  const cases = casesOf(result).flatMap((each) => {
    const state = byCase.get(each);
    return state === undefined ? [] : [{ reach: reachOfCase(result, each), state }];
  });
  return { loads, cases, whole: wholeReach(result), bases: [first, ...others] };
}

/** What is found in states that no case names, each limit once. */
export function checkReach(result: RigResult): readonly Finding[] {
  return reachBreaches(result).map((breach) => breach.finding);
}

/**
 * The limits that hold in the named cases and not in all that is reachable, or only without tolerances; of those that the same
 * state breaks for one reason the one with most weight.
 */
export function reachBreaches(result: RigResult): readonly ReachBreach[] {
  const survey = reachSurvey(result);
  const breaches = survey?.limits.flatMap((limit) => survey.breachOf(limit) ?? []) ?? [];
  return breaches.filter(({ worst }) => !worst.isToldElsewhere);
}

/** How the limits of a rig stand beyond its named cases; each is looked at when it is first asked for. */
export interface ReachSurvey {
  readonly limits: readonly ReachLimit[];
  /** Whether a named case breaks it: then nothing is told of the states between. */
  readonly isBrokenInCase: (limit: ReachLimit) => boolean;
  readonly breachOf: (limit: ReachLimit) => ReachBreach | undefined;
  /** Whether it is looked at beyond the ranges of the cases that it holds in. */
  readonly speaksOfEverything: (limit: ReachLimit) => boolean;
  /** Whether a case that it holds in states ranges of levels. */
  readonly hasRanges: (limit: ReachLimit) => boolean;
  /** Whether it is proved to hold beyond its named cases; where no state breaks it and it is not, states were tried. */
  readonly isProvedToHold: (limit: ReachLimit) => boolean;
}

const surveys = new WeakMap<RigResult, ReachSurvey | undefined>();

/** Undefined for a rig without loads. The same for the same result. */
export function reachSurvey(result: RigResult): ReachSurvey | undefined {
  const known = surveys.get(result);
  if (known !== undefined) return known;
  const survey = createSurvey(result);
  surveys.set(result, survey);
  return survey;
}

function createSurvey(result: RigResult): ReachSurvey | undefined {
  const reaches = reachesOf(result);
  if (reaches === undefined) return undefined;
  const breaches = new Map<ReachLimit, ReachBreach | undefined>();
  return {
    limits: reachLimits(result),
    isBrokenInCase: (limit) => casesOfLimit(reaches, limit).some(({ state }) => isBroken(limit.limited, state)),
    breachOf: (limit) => {
      if (!breaches.has(limit)) breaches.set(limit, breachOf(result, reaches, limit));
      return breaches.get(limit);
    },
    speaksOfEverything: ({ cases }) => cases === undefined && speaksOfStates(result.rig),
    hasRanges: (limit) => casesOfLimit(reaches, limit).some(({ reach }) => reach.varies),
    isProvedToHold: (limit) =>
      reachesOfLimit(result, reaches, limit).every(({ reach, bases }) =>
        isProvedToHold(limit.limited, reach, reach.free, bases, reaches.loads),
      ),
  };
}

function casesOfLimit({ cases }: Reaches, { cases: names }: ReachLimit): Reaches['cases'] {
  return cases.filter(({ reach }) => names === undefined || names.includes(reach.case?.name ?? ''));
}

/** The states that a limit is held against beside its named cases. */
function reachesOfLimit(
  { rig }: RigResult,
  reaches: Reaches,
  limit: ReachLimit,
): readonly { readonly reach: Reach; readonly bases: Bases }[] {
  const { whole, bases } = reaches;
  return [
    ...casesOfLimit(reaches, limit).flatMap(({ reach, state }) =>
      reach.varies ? [{ reach, bases: [state] satisfies Bases }] : [],
    ),
    ...(limit.cases === undefined && speaksOfStates(rig) ? [{ reach: whole, bases }] : []),
  ];
}

function breachOf(result: RigResult, reaches: Reaches, limit: ReachLimit): ReachBreach | undefined {
  const { limited, weight, cases: names } = limit;
  const { loads, whole, bases } = reaches;
  const cases = casesOfLimit(reaches, limit);
  if (cases.some(({ state }) => isBroken(limited, state))) return undefined;
  for (const { reach, state } of cases) {
    const broken = reach.varies ? brokenIn(limited, reach, reach.free, [state], loads) : undefined;
    if (broken !== undefined) return describe(result, limit, reach, broken, 'range', loads);
  }
  if (!speaksOfStates(result.rig)) return undefined;
  const everything = names === undefined;
  if (everything) {
    const broken = brokenIn(limited, whole, whole.free, bases, loads);
    if (broken !== undefined) return describe(result, limit, whole, broken, 'reach', loads);
  }
  if (weight === 'practice' || !whole.hasTolerances) return undefined;
  if (everything && holdsWithTolerances(limited, reaches)) return undefined;
  for (const { reach, state } of [...cases, ...(everything ? [{ reach: whole, state: bases[0] }] : [])]) {
    const own: Bases = reach === whole ? bases : [state];
    const found = toleranceBreach(result, limit, reach, own, loads);
    if (found !== undefined) return { ...found, kind: 'tolerance', limit, reach };
  }
  return undefined;
}

/** Whether a limit is proved to hold in every case and in everything reachable, whatever the tolerances do. */
function holdsWithTolerances(limited: Limited, { whole, cases, bases, loads }: Reaches): boolean {
  const { rig } = whole.result;
  if (!cases.every(({ state }) => isReachable(rig, state.case))) return false;
  return isProvedToHold(limited, whole, whole.toleranced, bases, loads);
}

/** Whether an author has states in mind: a unit alone that names none is looked at in the rigs that use it. */
function speaksOfStates({ standalone, cases, reachable }: RigModel): boolean {
  return !standalone || cases.length > 0 || reachable !== undefined;
}

/** Whether another rule tells that a named state breaks the limit. */
function isBroken(limited: Limited, state: StateResult): boolean {
  const comparison = limited.compare(state);
  return comparison !== undefined && excessOf(limited, comparison) > roundingOf(limited, comparison.limit);
}

function describe(
  result: RigResult,
  limit: ReachLimit,
  reach: Reach,
  standing: Standing,
  kind: 'range' | 'reach',
  loads: MotionLoads,
): ReachBreach {
  let made: Finding | undefined;
  return {
    get finding() {
      made ??= findingOf(result, limit, reach, standing, kind, loads);
      return made;
    },
    kind,
    limit,
    reach,
    worst: standing.worst,
  };
}

function findingOf(
  result: RigResult,
  { limited, weight, code }: ReachLimit,
  reach: Reach,
  { worst, found }: Standing,
  kind: 'range' | 'reach',
  loads: MotionLoads,
): Finding {
  const system = systemOfRig(result.rig);
  const key =
    weight === 'practice' ? 'reach-over-practice' : kind === 'range' ? 'range-over-limit' : 'reach-over-limit';
  const { state } = worst.witness;
  const isRatio = limited.ratio?.(state, loads) !== undefined;
  // The excess of a ratio is one of mass only where the ratio has no dimension.
  const excess = sameDimension(limited.dimension, isRatio ? DIMENSIONLESS : MASS) ? worst.excess : undefined;
  const goal =
    limited.goal?.(state, worst.by) ??
    (isRatio || excess === undefined ? undefined : massGoal(limited, excess, worst.by));
  const place =
    kind === 'range' ? limitPlace(result, state) : ownPlace(result, result.rig.reachable?.location, limited.location);
  const parameters = {
    subject: limited.subject,
    quantity: limited.quantity,
    sense: limited.sense,
    limitName: limited.limitName,
    value: worst.value,
    limit: worst.limit,
    format: (value: number) => formatLimited(limited, value, system),
    formatDifference: (value: number) => formatDifference(limited, value, system),
    state: state.label,
    case: kind === 'range' ? reach.case?.name : undefined,
    found,
    help: goal && helpFor(state, goal),
  };
  const related = [
    ...pointAt(place, limited.location, `${limited.limitName}`),
    ...tellContributors(limited, worst, loads),
  ];
  return { ...finding(key, REACH[key], parameters, place, related), follows: code };
}

/**
 * The masses that bring a limited load, or the load above in a limited share, beyond its limit, with what they put on it or take
 * off it. None for anything else, such as a place.
 */
function tellContributors({ sense, dimension, ratio }: Limited, { witness, excess }: Worst, loads: MotionLoads) {
  const { state } = witness;
  const sign = sense === 'at most' ? 1 : -1;
  const found = ratio?.(state, loads);
  if (found === undefined) {
    const load =
      excess && sameDimension(dimension, MASS) ? scaleInfluence({ ...excess, constant: 0 }, sign) : undefined;
    return contributors(state, load, { sign });
  }
  const { figure, scale, absolute, told = figure.numerator } = found;
  if (told === false || !sameDimension(dimension, DIMENSIONLESS)) return [];
  const numerator = scaleInfluence(told, Math.sign(scale));
  const isNegative = absolute && evaluateLoadValue(numerator, state.sources) < 0;
  return contributors(state, isNegative ? scaleInfluence(numerator, -1) : numerator, { sign });
}

/** What would mend a limit on a load, told as a change of that load. */
function massGoal({ sense }: Limited, excess: Influence, by: number): Goal {
  return sense === 'at most'
    ? lessOf(excess, by)
    : { ...lessOf(excess, by, scaleInfluence(excess, -1)), wanted: 'more' };
}
