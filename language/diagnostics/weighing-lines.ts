import { type DisplaySystem, formatMass } from '../units/display.ts';
import { define } from './define.ts';
import { yard } from './examples.ts';
import { listed } from './wording.ts';

/** The yard with a slip of these lines. */
export const slip = (lines: string) => yard({ rig: `  weighing october "Public weighbridge" {\n${lines}  }\n` });

/** RW950 to RW952: what a slip says that cannot be read, or cannot be true. */
export const WEIGHING_LINES = {
  'reading-of-nothing': define({
    code: 'RW950',
    severity: 'error',
    title: 'The slip names something that no scale could read',
    message: ({
      name,
      pass,
      several,
      known,
      hitch,
      hinged,
      nearest,
    }: {
      name: string;
      pass: string;
      several: readonly string[];
      known: readonly string[];
      /** The vehicle whose hitch is asked for as if it had a coupling. */
      hitch?: string;
      /** The trailer whose hinged drawbar is asked for. */
      hinged?: string;
      nearest?: string;
    }) => {
      if (hitch !== undefined)
        return `${hitch} has no coupling to weigh ${pass}: write what its trailer reads on the coupling, or the axles of ${hitch} with and without the trailer.`;
      if (hinged !== undefined)
        return `The drawbar of ${hinged} is hinged: no load stands on its coupling that a scale could read. Write what its axles read.`;
      if (several.length > 0) return `'${name}' could be ${listed(several)}: write which.`;
      const there = nearest === undefined ? `there is ${listed(known)}` : `the nearest is '${nearest}'`;
      return `There is no '${name}' to weigh ${pass}; ${there}.`;
    },
    replacement: ({ nearest }) => nearest,
    meaning:
      'A reading belongs to the wheels (`Hauler.axles.left`), an axle of several (`Hauler.axles.axle1`), an axle group, the coupling of a trailer, a whole unit or everything (`total`) of the units that stand on the scale.',
    mend: 'Use a name that the message lists. A line about other units belongs in the rig that has them.',
    example: slip('    scale 20 kg\n    Hauler.axle 580 kg\n'),
    mended: slip('    scale 20 kg\n    Hauler.axles 580 kg\n'),
  }),
  'end-not-raised': define({
    code: 'RW951',
    severity: 'error',
    title: 'This end cannot be raised for a reading',
    message: ({ end, can }: { end: string; can: readonly string[] }) =>
      `With ${end} raised the readings tell no height: the unit has to stand on that end and one other, each of them the coupling, one axle or axles that share their load equally${can.length === 0 ? '' : `. It can be done with ${listed(can)} raised`}.`,
    meaning:
      'The height of the centre of gravity follows from what the reading changes by when one end is raised. That holds for a unit on two supports, the raised end and the one that it turns about. Axles of several are one support if they are equalised.',
    mend: 'Raise the other end, or leave the line out.',
    example: slip(
      '    scale 20 kg\n    raised Hauler.axles 10 deg, wheel_radius 330 mm { coupling 39 kg }\n    total 2760 kg\n',
    ),
    mended: slip(
      '    scale 20 kg\n    raised Hauler.coupling 10 deg, wheel_radius 330 mm { coupling 39 kg }\n    total 2760 kg\n',
    ),
    source: 'ISO 10392 (axle lift)',
    caution:
      'Raising one end is work for a shop with the lifting gear for it: secured against rolling off and tipping, and nobody under it.',
  }),
  'readings-impossible': define({
    code: 'RW952',
    severity: 'error',
    title: 'Readings of a slip cannot all be true',
    message: ({
      pass,
      whole,
      read,
      parts,
      sum,
      allowed,
      system,
    }: {
      pass: string;
      whole: string;
      read: number;
      parts: string;
      sum: number;
      allowed: number;
      system: DisplaySystem;
    }) => {
      const mass = (kilograms: number) => formatMass(kilograms, system);
      return `These readings ${pass} cannot all be true: ${parts} give ${mass(sum)}, ${whole} ${mass(read)}. That is ${mass(Math.abs(sum - read))} apart, and the scale explains ${mass(allowed)} at most.`;
    },
    meaning:
      'Left and right make an axle, axles make a group, groups make a unit, whatever is loaded. A reading is off by half a division of its scale at most, and these differ by more than that together: one was written down wrongly, or something moved between the readings.',
    mend: 'Compare with the printed slip, or weigh again. Where the scale is less exact than its division, as axle by axle over an uneven approach, state `accuracy` instead of `scale`.',
    example: slip(
      '    scale 20 kg\n    Hauler.axles.left 300 kg\n    Hauler.axles.right 240 kg\n    Hauler.axles 600 kg\n',
    ),
    mended: slip(
      '    scale 20 kg\n    Hauler.axles.left 300 kg\n    Hauler.axles.right 300 kg\n    Hauler.axles 600 kg\n',
    ),
  }),
} as const;
