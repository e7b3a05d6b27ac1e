import { bindingMarkets } from '../../catalogue/markets.ts';
import { finding } from '../../diagnostics/create.ts';
import type { Finding } from '../../diagnostics/finding.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { RigModel } from '../../semantics/model.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import { MASS, sameDimension } from '../../units/dimension.ts';
import { formatValue } from '../../units/display.ts';
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

function checkLimit(result: RigResult, { key, definition }: LimitRule, limited: Limited): Finding[] {
  const worst = worstOf(levelStates(result), (state) => beyond(limited, state));
  const comparison = worst && limited.compare(worst.state);
  if (worst === undefined || comparison === undefined) return [];
  const { state, by } = worst;
  const system = systemOfRig(result.rig);
  const goal = limited.goal?.(state, by);
  const help = goal && helpFor(state, goal);
  const { location } = limited;
  const place = limited.stated
    ? ownPlace(result, location)
    : limitPlace(result, state, location && { value: comparison.limit, location });
  const { subject, quantity, sense, limitName, dimension } = limited;
  const format = (value: number) => formatValue(value, dimension, system);
  const breach = limited.stated ? { state: '', also: [] } : breachOf(worst, help);
  const parameters = { subject, quantity, sense, limitName, format, ...comparison, ...breach };
  const related = [...pointAt(place, location, `${limitName}`), ...(limited.related ?? [])];
  return [finding(key, definition, parameters, place, related)];
}

function beyond(limited: Limited, state: StateResult): number | undefined {
  const comparison = limited.compare(state);
  if (comparison === undefined) return undefined;
  const excess = excessOf(limited, comparison);
  return excess > roundingOf(limited, comparison.limit) ? excess : undefined;
}
