import { define } from './define.ts';

const FILE = (limit: string) => `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²
  require ${limit} "house rule"
}
`;

/** RW58x: the author's own limits. */
export const REQUIREMENTS = {
  'requirement-violated': define({
    code: 'RW581',
    severity: 'error',
    title: 'A limit of your own is not met',
    message: ({
      what,
      value,
      by,
      limit,
      state,
      note,
      moves,
    }: {
      what: string;
      value: string;
      by: string;
      limit: string;
      state: string;
      note: string;
      moves: string;
    }) => `${what} is ${value}, ${by} ${limit} in ${state}${note}.${moves}`,
    meaning:
      'A `require` statement of the file does not hold in the state named. What is required of lateral stability (`rig.damping` and the like) is held on every road looked at.',
    mend: 'Change the layout or the load, or the limit if it is no longer meant.',
    example: FILE('Hauler.coupling.share at least 12 %'),
    mended: FILE('Hauler.coupling.share at least 5 %'),
  }),
  'requirement-open': define({
    code: 'RW582',
    severity: 'error',
    title: 'The requirement cannot be checked',
    message: ({ problem }: { problem: string }) => `This cannot be checked: ${problem}.`,
    meaning:
      'The expression names no computed quantity of this unit or rig, or compares things of different dimensions.',
    mend: 'Use the names that the hover and `rigwright loads --format json` show.',
    example: FILE('Hauler.coupling.shere at least 5 %'),
    mended: FILE('Hauler.coupling.share at least 5 %'),
  }),
} as const;
