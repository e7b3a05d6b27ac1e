import { bindingMarkets, type MarketName } from '../../catalogue/markets.ts';
import { COUPLINGS } from '../../diagnostics/couplings.ts';
import { RATINGS } from '../../diagnostics/ratings.ts';
import type { AxleGroup, RigModel, UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import { axleRatings, grossLine, typeLine, unstated } from '../markets/certified-weights.ts';
import { groupSubject, withinSentence } from '../subjects.ts';
import type { AssessedText, Assessment } from './limit-rule.ts';

/** The texts that ask for tyres which carry the rating of their axle; elsewhere that is practice. */
const TYRES_OF_AXLES: readonly { readonly market: MarketName; readonly source: string }[] = [
  { market: 'US', source: '49 CFR 571.110 S4.2.2.1' },
  { market: 'CA', source: 'TSD 110 (from memory)' },
];

/**
 * Ratings that have to fit each other, for the table of limits. Their diagnostics come from rules of their own, in the unit that
 * states them.
 */
export const STATED_RATINGS: readonly AssessedText[] = [
  ...TYRES_OF_AXLES.map(
    ({ market, source }): AssessedText => ({
      definition: { ...COUPLINGS['tyres-below-rating'], source, authority: 'regulation' },
      markets: [market],
      assess: ({ rig }) => tyresOfAxles(rig),
    }),
  ),
  {
    definition: { ...COUPLINGS['tyres-below-rating'], source: 'common practice, no source' },
    markets: 'everywhere',
    assess: ({ rig }) => {
      const binding = bindingMarkets(rig.markets);
      return TYRES_OF_AXLES.some(({ market }) => binding.has(market)) ? [] : tyresOfAxles(rig);
    },
  },
  {
    definition: { ...RATINGS['ratings-contradict'], source: '49 CFR 571.110 S9.1', authority: 'regulation' },
    markets: ['US'],
    assess: ({ rig }) => rig.units.flatMap(axlesOfMotorHome),
  },
  {
    definition: {
      ...RATINGS['ratings-contradict'],
      source: 'Australian Design Rules (from memory): the ATM is the GTM and the coupling load',
    },
    markets: ['AU'],
    assess: ({ rig }) => rig.units.filter(({ kind }) => kind === 'trailer').map(ATMOverGTM),
  },
];

function tyresOfAxles({ units }: RigModel): Assessment[] {
  return units.flatMap((unit) => unit.groups.map((group) => tyresOfAxle(unit, group)));
}

function tyresOfAxle(unit: UnitModel, group: AxleGroup): Assessment {
  const { tyres, rating } = group;
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the sum of their capacities';
  if (tyres?.capacity === undefined) {
    return unstated(subject, quantity, 'tyres of the axle (tyres 2 x "195R14C 106/104Q")');
  }
  if (rating === undefined) return unstated(subject, quantity, 'a rating of the axle');
  const value = tyres.count * tyres.capacity;
  return {
    kind: 'limited',
    subject,
    quantity,
    sense: 'at least',
    dimension: MASS,
    limitName: 'the rating of the axle',
    fixed: true,
    location: tyres.location,
    compare: () => ({ value, limit: rating.value }),
  };
}

function axlesOfMotorHome(unit: UnitModel): Assessment[] {
  const { kind, name, vehicleType, limits } = unit;
  if (kind !== 'vehicle') return [];
  const quantity = 'the sum of its axle ratings';
  if (vehicleType === undefined) return [unstated(name, quantity, typeLine(unit))];
  if (vehicleType !== 'motor_home') return [];
  const { GVM } = limits;
  if (GVM === undefined) return [unstated(name, quantity, grossLine(unit))];
  const value = axleRatings(unit);
  if (value === undefined) return [unstated(name, quantity, 'a rating of every axle (rating 1550 kg)')];
  return [
    {
      kind: 'limited',
      subject: name,
      quantity,
      sense: 'at least',
      dimension: MASS,
      limitName: 'its GVM (GVWR)',
      fixed: true,
      location: GVM.location,
      compare: () => ({ value, limit: GVM.value }),
    },
  ];
}

/** The ATM of a trailer is its GTM and its coupling load together, as the Australian Design Rules define them (from memory). */
function ATMOverGTM({ name, limits }: UnitModel): Assessment {
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
    fixed: true,
    compare: () => ({ value: ATM.value, limit: GTM.value }),
  };
}
