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

/** The support of a unit that is raised: the index of an axle group, or the coupling. */
export type RaisedSupport = number | 'coupling';

/**
 * Index of the axle group about which a unit that stands alone turns when a support is raised. Undefined where it does not
 * stand on two supports that pivot, one axle or equalised ones each: a coupling is raised of a unit with one axle group
 * behind a coupling that carries load, an axle group of a unit with two and no such coupling.
 */
export function standingGroup(unit: Unit, raised: RaisedSupport): number | undefined {
  const pivots = unit.groups.every(({ axles, suspension }) => axles.length === 1 || suspension === 'equalised');
  const isCarried = unit.couplingCarries && unit.coupling !== undefined;
  const raisesCoupling = raised === 'coupling';
  if (!pivots || isCarried !== raisesCoupling || (!raisesCoupling && unit.groups[raised] === undefined))
    return undefined;
  const [standing, another] = [...unit.groups.keys()].filter((index) => index !== raised);
  return another === undefined ? standing : undefined;
}

/** The supports of a unit with one of them raised, its wheel centres `wheelRadius` m above the ground; see {@link standingGroup}. */
export function tiltSupports(unit: Unit, raised: RaisedSupport, wheelRadius: number): Omit<Tilt, 'pitch'> | undefined {
  const index = standingGroup(unit, raised);
  if (index === undefined) return undefined;
  const wheelCentres = unit.groups.map(({ axles }) => ({
    x: axles.reduce((sum, { x }) => sum + x, 0) / axles.length,
    z: wheelRadius,
  }));
  const standing = wheelCentres[index];
  const point = raised === 'coupling' ? unit.coupling : wheelCentres[raised];
  return standing && point && { standing, raised: point };
}
