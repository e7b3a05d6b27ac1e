import { COUPLINGS } from '../diagnostics/couplings.ts';
import { finding } from '../diagnostics/create.ts';
import { systemOfRig } from '../semantics/display-system.ts';
import { isOwn, ownPlace, pointAt } from './places.ts';
import type { Rule } from './rule.ts';
import { ROUNDING } from './states.ts';
import { groupSubject, withinSentence } from './subjects.ts';

/** The tyres of a unit alone against the ratings of its axles. */
export const tyresBelowRating: Rule = {
  keys: ['tyres-below-rating'],
  *check(result) {
    if (!result.rig.standalone) return;
    for (const unit of result.rig.units) {
      for (const group of unit.groups) {
        const { tyres, rating } = group;
        if (tyres?.capacity === undefined || rating === undefined) continue;
        const { count, capacity } = tyres;
        // A variant speaks only of what it states itself.
        if (!isOwn(result, tyres.location) && !isOwn(result, rating.location)) continue;
        if (count * capacity >= rating.value - ROUNDING) continue;
        const place = ownPlace(result, tyres.location, rating.location);
        const subject = groupSubject(unit, group);
        const parameters = { subject, count, capacity, rating: rating.value, system: systemOfRig(result.rig) };
        yield finding('tyres-below-rating', COUPLINGS['tyres-below-rating'], parameters, place, [
          ...pointAt(place, rating.location, `rating of ${withinSentence(subject)}`),
        ]);
      }
    }
  },
};
