import { bindingMarkets, type MarketName } from '../../catalogue/markets.ts';
import { COUPLINGS } from '../../diagnostics/couplings.ts';
import { RATINGS } from '../../diagnostics/ratings.ts';
import { systemOfRig } from '../../semantics/display-system.ts';
import type { AxleGroup, LimitName, RigModel, UnitModel } from '../../semantics/model.ts';
import { MASS } from '../../units/dimension.ts';
import type { DisplaySystem } from '../../units/display.ts';
import { axleRatings, unstated } from '../markets/certified-weights.ts';
import { groupSubject, withinSentence } from '../subjects.ts';
import type { AssessedText, Assessment } from './limit-rule.ts';
import {
  axleRatingToWrite,
  everyAxleRatingToWrite,
  grossToWrite,
  limitToWrite,
  typeToWrite,
  tyresToWrite,
} from './to-write.ts';

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
    assess: ({ rig }) => rig.units.flatMap((unit) => axlesOfMotorHome(unit, systemOfRig(rig))),
  },
  {
    definition: {
      ...RATINGS['ratings-contradict'],
      source: 'Australian Design Rules (from memory): the ATM is the GTM and the coupling load',
    },
    markets: ['AU'],
    assess: ({ rig }) =>
      rig.units.filter(({ kind }) => kind === 'trailer').map((unit) => ATMOverGTM(unit, systemOfRig(rig))),
  },
];

function tyresOfAxles(rig: RigModel): Assessment[] {
  const system = systemOfRig(rig);
  return rig.units.flatMap((unit) => unit.groups.map((group) => tyresOfAxle(unit, group, system)));
}

function tyresOfAxle(unit: UnitModel, group: AxleGroup, system: DisplaySystem): Assessment {
  const { tyres, rating } = group;
  const subject = `Tyres of ${withinSentence(groupSubject(unit, group))}`;
  const quantity = 'the sum of their capacities';
  if (tyres?.capacity === undefined) {
    return unstated(subject, quantity, tyresToWrite('tyres', unit, group, system));
  }
  if (rating === undefined) return unstated(subject, quantity, axleRatingToWrite(unit, group, system));
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

function axlesOfMotorHome(unit: UnitModel, system: DisplaySystem): Assessment[] {
  const { kind, name, vehicleType, limits } = unit;
  if (kind !== 'vehicle') return [];
  const quantity = 'the sum of its axle ratings';
  if (vehicleType === undefined) return [unstated(name, quantity, typeToWrite(unit))];
  if (vehicleType !== 'motor_home') return [];
  const { GVM } = limits;
  if (GVM === undefined) return [unstated(name, quantity, grossToWrite(unit, system))];
  const value = axleRatings(unit);
  if (value === undefined) return [unstated(name, quantity, everyAxleRatingToWrite(unit, system))];
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
function ATMOverGTM(unit: UnitModel, system: DisplaySystem): Assessment {
  const { ATM, GTM } = unit.limits;
  const figure = { subject: unit.name, quantity: 'the ATM on its plate' };
  const open = (limit: LimitName): Assessment => ({
    kind: 'unstated',
    ...figure,
    missing: limitToWrite(unit, limit, system),
  });
  if (ATM === undefined) return open('ATM');
  if (GTM === undefined) return open('GTM');
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
