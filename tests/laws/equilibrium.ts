import { type Combination, type Field, STANDARD_GRAVITY, type Unit } from '../../language/mechanics/combination.ts';
import type { MassSource } from '../../language/mechanics/influence.ts';

/** Loads found by writing down every equation of equilibrium and compliance of all units at once. Numbers in kg. */
export interface Equilibrium {
  readonly units: readonly { coupling: number; drawbar: number; axles: readonly (readonly number[])[] }[];
}

interface Unknowns {
  readonly coupling?: number;
  readonly push?: number;
  readonly ground: number;
  readonly pitch: number;
  readonly heave?: number;
  readonly axles: readonly (readonly number[])[];
}

type Equation = [row: number[], right: number];

/**
 * An independent check of the support loads: no influences, no recursion, only numbers. Unknown are all axle loads, all
 * coupling forces, all longitudinal ground forces and the attitude of every unit; one linear system by Gaussian
 * elimination. A device given by its moment only.
 */
export function solveEquilibrium(
  combination: Combination,
  field: Field,
  sources: readonly MassSource[],
  deviceMoment = 0,
): Equilibrium {
  const { units } = combination;
  let count = 0;
  const next = () => count++;
  const unknowns: Unknowns[] = units.map((unit) => ({
    coupling: carries(unit) ? next() : undefined,
    push: unit.coupling ? next() : undefined,
    ground: next(),
    pitch: next(),
    heave: carries(unit) ? undefined : next(),
    axles: unit.groups.map(({ axles }) => axles.map(next)),
  }));
  const equations = units.flatMap((unit, u) => [
    ...balance(unit, u, { combination, field, sources, unknowns, count, deviceMoment }),
    ...compliance(unit, u, combination, unknowns, count),
  ]);
  const found = eliminate(equations);
  const at = (index: number | undefined) => (index === undefined ? 0 : (found[index] ?? Number.NaN));
  return {
    units: unknowns.map(({ coupling, push, axles }) => ({
      coupling: at(coupling),
      drawbar: -at(push),
      axles: axles.map((group) => group.map(at)),
    })),
  };
}

function carries(unit: Unit): boolean {
  return unit.coupling !== undefined && unit.couplingCarries;
}

function jointHeight({ units }: Combination, u: number): number {
  return u > 0 ? (units[u - 1]?.hitch?.z ?? Number.NaN) : (units[u]?.coupling?.z ?? 0);
}

function equation(count: number, right: number, entries: readonly (readonly [number | undefined, number])[]): Equation {
  const row = new Array<number>(count).fill(0);
  for (const [index, factor] of entries) if (index !== undefined) row[index] = (row[index] ?? 0) + factor;
  return [row, right];
}

interface Whole {
  readonly combination: Combination;
  readonly field: Field;
  readonly sources: readonly MassSource[];
  readonly unknowns: readonly Unknowns[];
  readonly count: number;
  readonly deviceMoment: number;
}

/** Vertical, longitudinal and pitch equilibrium, and how the longitudinal demand is divided. */
function balance(unit: Unit, u: number, whole: Whole): Equation[] {
  const { combination, field, sources, unknowns, count, deviceMoment } = whole;
  const own = unknowns[u];
  if (own === undefined) return [];
  const behind = unknowns[u + 1];
  const hitch = unit.hitch ?? { x: 0, z: 0 };
  const angle = Math.atan(field.grade);
  const down = Math.cos(angle);
  const forward = field.deceleration / STANDARD_GRAVITY - Math.sin(angle);
  const mine = sources.filter((source) => source.unit === u);
  const mass = mine.reduce((sum, each) => sum + each.mass, 0);
  const noseDown = mine.reduce((sum, { mass: m, centre }) => sum + m * (down * centre.x + forward * centre.z), 0);
  const device = u === 0 ? deviceMoment : u === 1 ? -deviceMoment : 0;
  const axles = own.axles.flatMap((group, g) =>
    group.map((index, a) => ({ index, x: unit.groups[g]?.axles[a]?.x ?? 0 })),
  );
  const equations = [
    equation(count, down * mass, [
      ...axles.map(({ index }) => [index, 1] as const),
      [own.coupling, 1],
      [behind?.coupling, -1],
    ]),
    equation(count, forward * mass, [
      [own.ground, 1],
      [own.push, 1],
      [behind?.push, -1],
    ]),
    equation(count, noseDown + device / STANDARD_GRAVITY, [
      ...axles.map(({ index, x }) => [index, x] as const),
      [own.coupling, unit.coupling?.x ?? 0],
      [behind?.coupling, -hitch.x],
      [own.push, jointHeight(combination, u)],
      [behind?.push, -hitch.z],
    ]),
  ];
  if (unit.coupling) {
    equations.push(equation(count, forward > 0 ? unit.brakeShare * forward * mass : 0, [[own.ground, 1]]));
  }
  return equations;
}

/** Load of every axle = rate · how far the frame presses it in; the axles of an equalised group are loaded alike. */
function compliance(
  unit: Unit,
  u: number,
  combination: Combination,
  unknowns: readonly Unknowns[],
  count: number,
): Equation[] {
  const own = unknowns[u];
  if (own === undefined) return [];
  const known = unit.groups.every(({ axles }) => axles.every(({ rate }) => rate !== undefined));
  const raised = known && carries(unit) ? jointHeight(combination, u) - (unit.coupling?.z ?? 0) : 0;
  const pivot = carries(unit) ? (unit.coupling?.x ?? 0) : 0;
  const equations: Equation[] = [];
  const spring = (loads: readonly number[], x: number, rate: number) =>
    equation(count, -rate * raised, [
      ...loads.map((index) => [index, 1] as const),
      [own.pitch, rate * (x - pivot)],
      [own.heave, rate],
    ]);
  for (const [g, { axles, suspension }] of unit.groups.entries()) {
    const loads = own.axles[g] ?? [];
    const rates = axles.map(({ rate }) => (known && rate !== undefined ? rate / STANDARD_GRAVITY : 1000));
    if (suspension === 'independent') {
      for (const [a, { x }] of axles.entries()) equations.push(spring(loads.slice(a, a + 1), x, rates[a] ?? 0));
    } else {
      const middle = axles.reduce((sum, { x }) => sum + x / axles.length, 0);
      const rate = rates.reduce((sum, each) => sum + each, 0);
      equations.push(spring(loads, middle, rate));
      for (const index of loads.slice(1)) {
        equations.push(
          equation(count, 0, [
            [index, 1],
            [loads[0], -1],
          ]),
        );
      }
    }
  }
  return equations;
}

/** Gaussian elimination with scaled partial pivoting. */
function eliminate(equations: readonly Equation[]): number[] {
  const rows = equations.map(([row, right]) => {
    const scale = Math.max(...row.map(Math.abs));
    return [...row, right].map((value) => value / scale);
  });
  const n = rows.length;
  const get = (i: number, j: number) => rows[i]?.[j] ?? Number.NaN;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let i = column + 1; i < n; i++) if (Math.abs(get(i, column)) > Math.abs(get(pivot, column))) pivot = i;
    const [a, b] = [rows[column], rows[pivot]];
    if (a === undefined || b === undefined) return [];
    rows[column] = b;
    rows[pivot] = a;
    for (let i = column + 1; i < n; i++) {
      const factor = get(i, column) / get(column, column);
      rows[i] = (rows[i] ?? []).map((value, j) => (j < column ? 0 : value - factor * get(column, j)));
    }
  }
  const found = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let right = get(i, n);
    for (let j = i + 1; j < n; j++) right -= get(i, j) * (found[j] ?? 0);
    found[i] = right / get(i, i);
  }
  return found;
}
