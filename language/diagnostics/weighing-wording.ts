import type { Estimate, MissingReading } from '../mechanics/weighing/reconciliation.ts';
import { LENGTH, MASS } from '../units/dimension.ts';
import type { DisplaySystem } from '../units/display.ts';
import { formatAgainst, formatError, formatWithin } from '../units/estimates.ts';
import { listed } from './wording.ts';

/** `42 kg ± 9 kg`: a mass with its standard error, kg. */
export function massEstimate({ value, standardError }: Estimate, system: DisplaySystem): string {
  return `${formatWithin(value, standardError, MASS, system)} ± ${formatError(standardError, MASS, system)}`;
}

/** The words for either side of the datum along an axis, positive first. */
const SIDES = { x: ['ahead', 'back'], y: ['left', 'right'], z: ['up', 'down'] } as const;

export type Axis = keyof typeof SIDES;

/** `1 900 mm ± 300 mm back`: a coordinate in the unit's frame, m. */
export function placeEstimate({ value, standardError }: Estimate, axis: Axis, system: DisplaySystem): string {
  const text = lengthEstimate({ value, standardError }, system);
  // What is shown as the datum lies on neither side of it.
  return `${text} ${sideOf(text.startsWith('0 ') ? 0 : value, axis)}`;
}

/** `1 900 mm ± 300 mm`: the size of a length with its standard error, m. */
function lengthEstimate({ value, standardError }: Estimate, system: DisplaySystem): string {
  return `${formatWithin(Math.abs(value), standardError, LENGTH, system)} ± ${formatError(standardError, LENGTH, system)}`;
}

/** `48 kg more with a tolerance of 2 kg`: how far a reading is from what it is held against, kg. */
export function residualWords(residual: number, tolerance: number, system: DisplaySystem): string {
  const by = formatAgainst(Math.abs(residual), tolerance, MASS, system);
  return `${by} ${residual > 0 ? 'more' : 'less'} with a tolerance of ${formatAgainst(tolerance, tolerance, MASS, system)}`;
}

/** The direction of a coordinate: `back`. */
export function sideOf(value: number, axis: Axis): string {
  // The datum itself is `0 mm back`.
  const [positive, negative] = SIDES[axis];
  return value > 0 || (value === 0 && axis !== 'x') ? positive : negative;
}

/** A unit with the readings that it lacks. */
export interface LackingUnit {
  readonly unit: string;
  readonly kind: 'vehicle' | 'trailer';
  readonly missing: readonly MissingReading[];
}

const WORDS: Readonly<Record<MissingReading, Readonly<Record<LackingUnit['kind'], string>>>> = {
  total: { vehicle: 'all its axles uncoupled', trailer: 'its axles and its coupling uncoupled' },
  longitudinal: { vehicle: 'one axle by itself', trailer: 'its coupling by itself' },
  lateral: { vehicle: 'left and right of an axle apart', trailer: 'left and right of an axle apart' },
  height: { vehicle: 'one end raised', trailer: 'the coupling raised' },
};

/** More units than this are counted, not named. */
const MOST_UNITS = 3;

/**
 * What would have to be weighed besides: `for Hauler its axles and its coupling uncoupled; for Truck one end raised`.
 */
export function missingWords(units: readonly LackingUnit[]): string {
  const words = units
    .slice(0, MOST_UNITS)
    .map(({ unit, kind, missing }) => `for ${unit} ${listed(missing.map((reading) => WORDS[reading][kind]))}`);
  const more = units.length - MOST_UNITS;
  return [...words, ...(more > 0 ? [`and for ${more} more`] : [])].join('; ');
}

/** A tare that a slip finds to be off. */
export type FoundTare = HeavierTare | DisplacedTare;

/** Its mass is off, kg, with the place of what is not listed, m. */
export interface HeavierTare {
  readonly unit: string;
  /** Negative where the file lists too much. */
  readonly unlisted: Estimate;
  readonly x?: Estimate;
  readonly y?: Estimate;
  readonly z?: Estimate;
}

/** Its mass is as in the file, its centre of gravity is elsewhere, m. */
export interface DisplacedTare {
  readonly unit: string;
  readonly axis: Axis;
  readonly filed: number;
  readonly found: Estimate;
}

/**
 * `Hauler weighs 42 kg ± 9 kg more than the file has it, about 1 900 mm ± 300 mm back`, or `the tare of Hauler has its
 * centre 60 mm ± 8 mm further back than the file has it`.
 */
export function foundWords(found: FoundTare, system: DisplaySystem): string {
  return 'axis' in found ? displacedWords(found, system) : heavierWords(found, system);
}

function displacedWords({ unit, axis, filed, found }: DisplacedTare, system: DisplaySystem): string {
  const { value, standardError } = found;
  return `${furtherWords(unit, axis, { value: value - filed, standardError }, system)} than the file has it`;
}

function furtherWords(unit: string, axis: Axis, by: Estimate, system: DisplaySystem): string {
  const [positive, negative] = SIDES[axis];
  return `the tare of ${unit} has its centre ${lengthEstimate(by, system)} further ${by.value > 0 ? positive : negative}`;
}

/** A figure of a tare that two slips give too far apart, kg or m. */
export interface ChangedTare {
  readonly unit: string;
  readonly figure: 'mass' | Axis;
  /** The slips by name, and what the other one gives more. */
  readonly one: string;
  readonly other: string;
  readonly change: Estimate;
}

/** `by november Hauler weighs 42 kg ± 9 kg more than by october`. */
export function changeWords({ unit, figure, one, other, change }: ChangedTare, system: DisplaySystem): string {
  const { value, standardError } = change;
  const by =
    figure === 'mass'
      ? `${unit} weighs ${massEstimate({ value: Math.abs(value), standardError }, system)} ${value < 0 ? 'less' : 'more'}`
      : furtherWords(unit, figure, change, system);
  return `by ${other} ${by} than by ${one}`;
}

function heavierWords({ unit, unlisted, x, y, z }: HeavierTare, system: DisplaySystem): string {
  const { value, standardError } = unlisted;
  const mass = massEstimate({ value: Math.abs(value), standardError }, system);
  const place = [
    ...(x === undefined ? [] : [placeEstimate(x, 'x', system)]),
    ...(y === undefined ? [] : [placeEstimate(y, 'y', system)]),
    ...(z === undefined ? [] : [placeEstimate(z, 'z', system)]),
  ];
  const where = place.length === 0 ? '' : `, about ${place.join(', ')}`;
  return `${unit} weighs ${mass} ${value < 0 ? 'less' : 'more'} than the file has it${where}`;
}
