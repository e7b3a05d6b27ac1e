import { sampled } from '../../diagnostics/stability-wording.ts';
import { leastHeld } from '../../rules/reach/required-stability.ts';
import { reachStabilityOf } from '../../semantics/envelope/reach-stability.ts';
import type { Requirement, RigModel } from '../../semantics/model.ts';
import {
  checkRequirement,
  type RequirementCheck,
  requiredQuantity,
  requirementsOf,
} from '../../semantics/requirements.ts';
import { stabilityOf } from '../../semantics/results.ts';
import { asksForStability, withStability } from '../../semantics/stability/stability-quantities.ts';
import type { StateResult } from '../../semantics/state.ts';
import type { Statement } from '../../syntax/tree.ts';
import { DIMENSIONLESS, sameDimension } from '../../units/dimension.ts';
import { type DisplaySystem, formatQuantity, formatShare } from '../../units/display.ts';
import { paragraphs, plain } from '../markdown.ts';
import { reachTable } from '../reach-figures.ts';
import type { Row } from '../tables.ts';
import { type HoverContext, incompleteList, statesShown } from './context.ts';
import { limitInReach, reachShown } from './reach.ts';
import { NOT_COMPUTED } from './rig.ts';

/** A requirement: its value in each case it holds in, and the margin to its limits. */
export function requireHover(context: HoverContext, statement: Statement): string | undefined {
  const { result, here, system } = context;
  const { expression, comparison } = statement;
  if (expression === undefined || comparison === undefined) return undefined;
  const text = here.declaration.text.slice(expression.start, comparison.end).replace(/\s+/g, ' ');
  const title = `**require** ${plain(text)}`;
  const requirement = result && requirementsOf(result.rig).find((candidate) => candidate.expression === expression);
  if (result === undefined || requirement === undefined) return paragraphs(title, NOT_COMPUTED);
  const { cases, message } = requirement;
  const isStability = asksForStability(requirement);
  const states = (isStability ? worstOnRoads(requirement, result.rig) : statesShown(context, result)).filter(
    (state) => cases?.includes(state.case.name) ?? true,
  );
  if (states.length === 0) return paragraphs(title, NOT_COMPUTED);
  const problem = states.map((state) => checkRequirement(requirement, state)).find((check) => 'problem' in check);
  return paragraphs(
    title,
    message && plain(message),
    problem && 'problem' in problem
      ? `It cannot be checked: ${plain(problem.problem)}.`
      : reachTable(
          cases === undefined && !isStability ? reachShown(context, result) : undefined,
          states,
          checkRows(requirement, states, system),
          [],
          system,
        ),
    problem === undefined
      ? isStability
        ? `${ON_WORST_ROADS} ${reachedWords(requirement, result.rig, system)}`
        : standingWords(limitInReach(result, requirement.location, system))
      : undefined,
    incompleteList(result),
  );
}

const ON_WORST_ROADS = 'In each case on the road that is worst for it.';

/** How it stands in the least-damped reachable state found: stability is not proved for all of them. */
function reachedWords(requirement: Requirement, rig: RigModel, system: DisplaySystem): string {
  const { worst, tried } = (requirement.cases === undefined && reachStabilityOf(rig)) || {};
  const check = worst && leastHeld(requirement, worst.results);
  if (check === undefined || tried === undefined) return 'No other states are looked at.';
  const value = format(check, check.value.value, system);
  const holds = check.margin < 0 ? '**does not hold**' : 'holds';
  return `It ${holds} in the least-damped reachable state found, ${plain(check.result.label)}: ${value} (${sampled(tried)}).`;
}

/** Each case of a rig with its stability, on the road where least is left of what is required. */
function worstOnRoads(requirement: Requirement, rig: RigModel): readonly StateResult[] {
  const worst = new Map<string, { readonly state: StateResult; readonly margin: number }>();
  for (const state of (stabilityOf(rig)?.results ?? []).map(withStability)) {
    const check = checkRequirement(requirement, state);
    // What cannot be checked is told by any state.
    const margin = 'problem' in check ? 0 : check.margin;
    const known = worst.get(state.case.name);
    if (known === undefined || margin < known.margin) worst.set(state.case.name, { state, margin });
  }
  return [...worst.values()].map(({ state }) => state);
}

/** As a sentence. */
function standingWords(standing: string | undefined): string | undefined {
  return standing && `${standing.charAt(0).toUpperCase()}${standing.slice(1)}.`;
}

function checkRows(requirement: Requirement, states: readonly StateResult[], system: DisplaySystem): readonly Row[] {
  const [first] = states;
  const quantity = first && requiredQuantity(requirement, first);
  const check = (state: StateResult): RequirementCheck | undefined => {
    const found = checkRequirement(requirement, state);
    return 'problem' in found ? undefined : found;
  };
  const show = (state: StateResult, value: number): string => {
    const found = check(state);
    return found === undefined ? '' : format(found, value, system);
  };
  return [
    {
      label: 'value',
      ...(quantity === undefined ? {} : { quantities: [quantity] }),
      value: (state) => check(state)?.value.value,
      format: (value, state) => show(state, value),
    },
    {
      label: 'margin',
      value: (state) => check(state)?.margin,
      format: (margin, state) => {
        const text = show(state, Math.abs(margin));
        return margin < 0 ? `**${text} beyond**` : `${text} inside`;
      },
    },
  ];
}

/** A figure of what is required: a share in per cent where its limit is one, everything else in the system's unit. */
function format({ value: { dimension }, least, most }: RequirementCheck, value: number, system: DisplaySystem): string {
  if (sameDimension(dimension, DIMENSIONLESS) && (least ?? most)?.unit !== undefined) return formatShare(value);
  return formatQuantity({ value, dimension }, undefined, { maximumDecimals: 3, system });
}
