import { AUSTRALIA } from '../../diagnostics/markets/australia.ts';
import type { UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { Assessment, LimitRule } from '../limits/limit-rule.ts';

/** Australia: the ATM is the GTM and the coupling load together, so it is not below the GTM. */
export const ATMBelowGTM: LimitRule<'ATM-below-GTM'> = {
  key: 'ATM-below-GTM',
  definition: AUSTRALIA['ATM-below-GTM'],
  markets: ['AU'],
  assess: ({ rig }) => rig.units.filter(({ kind }) => kind === 'trailer').map(platesOf),
};

function platesOf({ name, limits }: UnitModel): Assessment {
  const { ATM, GTM } = limits;
  const figure = { subject: name, quantity: 'the ATM on its plate' };
  const open = (missing: string): Assessment => ({ kind: 'unstated', ...figure, missing });
  if (ATM === undefined) return open(`an ATM among the limits of ${name} (ATM 2000 kg)`);
  if (GTM === undefined) return open(`a GTM among the limits of ${name} (GTM 1850 kg)`);
  return {
    kind: 'limited',
    ...figure,
    sense: 'at least',
    dimension: MASS,
    limitName: 'the GTM beside it',
    location: ATM.location,
    unchanging: true,
    compare: () => ({ value: ATM.value, limit: GTM.value }),
  };
}
