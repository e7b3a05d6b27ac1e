import { UNITED_KINGDOM } from '../../diagnostics/markets/united-kingdom.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { bandLimits } from './coupling-band.ts';
import { NOSE_LOAD } from './coupling-bands.ts';

/** United Kingdom: the nose load is 5 % to 7 % of the actual laden mass. */
export const noseLoadShare: LimitRule<'nose-load-share'> = {
  key: 'nose-load-share',
  definition: UNITED_KINGDOM['nose-load-share'],
  markets: NOSE_LOAD.markets,
  assess: (result) => bandLimits(result, NOSE_LOAD, { conventional: 'nose load', semiTrailer: 'coupling load' }),
};
