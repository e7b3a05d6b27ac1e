import { AUSTRALIA } from './australia.ts';
import { CANADA } from './canada.ts';
import { COUPLING_TEXTS } from './couplings.ts';
import { EUROPEAN_UNION } from './european-union.ts';
import { GERMANY } from './germany.ts';
import { PRACTICE } from './practice.ts';
import { TYRES } from './tyres.ts';
import { UNITED_KINGDOM } from './united-kingdom.ts';
import { UNITED_STATES } from './united-states.ts';

/** RW8xx: what the texts of the markets ask for. */
export const MARKET_TEXTS = {
  ...GERMANY,
  ...COUPLING_TEXTS,
  ...UNITED_STATES,
  ...CANADA,
  ...TYRES,
  ...EUROPEAN_UNION,
  ...AUSTRALIA,
  ...UNITED_KINGDOM,
  ...PRACTICE,
} as const;
