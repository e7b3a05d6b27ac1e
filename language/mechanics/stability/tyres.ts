/**
 * Cornering stiffness of a tyre over its load: peak·sin(2·atan(load/peakLoad)), in N/rad and N.
 *
 * It rises with load, ever less, reaches its peak at `peakLoad` and falls again. Source of the form: H. B. Pacejka, Tyre
 * and Vehicle Dynamics, the cornering stiffness of the tyre formula without camber, K = k1·Fz0·sin(2·atan(Fz/(k2·Fz0))).
 */
export interface CorneringCurve {
  /** N/rad */
  readonly peak: number;
  /** N */
  readonly peakLoad: number;
}

/** Stiffness of a tyre or an axle and how it changes with load. */
export interface Stiffness {
  /** N/rad */
  readonly value: number;
  /** N/rad per N of load. */
  readonly slope: number;
}

/** Stiffness of an axle, and how it changes with the load on its left and its right side. */
export interface AxleStiffness {
  /** N/rad, both sides together. */
  readonly value: number;
  /** N/rad per N of load on that side. */
  readonly leftSlope: number;
  readonly rightSlope: number;
}

/** The curve from the tyre formula's parameters: nominal load Fz0 in N, k1 and k2 without dimension. */
export function curveOfParameters(nominalLoad: number, k1: number, k2: number): CorneringCurve {
  return { peak: k1 * nominalLoad, peakLoad: k2 * nominalLoad };
}

/**
 * The curve through `coefficient` (stiffness over load, 1/rad) at `load` N, with its peak at `peakRatio` times that load.
 */
export function curveThrough(coefficient: number, load: number, peakRatio: number): CorneringCurve {
  const share = 1 / peakRatio;
  return { peak: (coefficient * load * (1 + share * share)) / (2 * share), peakLoad: peakRatio * load };
}

/**
 * One tyre at `load` N. A tyre that carries nothing, or has left the ground, has no stiffness.
 * sin(2·atan t) = 2t/(1 + t²) without the trigonometry.
 */
export function tyreStiffness({ peak, peakLoad }: CorneringCurve, load: number): Stiffness {
  if (!(load > 0)) return { value: 0, slope: 0 };
  const t = load / peakLoad;
  const square = 1 + t * t;
  return { value: (2 * peak * t) / square, slope: (2 * peak * (1 - t) * (1 + t)) / (peakLoad * square * square) };
}

/**
 * An axle from the loads of its sides (N), each shared by `tyresPerSide` tyres (2 for dual wheels). Both sides are read
 * off the curve separately, so that carrying unequal loads costs stiffness.
 */
export function axleStiffness(curve: CorneringCurve, tyresPerSide: number, left: number, right: number): AxleStiffness {
  const onLeft = tyreStiffness(curve, left / tyresPerSide);
  const onRight = tyreStiffness(curve, right / tyresPerSide);
  return {
    value: tyresPerSide * (onLeft.value + onRight.value),
    leftSlope: onLeft.slope,
    rightSlope: onRight.slope,
  };
}
