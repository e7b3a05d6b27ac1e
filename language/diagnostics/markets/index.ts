import { COUPLING_TEXTS } from './couplings.ts';
import { GERMANY } from './germany.ts';

/** RW8xx: what the texts of the markets ask for. */
export const MARKET_TEXTS = { ...GERMANY, ...COUPLING_TEXTS } as const;
