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

/** A trailer of 4 t behind a lorry, its tare at a place. */
const heavyTrailer = (place: string) => `vehicle Lorry {
  wheelbase 4000 mm, track 1900 mm
  kerb 3400 kg on front, 3600 kg on rear, 900 mm up, inertia 24000 kg·m²
  hitch pin at 1200 mm behind rear, 600 mm up
}
trailer Plant {
  coupling pin, 600 mm up
  axles tandem at 4000 mm back, spacing 900 mm, track 1900 mm, equalised
  tare 4000 kg at ${place} back, 800 mm up, inertia 6000 kg·m²
  brakes air
}
rig Delivery in DE {
  tow Lorry
  haul Plant
  case empty { }
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
      'The coupling load of a rigid drawbar or centre-axle trailer has to be at least 4 % of its actual mass. It need not exceed 25 kg for a trailer that may weigh up to 3.5 t, nor 500 kg for one that may weigh more. What it may weigh is its ATM; where the file states none, its actual mass is taken for that.',
    mend: 'Move mass ahead, as far as the limits of hitch and vehicle permit.',
    example: gravelled(40),
    mended: gravelled(10),
    source: 'StVZO § 44(3)',
    authority: 'regulation',
    caution:
      'The lower of the coupling limits of trailer and vehicle still governs. Read the text that is in force where you drive.',
  }),
  'coupling-load-maximum': define({
    code: 'RW802',
    severity: 'error',
    title: 'The coupling carries more than the road rules permit',
    message: limitBreach,
    meaning:
      'The coupling load of a rigid drawbar or centre-axle trailer that may weigh more than 3.5 t may be at most 15 % of its actual mass and at most 2.00 t. What it may weigh is its ATM; where the file states none, its actual mass is taken for that. Trailers marked for at most 40 km/h and farm implements, which the text excepts, are not told apart: turn the rule off for them.',
    mend: 'Move mass back towards the axles of the trailer.',
    example: heavyTrailer('3300 mm'),
    mended: heavyTrailer('3600 mm'),
    source: 'StVZO § 44(3)',
    authority: 'regulation',
    caution:
      'The lower of the coupling limits of trailer and vehicle still governs. Read the text that is in force where you drive.',
  }),
} as const;
