import { finding } from '../diagnostics/create.ts';
import { LOADS } from '../diagnostics/loads.ts';
import type { Assumption } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import { isOwn, pointAt } from './places.ts';
import type { Rule } from './rule.ts';

/** Everything that had to be taken because the file does not say it; what a unit's own lines leave open is noted there. */
export const assumptions: Rule = {
  keys: ['assumption', 'loads-incomplete'],
  *check(result) {
    const noted = new Set<string>();
    for (const assumption of result.assumptions) {
      const elsewhere = !assumption.shown || !isOwn(result, assumption.location);
      if (assumption.incomplete && elsewhere && !result.rig.standalone) {
        const at = result.rig.location;
        const parameters = { rig: result.rig.name, text: assumption.text };
        const related = pointAt(at, assumption.location, 'left out of here');
        yield finding('loads-incomplete', LOADS['loads-incomplete'], parameters, at, related);
      }
      if (assumption.general) continue;
      const { text, basis, location } = assumption;
      const own = isOwn(result, location);
      if (!own && notedElsewhere(result, assumption)) continue;
      const place = own ? location : result.rig.location;
      const same = `${place.span.start} ${text}`;
      if (noted.has(same)) continue;
      noted.add(same);
      yield finding(
        'assumption',
        LOADS.assumption,
        { text, basis },
        place,
        pointAt(place, location, 'not stated here'),
      );
    }
  },
};

/** Whether the unit that left it open reports it in its own declaration. */
function notedElsewhere({ rig }: RigResult, { text, location }: Assumption): boolean {
  return rig.units.some((part) =>
    part.assumptions.some((each) => each.text === text && each.location.declaration === location.declaration),
  );
}
