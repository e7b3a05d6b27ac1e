import type { MARKET_TEXTS } from '../../diagnostics/markets/index.ts';
import type { LimitRule } from '../limits/limit-rule.ts';
import { addedWeightLabel } from './added-weight.ts';
import { ballLoadShare } from './ball-load-share.ts';
import { caravanPayload } from './caravan-payload.ts';
import { cargoCapacityLabel } from './cargo-capacity-label.ts';
import { couplingBelowPlates } from './coupling-below-plates.ts';
import { couplingDValue } from './coupling-d-value.ts';
import { couplingDcValue, couplingVValue } from './coupling-heavy-values.ts';
import { couplingLoadMaximum } from './coupling-load-maximum.ts';
import { couplingLoadMinimum } from './coupling-load-minimum.ts';
import { couplingTestLoads } from './coupling-test-loads.ts';
import { deratedTyres } from './derated-tyres.ts';
import { grossRatingForSeats } from './gross-rating-for-seats.ts';
import { grossRatingForWater } from './gross-rating-for-water.ts';
import { heavyItemFar } from './heavy-item-far.ts';
import { heavyItemHigh } from './heavy-item-high.ts';
import { hitchClass } from './hitch-class.ts';
import { kerbMassShare } from './kerb-mass-share.ts';
import { motorCaravanPayload } from './motor-caravan-payload.ts';
import { normalLoad } from './normal-load.ts';
import { noseLoadShare } from './nose-load-share.ts';
import { overCargoCapacity } from './over-cargo-capacity.ts';
import { passengerTyresOnTrailer } from './passenger-tyres-on-trailer.ts';
import { recreationTrailerRatings } from './recreation-trailer-ratings.ts';
import { tongueLoadShare } from './tongue-load-share.ts';
import { towableMassBraked } from './towable-braked.ts';
import { towableMassUnbraked } from './towable-unbraked.ts';
import { towingReserve } from './towing-reserve.ts';
import { towingWithoutFigure } from './towing-without-figure.ts';
import { tyrePressure } from './tyre-pressure.ts';

/** Names of the catalogue entries that these rules report. */
export type MarketKey = keyof typeof MARKET_TEXTS;

/** What the texts of the markets ask of hitches and couplings beyond their ratings. */
export const COUPLING_RULES: readonly LimitRule<MarketKey>[] = [
  couplingDValue,
  couplingDcValue,
  couplingVValue,
  couplingTestLoads,
  hitchClass,
];

/** What the texts of the markets ask for beyond plates and physics: regulations first, practice last. */
export const MARKET_RULES: readonly LimitRule<MarketKey>[] = [
  couplingLoadMinimum,
  ...COUPLING_RULES,
  deratedTyres,
  normalLoad,
  recreationTrailerRatings,
  cargoCapacityLabel,
  overCargoCapacity,
  addedWeightLabel,
  grossRatingForSeats,
  grossRatingForWater,
  tyrePressure,
  passengerTyresOnTrailer,
  couplingLoadMaximum,
  motorCaravanPayload,
  caravanPayload,
  towableMassBraked,
  towableMassUnbraked,
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
