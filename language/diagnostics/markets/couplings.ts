import { define } from '../define.ts';
import { HITCH, hauler, truck } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';

const rig = (market: string) => `rig Delivery ${market}{
  tow Truck
  haul Hauler
  case empty { }
}
`;

/** The truck and the hauler with something marked on hitch and coupling, and with limits. */
const marked = (parts: {
  readonly hitch?: string;
  readonly coupling?: string;
  readonly truck?: string;
  readonly hauler?: string;
  readonly market?: string;
}) =>
  truck(HITCH.replace('430 mm up', `430 mm up${parts.hitch ?? ''}`) + (parts.truck ?? '')) +
  hauler(parts.hauler).replace('430 mm up', `430 mm up${parts.coupling ?? ''}`) +
  rig(parts.market ?? '');

const withD = (hitch: string) =>
  marked({
    hitch: `, D ${hitch}`,
    coupling: ', D 12 kN',
    truck: '  limits { GVM 3000 kg }\n',
    hauler: '  limits { ATM 1500 kg }\n',
    market: 'in EU ',
  });

/** A centre-axle trailer for goods of more than 3.5 t behind a lorry. */
const goods = (values: string) => `vehicle Truck {
  axles front single at 0 mm back, track 1900 mm, steered
  axles rear single at 4600 mm back, track 1820 mm, air_suspension
  kerb 4200 kg on front, 2600 kg on rear, 900 mm up, inertia 30000 kg·m²
  hitch pin at 1600 mm behind rear, 500 mm up, ${values}
  limits { GVM 18000 kg }
}
trailer Hauler {
  coupling eye 500 mm up, ${values}
  axles tandem at 5600 mm back, spacing 1300 mm, track 1820 mm, equalised
  body from 2000 mm to 9000 mm back, width 2400 mm
  tare 3000 kg at 5300 mm back, 900 mm up, inertia 15000 kg·m²
  brakes air
  limits { ATM 10500 kg  GTM 10000 kg }
}
${rig('in EU ')}`;

const classed = (hitch: string) => marked({ hitch: `, class "${hitch}"`, coupling: ', class "IV"', market: 'in US ' });

const tested = (forces: string) =>
  marked({ coupling: `, ${forces}`, hauler: '  limits { ATM 2000 kg }\n', market: 'in AU ' });

const lettered = (hitch: string) => marked({ hitch: `, class "${hitch}"`, coupling: ', class "B50-X"' });

const MARKS_CAUTION =
  'The marks on the devices, their approval documents and the law where you drive decide; bolts, drawbar and vehicle have limits of their own.';

/** Texts on coupling devices, and their classes. */
export const COUPLING_TEXTS = {
  'coupling-D-value': define({
    code: 'RW810',
    severity: 'error',
    title: 'The D value of a coupling device is too small',
    message: limitBreach,
    meaning:
      'The D value stands for the horizontal forces between tow vehicle and trailer. It is computed from the permissible masses, D = g·T·R/(T+R), for a fifth wheel D = 0.6·g·T·R/(T+R−U), and each device has to be marked with at least as much; the weaker one governs.',
    mend: 'Fit a device with a greater D value, or lower a permissible mass on the plate with those who may do that.',
    example: withD('8 kN'),
    mended: withD('12 kN'),
    source:
      'UN Regulation No. 55, Annex 4 (marks, read) and 2.11 (formula for fifth wheels read second-hand, the rest from memory)',
    authority: 'regulation',
    caution: MARKS_CAUTION,
  }),
  'coupling-Dc-value': define({
    code: 'RW811',
    severity: 'error',
    title: 'The Dc value of a coupling device is too small',
    message: limitBreach,
    meaning:
      'For centre-axle trailers over 3.5 t the Dc value takes the place of the D value: Dc = g·T·C/(T+C), where C is what the axles of the trailer put on the road.',
    mend: 'Fit a device with a greater Dc value, or lower a permissible mass on the plate with those who may do that.',
    example: goods('Dc 60 kN, V 40 kN'),
    mended: goods('Dc 70 kN, V 40 kN'),
    source: 'UN Regulation No. 55, 2.11 (from memory)',
    authority: 'regulation',
    caution: MARKS_CAUTION,
  }),
  'coupling-V-value': define({
    code: 'RW812',
    severity: 'error',
    title: 'The V value of a coupling device is too small',
    message: limitBreach,
    meaning:
      'For centre-axle trailers over 3.5 t the V value stands for the vertical forces: V = a·X²/L²·C with X²/L² not below 1. X is the length of the loading area (the body of the file is taken), L the distance from the coupling to the axles, a 1.8 m/s² where the rear axle of the tow vehicle has air suspension or an equivalent, else 2.4 m/s².',
    mend: 'Fit a device with a greater V value; state `air_suspension` at the rear axle where the tow vehicle has it.',
    example: goods('Dc 70 kN, V 25 kN'),
    mended: goods('Dc 70 kN, V 40 kN'),
    source: 'UN Regulation No. 55, 2.11 (from memory)',
    authority: 'regulation',
    caution: MARKS_CAUTION,
  }),
  'hitch-class': define({
    code: 'RW813',
    severity: 'warning',
    title: 'The trailer is too heavy for the class of a coupling device',
    message: limitBreach,
    meaning:
      'Each class of hitch or coupling is for trailers up to a gross weight: I 2000 lb, II 3500 lb, III 5000 lb, IV 10 000 lb. The trailer is taken as it weighs in each case.',
    mend: 'Take mass off the trailer, or fit a device of a higher class.',
    example: classed('I').replace('tare 240 kg', 'tare 1000 kg').replace('inertia 210', 'inertia 900'),
    mended: classed('II').replace('tare 240 kg', 'tare 1000 kg').replace('inertia 210', 'inertia 900'),
    source: 'SAE J684, classes (read second-hand, through COMAR 11.13.08.04)',
    authority: 'recommendation',
    caution: 'States and provinces have rules of their own, and the ratings on hitch, ball and coupling still govern.',
  }),
  'coupling-test-loads': define({
    code: 'RW814',
    severity: 'error',
    title: 'Coupling and drawbar withstand less than the test asks for',
    message: limitBreach,
    meaning:
      'Coupling and drawbar of a trailer have to withstand a longitudinal force of 9.81 N for each kilogram of its ATM, pulled and pushed, and half of that vertically.',
    mend: 'Strengthen the drawbar and have it shown, or lower the ATM.',
    example: tested('longitudinal 18 kN, vertical 10 kN'),
    mended: tested('longitudinal 20 kN, vertical 10 kN'),
    source: 'ADR 62/02, test loads of drawbars and couplings',
    authority: 'regulation',
    caution:
      'These are two of the tests of that rule; it asks for more, safety chains among it, and strength is a matter for someone licensed for it.',
  }),
  'coupling-classes-differ': define({
    code: 'RW815',
    severity: 'warning',
    title: 'Hitch and coupling are of classes that do not couple',
    message: (parameters: {
      readonly unit: string;
      readonly trailer: string;
      readonly hitch: string;
      readonly coupling: string;
      readonly problem: string;
    }) => {
      const { unit, trailer, hitch, coupling, problem } = parameters;
      return `The hitch of ${unit} is of class ${hitch}, the coupling of ${trailer} of class ${coupling}: ${problem}.`;
    },
    meaning: 'The letter of a class says what a device couples with, and the number behind it the diameter in mm.',
    mend: 'Correct the class on one side, or fit devices that belong together.',
    example: lettered('C50-X'),
    mended: lettered('A50-X'),
    source: 'UN Regulation No. 55, classes (in part from memory)',
    caution: MARKS_CAUTION,
  }),
  'coupling-class-unknown': define({
    code: 'RW816',
    severity: 'error',
    title: 'There is no such class of couplings',
    message: ({ marking, known }: { readonly marking: string; readonly known: string }) =>
      `'${marking}' is no class that is known here; there are ${known}.`,
    meaning: 'The class is given as it is marked on the device.',
    mend: 'Correct the marking, or leave the class out.',
    example: lettered('Q50-X'),
    mended: lettered('A50-X'),
    source: 'UN Regulation No. 55, classes (in part from memory); SAE J684 (read second-hand)',
  }),
} as const;
