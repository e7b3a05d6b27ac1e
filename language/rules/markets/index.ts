import type { MARKET_TEXTS } from '../../diagnostics/markets/index.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { couplingDValue } from './coupling-d-value.ts';
import { couplingDcValue, couplingVValue } from './coupling-heavy-values.ts';
import { couplingLoadMinimum } from './coupling-load-minimum.ts';
import { couplingTestLoads } from './coupling-test-loads.ts';
import { hitchClass } from './hitch-class.ts';

/** Names of the catalogue entries that these rules report. */
export type MarketKey = keyof typeof MARKET_TEXTS;

/** What the texts of the markets ask of hitches and couplings beyond their ratings. */
export const COUPLING_RULES: readonly LimitRule<MarketKey>[] = [
  couplingDValue,
  couplingDcValue,
  couplingVValue,
  couplingTestLoads,
  hitchClass,
];

/** What the texts of the markets ask for beyond plates and physics: regulations first, practice last. */
export const MARKET_RULES: readonly LimitRule<MarketKey>[] = [couplingLoadMinimum, ...COUPLING_RULES];
