import type { QuantityKind } from '../syntax/vocabulary.ts';
import {
  ACCELERATION,
  DENSITY,
  DIMENSIONLESS,
  type Dimension,
  INERTIA,
  LENGTH,
  MASS,
  MASS_PER_AREA,
  MASS_PER_LENGTH,
  MOMENT,
  PRESSURE,
  SPEED,
  SPRING_RATE,
  VOLUME,
} from '../units/dimension.ts';

/** The dimension of each kind of quantity of the vocabulary. */
export const KIND_DIMENSIONS: Readonly<Record<QuantityKind, Dimension>> = {
  number: DIMENSIONLESS,
  ratio: DIMENSIONLESS,
  length: LENGTH,
  mass: MASS,
  volume: VOLUME,
  density: DENSITY,
  'mass per area': MASS_PER_AREA,
  'mass per length': MASS_PER_LENGTH,
  speed: SPEED,
  acceleration: ACCELERATION,
  pressure: PRESSURE,
  moment: MOMENT,
  'moment of inertia': INERTIA,
  'spring rate': SPRING_RATE,
};

/** Units to suggest where one is missing. */
export const KIND_UNITS: Readonly<Record<QuantityKind, string>> = {
  number: 'a plain number',
  ratio: '%',
  length: 'mm, cm, m, in, ft',
  mass: 'kg, t, lb',
  volume: 'L, m³, gal',
  density: 'kg/L, kg/m³, lb/gal',
  'mass per area': 'kg/m², lb/ft²',
  'mass per length': 'kg/m, lb/ft',
  speed: 'km/h, m/s, mph',
  acceleration: 'm/s², gn',
  pressure: 'kPa, bar, psi',
  moment: 'N·m, ft-lb',
  'moment of inertia': 'kg·m²',
  'spring rate': 'N/mm, kN/m, lbf/in',
};
