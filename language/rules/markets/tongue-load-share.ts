import { PRACTICE } from '../../diagnostics/markets/practice.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { bandLimits } from './coupling-band.ts';
import { TONGUE_LOAD } from './coupling-bands.ts';

/** United States and Canada: tongue load and pin load as shares of the laden trailer. */
export const tongueLoadShare: LimitRule<'tongue-load-share'> = {
  key: 'tongue-load-share',
  definition: PRACTICE['tongue-load-share'],
  markets: TONGUE_LOAD.markets,
  assess: (result) => bandLimits(result, TONGUE_LOAD, { conventional: 'tongue load', semiTrailer: 'pin load' }),
};
