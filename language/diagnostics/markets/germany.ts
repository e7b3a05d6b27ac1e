import { define } from '../define.ts';
import { HITCH, hauler, truck } from '../examples.ts';
import { limitBreach } from '../limit-wording.ts';

/** Gravel in a locker at the rear of the hauler, for a rig in Germany. */
const gravelled = (mass: number) => `item gravel ${mass} kg size 300 x 300 x 200 mm
${truck(HITCH)}${hauler('  locker tail from 3000 mm to 3400 mm back, floor 500 mm up\n')}rig Delivery in DE {
  tow Truck
  haul Hauler
  stow gravel in Hauler.tail
  case loaded { }
}
`;

/** Texts of Germany's road rules. */
export const GERMANY = {
  'coupling-load-minimum': define({
    code: 'RW801',
    severity: 'error',
    title: 'The coupling carries less than the road rules ask for',
    message: limitBreach,
    meaning:
      'The coupling load of a trailer has to be at least 4 % of its actual mass; up to 3.5 t it need not exceed 25 kg, above that 500 kg.',
    mend: 'Move mass ahead, as far as the limits of hitch and vehicle permit.',
    example: gravelled(40),
    mended: gravelled(10),
    source: 'StVZO § 44(3)',
    authority: 'regulation',
    caution:
      'The lower of the coupling limits of trailer and vehicle still governs. Read the text that is in force where you drive.',
  }),
} as const;
