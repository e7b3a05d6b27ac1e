import { REQUIREMENTS } from '../../diagnostics/requirements.ts';
import { blendInfluences, type Influence, isConstant, scaleInfluence } from '../../mechanics/influence.ts';
import { figureOf } from '../../semantics/envelope/figures.ts';
import type { Requirement } from '../../semantics/model.ts';
import { checkRequirement, requiredQuantity, requirementsOf } from '../../semantics/requirements.ts';
import { asksForStability } from '../../semantics/stability/stability-quantities.ts';
import type { MotionLoads, RigResult, StateResult } from '../../semantics/state.ts';
import type { Comparison, Limited } from '../limits/limit-rule.ts';
import { linearOf } from './linear.ts';
import { type ReachLimit, shareGoal } from './reach-limit.ts';

/** The author's own limits, one for each end. Those that are neither loads nor ratios of loads can only be tried. */
export function requiredLimits(result: RigResult): ReachLimit[] {
  const [state] = result.states;
  if (state === undefined) return [];
  return requirementsOf(result.rig)
    .filter((requirement) => !asksForStability(requirement))
    .flatMap((requirement) => [end(result, requirement, state, 'at least'), end(result, requirement, state, 'at most')])
    .flatMap((found) => found ?? []);
}

function end(
  result: RigResult,
  requirement: Requirement,
  state: StateResult,
  sense: Limited['sense'],
): ReachLimit | undefined {
  const compare = compareWith(requirement, sense);
  const check = checkRequirement(requirement, state);
  const first = compare(state);
  if ('problem' in check || first === undefined) return undefined;
  const { cases } = requirement;
  const { unit } = (sense === 'at most' ? check.most : check.least) ?? check.value;
  const name = requiredQuantity(requirement, state);
  const share = name?.match(/^(.*)\.coupling\.share$/)?.[1];
  return {
    limited: {
      kind: 'limited',
      subject: requirement.text,
      quantity: 'the value',
      sense,
      dimension: check.value.dimension,
      ...(unit === undefined ? {} : { unit }),
      limitName: `the ${sense === 'at most' ? 'most' : 'least'} allowed here`,
      location: requirement.location,
      // With a limit that differs between states it has no excess, and is tried only.
      ...(name === undefined ? {} : { ratio: name }),
      compare,
      ...(share === undefined ? {} : { goal: (at) => shareGoal(at, share, sense, first.limit) }),
      excess: (at, loads) => excessOf(result, requirement, at, loads, sense),
    },
    code: REQUIREMENTS['requirement-violated'].code,
    weight: 'limit',
    ...(cases ? { cases } : {}),
  };
}

function compareWith(
  requirement: Requirement,
  sense: Limited['sense'],
): (state: StateResult) => Comparison | undefined {
  return (state) => {
    const check = checkRequirement(requirement, state);
    if ('problem' in check) return undefined;
    const limit = sense === 'at most' ? check.most : check.least;
    return limit && { value: check.value.value, limit: limit.value };
  };
}

/**
 * The excess of what is required of a ratio of loads with a limit that is the same in all states, or of a sum of loads with a
 * limit that is one too.
 */
function excessOf(
  result: RigResult,
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
  sense: Limited['sense'],
): readonly Influence[] | undefined {
  const { expression, comparison } = requirement;
  const limit = sense === 'at most' ? comparison.most : comparison.least;
  const sign = sense === 'at most' ? 1 : -1;
  const load = linearOf(expression, requirement, state, loads);
  const bound = limit && linearOf(limit, requirement, state, loads);
  if (bound === undefined) return undefined;
  if (load !== undefined) return [blendInfluences(load, sign, bound, -sign)];
  const name = requiredQuantity(requirement, state);
  const found = name === undefined ? undefined : figureOf(result.rig, loads, name);
  if (found?.figure.denominator === undefined || !isConstant(bound)) return undefined;
  const { figure, scale, offset, absolute } = found;
  const { numerator, denominator } = { denominator: bound, ...figure };
  // offset + scale·N/D beyond the limit, times D, which is positive wherever the ratio is one.
  const beyond = (factor: number) =>
    blendInfluences(scaleInfluence(numerator, factor), sign, denominator, sign * (offset - bound.constant));
  if (!absolute) return [beyond(scale)];
  return sense === 'at most' ? [beyond(scale), beyond(-scale)] : undefined;
}
