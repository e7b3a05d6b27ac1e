import { formatLength } from '../units/display.ts';
import { define } from './define.ts';
import { hauler, truck } from './examples.ts';

/** Sizes in m along, across and up, as far as known. */
interface Extent {
  readonly length?: number;
  readonly width?: number;
  readonly height?: number;
}

const BODY = '  body from 600 mm to 3600 mm back, width 1500 mm\n';

const lockerTo = (end: string) => hauler(`${BODY}  locker chest from 2800 mm to ${end} back, floor 500 mm up\n`);

const ladder = (size: string) =>
  [
    `item ladder 18 kg size ${size}\n`,
    truck('  locker hold from 1600 mm to 3800 mm back, width 1400 mm, floor 700 mm up, height 1200 mm\n'),
    'rig Errand {\n  tow Truck\n  stow ladder in Truck.hold\n  case out { }\n}\n',
  ].join('');

const placed = (back: string) =>
  [
    'item crate 18 kg size 400 x 400 x 300 mm\n',
    truck('  locker hold from 1600 mm to 3800 mm back, width 1400 mm, floor 700 mm up, height 1200 mm\n'),
    `rig Errand {\n  tow Truck\n  stow crate in Truck.hold at ${back} back\n  case out { }\n}\n`,
  ].join('');

/** RW48x: things that do not go where they are said to be. */
export const EXTENTS = {
  'outside-body': define({
    code: 'RW481',
    severity: 'warning',
    title: 'Something lies outside the body',
    message: ({ what, by, side }: { readonly what: string; readonly by: number; readonly side: string }) =>
      `${what} reaches ${formatLength(by)} ${side}.`,
    meaning:
      'Lockers and tanks are compared with the outline of the body by their size, where it is known; other things by their centre. The space between the coupling and the body of a trailer counts as inside, and so does what is under the floor or on the roof.',
    mend: 'Correct the place, the extent or the outline of the body.',
    example: lockerTo('4200 mm'),
    mended: lockerTo('3500 mm'),
  }),
  'item-too-large': define({
    code: 'RW482',
    severity: 'warning',
    title: 'An item is larger than its locker',
    message: (parameters: {
      readonly item: string;
      readonly size: Extent;
      readonly locker: string;
      readonly room: Extent;
      readonly by: number;
    }) => {
      const { item, size, locker, room, by } = parameters;
      const fits = `${item} (${extent(size)}) does not fit into ${locker} (${extent(room)})`;
      return `${fits}: whichever way it lies, ${formatLength(by)} are missing.`;
    },
    meaning:
      'The item is tried in every way it can be laid or stood with its edges along those of the locker, as far as the inner size of the locker is stated. Where its height is not stated the item is not stood up higher than it is.',
    mend: 'Stow the item elsewhere, or correct one of the sizes.',
    example: ladder('3200 x 400 x 150 mm'),
    mended: ladder('2100 x 400 x 150 mm'),
  }),
  'item-outside-locker': define({
    code: 'RW483',
    severity: 'warning',
    title: 'An item lies outside the locker it is stowed in',
    message: ({
      item,
      locker,
      by,
      side,
    }: {
      readonly item: string;
      readonly locker: string;
      readonly by: number;
      readonly side: string;
    }) => `${item} is stowed in ${locker}, but its place is ${formatLength(by)} ${side} of it.`,
    meaning:
      'A `stow` line with a place of its own puts the middle of the item beyond the extent of the locker it names. The load is computed for the place, the limit of the locker is held against the item all the same.',
    mend: 'Correct the place, or name the locker that is there.',
    example: placed('900 mm'),
    mended: placed('2400 mm'),
  }),
} as const;

/** `2 000 mm long, 1 200 mm wide`: what is known of a size. */
function extent({ length, width, height }: Extent): string {
  const named = [
    [length, 'long'],
    [width, 'wide'],
    [height, 'high'],
  ] as const;
  return named.flatMap(([value, word]) => (value === undefined ? [] : [`${formatLength(value)} ${word}`])).join(', ');
}
