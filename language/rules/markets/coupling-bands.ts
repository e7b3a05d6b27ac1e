import { bindingMarkets, type MarketName } from '../../catalogue/markets.ts';
import type { RigModel, UnitModel } from '../../semantics/model.ts';
import { carriesLoad, isSemiTrailer } from '../subjects.ts';
import { type UsualShare, usualShare } from '../usual-share.ts';

/** What the practice of some markets puts on a coupling, as a share of the laden trailer's mass. */
export interface CouplingBand {
  readonly markets: readonly MarketName[];
  /** On a ball, pin or eye. */
  readonly conventional: UsualShare;
  /** On a kingpin or gooseneck, where the practice speaks of them. */
  readonly semiTrailer?: UsualShare;
}

/** United Kingdom: 5 % to 7 % of the actual laden mass. Common practice, no source. */
export const NOSE_LOAD: CouplingBand = { markets: ['UK'], conventional: { least: 0.05, most: 0.07 } };

/** United States and Canada. Common practice, no source; for kingpins the figures in use conflict (15 % to 20 or 25 %). */
export const TONGUE_LOAD: CouplingBand = {
  markets: ['US', 'CA'],
  conventional: { least: 0.1, most: 0.15 },
  semiTrailer: { least: 0.15, most: 0.2 },
};

/** Australia and New Zealand: "about 10 %", common practice, no source. That 8 % to 12 % are about 10 % is a choice of this tool. */
export const BALL_LOAD: CouplingBand = { markets: ['AU', 'NZ'], conventional: { least: 0.08, most: 0.12 } };

const COUPLING_BANDS: readonly CouplingBand[] = [NOSE_LOAD, TONGUE_LOAD, BALL_LOAD];

/** The shares that a band names for the coupling of a trailer; undefined where it names none. */
export function shareOfBand(
  { conventional, semiTrailer }: CouplingBand,
  { coupling }: UnitModel,
): UsualShare | undefined {
  if (coupling === undefined || !carriesLoad(coupling)) return undefined;
  return isSemiTrailer(coupling) ? semiTrailer : conventional;
}

/** From the least to the most that the practice of a rig's markets names for a trailer; undefined where it names nothing. */
export function marketShare({ markets }: RigModel, unit: UnitModel): UsualShare | undefined {
  const binding = bindingMarkets(markets);
  const shares = COUPLING_BANDS.filter((band) => band.markets.some((name) => binding.has(name))).flatMap(
    (band) => shareOfBand(band, unit) ?? [],
  );
  if (shares.length === 0) return undefined;
  return { least: Math.min(...shares.map(({ least }) => least)), most: Math.max(...shares.map(({ most }) => most)) };
}

/** The usual share on a coupling of a rig: what its markets practise, else the wide band. */
export function usualShareIn(rig: RigModel, unit: UnitModel): UsualShare | undefined {
  return marketShare(rig, unit) ?? usualShare(unit);
}
