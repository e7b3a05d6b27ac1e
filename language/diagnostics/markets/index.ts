import { CANADA } from './canada.ts';
import { COUPLING_TEXTS } from './couplings.ts';
import { GERMANY } from './germany.ts';
import { TYRES } from './tyres.ts';
import { UNITED_STATES } from './united-states.ts';

/** RW8xx: what the texts of the markets ask for. */
export const MARKET_TEXTS = { ...GERMANY, ...COUPLING_TEXTS, ...UNITED_STATES, ...CANADA, ...TYRES } as const;
