import { COUPLING_TEXTS } from '../../diagnostics/markets/couplings.ts';
import { MASS } from '../../units/dimension.ts';
import { lessOf } from '../goal.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';
import { beyond, influenceOf, quantityOf } from '../states.ts';
import { withinSentence } from '../subjects.ts';
import { halvesOf, type Joint, jointsOf, trailerKind, unstated } from './joints.ts';

const QUANTITY = 'the gross trailer weight';

/** Hitches and couplings of conventional trailers, by the classes of SAE J684. */
export const hitchClass: LimitRule<'hitch-class'> = {
  key: 'hitch-class',
  definition: COUPLING_TEXTS['hitch-class'],
  markets: ['US', 'CA'],
  assess: ({ rig }) =>
    jointsOf(rig)
      .filter(({ coupling }) => trailerKind(coupling) === 'centre-axle')
      .flatMap(assess),
};

function assess(joint: Joint): Assessment[] {
  const massName = `${joint.trailer.name}.mass`;
  return halvesOf(joint).map(({ subject, device }): Assessment => {
    const marked = device?.marks?.class;
    if (marked?.text !== 'SAE J684') {
      return unstated(subject, QUANTITY, `the class of SAE J684 marked on ${withinSentence(subject)} (class "III")`);
    }
    return {
      kind: 'limited',
      subject,
      quantity: QUANTITY,
      sense: 'at most',
      dimension: MASS,
      limitName: `what class ${marked.number} is for`,
      location: marked.location,
      compare: (state) => {
        const value = quantityOf(state, massName);
        return value === undefined ? undefined : { value, limit: marked.trailer };
      },
      excess: (state) => beyond(influenceOf(state, [massName]), marked.trailer),
      goal: (state, by) => {
        const mass = influenceOf(state, [massName]);
        return mass && lessOf(mass, by);
      },
    };
  });
}
