import type { Unit } from '../combination.ts';
import { type Influence, unitInfluence } from '../influence.ts';

/** A point of a unit in its plane of symmetry, m: x forward, z above the ground while it stands level. */
export interface SupportPoint {
  readonly x: number;
  readonly z: number;
}

/**
 * A unit standing alone on two supports of which one is raised: the wheel centre of the axle that stays on the ground,
 * and the wheel centre of the raised axle or the coupling point.
 */
export interface Tilt {
  readonly standing: SupportPoint;
  readonly raised: SupportPoint;
  /** How far the unit is pitched out of level, rad, above 0 and below π/2. */
  readonly pitch: number;
}

/**
 * The reading under the raised support (kg), brakes off and wheels free to turn so that the ground only pushes upwards:
 * moments about the standing wheel centre, with the unit as one rigid body, R·(d·cos θ − Δz·sin θ) = m·((x − xₛ)·cos θ
 * − (z − zₛ)·sin θ) along the direction from the standing to the raised support. With both supports at one height this
 * is ISO 10392:2011 (axle lift), h = r + (b − L·R/W)·cot θ.
 *
 * Takes for granted: suspensions blocked or not yielding, no unit coupled, loads that do not shift (tanks full or
 * empty), and a group of axles that pivots about its centre (one axle, or equalised). `count` units, of which `unit` is
 * tilted. Undefined where the readings cannot tell: no pitch, or the raised support not beside the standing one.
 */
export function raisedSupportInfluence(count: number, unit: number, tilt: Tilt): Influence | undefined {
  const { standing, raised, pitch } = tilt;
  const slope = Math.tan(pitch);
  const direction = Math.sign(raised.x - standing.x);
  const lever = Math.abs(raised.x - standing.x) - (raised.z - standing.z) * slope;
  if (!(pitch > 0 && pitch < Math.PI / 2 && lever > 0)) return undefined;
  return unitInfluence(count, unit, {
    one: (standing.z * slope - direction * standing.x) / lever,
    x: direction / lever,
    z: -slope / lever,
  });
}

/** The reading under the wheels that stay on the ground: what the raised support does not carry. */
export function standingSupportInfluence(count: number, unit: number, tilt: Tilt): Influence | undefined {
  const own = raisedSupportInfluence(count, unit, tilt)?.units[unit];
  return own && unitInfluence(count, unit, { one: 1 - own.one, x: -own.x, z: -own.z });
}

/**
 * The pitch (rad) by which the raised support gets `rise` m higher while the other keeps its height:
 * d·sin θ + Δz·cos θ = Δz + rise. For an axle at the same height as the other, sin θ = rise / L. Undefined if it is not
 * above 0 or beyond what the distance allows.
 */
export function pitchOfRise(standing: SupportPoint, raised: SupportPoint, rise: number): number | undefined {
  const span = Math.abs(raised.x - standing.x);
  const step = raised.z - standing.z;
  const reach = Math.hypot(span, step);
  if (!(rise > 0 && rise + step < reach)) return undefined;
  return Math.asin((rise + step) / reach) - Math.atan2(step, span);
}

/** The end of a unit that is raised: an axle group at the front or the rear, or the coupling. */
export type RaisedEnd = 'front' | 'rear' | 'coupling';

/**
 * The supports of a unit that stands alone with one end raised, its wheel centres `wheelRadius` m above the ground.
 * Undefined where it does not stand on two supports that pivot: a coupling is raised of a unit with one axle group
 * behind a coupling that carries load, an axle of a unit with two groups and none such.
 */
export function tiltSupports(unit: Unit, end: RaisedEnd, wheelRadius: number): Omit<Tilt, 'pitch'> | undefined {
  const pivots = unit.groups.every(({ axles, suspension }) => axles.length === 1 || suspension === 'equalised');
  const [front, rear, more] = unit.groups.map(({ axles }) => ({
    x: axles.reduce((sum, { x }) => sum + x, 0) / axles.length,
    z: wheelRadius,
  }));
  if (!pivots || front === undefined || more !== undefined) return undefined;
  const coupling = unit.couplingCarries ? unit.coupling : undefined;
  if (end === 'coupling') return coupling && rear === undefined ? { standing: front, raised: coupling } : undefined;
  if (coupling !== undefined || rear === undefined) return undefined;
  return end === 'front' ? { standing: rear, raised: front } : { standing: front, raised: rear };
}
