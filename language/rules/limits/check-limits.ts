import { bindingMarkets } from '../../catalogue/markets.ts';
import { finding } from '../../diagnostics/create.ts';
import type { Finding } from '../../diagnostics/finding.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { RigModel } from '../../semantics/model.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import { MASS, sameDimension } from '../../units/dimension.ts';
import { type DisplaySystem, formatQuantity } from '../../units/display.ts';
import { helpFor } from '../moves.ts';
import { limitPlace, ownPlace, pointAt } from '../places.ts';
import { breachOf, levelStates, ROUNDING, worstOf } from '../states.ts';
import type { AssessedText, Comparison, Limited, LimitRule } from './limit-rule.ts';

/** Shares and forces so near their limit, relative to it, hold it: that is rounding. */
const RELATIVE_ROUNDING = 1e-6;

/** The rules that bind a rig: those of everywhere and of its markets. */
export function bindingRules<Rule extends AssessedText>(rules: readonly Rule[], rig: RigModel): Rule[] {
  const markets = bindingMarkets(rig.markets);
  return rules.filter((rule) => rule.markets === 'everywhere' || rule.markets.some((name) => markets.has(name)));
}

/** How far a figure is beyond its limit: positive where it is broken. */
export function excessOf({ sense }: Limited, { value, limit }: Comparison): number {
  return sense === 'at most' ? value - limit : limit - value;
}

/** What counts as rounding for a limit of a dimension. */
export function roundingOf({ dimension }: Limited, limit: number): number {
  return sameDimension(dimension, MASS) ? ROUNDING : RELATIVE_ROUNDING * Math.max(1e-3, Math.abs(limit));
}

/** One finding for each figure that is beyond its limit in a case on level ground, in its worst case. */
export function checkLimits(result: RigResult, rules: readonly LimitRule[]): Finding[] {
  return bindingRules(rules, result.rig).flatMap((rule) =>
    [...rule.assess(result)].flatMap((assessment) =>
      assessment.kind === 'limited' ? checkLimit(result, rule, assessment) : [],
    ),
  );
}

/** The states in which a figure is compared: one case that has it is as good as another where no load moves it. */
export function statesOf(result: RigResult, { fixed, compare }: Limited): readonly StateResult[] {
  const states = levelStates(result);
  return fixed ? states.filter((state) => compare(state) !== undefined).slice(0, 1) : states;
}

function checkLimit(result: RigResult, { key, definition }: LimitRule, limited: Limited): Finding[] {
  const worst = worstOf(statesOf(result, limited), (state) => beyond(limited, state));
  const comparison = worst && limited.compare(worst.state);
  if (worst === undefined || comparison === undefined) return [];
  const { state, by } = worst;
  const system = systemOfRig(result.rig);
  const goal = limited.goal?.(state, by);
  const help = goal === undefined ? limited.advice : helpFor(state, goal);
  const { location, fixed } = limited;
  const place = fixed
    ? ownPlace(result, location)
    : limitPlace(result, state, location && { value: comparison.limit, location });
  const { subject, quantity, sense, limitName } = limited;
  const format = (value: number) => formatLimited(limited, value, system);
  const breach = { ...breachOf(worst, help), ...(fixed ? { state: '' } : {}) };
  const parameters = { subject, quantity, sense, limitName, format, ...comparison, ...breach };
  const related = [...pointAt(place, location, `${limitName}`), ...(limited.related ?? [])];
  return [finding(key, definition, parameters, place, related)];
}

/** A figure, its limit or the margin between them, as a reader expects it. */
export function formatLimited(
  { dimension, unit }: Pick<Limited, 'dimension' | 'unit'>,
  value: number,
  system: DisplaySystem,
): string {
  return formatQuantity({ value, dimension }, unit, { maximumDecimals: 3, system });
}

/** The difference of two such figures: of shares in percentage points, which a share of a share is not. */
export function formatDifference(
  limited: Pick<Limited, 'dimension' | 'unit'>,
  value: number,
  system: DisplaySystem,
): string {
  const text = formatLimited(limited, value, system);
  return text.endsWith(' %') ? `${text.slice(0, -2)} percentage points` : text;
}

function beyond(limited: Limited, state: StateResult): number | undefined {
  const comparison = limited.compare(state);
  if (comparison === undefined || limited.toldElsewhere?.(state) === true) return undefined;
  const excess = excessOf(limited, comparison);
  return excess > roundingOf(limited, comparison.limit) ? excess : undefined;
}
