import { COUPLINGS } from '../diagnostics/couplings.ts';
import { finding } from '../diagnostics/create.ts';
import { SPEED } from '../units/dimension.ts';
import { formatValue } from '../units/display.ts';
import { ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { groupSubject } from './subjects.ts';

const KMH_PER_METRE_PER_SECOND = 3.6;

/** A millionth of a km/h is rounding. */
const ROUNDING = 1e-6;

/** Speed symbols of all tyres against the speed the rig is to travel at. */
export const tyreTooSlow: Rule = {
  keys: ['tyre-too-slow'],
  *check(result) {
    const { travel, units } = result.rig;
    if (travel?.speed === undefined) return;
    for (const unit of units) {
      for (const group of unit.groups) {
        const { tyres } = group;
        if (tyres?.speed === undefined) continue;
        const { marking, speed: most } = tyres;
        if (travel.speed * KMH_PER_METRE_PER_SECOND <= most + ROUNDING) continue;
        const place = ownPlace(result, travel.location);
        const speed = formatValue(travel.speed, SPEED);
        const parameters = { subject: groupSubject(unit, group), marking, most, speed };
        yield finding('tyre-too-slow', COUPLINGS['tyre-too-slow'], parameters, place, [
          ...pointAt(place, tyres.location, `tyres ${marking}`),
        ]);
      }
    }
  },
};
