import type { Position, Size } from './vector.ts';

/**
 * A symmetric inertia tensor in kg m², in axes parallel to the unit's.
 * Diagonal elements are moments (xx = ∫(y² + z²) dm), the others are tensor elements, that is *negative* products of
 * inertia (xy = −∫x·y dm). Unless said otherwise it is taken about the body's own centre of gravity.
 */
export interface Inertia {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly xz: number;
  readonly yz: number;
}

const NO_INERTIA: Inertia = { xx: 0, yy: 0, zz: 0, xy: 0, xz: 0, yz: 0 };

/** The inertia of a point mass about itself. */
export function zeroInertia(): Inertia {
  return NO_INERTIA;
}

/** A body whose principal axes are the unit's axes. */
export function principalInertia(xx: number, yy: number, zz: number): Inertia {
  return { xx, yy, zz, xy: 0, xz: 0, yz: 0 };
}

/** A uniform box of `mass` kg and `size` m about its centre: m/12·(l² + w²) about the vertical, and so on. */
export function boxInertia(mass: number, size: Size): Inertia {
  const l2 = size.length * size.length;
  const w2 = size.width * size.width;
  const h2 = size.height * size.height;
  const m = mass / 12;
  return principalInertia(m * (w2 + h2), m * (l2 + h2), m * (l2 + w2));
}

/** A uniform thin rod of `mass` kg about its centre; `span` (m) is the vector from one end to the other. */
export function rodInertia(mass: number, span: Position): Inertia {
  const { x, y, z } = span;
  const m = mass / 12;
  return {
    xx: m * (y * y + z * z),
    yy: m * (x * x + z * z),
    zz: m * (x * x + y * y),
    xy: -m * x * y,
    xz: -m * x * z,
    yz: -m * y * z,
  };
}

/** A uniform solid cylinder of `mass` kg, `diameter` and `length` in m along `axis`, about its centre. */
export function cylinderInertia(mass: number, diameter: number, length: number, axis: 'x' | 'y' | 'z'): Inertia {
  const along = (mass * diameter * diameter) / 8;
  const across = (mass * diameter * diameter) / 16 + (mass * length * length) / 12;
  return principalInertia(axis === 'x' ? along : across, axis === 'y' ? along : across, axis === 'z' ? along : across);
}

/** Parallel axes: the inertia, about a point `offset` m away from the centre of gravity, of a body of `mass` kg. */
export function translateInertia(inertia: Inertia, mass: number, offset: Position): Inertia {
  const { x, y, z } = offset;
  return {
    xx: inertia.xx + mass * (y * y + z * z),
    yy: inertia.yy + mass * (x * x + z * z),
    zz: inertia.zz + mass * (x * x + y * y),
    xy: inertia.xy - mass * x * y,
    xz: inertia.xz - mass * x * z,
    yz: inertia.yz - mass * y * z,
  };
}

/** The sum of two inertias taken about the same point. */
/** The inertia of a body of `factor` times the density. */
export function scaleInertia({ xx, yy, zz, xy, xz, yz }: Inertia, factor: number): Inertia {
  return { xx: xx * factor, yy: yy * factor, zz: zz * factor, xy: xy * factor, xz: xz * factor, yz: yz * factor };
}

export function addInertia(a: Inertia, b: Inertia): Inertia {
  return {
    xx: a.xx + b.xx,
    yy: a.yy + b.yy,
    zz: a.zz + b.zz,
    xy: a.xy + b.xy,
    xz: a.xz + b.xz,
    yz: a.yz + b.yz,
  };
}
