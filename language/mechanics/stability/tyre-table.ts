import { type CorneringCurve, curveThrough } from './tyres.ts';

export type TyreKind = 'passenger' | 'light-truck' | 'commercial' | 'trailer';
export type TyreConstruction = 'radial' | 'bias';

/** A figure taken where a tyre's own is not known, with its honest origin. */
export interface AssumedFigure {
  readonly value: number;
  /** Range in which tyres of the kind lie. */
  readonly least: number;
  readonly most: number;
  readonly source: string;
}

/** What is taken of a tyre of a kind. */
export interface AssumedTyre {
  /** Cornering stiffness over load at the load the tyre is rated for, 1/degree. */
  readonly coefficient: AssumedFigure;
  /** Load at which the stiffness peaks over the load the tyre is rated for. */
  readonly peakRatio: AssumedFigure;
  /** Relaxation length, m. */
  readonly relaxation: AssumedFigure;
}

const GILLESPIE = 'T. D. Gillespie, Fundamentals of Vehicle Dynamics, pp. 347–355, second hand';

const RADIAL: AssumedFigure = { value: 0.15, least: 0.11, most: 0.19, source: `radial tyres: ${GILLESPIE}` };

const BIAS: AssumedFigure = { value: 0.12, least: 0.08, most: 0.18, source: `bias tyres: ${GILLESPIE}` };

/** Heavier, higher and harder tyres lie low in the range; nothing more is claimed. */
const lowIn = (figure: AssumedFigure, value: number): AssumedFigure => ({
  ...figure,
  value,
  source: `taken low in the range of ${figure.source}; common practice, no source`,
});

/** 205/60R15 91V: k1 14.95, k2 2.130, Fz0 4000 N peaks at 8520 N; load index 91 is 615 kg, 6031 N. */
const PEAK_RATIO: AssumedFigure = {
  value: 1.41,
  least: 1.1,
  most: 2.5,
  source:
    'that of the one tyre with published parameters (H. B. Pacejka, Tyre and Vehicle Dynamics, table A3.1) taken for all; range from memory',
};

const relaxation = (value: number): AssumedFigure => ({
  value,
  least: 0.2,
  most: 0.7,
  source: 'typical range, from memory; longer for larger tyres',
});

/** Assumed tyres by kind and construction. Every number that depends on one should name it. */
export const ASSUMED_TYRES: Readonly<Record<TyreKind, Readonly<Record<TyreConstruction, AssumedTyre>>>> = {
  passenger: {
    radial: { coefficient: RADIAL, peakRatio: PEAK_RATIO, relaxation: relaxation(0.4) },
    bias: { coefficient: BIAS, peakRatio: PEAK_RATIO, relaxation: relaxation(0.5) },
  },
  'light-truck': {
    radial: { coefficient: lowIn(RADIAL, 0.13), peakRatio: PEAK_RATIO, relaxation: relaxation(0.5) },
    bias: { coefficient: lowIn(BIAS, 0.11), peakRatio: PEAK_RATIO, relaxation: relaxation(0.5) },
  },
  commercial: {
    radial: { coefficient: lowIn(RADIAL, 0.12), peakRatio: PEAK_RATIO, relaxation: relaxation(0.6) },
    bias: { coefficient: lowIn(BIAS, 0.1), peakRatio: PEAK_RATIO, relaxation: relaxation(0.6) },
  },
  trailer: {
    radial: { coefficient: lowIn(RADIAL, 0.13), peakRatio: PEAK_RATIO, relaxation: relaxation(0.4) },
    bias: { coefficient: lowIn(BIAS, 0.11), peakRatio: PEAK_RATIO, relaxation: relaxation(0.5) },
  },
};

/** The curve taken for a tyre of a kind that is rated for `ratedLoad` N. */
export function assumedCurve({ coefficient, peakRatio }: AssumedTyre, ratedLoad: number): CorneringCurve {
  return curveThrough((coefficient.value * 180) / Math.PI, ratedLoad, peakRatio.value);
}
