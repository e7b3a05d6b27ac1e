import { addInertia, type Inertia, translateInertia, zeroInertia } from './inertia.ts';
import type { Position } from './vector.ts';

/** A mass (kg) with its centre of gravity (m, unit frame) and its inertia about that centre (kg m²). */
export interface Body {
  readonly mass: number;
  readonly centre: Position;
  readonly inertia: Inertia;
}

/** What no mass at all amounts to: it has no centre of gravity. */
export interface NoMass {
  readonly mass: 0;
  readonly centre: undefined;
  readonly inertia: Inertia;
}

/** Mass, centre of gravity and inertia about that centre of a set of bodies. */
export type MassProperties = Body | NoMass;

const NOTHING: NoMass = { mass: 0, centre: undefined, inertia: zeroInertia() };

/** A body whose mass sits in one point. */
export function pointBody(mass: number, centre: Position): Body {
  return { mass, centre, inertia: zeroInertia() };
}

/**
 * The mass properties of bodies rigidly joined, all given in one frame.
 * A total mass of zero has no centre; the result then says so in its type.
 */
export function combine(bodies: Iterable<Body>): MassProperties {
  const parts = [...bodies];
  let mass = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  for (const part of parts) {
    mass += part.mass;
    x += part.mass * part.centre.x;
    y += part.mass * part.centre.y;
    z += part.mass * part.centre.z;
  }
  if (mass === 0) return NOTHING;
  const centre = { x: x / mass, y: y / mass, z: z / mass };
  let inertia = zeroInertia();
  for (const part of parts) {
    const offset = { x: part.centre.x - centre.x, y: part.centre.y - centre.y, z: part.centre.z - centre.z };
    inertia = addInertia(inertia, translateInertia(part.inertia, part.mass, offset));
  }
  return { mass, centre, inertia };
}
