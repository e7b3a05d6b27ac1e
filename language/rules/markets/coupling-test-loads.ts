import { COUPLING_TEXTS } from '../../diagnostics/markets/couplings.ts';
import { drawbarTestLoads } from '../../mechanics/coupling-values.ts';
import { FORCE } from '../../units/dimension.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { markToWrite } from '../limits/to-write.ts';
import { isSemiTrailer } from '../subjects.ts';
import { couplingSubject, formatNeeded, type Joint, jointsOf, permissible, SHOWN_IN, unstated } from './joints.ts';

/** Forces that coupling and drawbar of a trailer withstand in the tests of ADR 62/02. */
export const couplingTestLoads: LimitRule<'coupling-test-loads'> = {
  key: 'coupling-test-loads',
  definition: COUPLING_TEXTS['coupling-test-loads'],
  markets: ['AU'],
  assess: ({ rig }) =>
    jointsOf(rig)
      .filter(({ coupling }) => !isSemiTrailer(coupling))
      .flatMap((joint) => [assess(joint, 'longitudinal'), assess(joint, 'vertical')]),
};

function assess(joint: Joint, direction: 'longitudinal' | 'vertical'): Assessment {
  const { trailer, coupling } = joint;
  const subject = couplingSubject(trailer);
  const quantity = `the ${direction} force that coupling and drawbar withstand`;
  const mass = permissible(trailer, 'ATM', joint);
  if ('missing' in mass) return unstated(subject, quantity, mass.missing);
  const limit = drawbarTestLoads(mass.value)[direction];
  const stated = coupling.marks?.forces[direction];
  if (stated === undefined) {
    const missing = markToWrite(`${direction} force`, subject, formatNeeded(limit), direction, 'coupling');
    return unstated(subject, quantity, missing);
  }
  return {
    kind: 'limited',
    subject,
    quantity,
    sense: 'at least',
    dimension: FORCE,
    unit: SHOWN_IN,
    limitName: 'the test load for its ATM',
    compare: () => ({ value: stated.value, limit }),
    fixed: true,
    location: stated.location,
    related: [mass.from],
  };
}
