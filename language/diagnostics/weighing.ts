import { type DisplaySystem, formatMass } from '../units/display.ts';
import { define } from './define.ts';
import { slip } from './weighing-lines.ts';
import { type FoundTare, foundWords, type LackingUnit, missingWords } from './weighing-wording.ts';
import { listed } from './wording.ts';

const COMMON_PRACTICE = 'common practice, no source';

const SCALE_FIRST =
  'A reading on a good scale outranks a computed load: while the two disagree, load and drive by the reading.';

/** A reading beside another figure for it; masses in kg. */
export interface ComparedReading {
  readonly name: string;
  readonly read: number;
  readonly other: number;
}

/** RW953 on: weighbridge slips against the computed loads, and their readings against each other. */
export const WEIGHINGS = {
  'reading-contradicts': define({
    code: 'RW953',
    severity: 'warning',
    title: 'A reading contradicts the others',
    message: ({
      weighing,
      reading: { name, read, other },
      alike,
      othersAgree,
      system,
    }: {
      weighing: string;
      reading: ComparedReading;
      /** Other readings that it cannot be told from. */
      alike: readonly string[];
      othersAgree: boolean;
      system: DisplaySystem;
    }) => {
      const mass = (kilograms: number) => formatMass(kilograms, system);
      const away = `${mass(Math.abs(read - other))} ${read > other ? 'more' : 'less'} than the ${mass(other)} that go with the other readings of ${weighing}`;
      const doubt =
        alike.length === 0 ? '' : ` It may as well be ${listed(alike)} that is off: nothing tells them apart.`;
      const rest = othersAgree ? '' : ' The others disagree among themselves too.';
      return `${name} reads ${mass(read)}, ${away}, whatever the tares are.${doubt}${rest} Compare with the printed slip, or weigh again.`;
    },
    meaning:
      'The slip holds more readings than are needed to find the tares, and this one does not go with the rest: no mass and place of the tares makes all of them come out. It is tested by its residual after the fit in its standard deviations.',
    mend: 'Compare with the printed slip, look whether something moved or was loaded between the readings, or weigh again. A load left out of the case of one pass has the same effect.',
    example: slip(
      '    scale 10 kg\n    Truck.front 1140 kg\n    Truck.rear 1030 kg\n    Hauler.axles 680 kg\n    solo Truck { front 1180 kg  rear 940 kg }\n    solo Hauler { axles 590 kg  coupling 50 kg }\n',
    ),
    mended: slip(
      '    scale 10 kg\n    Truck.front 1160 kg\n    Truck.rear 1010 kg\n    Hauler.axles 590 kg\n    solo Truck { front 1180 kg  rear 940 kg }\n    solo Hauler { axles 590 kg  coupling 50 kg }\n',
    ),
    source: 'W. Baarda, A testing procedure for use in geodetic networks, Delft 1968 (from memory)',
  }),
  'slip-disagrees': define({
    code: 'RW954',
    severity: 'warning',
    title: 'A slip and the computed loads disagree',
    message: ({
      weighing,
      state,
      beyond,
      count,
      worst: { name, read, other },
      tolerance,
      found,
      lacking,
      contradiction,
      system,
    }: {
      weighing: string;
      /** `case loaded`; empty for a rig without cases. */
      state: string;
      /** How many of its readings are beyond tolerance. */
      beyond: number;
      count: number;
      worst: ComparedReading;
      tolerance: number;
      found: readonly FoundTare[];
      lacking: readonly LackingUnit[];
      contradiction: boolean;
      system: DisplaySystem;
    }) => {
      const mass = (kilograms: number) => formatMass(kilograms, system);
      const where = state === '' ? '' : ` in ${state}`;
      const most = `${name} reads ${mass(read)} where ${mass(other)} is computed${where}, ${mass(Math.abs(read - other))} ${read > other ? 'more' : 'less'} with a tolerance of ${mass(tolerance)}`;
      const also = beyond > 1 ? `; ${beyond} of its ${count} readings are beyond tolerance` : '';
      return `${weighing} and the file disagree: ${most}${also}.${explanation({ found, lacking, contradiction, system })} The scale outranks the file.`;
    },
    meaning:
      'The tolerance is twice the standard deviation of scale and prediction together (about 95 %): of the scale by its division or accuracy, of the prediction by the tolerances that the file states. What the message says of a unit is the change of its tare that makes the readings come out best, with standard errors: a mass that is on board and not listed is the same to a scale as a tare that is off.',
    mend: 'Look for what is on board and not in the file, check the case against what was loaded, then take over the weighed tare (a quick fix does it), or add what the parts list lacks.',
    example: slip(
      '    scale 10 kg\n    solo Hauler { axles 650 kg  coupling 60 kg }\n    Truck.front 1160 kg\n    Truck.rear 1020 kg\n',
    ),
    mended: slip(
      '    scale 10 kg\n    solo Hauler { axles 590 kg  coupling 50 kg }\n    Truck.front 1160 kg\n    Truck.rear 1010 kg\n',
    ),
    source: COMMON_PRACTICE,
    authority: 'common practice',
    caution: SCALE_FIRST,
  }),
  'slip-open': define({
    code: 'RW955',
    severity: 'information',
    title: 'A slip checks the computed loads but determines no tare',
    message: ({ weighing, lacking }: { weighing: string; lacking: readonly LackingUnit[] }) =>
      `${weighing} checks the computed loads, but its readings do not tell mass and place of any tare. What is missing: ${missingWords(lacking)}.`,
    meaning:
      'Readings of a coupled rig hold the loads of several units at once. To estimate a tare, the readings have to tell its mass apart from what other units put on it.',
    mend: 'Weigh what the message names on the next visit and add the readings, or leave the slip as it is: it is compared with the computed loads all the same.',
    example: slip('    scale 20 kg\n    Hauler.axles 580 kg\n'),
    mended: slip('    scale 20 kg\n    solo Hauler { axles 580 kg  coupling 60 kg }\n'),
  }),
} as const;

/** What would explain the disagreement, or what is missing to tell. */
function explanation({
  found,
  lacking,
  contradiction,
  system,
}: {
  readonly found: readonly FoundTare[];
  readonly lacking: readonly LackingUnit[];
  readonly contradiction: boolean;
  readonly system: DisplaySystem;
}): string {
  if (contradiction) return ' What would explain it cannot be told while readings contradict each other.';
  if (found.length > 0)
    return ` The slip says that ${listed(found.map((tare) => foundWords(tare, system)))} (± one standard error).`;
  if (lacking.length > 0) return ` What would explain it cannot be told: missing is ${missingWords(lacking)}.`;
  return '';
}
