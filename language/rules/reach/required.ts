import { REQUIREMENTS } from '../../diagnostics/requirements.ts';
import {
  blendInfluences,
  constantInfluence,
  type Influence,
  isConstant,
  scaleInfluence,
} from '../../mechanics/influence.ts';
import { figureOf, type QuantityFigure } from '../../semantics/envelope/figures.ts';
import type { Requirement } from '../../semantics/model.ts';
import { checkRequirement, requiredQuantity, requirementsOf, textIn } from '../../semantics/requirements.ts';
import { asksForStability } from '../../semantics/stability/stability-quantities.ts';
import type { MotionLoads, RigResult, StateResult } from '../../semantics/state.ts';
import type { Comparison, Limited, LimitedRatio } from '../limits/limit-rule.ts';
import { shareGoal } from '../share-goal.ts';
import { type Quotient, quotientOf, sumOf } from './quotient.ts';
import type { ReachLimit } from './reach-limit.ts';

/** The author's own limits, one for each end. Those that are neither loads nor ratios of loads can only be tried. */
export function requiredLimits(result: RigResult): ReachLimit[] {
  const [state] = result.states;
  if (state === undefined) return [];
  return requirementsOf(result.rig)
    .filter((requirement) => !asksForStability(requirement))
    .flatMap((requirement) => [end(requirement, state, 'at least'), end(requirement, state, 'at most')])
    .flatMap((found) => found ?? []);
}

function end(requirement: Requirement, state: StateResult, sense: Limited['sense']): ReachLimit | undefined {
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
      subject: textIn(requirement, state),
      quantity: 'the value',
      sense,
      dimension: check.value.dimension,
      ...(unit === undefined ? {} : { unit }),
      limitName: `the ${sense === 'at most' ? 'most' : 'least'} allowed here`,
      location: requirement.location,
      compare,
      ...(share === undefined ? {} : { goal: (at) => shareGoal(at, share, sense, first.limit) }),
      ratio: (at, loads) => ratioOf(requirement, at, loads, sense),
      excess: (at, loads) => excessOf(requirement, at, loads, sense),
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

/** By how much the value is more than its limit, where that is a load or one load through another. */
function beyondOf(
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
  sense: Limited['sense'],
): Quotient | undefined {
  const value = quotientOf(requirement.expression, requirement, state, loads);
  const limit = limitOf(requirement, state, loads, sense);
  return value && limit && sumOf(value, limit, -1);
}

function limitOf(
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
  sense: Limited['sense'],
): Quotient | undefined {
  const { comparison } = requirement;
  const limit = sense === 'at most' ? comparison.most : comparison.least;
  return limit && quotientOf(limit, requirement, state, loads);
}

function ratioOf(
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
  sense: Limited['sense'],
): LimitedRatio | undefined {
  const limit = limitOf(requirement, state, loads, sense);
  const own =
    limit?.below === undefined && limit && isConstant(limit.above) ? figureIn(requirement, state, loads) : undefined;
  if (own?.figure.denominator !== undefined) return own;
  const { above: numerator, below: denominator } = beyondOf(requirement, state, loads, sense) ?? {};
  if (numerator === undefined || denominator === undefined) return undefined;
  const { expression } = requirement;
  const isWritten =
    expression.kind === 'product' && expression.factors.every(({ operand }) => operand.kind === 'reference');
  const told = isWritten && (quotientOf(expression, requirement, state, loads)?.above ?? false);
  return { figure: { numerator, denominator }, scale: 1, absolute: false, told };
}

/** The computed quantity that is required to be within a limit, where it is one alone. */
function figureIn(requirement: Requirement, state: StateResult, loads: MotionLoads): QuantityFigure | undefined {
  const name = requiredQuantity(requirement, state);
  return name === undefined ? undefined : figureOf(state.rig, loads, name);
}

/** The excess of what is required: by how much the value is beyond its limit, times the load that divides. */
function excessOf(
  requirement: Requirement,
  state: StateResult,
  loads: MotionLoads,
  sense: Limited['sense'],
): readonly Influence[] | undefined {
  const beyond = beyondOf(requirement, state, loads, sense);
  if (beyond !== undefined) return [scaleInfluence(beyond.above, sense === 'at most' ? 1 : -1)];
  const size = figureIn(requirement, state, loads);
  const limit = limitOf(requirement, state, loads, sense);
  // What has no sign is too small only where it is so to both sides, which no single load tells.
  if (size?.absolute !== true || limit === undefined || sense === 'at least') return undefined;
  if (limit.below !== undefined || !isConstant(limit.above)) return undefined;
  const { scale, figure } = size;
  const { numerator, denominator = constantInfluence(state.rig.units.length, 1) } = figure;
  return [scale, -scale].map((factor) => blendInfluences(numerator, factor, denominator, -limit.above.constant));
}
