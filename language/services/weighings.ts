import {
  type Axis,
  changeWords,
  foundWords,
  massEstimate,
  missingWords,
  placeEstimate,
  sideOf,
} from '../diagnostics/weighing-wording.ts';
import { listed } from '../diagnostics/wording.ts';
import type { Reconciliation } from '../mechanics/weighing/reconciliation.ts';
import { estimateOf, foundTares, lackingUnits, nameOf, slipName } from '../rules/weighings.ts';
import type { UnitModel } from '../semantics/model.ts';
import type { RigResult } from '../semantics/state.ts';
import type { JointWeighing, LeftOutSlip, SlipDisagreement } from '../semantics/weighing/joint.ts';
import type { PassModel, WeighingModel } from '../semantics/weighing/weighing-model.ts';
import type {
  ReadingVerdict,
  WeighedReading,
  WeighedTare,
  WeighingResult,
} from '../semantics/weighing/weighing-result.ts';
import { ANGLE, MASS } from '../units/dimension.ts';
import { type DisplaySystem, formatLength, formatMass, formatNumber, formatValue } from '../units/display.ts';
import { formatAgainst, formatError } from '../units/estimates.ts';

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
        difference: signed(residual, tolerance, system),
        tolerance: formatAgainst(tolerance, tolerance, MASS, system),
        verdict,
      }),
    );
    return [{ heading: passWords(pass, slip.weighing, rig.units, system), rows, readings: own }];
  });
}

function signed(kilograms: number, tolerance: number, system: DisplaySystem): string {
  const text = formatAgainst(kilograms, tolerance, MASS, system);
  return kilograms > 0 && text !== formatAgainst(0, tolerance, MASS, system) ? `+${text}` : text;
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

/** What the file and slips say of the tares, unit by unit; units of which slips tell nothing have one line. */
export function tareRows({ tares }: Pick<WeighingResult, 'tares'>, system: DisplaySystem): readonly TareRow[] {
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
  /** What it is the difference of, the same in all cases: `axles of Truck coupled up less Truck alone`. */
  readonly basis: string;
  /** What that is the basis of, in any case: `Cart.coupling.load`. */
  readonly name: string;
  readonly weighed: string;
  readonly computed: string;
}

export function differenceRows(
  { differences, weighing }: WeighingResult,
  system: DisplaySystem,
): readonly DifferenceRow[] {
  return differences.map(({ quantity, basis, value, deviation, predicted, case: state }) => ({
    quantity: state === undefined || state === weighing.case ? quantity : `${quantity} in ${state}`,
    basis,
    name: quantity,
    weighed: massEstimate({ value, standardError: deviation }, system),
    computed: formatMass(predicted, system),
  }));
}

/** What the scale is known by. */
export function scaleWords({ scale: { kind, value, deviation } }: WeighingModel, system: DisplaySystem): string {
  const mass = formatMass(value, system);
  const spread = formatError(deviation, MASS, system);
  if (kind === 'accuracy') return `Readings have a standard deviation of ${mass}.`;
  const said =
    kind === 'assumed' ? `No scale is stated: a division of ${mass} is taken` : `The scale has a division of ${mass}`;
  return `${said}, a standard deviation of ${spread} (a division / √12).`;
}

/** The slip and the file in one sentence. */
export function slipVerdict({ readings, suspects }: WeighingResult): string {
  const count = readings.length;
  const all = count === 1 ? 'The reading agrees' : `All ${count} readings agree`;
  if (suspects.length > 0) return 'Readings contradict each other: look at these first.';
  const beyond = readings.filter(({ verdict }) => verdict === 'beyond tolerance').length;
  if (beyond === 0) return `${all} with the file within tolerance.`;
  return `${beyond} of ${count} ${count === 1 ? 'reading' : 'readings'} beyond tolerance: the file is off, or the case is.`;
}

/**
 * What follows from the readings, in sentences: what is off, whether they agree, and what is missing, unless that is
 * told of all slips together.
 */
export function slipSentences(
  slip: WeighingResult,
  joint: JointWeighing | undefined,
  system: DisplaySystem,
): readonly string[] {
  const { tares, suspects, weighing } = slip;
  return [
    ...foundSentences(suspects.length > 0 ? [] : tares, 'The slip says', system),
    ...agreementSentences(slip),
    ...(weighing.passes.some(({ kind }) => kind === 'raised') ? [RAISED_TAKES] : []),
    ...(estimateOf(slip, joint).together === undefined ? missingSentences(tares) : []),
  ];
}

function foundSentences(tares: readonly WeighedTare[], who: string, system: DisplaySystem): readonly string[] {
  const found = foundTares(tares);
  if (found.length === 0) return [];
  return [
    `${who} that ${listed(found.map((tare) => foundWords(tare, system)))} (± one standard error).`,
    ...rollUpSentences(
      tares,
      found.map(({ unit }) => unit),
    ),
  ];
}

function missingSentences(tares: readonly WeighedTare[]): readonly string[] {
  const lacking = lackingUnits(tares, 'all');
  return lacking.length > 0 ? [`Missing to determine the rest: ${missingWords(lacking)}.`] : [];
}

/** The slips that are one estimate: `october, november and gate of Hauler together`. */
export function jointHeading({ slips }: JointWeighing): string {
  return `${listed(slips.map(slipName))} together`;
}

const LEFT_OUT: Readonly<Record<LeftOutSlip['reason'], string>> = {
  contradictory: 'its own readings do not go together',
  'too many': 'with those before it there would be more readings than are joined',
};

/** What follows from all slips together, in sentences; that they disagree, and what they say then, instead. */
export function jointSentences(joint: JointWeighing, system: DisplaySystem): readonly string[] {
  const { tares, disagreement, reconciliation, leftOut } = joint;
  const without = leftOut.map(({ slip, reason }) => `${slipName(slip)} is left out: ${LEFT_OUT[reason]}.`);
  if (disagreement !== undefined) return [...without, ...disagreementSentences(joint, disagreement, system)];
  const { degreesOfFreedom } = reconciliation;
  return [
    ...without,
    ...foundSentences(tares, 'The slips say', system),
    `The slips agree with each other${degreesOfFreedom > 0 ? `: together ${degreesOfFreedom} more ${degreesOfFreedom === 1 ? 'reading' : 'readings'} than needed` : ''}.`,
    ...factorSentences(reconciliation),
    ...missingSentences(tares),
  ];
}

function disagreementSentences(
  { slips }: JointWeighing,
  { odd, changes }: SlipDisagreement,
  system: DisplaySystem,
): readonly string[] {
  const names = slips.map(slipName);
  const who =
    odd === undefined
      ? `${listed(names)} disagree with each other`
      : `${slipName(odd)} disagrees with ${listed(names.filter((name) => name !== slipName(odd)))}`;
  const told = changes.map(({ of, figure, one, other, change }) =>
    changeWords({ unit: of.name, figure, one: slipName(one), other: slipName(other), change }, system),
  );
  return [
    `${who}${told.length > 0 ? `: ${listed(told)}` : ''}. Something changed in between, or a reading is off; no estimate is made of all of them.`,
  ];
}

function rollUpSentences(tares: readonly WeighedTare[], found: readonly string[]): readonly string[] {
  const rolledUp = tares.filter(({ of }) => found.includes(of.name) && !of.parts.some(({ kind }) => kind === 'tare'));
  return rolledUp.map(
    ({ of }) => `The tare of ${of.name} is the sum of its parts: the difference has to be found among them.`,
  );
}

function agreementSentences({ suspects, reconciliation, weighing }: WeighingResult): readonly string[] {
  const { agreement, degreesOfFreedom } = reconciliation;
  const [worst, ...alike] = suspects;
  const sentences: string[] = [];
  if (worst !== undefined) {
    const doubt =
      alike.length === 0 ? '' : `, or ${listed(alike.map((each) => nameOf(each, weighing)))}: nothing tells them apart`;
    sentences.push(`${nameOf(worst, weighing)} contradicts the other readings${doubt}.`);
  } else if (agreement === 'untested') {
    sentences.push('No reading checks another one: there are no more than are needed for what they determine.');
  } else if (agreement === 'agree') {
    sentences.push(`The readings agree with each other: ${degreesOfFreedom} more than needed.`);
  } else sentences.push('The readings disagree with each other by more than the scale explains.');
  return [...sentences, ...factorSentences(reconciliation)];
}

function factorSentences({ standardErrorFactor }: Pick<Reconciliation, 'standardErrorFactor'>): readonly string[] {
  if (!(standardErrorFactor > 1)) return [];
  return [
    `Standard errors are ${formatNumber(standardErrorFactor)} times what the scale alone gives, since the readings differ by that much.`,
  ];
}
