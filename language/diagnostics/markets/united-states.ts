import { define } from '../define.ts';
import { hauler, truck, yard } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';

const DEFER =
  'It compares what the file states; what the maker certified and the text in force go before it. Weigh the laden unit.';

/** The truck and the hauler on a trip in the United States; lines are added to the block and the axle of the hauler. */
const trip = (lines: string, axle = '') =>
  `${truck('  hitch ball at 1150 mm behind rear, 430 mm up\n')}${hauler(lines, axle)}rig Trip in US {
  tow Truck
  haul Hauler
  case out { }
}
`;

/** The truck with two seats on an errand in the United States. */
const errand = (lines: string) =>
  `${truck(`${lines}  seat driver 80 kg at 1350 mm back, 380 mm left, 700 mm up
  seat passenger 70 kg at 1350 mm back, 380 mm right, 700 mm up
`)}rig Errand in US {
  tow Truck
  case out { }
}
`;

const recreational = (limits: string, lines = '', axle = '') =>
  trip(`  trailer_type recreation_trailer\n${lines}  limits { ATM 750 kg  ${limits} }\n`, axle);

const pickup = (marking: string) => errand(`  vehicle_type truck\n  axle front tyres 2 x "${marking}"\n`);

/** Texts of the United States. */
export const UNITED_STATES = {
  'derated-tyres-below-rating': define({
    code: 'RW830',
    severity: 'error',
    title: 'Passenger tyres, derated, carry less than the axle is rated for',
    message: limitBreach,
    meaning:
      'Where passenger tyres are fitted to a trailer, a truck or a multipurpose vehicle, the capacity of each is divided by 1.10 before the sum is compared with the rating of the axle. Whether a vehicle is one is read from its `vehicle_type`. Tyres marked LT, ST or C are not derated.',
    mend: 'Fit tyres with a higher load index or tyres that are made for trailers.',
    example: trip('', ', rating 800 kg, tyres 2 x "155R13 78S"'),
    mended: trip('', ', rating 750 kg, tyres 2 x "155R13 78S"'),
    source: '49 CFR 571.110 S4.2.2.2; Canada, TSD 110 (from memory)',
    authority: 'regulation',
    caution: DEFER,
  }),
  'normal-load-over-tyre': define({
    code: 'RW831',
    severity: 'error',
    title: 'The normal load takes too much of a passenger tyre',
    message: limitBreach,
    meaning:
      'The normal load is that of the vehicle with full fuel, its normal occupants and no cargo: two occupants of 68 kg for two to four seats, three for five to ten. It may be at most 94 % of what a passenger tyre carries, derated on anything but a passenger car. Occupants are counted on the seats furthest ahead. Vehicles up to 4536 kg GVM.',
    mend: 'Fit tyres with a higher load index.',
    example: pickup('215/65R16 95H'),
    mended: pickup('215/65R16 99H'),
    source:
      '49 CFR 571.110 S4.2.2.3; that it speaks of passenger tyres, its like for passenger cars and the limit of 4536 kg from memory',
    authority: 'regulation',
    caution: `A maker’s recommended pressure can lower what the tyre carries. ${DEFER}`,
  }),
  'ratings-below-trailer-GVWR': define({
    code: 'RW832',
    severity: 'error',
    title: 'Axles and coupling are rated for less than the trailer may weigh',
    message: limitBreach,
    meaning:
      'The axle ratings of a recreation vehicle trailer and the least coupling load that its maker recommends have to add up to at least its gross rating.',
    mend: 'Copy the figures from the certification label anew; the lower one governs what may be loaded.',
    example: recreational('coupling_minimum 40 kg', '', ', rating 700 kg'),
    mended: recreational('coupling_minimum 60 kg', '', ', rating 700 kg'),
    source: '49 CFR 571.110 S9.2',
    authority: 'regulation',
    caution: DEFER,
  }),
  'cargo-capacity-overstated': define({
    code: 'RW833',
    severity: 'error',
    title: 'The label promises more than the gross rating leaves',
    message: limitBreach,
    meaning:
      'The carrying capacity on the label of a recreation vehicle trailer (CCC) or a motor home (OCCC) is its gross rating less its unloaded weight with full propane. Water is cargo. Without a UVW line the unloaded weight is that of the file: parts, and full tanks of diesel, petrol, LPG and AUS32.',
    mend: 'Copy CCC or OCCC, UVW and the gross rating from the labels anew; load by the lower figure.',
    example: recreational('CCC 550 kg'),
    mended: recreational('CCC 500 kg'),
    source: '49 CFR 571.110 S9.3, S4.3.5',
    authority: 'regulation',
    caution: DEFER,
  }),
  'over-cargo-capacity': define({
    code: 'RW834',
    severity: 'error',
    title: 'More is on board than the label lets the unit carry',
    message: limitBreach,
    meaning:
      'CCC counts items and the content of tanks that the unit does not run on; on a tow vehicle also what the trailer puts on its hitch. OCCC counts the occupants too. Fresh water is cargo, except for a rig in Canada alone, where the gross rating covers it. What the unit weighs more than its UVW comes off the capacity.',
    mend: 'Leave mass behind or move it to another unit.',
    example: yard({ hauler: '  limits { CCC 350 kg }\n' }),
    mended: yard({ hauler: '  limits { CCC 450 kg }\n' }),
    source: "the maker's label, as stated in the file; what counts as cargo: 49 CFR 571.110 S9.3.2, S9.3.4",
    authority: 'plate',
    caution: DEFER,
  }),
  'added-weight-unlabelled': define({
    code: 'RW835',
    severity: 'warning',
    title: 'More was added than the label may pass over',
    message: limitBreach,
    meaning:
      'Whoever adds more than the lesser of 1.5 % of the gross rating and 45.4 kg to a motor home or recreation vehicle trailer between its certification and its first sale has to correct the carrying capacity on its labels. What was added is what the file makes of the unloaded unit, less its UVW. A warning, since the file does not say whether the unit has been sold: raise it to an error where you build or fit out for the first sale.',
    mend: 'Have the labels corrected, then state the new UVW and carrying capacity.',
    example: recreational('UVW 220 kg'),
    mended: recreational('UVW 235 kg'),
    source: '49 CFR 571.110 S10.1',
    authority: 'regulation',
    caution: `After the first sale nobody has to relabel, but what was added still comes off the carrying capacity. ${DEFER}`,
  }),
  'GVWR-below-seats-and-cargo': define({
    code: 'RW836',
    severity: 'error',
    title: 'The gross rating does not cover seats and cargo',
    message: limitBreach,
    meaning:
      'The gross rating of a unit is at least the sum of its unloaded weight, its rated cargo (CCC) and 68 kg for each designated seating position: each `seat` line is one.',
    mend: 'Copy the figures from the certification label anew.',
    example: errand('  limits { GVM 2200 kg }\n'),
    mended: errand('  limits { GVM 2400 kg }\n'),
    source: '49 CFR 567.4 (from memory; the 68 kg also stand in 571.110)',
    authority: 'regulation',
    caution: DEFER,
  }),
} as const;
