/** Readings of one axle, level and with that axle raised (ISO 10392:2011, axle lift method). SI units, loads in kg. */
export interface AxleLift {
  /** Mass of the unit, kg. */
  readonly mass: number;
  /** Distance between the raised axle and the one that stays on the ground, m. */
  readonly wheelbase: number;
  /** Reading of the axle to be raised while the unit is level, kg. */
  readonly levelReading: number;
  /** Pitch of the unit while that axle is raised, rad, above 0 and below π/2. */
  readonly angle: number;
  /** Height of the wheel centres above the ground (static loaded radius), m. */
  readonly wheelRadius: number;
}

/**
 * Height of the centre of gravity above the ground, m: h = r + (b − L·R/W)·cot θ with b = L·(level reading)/W and R
 * the reading (kg) of the raised axle (ISO 10392:2011). `undefined` where the readings cannot tell: no mass, no
 * wheelbase, no pitch.
 */
export function centreOfGravityHeight(lift: AxleLift, raisedReading: number): number | undefined {
  if (!isUsable(lift)) return undefined;
  const shift = (lift.wheelbase * (lift.levelReading - raisedReading)) / lift.mass;
  return lift.wheelRadius + shift / Math.tan(lift.angle);
}

/** The inverse: the reading (kg) of the raised axle of a unit whose centre of gravity is at `height` m. */
export function raisedAxleReading(lift: AxleLift, height: number): number | undefined {
  if (!isUsable(lift)) return undefined;
  const shift = (height - lift.wheelRadius) * Math.tan(lift.angle);
  return lift.levelReading - (shift * lift.mass) / lift.wheelbase;
}

function isUsable(lift: AxleLift): boolean {
  return lift.mass > 0 && lift.wheelbase > 0 && lift.angle > 0 && lift.angle < Math.PI / 2;
}
