import { define } from './define.ts';
import { truck } from './examples.ts';

const braked = (braking: string) => `${truck()}rig Errand {
  tow Truck
  travel 80 km/h, braking ${braking}
  case empty { }
}
`;

const backwards = (level: string) => `${truck('tank fresh 40 L of water at 1400 mm back, 700 mm up')}rig Errand {
  tow Truck
  case driving { fresh ${level} }
}
`;

/** RW3xx: numbers and units. */
export const QUANTITIES = {
  'unknown-unit': define({
    code: 'RW301',
    severity: 'error',
    title: 'There is no such unit',
    message: ({ unit, nearest }: { unit: string; nearest?: string }) =>
      `'${unit}' is no unit this language knows${nearest ? `; the nearest is '${nearest}'` : ''}.`,
    replacement: ({ nearest }) => nearest,
    meaning: 'The language reference lists the units. Temperatures do not exist here.',
    mend: 'Use a unit of the list.',
    example: 'item awning 38 kgs2\n',
    mended: 'item awning 38 kg\n',
  }),
  'dimension-mismatch': define({
    code: 'RW302',
    severity: 'error',
    title: 'The unit does not fit',
    message: ({ what, wanted, found, meant }: { what: string; wanted: string; found: string; meant?: string }) =>
      `${what} is ${wanted}; this is ${found}.${meant ? ` Probably '${meant}' is meant.` : ''}`,
    replacement: ({ meant }) => meant,
    meaning: 'Dimensions are types: a mass cannot stand where a length is needed.',
    mend: 'Give the quantity in a fitting unit.',
    example: 'item awning 38 mm\n',
    mended: 'item awning 38 kg\n',
  }),
  'missing-unit': define({
    code: 'RW303',
    severity: 'error',
    title: 'A unit is missing',
    message: ({ what, number, units }: { what: string; number: string; units: string }) =>
      `${what} needs a unit: ${number} of what? ${units}`,
    meaning: 'Every physical number has a unit. In a range or a size one unit at the end serves all its numbers.',
    mend: 'Add the unit.',
    example: 'item awning 38\n',
    mended: 'item awning 38 kg\n',
  }),
  'not-a-number': define({
    code: 'RW304',
    severity: 'error',
    title: 'This is no number',
    message: ({ text, hint }: { text: string; hint: string }) => `'${text}' cannot be read as a number: ${hint}.`,
    meaning: 'Numbers have a point before decimals and may have `_` between groups of digits: `1_850`, `3.5`, `3 3/4`.',
    mend: 'Write the number in one of these forms.',
    example: 'item awning 3/0 kg\n',
    mended: 'item awning 38 kg\n',
  }),
  'too-large': define({
    code: 'RW305',
    severity: 'error',
    title: 'The number is too large',
    message: ({ text }: { text: string }) => `${text} is larger than any number that can be computed with.`,
    meaning: 'The number, or what is computed from it, overflows.',
    mend: 'Correct the number.',
    example: 'item awning 1e999 kg\n',
    mended: 'item awning 38 kg\n',
  }),
  'out-of-range': define({
    code: 'RW306',
    severity: 'error',
    title: 'The value is out of range',
    message: ({ what, wanted, found }: { what: string; wanted: string; found: string }) =>
      `${what} must be ${wanted}; this is ${found}.`,
    meaning: 'Nothing real has this value, so nothing is computed from it; a tank below empty counts as empty.',
    mend: 'Correct the value.',
    example: 'item awning -38 kg\n',
    mended: 'item awning 38 kg\n',
  }),
  'mixed-dimensions': define({
    code: 'RW307',
    severity: 'error',
    title: 'These quantities do not go together',
    message: ({ operation, left, right }: { operation: string; left: string; right: string }) =>
      `Cannot ${operation} ${left} and ${right}.`,
    meaning: 'Only quantities of one dimension can be added, subtracted or compared.',
    mend: 'Bring both sides to one dimension.',
    example: 'let depth = 600 mm + 3 kg\n',
    mended: 'let depth = 600 mm + 18 mm\n',
  }),
  'division-by-zero': define({
    code: 'RW308',
    severity: 'error',
    title: 'Division by zero',
    message: (_: Record<never, never>) => 'This divides by zero.',
    meaning: 'The expression has no value.',
    mend: 'Correct the divisor.',
    example: 'let share = 3 / 0\n',
    mended: 'let share = 3 / 4\n',
  }),
  'unreadable-marking': define({
    code: 'RW309',
    severity: 'error',
    title: 'The tyre marking cannot be read',
    message: ({ marking, problem }: { marking: string; problem: string }) =>
      `The tyre marking "${marking}" cannot be read: ${problem}.`,
    meaning: 'Load index and speed symbol are read from the marking on the sidewall.',
    mend: 'Write the marking as it stands on the sidewall, for example "195R14C 106/104Q".',
    example: 'tyre wheel "banana"\n',
    mended: 'tyre wheel "195R14C 106/104Q"\n',
  }),
  'braking-unusual': define({
    code: 'RW310',
    severity: 'warning',
    title: 'The braking is harder than tyres usually give',
    message: ({ found, usual }: { found: string; usual: string }) =>
      `The braking is ${found}; tyres on a dry road usually give no more than ${usual}.`,
    meaning:
      'Loads and lateral stability are computed with the braking as stated, although a rig is hardly able to brake so. Above 15 m/s² nothing is computed from it (RW306).',
    mend: 'State the hardest braking that the rig is meant for, mostly 2 to 6 m/s².',
    example: braked('9 m/s²'),
    mended: braked('5 m/s²'),
    source: '0.8 times gravity: common practice, no source',
  }),
  'range-backwards': define({
    code: 'RW311',
    severity: 'error',
    title: 'The range begins with its greater end',
    message: ({ what, least, most }: { what: string; least: string; most: string }) =>
      `${what} goes from ${most} down to ${least}; a range begins with its lesser end: ${least} to ${most}.`,
    replacement: ({ least, most }) => `${least} to ${most}`,
    meaning:
      'One of the ends may be mistaken, so that the range is asked about. Until then it is read the other way round.',
    mend: 'Exchange the ends, or correct the wrong one.',
    example: backwards('80 % to 20 %'),
    mended: backwards('20 % to 80 %'),
  }),
} as const;
