import type { MarketName } from '../../catalogue/markets.ts';
import type { Authority } from '../../diagnostics/define.ts';
import type { RigResult } from '../../semantics/state.ts';
import type { Dimension } from '../../units/dimension.ts';
import { bindingRules, excessOf, roundingOf, statesOf } from './check-limits.ts';
import type { AssessedText, Assessment, Comparison, Limited } from './limit-rule.ts';

/** How a figure stands against its limit in the case that is nearest to it, or furthest beyond. */
export interface Standing extends Comparison {
  readonly verdict: 'holds' | 'broken';
  /** How far it is within the limit, SI; negative where it is broken. */
  readonly margin: number;
  readonly dimension: Dimension;
  readonly sense: Limited['sense'];
  readonly limitName: string;
  /** As {@link Limited} has it. */
  readonly unit?: string;
  /** Label of the case; empty where no load moves the figure. */
  readonly state: string;
}

/** Why a limit could not be checked. */
export interface Open {
  readonly verdict: 'open';
  readonly missing: string;
}

/** One row of the table of limits. */
export interface LimitRow {
  readonly code: string;
  /** The text with its clause. */
  readonly text: string;
  readonly authority: Authority;
  readonly markets: 'everywhere' | readonly MarketName[];
  readonly subject: string;
  readonly quantity: string;
  readonly outcome: Standing | Open;
}

/**
 * Every limit that was checked, against which text, with value, limit and margin in the worst case on level ground; and every
 * one that could not be, with what is missing. In the order of the rules. It says what was compared, not that a rig is legal.
 */
export function limitTable(result: RigResult, rules: readonly AssessedText[]): readonly LimitRow[] {
  return bindingRules(rules, result.rig).flatMap((rule) =>
    [...rule.assess(result)].flatMap((assessment) => {
      const outcome = outcomeOf(result, assessment);
      if (outcome === undefined) return [];
      const { code, source = "the makers' plates, as stated in the file", authority = 'plate' } = rule.definition;
      const { subject, quantity } = assessment;
      return [{ code, text: source, authority, markets: rule.markets, subject, quantity, outcome }];
    }),
  );
}

/** Undefined for a figure that no state has. */
function outcomeOf(result: RigResult, assessment: Assessment): Standing | Open | undefined {
  if (assessment.kind === 'unstated') return { verdict: 'open', missing: assessment.missing };
  let worst: Standing | undefined;
  for (const state of statesOf(result, assessment)) {
    const comparison = assessment.compare(state);
    if (comparison === undefined) continue;
    const margin = 0 - excessOf(assessment, comparison);
    if (worst !== undefined && worst.margin <= margin) continue;
    const { dimension, sense, limitName, unit, fixed } = assessment;
    const verdict = margin < -roundingOf(assessment, comparison.limit) ? 'broken' : 'holds';
    const label = fixed ? '' : state.label;
    worst = { ...comparison, verdict, margin, dimension, sense, limitName, state: label, ...(unit ? { unit } : {}) };
  }
  return worst;
}
