import { type DisplaySystem, formatMass } from '../units/display.ts';
import { define } from './define.ts';
import { hauler } from './examples.ts';

/** A rating above another that it cannot exceed; masses in kg. */
interface Contradiction {
  readonly unit: string;
  readonly name: string;
  readonly value: number;
  readonly otherName: string;
  readonly other: number;
  /** A sentence on why it cannot. */
  readonly reason: string;
  readonly system: DisplaySystem;
}

/** RW54x: ratings that do not fit each other. */
export const RATINGS = {
  'ratings-contradict': define({
    code: 'RW541',
    severity: 'error',
    title: 'Two ratings contradict each other',
    message: ({ unit, name, value, otherName, other, reason, system }: Contradiction) => {
      const mass = (kilograms: number) => formatMass(kilograms, system);
      return `${unit}: its ${name} of ${mass(value)} is ${mass(value - other)} above ${otherName}, ${mass(other)}. ${reason}`;
    },
    meaning:
      'Ratings of one unit are compared with each other: GVM with GCM and with the axle ratings, GTM with ATM and with the axle ratings, ATM with axle ratings and coupling limit together, unloaded weight with the gross rating, the least with the most coupling load, the towing rating without brakes with the one with brakes. A tare above a gross rating is told as a load over that rating.',
    mend: 'Copy both figures from the plates anew; each counts until then, and the lower one governs.',
    example: hauler('  limits { ATM 750 kg  GTM 800 kg }\n'),
    mended: hauler('  limits { ATM 750 kg  GTM 700 kg }\n'),
    source: 'by what the ratings mean; of motor homes 49 CFR 571.110 S9.1 asks it, too',
    authority: 'plate',
  }),
} as const;
