import type { Estimate, MissingReading } from '../mechanics/weighing/reconciliation.ts';
import { type DisplaySystem, formatLength, formatMass } from '../units/display.ts';
import { listed } from './wording.ts';

/** `42 kg ± 9 kg`: a mass with its standard error, kg. */
export function massEstimate({ value, standardError }: Estimate, system: DisplaySystem): string {
  return `${formatMass(value, system)} ± ${formatMass(standardError, system)}`;
}

/** The words for either side of the datum along an axis, positive first. */
const SIDES = { x: ['ahead', 'back'], y: ['left', 'right'], z: ['up', 'down'] } as const;

export type Axis = keyof typeof SIDES;

/** `1 900 mm ± 300 mm back`: a coordinate in the unit's frame, m. */
export function placeEstimate({ value, standardError }: Estimate, axis: Axis, system: DisplaySystem): string {
  return `${formatLength(Math.abs(value), system)} ± ${formatLength(standardError, system)} ${sideOf(value, axis)}`;
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
  const [positive, negative] = SIDES[axis];
  const by = `${formatLength(Math.abs(value - filed), system)} ± ${formatLength(standardError, system)}`;
  return `the tare of ${unit} has its centre ${by} further ${value > filed ? positive : negative} than the file has it`;
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
