import type { Position } from './vector.ts';

/**
 * Load on one support, in kg per kilogram placed at (X, Y, Z) of one unit: one + x·X + y·Y + z·Z + xy·X·Y, and so much
 * more for a mass of some sorts. `one`, `sorts` and `xy` are per kilogram and per kilogram m², the others per kilogram metre.
 */
export interface UnitInfluence {
  readonly one: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly xy: number;
  /** By the sort of the mass (`MassSource.sort`); 0 for a sort that is not among them. */
  readonly sorts?: Readonly<Record<string, number>>;
}

/**
 * A load in kg (mass equivalent: force / g) as an affine function of all masses of a combination:
 * constant + Σ mass · influence of its place in its unit. `units` has one entry per unit, by unit index.
 */
export interface Influence {
  readonly constant: number;
  readonly units: readonly UnitInfluence[];
}

/** A mass (kg) at a place of a unit, identified by whatever the caller carries (`id`). */
export interface MassSource<S = string> {
  readonly id: S;
  /** Index of its unit in the combination. */
  readonly unit: number;
  readonly mass: number;
  readonly centre: Position;
  /** What sort of mass it is, for loads that count some sorts only; `TARE` for a mass of the empty unit. */
  readonly sort?: string;
  /** Least and greatest mass (kg) it can take, where it can vary. */
  readonly bounds?: { readonly min: number; readonly max: number };
}

/** What one source contributes to a load. */
export interface LoadTerm<S = string> {
  readonly source: MassSource<S>;
  /** kg of load per kg of the source. */
  readonly influence: number;
  /** kg of load. */
  readonly load: number;
  /** kg of load per metre the source is moved forward, left, up. */
  readonly slope: Position;
}

/** A load (kg) with what it is made of: value = constant + Σ terms; `terms[i]` belongs to `sources[i]`. */
export interface Load<S = string> {
  readonly value: number;
  readonly constant: number;
  readonly terms: readonly LoadTerm<S>[];
}

/** The sort of masses that make up the empty unit. */
export const TARE = 'tare';

const NO_UNIT_INFLUENCE: UnitInfluence = { one: 0, x: 0, y: 0, z: 0, xy: 0 };

/** A load of `constant` kg in a combination of `count` units, whatever the masses. */
export function constantInfluence(count: number, constant: number): Influence {
  return { constant, units: new Array<UnitInfluence>(count).fill(NO_UNIT_INFLUENCE) };
}

/** A load that only the masses of unit `unit` (of `count`) cause; coefficients not given are zero. */
export function unitInfluence(count: number, unit: number, coefficients: Partial<UnitInfluence>): Influence {
  const units = new Array<UnitInfluence>(count).fill(NO_UNIT_INFLUENCE);
  units[unit] = { ...NO_UNIT_INFLUENCE, ...coefficients };
  return { constant: 0, units };
}

/** The mass (kg) of the named units of a combination of `count` units, as a load like any other. */
export function massInfluence(count: number, units: readonly number[]): Influence {
  return sumInfluences(
    count,
    units.map((unit) => unitInfluence(count, unit, { one: 1 })),
  );
}

/** The mass (kg) of unit `unit` (of `count`) without the sorts of mass that are named, as a load like any other. */
export function massWithout(count: number, unit: number, sorts: readonly string[]): Influence {
  return unitInfluence(count, unit, { one: 1, sorts: Object.fromEntries(sorts.map((sort) => [sort, -1])) });
}

/** What is on board of unit `unit` (of `count`) beyond its empty mass (kg). */
export function payloadInfluence(count: number, unit: number): Influence {
  return massWithout(count, unit, [TARE]);
}

/** Whether no mass changes a load. */
export function isConstant({ units }: Influence): boolean {
  return units.every(
    ({ one, x, y, z, xy, sorts = {} }) =>
      one === 0 && x === 0 && y === 0 && z === 0 && xy === 0 && Object.values(sorts).every((more) => more === 0),
  );
}

/** factorA·a + factorB·b, the composition everything else is made of; both of one combination. */
export function blendInfluences(a: Influence, factorA: number, b: Influence, factorB: number): Influence {
  const units: UnitInfluence[] = [];
  for (let i = 0; i < a.units.length; i++) {
    units.push(blendUnit(a.units[i] ?? NO_UNIT_INFLUENCE, factorA, b.units[i] ?? NO_UNIT_INFLUENCE, factorB));
  }
  return { constant: factorA * a.constant + factorB * b.constant, units };
}

function blendUnit(a: UnitInfluence, factorA: number, b: UnitInfluence, factorB: number): UnitInfluence {
  return {
    one: factorA * a.one + factorB * b.one,
    x: factorA * a.x + factorB * b.x,
    y: factorA * a.y + factorB * b.y,
    z: factorA * a.z + factorB * b.z,
    xy: factorA * a.xy + factorB * b.xy,
    ...(a.sorts === undefined && b.sorts === undefined ? {} : { sorts: blendSorts(a, factorA, b, factorB) }),
  };
}

function blendSorts(
  { sorts: a = {} }: UnitInfluence,
  factorA: number,
  { sorts: b = {} }: UnitInfluence,
  factorB: number,
) {
  const sorts = new Set([...Object.keys(a), ...Object.keys(b)]);
  return Object.fromEntries([...sorts].map((sort) => [sort, factorA * (a[sort] ?? 0) + factorB * (b[sort] ?? 0)]));
}

export function addInfluences(a: Influence, b: Influence): Influence {
  return blendInfluences(a, 1, b, 1);
}

export function scaleInfluence(influence: Influence, factor: number): Influence {
  return {
    constant: influence.constant * factor,
    units: influence.units.map((unit) => blendUnit(unit, factor, NO_UNIT_INFLUENCE, 0)),
  };
}

/** The sum of any number of influences of one combination of `count` units. */
export function sumInfluences(count: number, influences: readonly Influence[]): Influence {
  return influences.reduce(addInfluences, constantInfluence(count, 0));
}

/**
 * An influence of a smaller combination (a unit weighed alone) as one of a larger one with `count` units: `units` says
 * which unit of the larger one each of the smaller one's is.
 */
export function renumberInfluence(influence: Influence, units: readonly number[], count: number): Influence {
  const renumbered = new Array<UnitInfluence>(count).fill(NO_UNIT_INFLUENCE);
  for (const [index, own] of influence.units.entries()) {
    const place = units[index];
    if (place !== undefined && place < count) renumbered[place] = own;
  }
  return { constant: influence.constant, units: renumbered };
}

/** kg of load per kg of a sort of mass placed at `centre` of unit `unit`; nothing from a unit outside the combination. */
export function influenceAt(influence: Influence, unit: number, centre: Position, sort?: string): number {
  const own = influence.units[unit];
  if (own === undefined) return 0;
  const perKilogram = own.one + own.x * centre.x + own.y * centre.y + own.z * centre.z + own.xy * centre.x * centre.y;
  return sort === undefined || own.sorts === undefined ? perKilogram : perKilogram + (own.sorts[sort] ?? 0);
}

/** The load (kg) alone, without its terms. */
export function evaluateLoadValue<S>(influence: Influence, sources: readonly MassSource<S>[]): number {
  let value = influence.constant;
  for (const { mass, unit, centre, sort } of sources) value += mass * influenceAt(influence, unit, centre, sort);
  return value;
}

/** The load (kg) with one term per source, in the order of the sources. */
export function evaluateLoad<S>(influence: Influence, sources: readonly MassSource<S>[]): Load<S> {
  const terms: LoadTerm<S>[] = [];
  let value = influence.constant;
  for (const source of sources) {
    const term = loadTerm(influence, source);
    value += term.load;
    terms.push(term);
  }
  return { value, constant: influence.constant, terms };
}

function loadTerm<S>(influence: Influence, source: MassSource<S>): LoadTerm<S> {
  const { mass, centre } = source;
  const own = influence.units[source.unit] ?? NO_UNIT_INFLUENCE;
  const perKilogram = influenceAt(influence, source.unit, centre, source.sort);
  return {
    source,
    influence: perKilogram,
    load: mass * perKilogram,
    slope: { x: mass * (own.x + own.xy * centre.y), y: mass * (own.y + own.xy * centre.x), z: mass * own.z },
  };
}
