import { boxInertia, cylinderInertia, type Inertia, principalInertia, zeroInertia } from './inertia.ts';
import type { Body } from './mass.ts';
import type { Position, Size } from './vector.ts';

/** The inside of a tank, in metres; `point` where no size is known, so that the fluid stays at the centre. */
export type TankShape =
  | { readonly kind: 'box'; readonly size: Size }
  | { readonly kind: 'upright-cylinder'; readonly diameter: number; readonly height: number }
  | { readonly kind: 'lying-cylinder'; readonly diameter: number; readonly length: number; readonly axis: 'x' | 'y' }
  | { readonly kind: 'point' };

/** Where the fluid is (m above the centre of the shape) and its inertia about its own centre, frozen in place. */
interface Filling {
  readonly rise: number;
  readonly inertia: Inertia;
}

/**
 * The fluid in a tank filled from the bottom of its shape.
 * `level` is the share of `capacity` (m³) that is in the tank, 0 to 1, and by that share of its volume the shape is
 * filled, whether or not the stated capacity equals the shape's volume; `density` in kg/m³; `centre` is the centre of
 * the shape (m). The fluid counts as frozen: a free surface additionally lowers the roll stiffness, which is not
 * simulated. A level beyond 0 to 1 scales the mass only.
 */
export function fluidBody(shape: TankShape, capacity: number, density: number, level: number, centre: Position): Body {
  const mass = capacity * density * level;
  const { rise, inertia } = fill(shape, Math.min(1, Math.max(0, level)), mass);
  return { mass, centre: { x: centre.x, y: centre.y, z: centre.z + rise }, inertia };
}

function fill(shape: TankShape, level: number, mass: number): Filling {
  switch (shape.kind) {
    case 'point':
      return { rise: 0, inertia: zeroInertia() };
    case 'box': {
      const size = { ...shape.size, height: level * shape.size.height };
      return { rise: (size.height - shape.size.height) / 2, inertia: boxInertia(mass, size) };
    }
    case 'upright-cylinder': {
      const height = level * shape.height;
      return { rise: (height - shape.height) / 2, inertia: cylinderInertia(mass, shape.diameter, height, 'z') };
    }
    case 'lying-cylinder':
      return fillLyingCylinder(shape.diameter / 2, shape.length, shape.axis, level, mass);
  }
}

/**
 * The level (0 to 1) at which the surface of the fluid stands `height` m above the centre of the shape; where no size is
 * known, empty below the centre and full above.
 */
export function levelWithSurfaceAt(shape: TankShape, height: number): number {
  const within = (value: number) => Math.min(1, Math.max(0, value));
  switch (shape.kind) {
    case 'point':
      return height < 0 ? 0 : 1;
    case 'box':
      return within(height / shape.size.height + 0.5);
    case 'upright-cylinder':
      return within(height / shape.height + 0.5);
    case 'lying-cylinder':
      return segmentArea(Math.acos(Math.min(1, Math.max(-1, (-2 * height) / shape.diameter)))) / Math.PI;
  }
}

/** The cross-section of the fluid is a circular segment; its centroid and second moments by integration. */
function fillLyingCylinder(radius: number, length: number, axis: 'x' | 'y', level: number, mass: number): Filling {
  const a = halfAngle(level);
  const segment = segmentArea(a);
  const drop = segment > 0 ? (2 * Math.sin(a) ** 3) / (3 * segment) : 1;
  const r2 = radius * radius;
  const upright = segment > 0 ? Math.max(0, (a - Math.sin(4 * a) / 4) / (4 * segment) - drop * drop) : 0;
  const sideways = segment > 0 ? (a / 4 - Math.sin(2 * a) / 6 + Math.sin(4 * a) / 48) / segment : 0;
  const vertical = mass * r2 * upright;
  const across = mass * r2 * Math.max(0, sideways);
  const along = (mass * length * length) / 12;
  const inertia =
    axis === 'x'
      ? principalInertia(vertical + across, along + vertical, along + across)
      : principalInertia(along + vertical, vertical + across, along + across);
  return { rise: -drop * radius, inertia };
}

/** Area of the segment of half angle `a` (rad, from the bottom) in a circle of radius 1: a − sin a·cos a. */
function segmentArea(a: number): number {
  const s = 2 * a;
  if (s > 0.5) return (s - Math.sin(s)) / 2;
  const q = s * s;
  return ((s * q) / 12) * (1 - (q / 20) * (1 - (q / 42) * (1 - (q / 72) * (1 - (q / 110) * (1 - q / 156)))));
}

/** The half angle (rad, 0 to π) of the segment that holds the share `level` of a circle; bracketed Newton steps. */
function halfAngle(level: number): number {
  if (!(level > 0)) return 0;
  if (level >= 1) return Math.PI;
  const target = Math.PI * level;
  let low = 0;
  let high = Math.PI;
  let a = Math.min(Math.PI / 2, Math.cbrt(1.5 * target));
  for (let i = 0; i < 60; i++) {
    const excess = segmentArea(a) - target;
    if (excess > 0) high = a;
    else low = a;
    const sine = Math.sin(a);
    const newton = a - excess / (2 * sine * sine);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - a) <= 1e-15 * a) return next;
    a = next;
  }
  return a;
}
