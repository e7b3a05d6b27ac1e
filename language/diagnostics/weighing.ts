import { type DisplaySystem, formatMass } from '../units/display.ts';
import { define } from './define.ts';
import { slip } from './weighing-lines.ts';
import {
  type ChangedTare,
  changeWords,
  type FoundTare,
  foundWords,
  type LackingUnit,
  missingWords,
  residualWords,
} from './weighing-wording.ts';
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
      alike: readonly { readonly name: string; readonly read: number }[];
      othersAgree: boolean;
      system: DisplaySystem;
    }) => {
      const mass = (kilograms: number) => formatMass(kilograms, system);
      const away = `${mass(Math.abs(read - other))} ${read > other ? 'more' : 'less'} than the ${mass(other)} that go with the other readings of ${weighing}`;
      const doubt =
        alike.length === 0
          ? ''
          : ` It may as well be ${eitherOf(alike.map((each) => `${each.name} (${mass(each.read)})`))} that is off: nothing tells them apart.`;
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
      assumedDivision,
      together,
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
      /** Taken for the scale that the slip does not state. */
      assumedDivision?: number;
      /** All slips that `found` and `lacking` are told by; this one alone where absent. */
      together?: readonly string[];
      found: readonly FoundTare[];
      lacking: readonly LackingUnit[];
      contradiction: boolean;
      system: DisplaySystem;
    }) => {
      const mass = (kilograms: number) => formatMass(kilograms, system);
      const where = state === '' ? '' : ` in ${state}`;
      const most = `${name} reads ${mass(read)} where ${mass(other)} is computed${where}, ${residualWords(read - other, tolerance, system)}`;
      const taken =
        assumedDivision === undefined ? '' : ` (no scale is stated: a division of ${mass(assumedDivision)} is taken)`;
      const share = beyond === count ? `all ${count} readings` : `${beyond} of its ${count} readings`;
      const also = beyond > 1 ? `; ${share} are beyond tolerance` : '';
      return `${weighing} and the file disagree: ${most}${taken}${also}.${explanation({ together, found, lacking, contradiction, system })} The scale outranks the file.`;
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
  'slips-disagree': define({
    code: 'RW956',
    severity: 'warning',
    title: 'Slips disagree with each other',
    message: ({
      slips,
      odd,
      changes,
      suspects,
      system,
    }: {
      slips: readonly string[];
      /** The slip without which the others agree. */
      odd?: string;
      changes: readonly ChangedTare[];
      /** Readings one of which alone would explain it. */
      suspects: readonly { readonly name: string; readonly read: number }[];
      system: DisplaySystem;
    }) => {
      const who =
        odd === undefined
          ? `${listed(slips)} disagree with each other`
          : `${odd} disagrees with ${listed(slips.filter((slip) => slip !== odd))}`;
      const what =
        changes.length === 0
          ? ''
          : `: ${listed(changes.slice(0, MOST_CHANGES).map((each) => changeWords(each, system)))}`;
      const readings = suspects.map(({ name, read }) => `${name} (${formatMass(read, system)})`);
      const off = readings.length === 0 ? 'or a reading is off' : `or one reading is off: ${eitherOf(readings)}`;
      return `${who}${what}. Something changed in between, ${off}. Until that is settled each slip stands for itself, and no estimate is made of all of them.`;
    },
    meaning:
      'All slips of a rig, and those of its units by themselves, are joined in one estimate of each tare: the tares are the same on all of them, and the readings are off independently. Here they do not go together, although each goes with itself: what is not in the file changed between the visits, a slip names the wrong case, or a reading that nothing else on its slip checks is off.',
    mend: 'Look for what was fitted, taken out or loaded between the visits and put it into the file, by cases if need be. Delete the slip that no longer holds, or weigh again.',
    example: slip(
      '    scale 10 kg\n    solo Hauler { axles 590 kg  coupling 50 kg }\n  }\n  weighing november "The same, a month later" {\n    scale 10 kg\n    solo Hauler { axles 650 kg  coupling 60 kg }\n',
    ),
    mended: slip(
      '    scale 10 kg\n    solo Hauler { axles 590 kg  coupling 50 kg }\n  }\n  weighing november "The same, a month later" {\n    scale 10 kg\n    solo Hauler { axles 590 kg  coupling 50 kg }\n',
    ),
    source: COMMON_PRACTICE,
    authority: 'common practice',
    caution: SCALE_FIRST,
  }),
} as const;

/** More changes than this are not told. */
const MOST_CHANGES = 3;

/** `a, b or c`. */
function eitherOf(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} or ${last}`;
}

/** What would explain the disagreement, what is missing to tell, or that no tare does. */
function explanation({
  together,
  found,
  lacking,
  contradiction,
  system,
}: {
  readonly together?: readonly string[];
  readonly found: readonly FoundTare[];
  readonly lacking: readonly LackingUnit[];
  readonly contradiction: boolean;
  readonly system: DisplaySystem;
}): string {
  if (contradiction) return ' What would explain it cannot be told while readings contradict each other.';
  if (found.length > 0)
    return ` ${together === undefined ? 'The slip says' : `${listed(together)} together say`} that ${listed(found.map((tare) => foundWords(tare, system)))} (± one standard error).`;
  if (lacking.length > 0) return ` What would explain it cannot be told: missing is ${missingWords(lacking)}.`;
  return ' No other tare would explain it: compare the readings, the case, and where the file has the axles.';
}
