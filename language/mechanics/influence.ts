import type { Position } from './vector.ts';

/**
 * Load on one support, in kg per kilogram placed at (X, Y, Z) of one unit: one + x·X + y·Y + z·Z + xy·X·Y, and `tare` more for
 * a mass of the empty unit. `one`, `tare` and `xy` are per kilogram and per kilogram m², the others per kilogram metre.
 */
export interface UnitInfluence {
  readonly one: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly xy: number;
  /** 0 where absent. */
  readonly tare?: number;
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
  /** True of a mass of the empty unit. */
  readonly isTare?: boolean;
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

/** What is on board of unit `unit` (of `count`) beyond its empty mass (kg), as a load like any other. */
export function payloadInfluence(count: number, unit: number): Influence {
  return unitInfluence(count, unit, { one: 1, tare: -1 });
}

/** Whether no mass changes a load. */
export function isConstant({ units }: Influence): boolean {
  return units.every(
    ({ one, x, y, z, xy, tare = 0 }) => one === 0 && x === 0 && y === 0 && z === 0 && xy === 0 && tare === 0,
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
    ...(a.tare === undefined && b.tare === undefined
      ? {}
      : { tare: factorA * (a.tare ?? 0) + factorB * (b.tare ?? 0) }),
  };
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

/** kg of load per kg placed at `centre` of unit `unit`, or of its empty mass there; nothing from a unit outside the combination. */
export function influenceAt(influence: Influence, unit: number, centre: Position, isTare = false): number {
  const own = influence.units[unit];
  if (own === undefined) return 0;
  const perKilogram = own.one + own.x * centre.x + own.y * centre.y + own.z * centre.z + own.xy * centre.x * centre.y;
  return isTare && own.tare !== undefined ? perKilogram + own.tare : perKilogram;
}

/** The load (kg) alone, without its terms. */
export function evaluateLoadValue<S>(influence: Influence, sources: readonly MassSource<S>[]): number {
  let value = influence.constant;
  for (const { mass, unit, centre, isTare } of sources) value += mass * influenceAt(influence, unit, centre, isTare);
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
  const perKilogram = influenceAt(influence, source.unit, centre, source.isTare);
  return {
    source,
    influence: perKilogram,
    load: mass * perKilogram,
    slope: { x: mass * (own.x + own.xy * centre.y), y: mass * (own.y + own.xy * centre.x), z: mass * own.z },
  };
}
