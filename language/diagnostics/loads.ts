import { type DisplaySystem, formatLength, formatMass, formatMassMoment, formatShare } from '../units/display.ts';
import { define } from './define.ts';
import { HITCH, hauler, sand, truck, yard } from './examples.ts';
import { breachEnd, helpSentence, inState, type LoadBreach, type OverLimit, overLimit } from './wording.ts';

const COMMON_PRACTICE = 'common practice, no source';
const PLATE = "the maker's plate, as stated in the file";

const plusMass = (system: DisplaySystem) => (by: number) => `+${formatMass(by, system)}`;
const minusMass = (system: DisplaySystem) => (by: number) => formatMass(-by, system);

/** The truck alone with a locker and sand in it. */
const van = (vehicle: string, locker: string) =>
  `${sand(600)}${truck(`${locker}${vehicle}`)}rig Delivery {\n  tow Truck\n  stow sand in Truck.bed\n  case loaded { }\n}\n`;

const DECK = '  locker bed at 2000 mm back, floor 800 mm up\n';

const tandem = (rating: string) => `trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles tandem at 3420 mm back, spacing 820 mm, track 1860 mm, equalised, rating ${rating}
  tare 1385 kg at 3150 mm back, 720 mm up, inertia 3100 kg·m²
  brakes overrun
}
`;

const rearHeavy = (tare: string) => `trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles tandem at 3000 mm back, spacing 800 mm, track 1860 mm, rate 60 N/mm, independent
  tare 400 kg at ${tare} back, 720 mm up, inertia 800 kg·m²
  brakes overrun
}
`;

const longTail = (overhang: string) => `vehicle Runabout {
  wheelbase 2500 mm, track 1500 mm
  kerb 600 kg on front, 500 kg on rear, 550 mm up, inertia 1500 kg·m²
  hitch ball at ${overhang} behind rear, 430 mm up
}
trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3420 mm back, track 1860 mm
  tare 1090 kg at 2940 mm back, 720 mm up, inertia 1900 kg·m²
  brakes overrun
}
rig Weekend {
  tow Runabout
  haul Tourer
  case empty { }
}
`;

const rack = (place: string) => `${sand(900)}vehicle Runabout {
  wheelbase 2500 mm, track 1500 mm
  kerb 600 kg on front, 500 kg on rear, 550 mm up, inertia 1500 kg·m²
  locker rack at ${place} back, floor 700 mm up
}
rig Delivery {
  tow Runabout
  stow sand in Runabout.rack
  case loaded { }
}
`;

const offside = (left: string) =>
  [
    sand(),
    truck(HITCH),
    hauler(`  locker bed at 2400 mm back, ${left} left, floor 500 mm up\n`),
    'rig Delivery {\n  tow Truck\n  haul Hauler\n  stow sand in Hauler.bed\n  case loaded { }\n}\n',
  ].join('');

const heavyTrailer = (tare: string) => `${truck(HITCH)}trailer Tourer {
  coupling ball 50 mm, 430 mm up
  axles single at 3400 mm back, track 1860 mm
  tare ${tare} at 3150 mm back, 720 mm up, inertia 3900 kg·m²
  brakes overrun
}
rig Weekend {
  tow Truck
  haul Tourer
  case empty { }
}
`;

const tanked = (tank: string, level: string) =>
  [
    truck(HITCH),
    hauler(`${tank}\n`),
    `rig Weekend {\n  tow Truck\n  haul Hauler\n  case departing { Hauler.store ${level} }\n}\n`,
  ].join('');

const WATER_TANK = '  tank store 100 L of water at 2400 mm back, 600 mm up, size 800 x 500 x 250 mm';
const GAS_TANK = '  tank store 60 L of LPG, empty 25 kg, at 2400 mm back, 600 mm up, size 800 x 300 x 250 mm';

const seated = (seat: string) =>
  `${truck(`  seat driver ${seat}at 1350 mm back, 0 mm left, 700 mm up\n`)}rig Errand {\n  tow Truck with driver\n  case out { }\n}\n`;

/** RW5xx: loads, ratings, balance, and what is stowed and filled. */
export const LOADS = {
  'over-axle-rating': define({
    code: 'RW501',
    severity: 'error',
    title: 'An axle carries more than its rating',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'The axle rating is the least of what axle, springs, wheels and their mountings are made for. It is checked in every case on level ground, the coupling load of what is towed included.',
    mend: 'Move mass away from the axle, leave some behind, or correct the rating if it is not what the plate says.',
    example: yard({ axle: ', rating 500 kg' }),
    mended: yard({ axle: ', rating 750 kg' }),
    source: PLATE,
  }),
  'over-group-rating': define({
    code: 'RW502',
    severity: 'error',
    title: 'An axle group carries more than its rating',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'Axles that belong together have a rating together. It is checked in every case on level ground against the sum of their loads.',
    mend: 'Move mass away from the group, leave some behind, or correct the rating if it is not what the plate says.',
    example: tandem('1200 kg'),
    mended: tandem('1800 kg'),
    source: PLATE,
  }),
  'over-GVM': define({
    code: 'RW503',
    severity: 'error',
    title: 'The vehicle is over its gross vehicle mass',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'The gross vehicle mass (GVM, GVWR) is the most that all axles of the vehicle may carry together. What a trailer puts on the hitch counts: it stands on the vehicle.',
    mend: 'Move mass to the trailer or leave some behind, or correct the limit if it is not what the plate says.',
    example: van('  limits { GVM 2600 kg }\n', DECK),
    mended: van('  limits { GVM 2900 kg }\n', DECK),
    source: `${PLATE}; that the coupling load counts: 49 CFR 571.110 S9.3.4, (EU) 1230/2012`,
  }),
  'over-ATM': define({
    code: 'RW504',
    severity: 'error',
    title: 'The trailer is heavier than its aggregate trailer mass',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'The aggregate trailer mass (ATM; of a trailer also GVWR) is the most the laden trailer may weigh, with what it puts on the tow vehicle.',
    mend: 'Move mass to the tow vehicle or leave some behind, or correct the limit if it is not what the plate says.',
    example: yard({ hauler: '  limits { ATM 600 kg }\n' }),
    mended: yard({ hauler: '  limits { ATM 750 kg }\n' }),
    source: PLATE,
  }),
  'over-GTM': define({
    code: 'RW505',
    severity: 'error',
    title: "The trailer's axles carry more than its gross trailer mass",
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning: 'The gross trailer mass (GTM) is the most that the axles of the coupled trailer may carry together.',
    mend: 'Leave some mass behind or move it ahead, or correct the limit if it is not what the plate says.',
    example: yard({ hauler: '  limits { GTM 550 kg }\n' }),
    mended: yard({ hauler: '  limits { GTM 750 kg }\n' }),
    source: PLATE,
  }),
  'over-GCM': define({
    code: 'RW506',
    severity: 'error',
    title: 'The combination is over the gross combination mass',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning: 'The gross combination mass (GCM, GCWR) is the most that the vehicle and all it pulls may weigh together.',
    mend: 'Leave some mass behind; moving it within the combination does not help.',
    example: yard({ truck: '  limits { GCM 2600 kg }\n' }),
    mended: yard({ truck: '  limits { GCM 3500 kg }\n' }),
    source: PLATE,
  }),
  'over-towing': define({
    code: 'RW507',
    severity: 'error',
    title: 'What is towed is heavier than the vehicle may pull',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'The towing rating of the vehicle is the most that all it pulls may weigh, with brakes. A maker can set a lower one for a trailer without brakes: see `towing_unbraked`.',
    mend: 'Leave mass behind or move it to the vehicle, or correct the rating if it is not what the papers say.',
    example: yard({ truck: '  limits { towing 600 kg }\n' }),
    mended: yard({ truck: '  limits { towing 1500 kg }\n' }),
    source: PLATE,
  }),
  'over-towing-unbraked': define({
    code: 'RW508',
    severity: 'error',
    title: 'The unbraked trailer is heavier than the vehicle may pull',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning: 'The vehicle has to stop a trailer without brakes all by itself, so its rating for those is lower.',
    mend: 'Leave mass behind, use a trailer with brakes, or correct the rating if it is not what the papers say.',
    example: yard({ truck: '  limits { towing_unbraked 500 kg }\n' }).replace('brakes overrun', 'brakes unbraked'),
    mended: yard({ truck: '  limits { towing_unbraked 500 kg }\n' }),
    source: PLATE,
  }),
  'over-payload': define({
    code: 'RW509',
    severity: 'error',
    title: 'More is loaded than the payload allows',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'The payload is all that is added to the empty unit. For a vehicle the load on its hitch counts as payload too.',
    mend: 'Leave mass behind or move it to another unit, or correct the limit if it is not what the papers say.',
    example: yard({ hauler: '  limits { payload 350 kg }\n' }),
    mended: yard({ hauler: '  limits { payload 500 kg }\n' }),
    source: `${PLATE}; that the coupling load counts as cargo of the tow vehicle: 49 CFR 571.110 S9.3.4`,
  }),

  'rear-heavy': define({
    code: 'RW511',
    severity: 'warning',
    title: 'The trailer is rear-heavy',
    message: (parameters: LoadBreach & { readonly unit: string; readonly behind: number; readonly moment: number }) => {
      const { unit, behind, moment, state, system } = parameters;
      const where = `its centre of gravity is ${formatLength(behind, system)} behind the middle of its axles`;
      const tips = `uncoupled, it tips back with ${formatMassMoment(moment, system)}`;
      return `${unit} is rear-heavy${inState(state)}: ${where}; ${tips}.${breachEnd(parameters, (by) => formatLength(by, system))}`;
    },
    meaning:
      'A trailer whose mass sits behind its axles pulls the hitch up, tips when it is uncoupled, and sways at lower speed than one with its mass ahead of them. The moment shown is mass times distance.',
    mend: 'Move mass ahead of the axles, or the axles back.',
    example: rearHeavy('3020 mm'),
    mended: rearHeavy('2800 mm'),
    source: COMMON_PRACTICE,
  }),
  'steering-axle-lightened': define({
    code: 'RW512',
    severity: 'warning',
    title: 'The trailer takes much load off the steering axle',
    message: (
      parameters: LoadBreach & {
        readonly unit: string;
        readonly lost: number;
        readonly share: number;
        readonly left: number;
        readonly most: number;
      },
    ) => {
      const { unit, lost, share, left, most, state, system } = parameters;
      const loses = `Front axle of ${unit} loses ${formatMass(lost, system)} (${formatShare(share)}) to what it tows`;
      const rest = `${formatMass(left, system)} remain; common practice is at most ${formatShare(most)}`;
      return `${loses}${inState(state)}: ${rest}.${breachEnd(parameters, formatShare)}`;
    },
    meaning:
      'Load on the hitch behind the rear axle lifts the front. A light front axle steers and brakes less. The tool warns from 20 %.',
    mend: 'Reduce the coupling load, load the vehicle further ahead, shorten the overhang, or fit a weight-distribution device that the makers of both units permit.',
    example: longTail('2200 mm'),
    mended: longTail('1200 mm'),
    source: `${COMMON_PRACTICE}: 20 %`,
  }),
  'axle-lifted': define({
    code: 'RW513',
    severity: 'error',
    title: 'An axle lifts off',
    message: (parameters: LoadBreach & { readonly subject: string; readonly load: number }) =>
      `${parameters.subject} lifts off${inState(parameters.state)}: its load comes to ${formatMass(parameters.load, parameters.system)}.` +
      breachEnd(parameters, minusMass(parameters.system)),
    meaning:
      'An axle cannot pull the road up: with a negative load the unit tips, and none of the other loads holds any more. It is checked on level ground, on the grades travelled and while braking.',
    mend: 'Move mass towards the axle, or correct the places.',
    example: rack('4700 mm'),
    mended: rack('1500 mm'),
  }),
  'wheel-lifted': define({
    code: 'RW514',
    severity: 'error',
    title: 'A wheel lifts off',
    message: (
      parameters: LoadBreach & { readonly subject: string; readonly side: 'left' | 'right'; readonly load: number },
    ) => {
      const { subject, side, load, state, system } = parameters;
      const lifts = `The ${side} wheel of ${subject} lifts off${inState(state)}: its load comes to ${formatMass(load, system)}`;
      return `${lifts}.${breachEnd(parameters, minusMass(parameters.system))}`;
    },
    meaning:
      'So much mass sits to one side that the unit tips over the other wheel, and none of the other loads holds any more.',
    mend: 'Move mass towards the lifted side, or correct the places.',
    example: offside('1500 mm'),
    mended: offside('50 mm'),
  }),
  'side-imbalance': define({
    code: 'RW515',
    severity: 'warning',
    title: 'One side is much heavier than the other',
    message: (
      parameters: LoadBreach & {
        readonly subject: string;
        readonly side: 'left' | 'right';
        readonly difference: number;
        readonly share: number;
        readonly most: number;
      },
    ) => {
      const { subject, side, difference, share, most, state, system } = parameters;
      const heavier = `${subject}: the ${side} side is ${formatMass(difference, system)} heavier`;
      const limit = `${formatShare(share)} of its load; common practice is at most ${formatShare(most)}`;
      return `${heavier}${inState(state)}, ${limit}.${breachEnd(parameters, formatShare)}`;
    },
    meaning:
      'The difference of the two sides is compared with the load of the axle or group. The heavier side works its tyres and springs harder, and the unit pulls to one side under braking. The tool warns from 10 %.',
    mend: 'Move mass across, or place what cannot be moved on the other side.',
    example: offside('200 mm'),
    mended: offside('50 mm'),
    source: `${COMMON_PRACTICE}: 10 %`,
  }),
  'trailer-heavier': define({
    code: 'RW516',
    severity: 'information',
    title: 'What is towed is heavier than the tow vehicle',
    message: (parameters: LoadBreach & { readonly vehicle: string; readonly mass: number; readonly towed: number }) => {
      const { vehicle, mass, towed, state, system } = parameters;
      const heavier = `${formatMass(towed, system)} behind ${vehicle} of ${formatMass(mass, system)}`;
      return `Heavier than its tow vehicle${inState(state)}: ${heavier}.${breachEnd(parameters, plusMass(parameters.system))}`;
    },
    meaning:
      'A light vehicle holds a heavy trailer less well. Within the ratings that is permitted; for unfamiliar drivers common practice stays below the mass of the vehicle.',
    mend: 'Nothing need be mended where the ratings hold; move load to the vehicle where it has some left.',
    example: heavyTrailer('2400 kg'),
    mended: heavyTrailer('1600 kg'),
    source: COMMON_PRACTICE,
  }),
  'restores-too-much': define({
    code: 'RW517',
    severity: 'warning',
    title: 'The weight-distribution device restores more than 100 %',
    message: (parameters: LoadBreach & { readonly unit: string; readonly share?: number; readonly gained: number }) => {
      const { unit, share, gained, state, system } = parameters;
      const more = `Front axle of ${unit} carries ${formatMass(gained, system)} more with the trailer than without${inState(state)}`;
      const restored = share === undefined ? '' : ` (${formatShare(share)} restored)`;
      const advice = 'set the device so that it restores at most 100 %';
      return `${more}${restored}: ${advice}.${breachEnd(parameters, plusMass(parameters.system))}`;
    },
    meaning:
      'The front-axle load restoration is the share of the load lost to the trailer that the device brings back. Over 100 % the front axle carries more than without the trailer and the rear axle less, so the rear slides first.',
    mend: 'Reduce the moment or the share of the device; keep to what the makers of hitch, vehicle and trailer say.',
    example: yard({ rig: '  weight_distribution restores 120 %\n' }),
    mended: yard({ rig: '  weight_distribution restores 80 %\n' }),
    source: 'SAE J2807, recommendation of the committee (read second-hand): not over 100 %',
    authority: 'recommendation',
  }),

  'tank-overfull': define({
    code: 'RW521',
    severity: 'error',
    title: 'A tank holds more than it can',
    message: ({ tank, level, state }: { readonly tank: string; readonly level: number; readonly state: string }) =>
      `${tank} is filled to ${formatShare(level)}${inState(state)}: a tank holds at most 100 %.`,
    meaning:
      'A level is the share of the stated content, from 0 % to 100 %. Until it is corrected, loads are those of a full tank.',
    mend: 'Correct the level, or the content of the tank.',
    example: tanked(WATER_TANK, '120 %'),
    mended: tanked(WATER_TANK, '100 %'),
  }),
  'tank-above-fill': define({
    code: 'RW522',
    severity: 'warning',
    title: 'A tank is filled above the limit for its fluid',
    message: (parameters: {
      readonly tank: string;
      readonly fluid: string;
      readonly level: number;
      readonly most: number;
      readonly source: string;
      readonly state: string;
    }) => {
      const { tank, fluid, level, most, source, state } = parameters;
      const filled = `${tank} is filled to ${formatShare(level)}${inState(state)}`;
      return `${filled}: vessels for ${fluid} are filled to at most ${formatShare(most)} (${source}).`;
    },
    meaning: 'Liquids that expand much with warmth, such as LPG, need room in their vessel.',
    mend: 'State the level that the vessel is really filled to. Keep to what is marked on the vessel.',
    example: tanked(GAS_TANK, '100 %'),
    mended: tanked(GAS_TANK, '80 %'),
    source: 'the fluid: see the catalogue of fluids',
  }),
  'over-locker-limit': define({
    code: 'RW523',
    severity: 'error',
    title: 'A locker holds more than its limit',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning: 'The masses of all that is stowed in the locker are added up in every case.',
    mend: 'Move something to another locker, or correct the limit.',
    example: yard({}).replace('floor 500 mm up', 'floor 500 mm up, holds 300 kg'),
    mended: yard({}).replace('floor 500 mm up', 'floor 500 mm up, holds 450 kg'),
    source: 'the limit of the locker, as stated in the file',
  }),

  'loads-incomplete': define({
    code: 'RW532',
    severity: 'warning',
    title: 'Loads are not complete',
    message: ({ rig, text }: { readonly rig: string; readonly text: string }) =>
      `The loads of ${rig} leave something out: ${text}.`,
    meaning:
      'A line with an error, here or where a thing is declared, is left out of the computation. The limits are checked against what is left, so that a limit that seems to hold may not.',
    mend: 'Mend the errors.',
    example:
      hauler('  fitting safe 50 kgg at 900 mm back, 500 mm up\n') +
      truck(HITCH) +
      'rig Errand {\n  tow Truck\n  haul Hauler\n  case out { }\n}\n',
    mended:
      hauler('  fitting safe 50 kg at 900 mm back, 500 mm up\n') +
      truck(HITCH) +
      'rig Errand {\n  tow Truck\n  haul Hauler\n  case out { }\n}\n',
  }),
  assumption: define({
    code: 'RW531',
    severity: 'information',
    title: 'Something is taken that the file does not say',
    message: ({ text, basis }: { readonly text: string; readonly basis: string }) =>
      `${text}${/[.!?]$/.test(text) ? '' : '.'}${helpSentence(`Basis: ${basis}${/[.!?]$/.test(basis) ? '' : '.'}`)}`,
    meaning: 'The numbers depend on a value that the file does not state. The message says which one, and why.',
    mend: 'State the value where it is known; the note then goes away.',
    example: seated(''),
    mended: seated('80 kg '),
  }),
} as const;
