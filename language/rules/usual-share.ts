import type { UnitModel } from '../semantics/model.ts';
import { carriesLoad, isSemiTrailer } from './subjects.ts';

/** Shares of a trailer's mass on its coupling within which practice keeps them. */
export interface UsualShare {
  readonly least: number;
  readonly most: number;
}

/** Ball, pin and eye: wide enough to hold what the markets recommend. Common practice, no source; 4 % also stands in StVZO § 44(3). */
const TRAILER: UsualShare = { least: 0.04, most: 0.15 };
/** Kingpin and gooseneck. Common practice, no source: the figures in use conflict. */
const SEMI_TRAILER: UsualShare = { least: 0.1, most: 0.25 };

/** The usual share on the coupling of a trailer; undefined for a unit whose coupling carries nothing. */
export function usualShare({ coupling }: UnitModel): UsualShare | undefined {
  if (coupling === undefined || !carriesLoad(coupling)) return undefined;
  return isSemiTrailer(coupling) ? SEMI_TRAILER : TRAILER;
}
