import type { MARKET_TEXTS } from '../../diagnostics/markets/index.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { couplingLoadMinimum } from './coupling-load-minimum.ts';

/** Names of the catalogue entries that these rules report. */
export type MarketKey = keyof typeof MARKET_TEXTS;

/** What the texts of the markets ask for beyond plates and physics: regulations first, practice last. */
export const MARKET_RULES: readonly LimitRule<MarketKey>[] = [couplingLoadMinimum];
