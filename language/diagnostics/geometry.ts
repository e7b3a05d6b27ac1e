import { define } from './define.ts';

const TRAILER = (lines: string) => `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²
${lines}}
`;

const RIG = (hitch: string, lines: string) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
${hitch}}
${TRAILER('')}rig Delivery {
${lines}  case empty { }
}
`;

const HITCH = '  hitch ball at 1150 mm behind rear, 430 mm up\n';

const tyred = (count: number) => TRAILER('').replace('track 1500 mm', `track 1500 mm, tyres ${count} x "155R13 78S"`);

/** RW4xx: places and how things go together. */
export const GEOMETRY = {
  'missing-place': define({
    code: 'RW401',
    severity: 'error',
    title: 'It is not said where this is',
    message: ({ what, example }: { what: string; example: string }) =>
      `${what} has no place along the unit. For example: ${example}`,
    meaning: 'Loads follow from where mass sits; without a place the thing cannot be counted.',
    mend: 'Say how far back or ahead it is, from the datum or from another thing.',
    example: TRAILER('  fitting jack 12 kg, 500 mm up\n'),
    mended: TRAILER('  fitting jack 12 kg at 300 mm back, 500 mm up\n'),
  }),
  'place-cycle': define({
    code: 'RW402',
    severity: 'error',
    title: 'Places are counted from each other in a circle',
    message: ({ cycle }: { cycle: string }) => `The place of ${cycle} is counted from itself.`,
    meaning: 'Of things that are placed from each other, one needs a place of its own.',
    mend: 'Place one of them from the datum.',
    example: TRAILER(
      '  fitting a 12 kg at 100 mm behind b, 500 mm up\n  fitting b 12 kg at 100 mm behind a, 500 mm up\n',
    ),
    mended: TRAILER('  fitting a 12 kg at 100 mm behind b, 500 mm up\n  fitting b 12 kg at 900 mm back, 500 mm up\n'),
  }),
  'repeated-direction': define({
    code: 'RW403',
    severity: 'error',
    title: 'The same direction is given twice',
    message: ({ what, axis }: { what: string; axis: string }) => `${what} says twice how far ${axis} it is: keep one.`,
    meaning: 'A place has one distance along, one across and one up.',
    mend: 'Remove one of the two.',
    example: TRAILER('  fitting jack 12 kg at 300 mm back, 500 mm ahead, 500 mm up\n'),
    mended: TRAILER('  fitting jack 12 kg at 300 mm back, 500 mm up\n'),
  }),
  'no-axles': define({
    code: 'RW404',
    severity: 'error',
    title: 'The unit has no axles',
    message: ({ unit, example }: { unit: string; example: string }) => `${unit} has no axles. For example: ${example}`,
    meaning: 'Without axles there are no loads to compute.',
    mend: 'State the axles, or for a vehicle its wheelbase.',
    example:
      'trailer Hauler {\n  coupling ball 50 mm, 430 mm up\n  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²\n}\n',
    mended: TRAILER(''),
  }),
  'no-loads': define({
    code: 'RW405',
    severity: 'error',
    title: 'Loads cannot be computed with this geometry',
    message: ({ unit, problem }: { unit: string; problem: string }) =>
      `The loads of ${unit} cannot be computed: ${problem}.`,
    meaning: 'Equilibrium has no single answer, for example because two supports are at one place.',
    mend: 'Correct the places the message names.',
    example: TRAILER('').replace('2600 mm back', '0 mm back'),
    mended: TRAILER(''),
  }),
  'unclear-tare': define({
    code: 'RW406',
    severity: 'error',
    title: 'The tare does not say where it acts',
    message: ({ unit, problem }: { unit: string; problem: string }) =>
      `The tare of ${unit} cannot be used: ${problem}.`,
    meaning:
      'A tare is given by its mass and place, by one reading for each support (every axle group, and the coupling of a trailer), or by the parts of the unit.',
    mend: 'Give one of the three.',
    example: TRAILER('').replace('240 kg at 2450 mm back,', '240 kg on axles,'),
    mended: TRAILER('').replace('240 kg at 2450 mm back,', '225 kg on axles, 15 kg on coupling,'),
  }),
  'not-whole': define({
    code: 'RW407',
    severity: 'error',
    title: 'A count is a whole number',
    message: ({ what, found }: { what: string; found: string }) =>
      `${what} must be a whole number from 1 to 10 000; this is ${found}.`,
    meaning: 'Things are counted in whole numbers.',
    mend: 'Correct the count.',
    example: TRAILER('  fitting jack 1.5 x 12 kg at 300 mm back, 500 mm up\n'),
    mended: TRAILER('  fitting jack 2 x 12 kg at 300 mm back, 500 mm up\n'),
  }),
  'nothing-to-tow': define({
    code: 'RW408',
    severity: 'error',
    title: 'The rig has no unit',
    message: ({ rig }: { rig: string }) => `${rig} names neither a vehicle ('tow') nor a trailer ('haul').`,
    meaning: 'A rig is a vehicle with or without trailers.',
    mend: 'Add a `tow` line, a `haul` line or both.',
    example: RIG(HITCH, ''),
    mended: RIG(HITCH, '  tow Truck\n  haul Hauler\n'),
  }),
  'no-hitch': define({
    code: 'RW409',
    severity: 'error',
    title: 'The unit ahead has no hitch',
    message: ({ unit, trailer }: { unit: string; trailer: string }) =>
      `${unit} has no hitch for ${trailer}. For example: hitch ball at 1150 mm behind rear, 430 mm up`,
    meaning: 'Where the trailer hangs decides what it does to the axles of the unit ahead.',
    mend: 'State the hitch of the unit ahead.',
    example: RIG('', '  tow Truck\n  haul Hauler\n'),
    mended: RIG(HITCH, '  tow Truck\n  haul Hauler\n'),
  }),
  'coupling-mismatch': define({
    code: 'RW410',
    severity: 'warning',
    title: 'Hitch and coupling are of different kinds',
    message: ({ hitch, coupling, unit, trailer }: { hitch: string; coupling: string; unit: string; trailer: string }) =>
      `${unit} has a ${hitch} hitch, ${trailer} a ${coupling} coupling.`,
    meaning: 'The two halves of a coupling have to fit each other.',
    mend: 'Correct the kind on one side.',
    example: RIG(HITCH.replace('ball', 'pin'), '  tow Truck\n  haul Hauler\n'),
    mended: RIG(HITCH, '  tow Truck\n  haul Hauler\n'),
  }),
  'range-reversed': define({
    code: 'RW411',
    severity: 'error',
    title: 'The range ends before it starts',
    message: ({ what, from, to }: { what: string; from: string; to: string }) =>
      `${what} goes from ${from} to ${to}: the end lies before the start.`,
    meaning:
      'A range is given from its smaller to its larger end. An extent whose ends both say their direction may be given in either order: `from 900 mm ahead to 200 mm ahead`.',
    mend: 'Exchange the two ends, or correct one.',
    example: TRAILER('  body from 300 mm to 3300 mm back, from 1200 mm to 400 mm up\n'),
    mended: TRAILER('  body from 300 mm to 3300 mm back, from 400 mm to 1200 mm up\n'),
  }),
  'tyres-uneven': define({
    code: 'RW412',
    severity: 'error',
    title: 'The tyres do not stand evenly on the axles',
    message: ({
      count,
      axles,
      isTwin,
    }: {
      readonly count: number;
      readonly axles: number;
      readonly isTwin: boolean;
    }) => {
      const where = axles === 1 ? 'one axle' : `${axles} axles`;
      const fitting = isTwin ? `${4 * axles} do, two at each end` : `${2 * axles} do, or ${4 * axles} as twin tyres`;
      return `${count} tyres do not stand evenly at both ends of ${where}: ${fitting}.`;
    },
    meaning:
      'What one tyre carries is told from the number of tyres of the axle or of the whole group. With another number than one, or two, at each end of each axle that would be wrong, so the tyres are left out.',
    mend: 'State the number of tyres of the whole group. Axles with single and with twin tyres are axles of their own.',
    example: tyred(3),
    mended: tyred(2),
  }),
} as const;
