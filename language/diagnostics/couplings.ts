import { type DisplaySystem, formatMass, formatShare } from '../units/display.ts';
import { define } from './define.ts';
import { HITCH, hauler, truck, yard } from './examples.ts';
import { breachEnd, inState, type LoadBreach, type OverLimit, overLimit } from './wording.ts';

/** A share of the trailer's mass on its coupling, outside the band of common practice. */
interface ShareOutside extends LoadBreach {
  readonly trailer: string;
  /** kg */
  readonly load: number;
  readonly share: number;
  /** The end of the band that it is beyond. */
  readonly limit: number;
}

/** The hauler alone, its tare at another place. */
const tareAt = (place: string) => hauler().replace('at 2400 mm back', `at ${place} back`);

const climbing = (grade: string) => `${truck(HITCH)}trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 600 kg at 2480 mm back, 1600 mm up, inertia 700 kg·m²
  brakes overrun
}
rig Delivery {
  tow Truck
  haul Hauler
  travel 80 km/h, grades -2 % to ${grade}
  case empty { }
}
`;

const tyred = (mass: number, tyre: string, rig = '') => yard({ sand: mass, axle: `, tyres 2 x "${tyre}"`, rig });

const plated = (rating: string) =>
  hauler().replace('track 1500 mm', `track 1500 mm, rating ${rating}, tyres 2 x "155R13 78S"`);

/** RW6xx: couplings and tyres. */
export const COUPLINGS = {
  'over-coupling-rating': define({
    code: 'RW601',
    severity: 'error',
    title: 'The load on a coupling is over its rating',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'Trailer, coupling, hitch and vehicle may each have a limit for the vertical load; the lowest governs, and the message names it.',
    mend: 'Move mass back towards the axles of the trailer, or correct the limit if it is not what the plate says.',
    example: yard({}).replace('430 mm up\n}', '430 mm up, rating 40 kg\n}'),
    mended: yard({}).replace('430 mm up\n}', '430 mm up, rating 75 kg\n}'),
    source: "the makers' plates, as stated in the file",
  }),
  'coupling-share-low': define({
    code: 'RW602',
    severity: 'warning',
    title: 'The coupling carries a small share of the trailer',
    message: (parameters: ShareOutside) => outside(parameters, 'at least'),
    meaning:
      'With little load on its coupling a trailer begins to sway at a lower speed, and a little load more at the rear makes it rear-heavy. The tool warns below 4 % (ball, pin, eye) or 10 % (kingpin, gooseneck). Where the practice of the rig’s markets names a band, the message gives the least of that band, and a share between the two is told by the finding of the market.',
    mend: 'Move mass ahead, as far as the limits of hitch and vehicle permit.',
    example: tareAt('2530 mm'),
    mended: tareAt('2400 mm'),
    source: 'common practice, no source; 4 % also stands in StVZO § 44(3), there capped at 25 kg up to 3.5 t',
  }),
  'coupling-share-high': define({
    code: 'RW603',
    severity: 'information',
    title: 'The coupling carries a large share of the trailer',
    message: (parameters: ShareOutside) => outside(parameters, 'at most'),
    meaning:
      'Much load on the coupling lightens the steering axle of the tow vehicle and helps no further against sway. The tool speaks up above 15 % (ball, pin, eye) or 25 % (kingpin, gooseneck). Where the practice of the rig’s markets names a band, the finding of the market stands in place of this one.',
    mend: 'Move mass back towards the axles of the trailer.',
    example: tareAt('2100 mm'),
    mended: tareAt('2400 mm'),
    source: 'common practice, no source',
  }),
  'coupling-negative': define({
    code: 'RW604',
    severity: 'error',
    title: 'The trailer lifts the hitch',
    message: (parameters: LoadBreach & { readonly trailer: string; readonly hitch: string; readonly load: number }) => {
      const { trailer, hitch, load, state, system } = parameters;
      const pulls = `${trailer} lifts ${hitch}${inState(state)}: its coupling load comes to ${formatMass(load, system)}`;
      return `${pulls}.${breachEnd(parameters, (by) => formatMass(-by, system))}`;
    },
    meaning:
      'A coupling that is pulled up takes load off the rear axle of the tow vehicle and may jump off. It is checked on level ground, on the grades travelled and while braking.',
    mend: 'Move mass ahead of the axles of the trailer, or lower.',
    example: climbing('15 %'),
    mended: climbing('6 %'),
  }),

  'tyre-overloaded': define({
    code: 'RW611',
    severity: 'error',
    title: 'A tyre carries more than it may',
    message: (parameters: OverLimit) => overLimit(parameters),
    meaning:
      'The load of the heaviest wheel is shared by the tyres of that wheel and compared with what the load index (single or dual, as fitted) or the stated capacity says. Speed and pressure can lower that figure: see the tables of the maker of the tyre.',
    mend: 'Move mass away from the wheel, or fit tyres with a higher load index.',
    example: tyred(800, '155R13 78S'),
    mended: tyred(800, '165R13C 90/88R'),
    source: 'UN Regulations No. 30 and No. 54, load capacity index',
    authority: 'regulation',
  }),
  'tyres-below-rating': define({
    code: 'RW612',
    severity: 'warning',
    title: 'The tyres carry less than the axle is rated for',
    message: (parameters: {
      readonly subject: string;
      readonly count: number;
      readonly capacity: number;
      readonly rating: number;
      readonly system: DisplaySystem;
    }) => {
      const { subject, count, capacity, rating, system } = parameters;
      const mass = (kilograms: number) => formatMass(kilograms, system);
      const total = `${count} tyres of ${mass(capacity)} carry ${mass(count * capacity)}`;
      const less = `${mass(rating - count * capacity)} less than its rating of ${mass(rating)}`;
      return `${subject}: ${total}, ${less}.`;
    },
    meaning: 'Tyres are chosen so that together they carry at least the rating of their axle.',
    mend: 'Fit tyres with a higher load index, or let the tyres set the rating.',
    example: plated('900 kg'),
    mended: plated('800 kg'),
    source:
      'common practice, no source; in the United States 49 CFR 571.110 S4.2.2.1 asks it, in Canada TSD 110 (from memory)',
    authority: 'common practice',
  }),
  'tyre-too-slow': define({
    code: 'RW613',
    severity: 'warning',
    title: 'The rig travels faster than its tyres may run',
    message: (parameters: {
      readonly subject: string;
      readonly marking: string;
      readonly most: number;
      readonly speed: string;
    }) => {
      const { subject, marking, most, speed } = parameters;
      return `${subject}: the tyres ${marking} are made for at most ${most} km/h; the rig travels at ${speed}.`;
    },
    meaning: 'The speed symbol of a tyre is the highest speed at which it carries the load of its load index.',
    mend: 'Travel slower, or fit tyres with a higher speed symbol.',
    example: tyred(400, '165R13C 90/88J', '  travel 110 km/h\n'),
    mended: tyred(400, '165R13C 90/88J', '  travel 90 km/h\n'),
    source: 'UN Regulations No. 30 and No. 54, speed category symbols',
    authority: 'regulation',
  }),
} as const;

function outside(parameters: ShareOutside, bound: 'at least' | 'at most'): string {
  const { trailer, load, share, limit, state, system } = parameters;
  const carries = `Coupling of ${trailer} carries ${formatShare(share)} of its mass (${formatMass(load, system)})`;
  const band = `common practice is ${bound} ${formatShare(limit)}`;
  const shareAt = (by: number) => formatShare(bound === 'at most' ? limit + by : limit - by);
  return `${carries}${inState(state)}; ${band}.${breachEnd(parameters, shareAt)}`;
}
