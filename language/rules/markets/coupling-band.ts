import type { UnitModel } from '../../semantics/model.ts';
import type { RigResult, StateResult } from '../../semantics/state.ts';
import { MASS } from '../../units/dimension.ts';
import { formatShare } from '../../units/display.ts';
import type { Limited } from '../limits/limit-rule.ts';
import { shareBeyond, shareGoal } from '../share-goal.ts';
import { quantityOf } from '../states.ts';
import { isSemiTrailer } from '../subjects.ts';
import { type CouplingBand, shareOfBand } from './coupling-bands.ts';
import { isToldAsWorse, shareLowAnywhere } from './low-share.ts';

/** How the trade of a market calls the load on a coupling. */
export interface LoadWords {
  readonly conventional: string;
  readonly semiTrailer: string;
}

/** Both ends of a market's band for each coupling that it speaks of, as loads: a share of the laden trailer's mass. */
export function bandLimits(result: RigResult, band: CouplingBand, words: LoadWords): Limited[] {
  return result.rig.units.flatMap((unit, index) => {
    const share = shareOfBand(band, unit);
    const { coupling } = unit;
    if (share === undefined || coupling === undefined) return [];
    const quantity = `the ${isSemiTrailer(coupling) ? words.semiTrailer : words.conventional}`;
    const low = shareLowAnywhere(result, index);
    const toldElsewhere = (state: StateResult) => low !== undefined || isToldAsWorse(state, index);
    return [
      { ...bandEnd(unit, quantity, 'at least', share.least), toldElsewhere },
      bandEnd(unit, quantity, 'at most', share.most),
    ];
  });
}

function bandEnd(unit: UnitModel, quantity: string, sense: Limited['sense'], share: number): Limited {
  const loadName = `${unit.name}.coupling.load`;
  const massName = `${unit.name}.mass`;
  return {
    kind: 'limited',
    subject: `Coupling of ${unit.name}`,
    quantity,
    sense,
    dimension: MASS,
    limitName: `${formatShare(share)} of the trailer’s mass (the ${sense === 'at least' ? 'least' : 'most'} of common practice)`,
    ...(unit.coupling ? { location: unit.coupling.location } : {}),
    compare: (state) => {
      const value = quantityOf(state, loadName);
      const mass = quantityOf(state, massName);
      return value === undefined || mass === undefined ? undefined : { value, limit: share * mass };
    },
    excess: (state) => {
      const beyond = shareBeyond(state, unit.name, sense, share);
      return beyond && [beyond];
    },
    goal: (state) => shareGoal(state, unit.name, sense, share),
  };
}
