import {
  type Axis,
  foundWords,
  massEstimate,
  missingWords,
  placeEstimate,
  sideOf,
} from '../diagnostics/weighing-wording.ts';
import { listed } from '../diagnostics/wording.ts';
import { foundTares, lackingUnits, nameOf } from '../rules/weighings.ts';
import type { UnitModel } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import type { PassModel, WeighingModel } from '../semantics/weighing/weighing-model.ts';
import type {
  ReadingVerdict,
  WeighedReading,
  WeighedTare,
  WeighingResult,
} from '../semantics/weighing/weighing-result.ts';
import { ANGLE } from '../units/dimension.ts';
import { type DisplaySystem, formatLength, formatMass, formatNumber, formatValue } from '../units/display.ts';

/** What is to be said wherever slips are shown. */
export const SCALE_OUTRANKS =
  'A reading on a good scale outranks a computed load: while the two disagree, go by the scale.';

/** What readings with an end raised take for granted. */
const RAISED_TAKES =
  'With an end raised it is taken for granted that springs were blocked, tanks full or empty, brakes off, and nothing shifted.';

/** One line of the table of a slip, as text. */
export interface ReadingRow {
  readonly name: string;
  readonly read: string;
  readonly computed: string;
  /** Read less computed, with its sign. */
  readonly difference: string;
  readonly tolerance: string;
  readonly verdict: ReadingVerdict;
}

/** The readings of one pass. */
export interface PassRows {
  /** `CrewPickup alone`, `coupled up`. */
  readonly heading: string;
  readonly rows: readonly ReadingRow[];
  /** What the rows show, in their order. */
  readonly readings: readonly WeighedReading[];
}

/** The readings of a slip, pass by pass. */
export function passRows({ rig }: RigResult, slip: WeighingResult, system: DisplaySystem): readonly PassRows[] {
  return slip.weighing.passes.flatMap((pass) => {
    const own = slip.readings.filter((reading) => reading.pass === pass);
    if (own.length === 0) return [];
    const rows = own.map(
      ({ reading, predicted, residual, tolerance, verdict }): ReadingRow => ({
        name: reading.name,
        read: formatMass(reading.value, system),
        computed: formatMass(predicted, system),
        difference: signed(residual, system),
        tolerance: formatMass(tolerance, system),
        verdict,
      }),
    );
    return [{ heading: passWords(pass, slip.weighing, rig.units, system), rows, readings: own }];
  });
}

function signed(kilograms: number, system: DisplaySystem): string {
  const text = formatMass(kilograms, system);
  return kilograms > 0 && text !== formatMass(0, system) ? `+${text}` : text;
}

/** How the units stood: `coupled up`, `CrewPickup alone`, `CrewPickup alone with front raised by 12 deg`. */
function passWords(
  pass: PassModel,
  weighing: WeighingModel,
  units: readonly UnitModel[],
  system: DisplaySystem,
): string {
  const { kind, unit: index = 0, raised } = pass;
  const state = pass.case !== undefined && pass.case !== weighing.case ? `, case ${pass.case}` : '';
  if (kind === 'coupled') return (units.length > 1 ? 'coupled up' : 'as it stands') + state;
  const alone = `${units[index]?.name ?? ''} alone`;
  if (raised === undefined) return alone + state;
  const pitch = formatValue(raised.pitch, ANGLE);
  return `${alone} with ${raised.support} raised by ${pitch}, wheel centres ${formatLength(raised.wheelRadius, system)} up${state}`;
}

/** One figure of a tare, as text. */
export interface TareRow {
  readonly unit: string;
  readonly what: string;
  readonly filed: string;
  /** With its standard error; `not determined` where the readings do not tell. */
  readonly weighed: string;
}

const AXES: readonly { readonly axis: Axis; readonly what: string }[] = [
  { axis: 'x', what: 'centre along' },
  { axis: 'y', what: 'centre across' },
  { axis: 'z', what: 'centre height' },
];

/** What the file and the slip say of the tares, unit by unit; units of which the slip tells nothing have one line. */
export function tareRows({ tares }: WeighingResult, system: DisplaySystem): readonly TareRow[] {
  return tares.flatMap((tare): readonly TareRow[] => {
    const unit = tare.of.name;
    const { filed, value, standardError } = tare.mass;
    const weighed = standardError === undefined ? NOT_DETERMINED : massEstimate({ value, standardError }, system);
    const mass = { unit, what: 'mass', filed: formatMass(filed, system), weighed };
    return [mass, ...AXES.flatMap(({ axis, what }) => placeRow(tare, axis, what, system))];
  });
}

const NOT_DETERMINED = 'not determined';

function placeRow(tare: WeighedTare, axis: Axis, what: string, system: DisplaySystem): readonly TareRow[] {
  const { filed, value, standardError } = tare[axis];
  if (standardError === undefined) return [];
  const text = `${formatLength(Math.abs(filed), system)} ${sideOf(filed, axis)}`;
  return [{ unit: tare.of.name, what, filed: text, weighed: placeEstimate({ value, standardError }, axis, system) }];
}

/** What two passes give that no scale read by itself. */
export interface DifferenceRow {
  readonly quantity: string;
  readonly basis: string;
  readonly weighed: string;
  readonly computed: string;
}

export function differenceRows({ differences }: WeighingResult, system: DisplaySystem): readonly DifferenceRow[] {
  return differences.map(({ quantity, basis, value, deviation, predicted }) => ({
    quantity,
    basis,
    weighed: massEstimate({ value, standardError: deviation }, system),
    computed: formatMass(predicted, system),
  }));
}

/** What the scale is known by. */
export function scaleWords({ scale: { kind, value, deviation } }: WeighingModel, system: DisplaySystem): string {
  const mass = formatMass(value, system);
  const spread = formatMass(deviation, system);
  if (kind === 'accuracy') return `Readings have a standard deviation of ${mass}.`;
  const said =
    kind === 'assumed' ? `No scale is stated: a division of ${mass} is taken` : `The scale has a division of ${mass}`;
  return `${said}, a standard deviation of ${spread} (a division / √12).`;
}

/** What follows from the readings, in sentences: what is off, whether they agree, and what is missing. */
export function slipSentences(slip: WeighingResult, system: DisplaySystem): readonly string[] {
  const { tares, suspects } = slip;
  const found = suspects.length > 0 ? [] : foundTares(tares);
  const lacking = lackingUnits(tares, 'all');
  return [
    ...(found.length > 0
      ? [`The slip says that ${listed(found.map((tare) => foundWords(tare, system)))} (± one standard error).`]
      : []),
    ...rollUpSentences(
      slip,
      found.map(({ unit }) => unit),
    ),
    ...agreementSentences(slip),
    ...(slip.weighing.passes.some(({ kind }) => kind === 'raised') ? [RAISED_TAKES] : []),
    ...(lacking.length > 0 ? [`Missing to determine the rest: ${missingWords(lacking)}.`] : []),
  ];
}

function rollUpSentences({ tares }: WeighingResult, found: readonly string[]): readonly string[] {
  const rolledUp = tares.filter(({ of }) => found.includes(of.name) && !of.parts.some(({ kind }) => kind === 'tare'));
  return rolledUp.map(
    ({ of }) => `The tare of ${of.name} is the sum of its parts: the difference has to be found among them.`,
  );
}

function agreementSentences({ suspects, reconciliation }: WeighingResult): readonly string[] {
  const { agreement, degreesOfFreedom, standardErrorFactor } = reconciliation;
  const [worst, ...alike] = suspects;
  const sentences: string[] = [];
  if (worst !== undefined) {
    const doubt = alike.length === 0 ? '' : `, or ${listed(alike.map(nameOf))}: nothing tells them apart`;
    sentences.push(`${nameOf(worst)} contradicts the other readings${doubt}.`);
  } else if (agreement === 'untested') {
    sentences.push('No reading checks another one: there are no more than are needed for what they determine.');
  } else if (agreement === 'agree') {
    sentences.push(`The readings agree with each other: ${degreesOfFreedom} more than needed.`);
  } else sentences.push('The readings disagree with each other by more than the scale explains.');
  if (standardErrorFactor > 1) {
    sentences.push(
      `Standard errors are ${formatNumber(standardErrorFactor)} times what the scale alone gives, since the readings differ by that much.`,
    );
  }
  return sentences;
}
