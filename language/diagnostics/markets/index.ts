import { AUSTRALIA } from './australia.ts';
import { EUROPEAN_UNION } from './european-union.ts';
import { GERMANY } from './germany.ts';
import { PRACTICE } from './practice.ts';
import { UNITED_KINGDOM } from './united-kingdom.ts';

/** RW8xx: what the texts of the markets ask for. */
export const MARKET_TEXTS = { ...GERMANY, ...EUROPEAN_UNION, ...AUSTRALIA, ...UNITED_KINGDOM, ...PRACTICE } as const;
