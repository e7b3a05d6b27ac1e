import { listed } from '../../diagnostics/wording.ts';
import { systemOf } from '../display-system.ts';
import type { UnitModel } from '../model.ts';
import { report, type Scope } from '../scope.ts';
import type { PassPlace } from './pass-place.ts';
import type { ReadingModel } from './weighing-model.ts';

/** A load and the loads that it is the sum of, by the names of the computed quantities. */
interface Sum {
  readonly whole: string;
  readonly parts: readonly string[];
}

/** How units stand while they are weighed. */
export type Standing = Pick<PassPlace, 'kind' | 'units'>;

/** Loads that are sums of others whatever the masses are, in a pass; parts before what they are parts of. */
function sumsOf({ kind, units }: Standing): readonly Sum[] {
  const coupled = kind === 'coupled' && units.length > 1;
  const wholes = units.map(({ name }) => (coupled ? `${name}.axles_total` : `${name}.mass`));
  return [
    ...units.flatMap(({ name, groups }) =>
      groups.flatMap((group) => {
        const load = `${name}.${group.name}`;
        const axles = group.axles.length < 2 ? [] : group.axles.map((_, index) => `${load}.axle${index + 1}`);
        return [
          ...axles.map((axle) => sidesOf(axle)),
          { whole: `${load}.left`, parts: axles.map((axle) => `${axle}.left`) },
          { whole: `${load}.right`, parts: axles.map((axle) => `${axle}.right`) },
          sidesOf(load),
          { whole: `${load}.load`, parts: axles.map((axle) => `${axle}.load`) },
        ];
      }),
    ),
    ...units.map((unit, index) => ({ whole: wholes[index] ?? '', parts: supportsOf(unit, coupled) })),
    { whole: 'rig.mass', parts: wholes },
  ].filter(({ parts }) => parts.length > 0);
}

const sidesOf = (load: string): Sum => ({ whole: `${load}.load`, parts: [`${load}.left`, `${load}.right`] });

/** What carries a unit on the road: its axles, and alone also its coupling, if that carries anything. */
function supportsOf({ name, groups, coupling }: UnitModel, coupled: boolean): readonly string[] {
  const axles = groups.map((group) => `${name}.${group.name}.load`);
  const carried = coupling !== undefined && coupling.kind !== 'drawbar';
  return !coupled && carried ? [`${name}.coupling.load`, ...axles] : axles;
}

/** What readings make of a load: one of them, or several that add up to it. */
export interface KnownLoad {
  /** kg */
  readonly value: number;
  /** Standard deviation, kg. */
  readonly deviation: number;
  /** How far it may be off, kg: the half steps of all readings in it. */
  readonly halfSteps: number;
  readonly readings: readonly ReadingModel[];
}

/**
 * Reports readings that cannot all be true because some of them add up to what another one reads: left and right of an
 * axle, the axles of a group, the groups of a unit. A reading is off by half a step of its scale at most. Gives the
 * readings that are part of it.
 */
export function reportImpossible(
  readings: readonly ReadingModel[],
  place: PassPlace,
  scope: Scope,
): readonly ReadingModel[] {
  const { impossible } = addUpReadings(readings, place);
  for (const { whole, parts } of impossible) {
    const [last] = [...whole.readings, ...parts.readings].sort((a, b) => b.location.span.start - a.location.span.start);
    if (last === undefined) continue;
    const others = [...whole.readings, ...parts.readings].filter((reading) => reading !== last);
    report(
      scope,
      'readings-impossible',
      {
        pass: place.words,
        whole: listed(whole.readings.map(({ name }) => name)),
        read: whole.value,
        parts: listed(parts.readings.map(({ name }) => name)),
        sum: parts.value,
        allowed: whole.halfSteps + parts.halfSteps,
        system: systemOf(scope.declaration),
      },
      last.location,
      others.map(({ location, name }) => ({ location, message: `The reading of ${name}.` })),
    );
  }
  return impossible.flatMap(({ whole, parts }) => [...whole.readings, ...parts.readings]);
}

interface ImpossibleSum {
  readonly whole: KnownLoad;
  readonly parts: KnownLoad;
}

/**
 * What the readings of a pass make of its loads, by the names of the computed quantities, and what cannot be true of
 * it.
 */
function addUpReadings(
  readings: readonly ReadingModel[],
  standing: Standing,
): { readonly known: ReadonlyMap<string, KnownLoad>; readonly impossible: readonly ImpossibleSum[] } {
  const known = new Map<string, KnownLoad>(
    readings.map((reading): [string, KnownLoad] => [reading.quantity, knownBy(reading)]),
  );
  const impossible: ImpossibleSum[] = [];
  for (const { whole, parts } of sumsOf(standing)) {
    const made = addUp(parts.map((part) => known.get(part)));
    if (made === undefined) continue;
    const read = known.get(whole);
    if (read === undefined) known.set(whole, made);
    else if (Math.abs(read.value - made.value) > read.halfSteps + made.halfSteps + ROUNDING)
      impossible.push({ whole: read, parts: made });
  }
  return { known, impossible };
}

/** The loads that the readings of a pass give, directly or added up. */
export function knownLoads(readings: readonly ReadingModel[], standing: Standing): ReadonlyMap<string, KnownLoad> {
  return addUpReadings(readings, standing).known;
}

function knownBy(reading: ReadingModel): KnownLoad {
  const { value, deviation } = reading;
  // A standard deviation of d/√12 is that of a step d.
  return { value, deviation, halfSteps: Math.sqrt(3) * deviation, readings: [reading] };
}

/** kg; rounding of floating-point sums. */
const ROUNDING = 1e-6;

function addUp(parts: readonly (KnownLoad | undefined)[]): KnownLoad | undefined {
  let sum: KnownLoad = { value: 0, deviation: 0, halfSteps: 0, readings: [] };
  for (const part of parts) {
    if (part === undefined) return undefined;
    sum = {
      value: sum.value + part.value,
      deviation: Math.hypot(sum.deviation, part.deviation),
      halfSteps: sum.halfSteps + part.halfSteps,
      readings: [...sum.readings, ...part.readings],
    };
  }
  return sum;
}
