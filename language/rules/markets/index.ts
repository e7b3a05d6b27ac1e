import type { MARKET_TEXTS } from '../../diagnostics/markets/index.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { ATMBelowGTM } from './ATM-below-GTM.ts';
import { ballLoadShare } from './ball-load-share.ts';
import { caravanPayload } from './caravan-payload.ts';
import { couplingBelowPlates } from './coupling-below-plates.ts';
import { couplingLoadMaximum } from './coupling-load-maximum.ts';
import { couplingLoadMinimum } from './coupling-load-minimum.ts';
import { heavyItemFar } from './heavy-item-far.ts';
import { heavyItemHigh } from './heavy-item-high.ts';
import { kerbMassShare } from './kerb-mass-share.ts';
import { motorCaravanPayload } from './motor-caravan-payload.ts';
import { noseLoadShare } from './nose-load-share.ts';
import { tongueLoadShare } from './tongue-load-share.ts';
import { towableMassBraked } from './towable-braked.ts';
import { towableMassUnbraked } from './towable-unbraked.ts';
import { towingReserve } from './towing-reserve.ts';
import { towingWithoutFigure } from './towing-without-figure.ts';

/** Names of the catalogue entries that these rules report. */
export type MarketKey = keyof typeof MARKET_TEXTS;

/** What the texts of the markets ask for beyond plates and physics: regulations first, practice last. */
export const MARKET_RULES: readonly LimitRule<MarketKey>[] = [
  couplingLoadMinimum,
  couplingLoadMaximum,
  motorCaravanPayload,
  caravanPayload,
  towableMassBraked,
  towableMassUnbraked,
  ATMBelowGTM,
  couplingBelowPlates,
  towingWithoutFigure,
  noseLoadShare,
  kerbMassShare,
  tongueLoadShare,
  ballLoadShare,
  towingReserve,
  heavyItemFar,
  heavyItemHigh,
];
