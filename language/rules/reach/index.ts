import type { REACH } from '../../diagnostics/reach.ts';

/** The entries that are reported of states which no case names. */
export const REACH_KEYS: readonly (keyof typeof REACH)[] = [
  'range-over-limit',
  'reach-over-limit',
  'reach-over-practice',
  'tolerance-over-limit',
  'reach-stability',
];
