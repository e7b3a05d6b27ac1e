import { AUSTRALIA } from '../../diagnostics/markets/australia.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { bandLimits } from './coupling-band.ts';
import { BALL_LOAD } from './coupling-bands.ts';

/** Australia and New Zealand: the ball load is about a tenth of the laden trailer. */
export const ballLoadShare: LimitRule<'ball-load-share'> = {
  key: 'ball-load-share',
  definition: AUSTRALIA['ball-load-share'],
  markets: BALL_LOAD.markets,
  assess: (result) => bandLimits(result, BALL_LOAD, { conventional: 'ball load', semiTrailer: 'coupling load' }),
};
