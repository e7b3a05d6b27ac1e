import { Matrix, SVD } from 'ml-matrix';
import { type Component, componentIndex } from './design.ts';
import type { MissingReading } from './reconciliation.ts';

/** A column of derivatives shorter than this (kg per kg or kg per kg m) is nothing but rounding. */
const NO_EFFECT = 1e-9;

/** Singular values below this share of the largest are zero. */
const RANK_TOLERANCE = 1e-7;

/** How far (in unit columns) a component may lie outside of what is determined. */
const OUTSIDE = 1e-6;

/** What readings determine of a correction. */
export interface Determined {
  /**
   * Columns: independent combinations of components that readings determine, as many as their rank. Any correction made
   * of them is the smallest of all that change the readings as it does, when each component is measured by the change
   * of readings that it makes.
   */
  readonly basis: Matrix;
  readonly rank: number;
  /** Whether the readings determine a component (index in the correction) by itself. */
  readonly isDetermined: (component: number) => boolean;
}

/**
 * What rows of derivatives (one for each reading, `count` long) determine: singular values of the rows scaled to unit
 * columns and then to unit rows, so that neither units of measure nor accuracy of scales decide it.
 */
export function findDetermined(rows: readonly (readonly number[])[], count: number): Determined {
  const scales = Array.from({ length: count }, (_, column) => {
    const length = Math.hypot(...rows.map((row) => row[column] ?? 0));
    return length > NO_EFFECT ? length : 0;
  });
  const scaled = rows.map((row) => unitRow(row.map((value, column) => divide(value, scales[column]))));
  const { vectors, rank } = rowSpace(scaled, count);
  const basis = Matrix.zeros(count, rank);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < rank; j++) basis.set(i, j, divide(vectors.get(i, j), scales[i]));
  }
  const inside = (component: number) => {
    let sum = 0;
    for (let j = 0; j < rank; j++) sum += vectors.get(component, j) ** 2;
    return 1 - sum < OUTSIDE ** 2;
  };
  return { basis, rank, isDetermined: inside };
}

function divide(value: number, scale: number | undefined): number {
  return scale === undefined || scale === 0 ? 0 : value / scale;
}

function unitRow(row: readonly number[]): number[] {
  const length = Math.hypot(...row);
  return row.map((value) => divide(value, length));
}

/** Orthonormal columns that span the rows, first in `vectors`, `rank` of them. */
function rowSpace(rows: readonly (readonly number[])[], count: number): { vectors: Matrix; rank: number } {
  if (rows.length === 0 || count === 0) return { vectors: Matrix.zeros(count, 0), rank: 0 };
  // The decomposition wants no fewer rows than columns; rows of zeros say nothing.
  const padding = Array.from({ length: Math.max(0, count - rows.length) }, () => new Array<number>(count).fill(0));
  const decomposition = new SVD(new Matrix([...rows.map((row) => [...row]), ...padding]));
  const largest = decomposition.diagonal[0] ?? 0;
  const rank = decomposition.diagonal.filter((value) => value > RANK_TOLERANCE * largest).length;
  return { vectors: decomposition.rightSingularVectors, rank };
}

/** What to read for a component. The product moment is none of a tare's figures. */
const ASKED = [
  ['mass', 'total'],
  ['x', 'longitudinal'],
  ['y', 'lateral'],
  ['z', 'height'],
] as const satisfies readonly (readonly [Component, MissingReading])[];

/**
 * What would have to be read besides to determine mass and centre of one tare: each asked for in turn, only if what is
 * there (`rows` with what they determine) and what was asked for before does not determine it already.
 */
export function findMissing(
  rows: readonly (readonly number[])[],
  determined: Determined,
  tare: number,
): MissingReading[] {
  const count = determined.basis.rows;
  const supposed = [...rows];
  const missing: MissingReading[] = [];
  let known = determined;
  for (const [component, asked] of ASKED) {
    const at = componentIndex(tare, component);
    if (known.isDetermined(at)) continue;
    missing.push(asked);
    supposed.push(Array.from({ length: count }, (_, column) => (column === at ? 1 : 0)));
    known = findDetermined(supposed, count);
  }
  return missing;
}
