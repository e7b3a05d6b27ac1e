import type { Dimension } from './dimension.ts';
import {
  ACCELERATION,
  ANGLE,
  AREA,
  CORNERING_STIFFNESS,
  DAMPING_RATE,
  DENSITY,
  DIMENSIONLESS,
  FORCE,
  FREQUENCY,
  INERTIA,
  LENGTH,
  MASS,
  MASS_PER_AREA,
  MASS_PER_LENGTH,
  MOMENT,
  PRESSURE,
  ROTARY_DAMPING,
  ROTARY_STIFFNESS,
  SPEED,
  SPRING_RATE,
  TIME,
  VOLUME,
  YAW_RATE,
} from './dimension.ts';

/**
 * One unit of the language.
 * - `symbol`: the one spelling the formatter prints.
 * - `synonyms`: other spellings that are read. Only those that composition does not already cover: `kg/m^2` needs no
 *   entry, `ft-lb` does.
 * - `factor`: how many SI units one of it is; exact by definition, or the nearest double to an exact ratio.
 * - `system`: `US` means US customary including what the imperial system shares with it; `imperial` is imperial only.
 */
export interface UnitDefinition {
  readonly symbol: string;
  readonly synonyms: readonly string[];
  readonly factor: number;
  readonly dimension: Dimension;
  readonly system: 'SI' | 'metric' | 'US' | 'imperial' | 'any';
  readonly source: string;
}

const SI = 'SI Brochure, 9th edition, definition or prefix (exact; from memory)';
const WITH_SI = 'SI Brochure, 9th edition, table 8, units accepted with the SI (exact; from memory)';
const SP811 = 'NIST SP 811, Appendix B (exact by definition; from memory)';
const DERIVED = 'quotient or product of units in this table';

const INCH = 0.0254;
const FOOT = 0.3048;
const POUND = 0.45359237;
const US_GALLON = 3.785411784e-3;
const STANDARD_GRAVITY = 9.80665;
/** One pound under standard gravity: 0.45359237 × 9.80665 exactly. */
const POUND_FORCE = 4.4482216152605;
const DEGREE = Math.PI / 180;

/**
 * Every unit the language knows; within a dimension the commonest come first (suggestions and completion keep the
 * order). There are no affine units: a temperature scale with an offset is not a factor.
 *
 * Spellings that could be read in two ways, and how this language reads them:
 * | spelling | read as | not as |
 * | --- | --- | --- |
 * | `g` | gram | acceleration of gravity, which is `gn` |
 * | `t` | tonne, 1000 kg | ton |
 * | `ton`, `tons` | US short ton, 2000 lb | tonne, long ton of 2240 lb |
 * | `m` | metre | minute, mile |
 * | `min` | minute | minimum, inch |
 * | `in` | inch, when it follows a number | the keyword `in`, which follows a name |
 * | `h` | hour | – |
 * | `l`, `L` | litre | – |
 * | `gal` | US gallon | imperial gallon, which is `impgal` |
 * | `oz` | avoirdupois ounce, a mass | fluid ounce |
 * | `lb` | pound, a mass | pound-force, which is `lbf` |
 * | `kg` | kilogram, a mass | kilogram-force, which is `kgf` |
 * | `ft-lb`, `lb·ft`, `in-lb` and the like | a moment, lbf·ft or lbf·in, as the trade speaks | mass times length |
 * | `lb/in` | a spring rate, lbf/in, as the trade speaks | mass per length |
 * | `lb/ft`, `lb/ft²` | mass per length, per area, as profiles and panels are listed | force per length, pressure |
 */
export const UNITS: readonly UnitDefinition[] = [
  // Length
  {
    symbol: 'mm',
    synonyms: ['MM', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
    factor: 0.001,
    dimension: LENGTH,
    system: 'SI',
    source: SI,
  },
  {
    symbol: 'm',
    synonyms: ['metre', 'metres', 'meter', 'meters', 'mtr', 'mtrs'],
    factor: 1,
    dimension: LENGTH,
    system: 'SI',
    source: SI,
  },
  {
    symbol: 'cm',
    synonyms: ['CM', 'centimetre', 'centimetres', 'centimeter', 'centimeters'],
    factor: 0.01,
    dimension: LENGTH,
    system: 'SI',
    source: SI,
  },
  {
    symbol: 'km',
    synonyms: ['KM', 'kilometre', 'kilometres', 'kilometer', 'kilometers'],
    factor: 1000,
    dimension: LENGTH,
    system: 'SI',
    source: SI,
  },
  {
    symbol: 'in',
    synonyms: ['IN', 'inch', 'inches'],
    factor: INCH,
    dimension: LENGTH,
    system: 'US',
    source: SP811,
  },
  { symbol: 'ft', synonyms: ['FT', 'foot', 'feet'], factor: FOOT, dimension: LENGTH, system: 'US', source: SP811 },
  { symbol: 'yd', synonyms: ['yard', 'yards'], factor: 0.9144, dimension: LENGTH, system: 'US', source: SP811 },
  { symbol: 'mi', synonyms: ['mile', 'miles'], factor: 1609.344, dimension: LENGTH, system: 'US', source: SP811 },

  // Mass
  {
    symbol: 'kg',
    synonyms: ['Kg', 'KG', 'kgs', 'KGS', 'kilogram', 'kilograms'],
    factor: 1,
    dimension: MASS,
    system: 'SI',
    source: SI,
  },
  {
    symbol: 'lb',
    synonyms: ['LB', 'Lb', 'lbs', 'LBS', 'Lbs', 'lbm', 'pound', 'pounds'],
    factor: POUND,
    dimension: MASS,
    system: 'US',
    source: SP811,
  },
  { symbol: 't', synonyms: ['tonne', 'tonnes'], factor: 1000, dimension: MASS, system: 'metric', source: WITH_SI },
  { symbol: 'g', synonyms: ['gram', 'grams'], factor: 0.001, dimension: MASS, system: 'SI', source: SI },
  {
    symbol: 'oz',
    synonyms: ['OZ', 'ounce', 'ounces'],
    factor: POUND / 16,
    dimension: MASS,
    system: 'US',
    source: SP811,
  },
  {
    symbol: 'ton',
    synonyms: ['tons', 'short_ton', 'short_tons'],
    factor: 2000 * POUND,
    dimension: MASS,
    system: 'US',
    source: SP811,
  },
  {
    symbol: 'slug',
    synonyms: ['slugs'],
    factor: POUND_FORCE / FOOT,
    dimension: MASS,
    system: 'US',
    source: 'NIST SP 811, Appendix B: 1 lbf·s²/ft (exact ratio; from memory)',
  },

  // Time, frequency
  { symbol: 's', synonyms: ['sec', 'second', 'seconds'], factor: 1, dimension: TIME, system: 'any', source: SI },
  { symbol: 'min', synonyms: ['minute', 'minutes'], factor: 60, dimension: TIME, system: 'any', source: WITH_SI },
  {
    symbol: 'h',
    synonyms: ['hr', 'hrs', 'hour', 'hours'],
    factor: 3600,
    dimension: TIME,
    system: 'any',
    source: WITH_SI,
  },
  { symbol: 'Hz', synonyms: ['hertz'], factor: 1, dimension: FREQUENCY, system: 'any', source: SI },

  // Plain number
  { symbol: '%', synonyms: ['percent', 'pct'], factor: 0.01, dimension: DIMENSIONLESS, system: 'any', source: SI },

  // Angle
  {
    symbol: 'deg',
    synonyms: ['°', 'degree', 'degrees'],
    factor: DEGREE,
    dimension: ANGLE,
    system: 'any',
    source: WITH_SI,
  },
  { symbol: 'rad', synonyms: ['radian', 'radians'], factor: 1, dimension: ANGLE, system: 'SI', source: SI },
  { symbol: 'rad/s', synonyms: [], factor: 1, dimension: YAW_RATE, system: 'SI', source: DERIVED },
  { symbol: 'deg/s', synonyms: [], factor: DEGREE, dimension: YAW_RATE, system: 'any', source: DERIVED },

  // Area, volume
  { symbol: 'm²', synonyms: ['sqm'], factor: 1, dimension: AREA, system: 'SI', source: DERIVED },
  { symbol: 'cm²', synonyms: [], factor: 1e-4, dimension: AREA, system: 'SI', source: DERIVED },
  { symbol: 'mm²', synonyms: [], factor: 1e-6, dimension: AREA, system: 'SI', source: DERIVED },
  { symbol: 'ft²', synonyms: ['sqft'], factor: FOOT * FOOT, dimension: AREA, system: 'US', source: DERIVED },
  { symbol: 'in²', synonyms: ['sqin'], factor: INCH * INCH, dimension: AREA, system: 'US', source: DERIVED },
  {
    symbol: 'L',
    synonyms: ['l', 'ltr', 'litre', 'litres', 'liter', 'liters'],
    factor: 0.001,
    dimension: VOLUME,
    system: 'metric',
    source: WITH_SI,
  },
  { symbol: 'mL', synonyms: ['ml'], factor: 1e-6, dimension: VOLUME, system: 'metric', source: WITH_SI },
  { symbol: 'm³', synonyms: [], factor: 1, dimension: VOLUME, system: 'SI', source: DERIVED },
  { symbol: 'cm³', synonyms: ['cc', 'ccm'], factor: 1e-6, dimension: VOLUME, system: 'SI', source: DERIVED },
  {
    symbol: 'gal',
    synonyms: ['gals', 'gallon', 'gallons', 'USgal', 'US_gal'],
    factor: US_GALLON,
    dimension: VOLUME,
    system: 'US',
    source: SP811,
  },
  {
    symbol: 'impgal',
    synonyms: ['imp_gal', 'UKgal', 'UK_gal'],
    factor: 4.54609e-3,
    dimension: VOLUME,
    system: 'imperial',
    source: SP811,
  },
  { symbol: 'ft³', synonyms: ['cuft'], factor: FOOT ** 3, dimension: VOLUME, system: 'US', source: DERIVED },
  { symbol: 'in³', synonyms: ['cuin'], factor: INCH ** 3, dimension: VOLUME, system: 'US', source: DERIVED },

  // Speed, acceleration
  {
    symbol: 'km/h',
    synonyms: ['kph', 'kmh', 'KPH', 'KMH'],
    factor: 1000 / 3600,
    dimension: SPEED,
    system: 'metric',
    source: DERIVED,
  },
  { symbol: 'mph', synonyms: ['MPH'], factor: 0.44704, dimension: SPEED, system: 'US', source: SP811 },
  { symbol: 'm/s', synonyms: [], factor: 1, dimension: SPEED, system: 'SI', source: DERIVED },
  { symbol: 'ft/s', synonyms: [], factor: FOOT, dimension: SPEED, system: 'US', source: DERIVED },
  { symbol: 'knot', synonyms: ['knots'], factor: 1852 / 3600, dimension: SPEED, system: 'any', source: SP811 },
  { symbol: 'm/s²', synonyms: [], factor: 1, dimension: ACCELERATION, system: 'SI', source: DERIVED },
  {
    symbol: 'gn',
    synonyms: ['g_n'],
    factor: STANDARD_GRAVITY,
    dimension: ACCELERATION,
    system: 'any',
    source: SP811,
  },
  { symbol: 'ft/s²', synonyms: [], factor: FOOT, dimension: ACCELERATION, system: 'US', source: DERIVED },

  // Force, pressure
  { symbol: 'N', synonyms: ['newton', 'newtons'], factor: 1, dimension: FORCE, system: 'SI', source: SI },
  { symbol: 'kN', synonyms: ['KN'], factor: 1000, dimension: FORCE, system: 'SI', source: SI },
  { symbol: 'lbf', synonyms: [], factor: POUND_FORCE, dimension: FORCE, system: 'US', source: SP811 },
  { symbol: 'daN', synonyms: [], factor: 10, dimension: FORCE, system: 'SI', source: SI },
  { symbol: 'kgf', synonyms: [], factor: STANDARD_GRAVITY, dimension: FORCE, system: 'metric', source: SP811 },
  { symbol: 'kPa', synonyms: ['kpa', 'KPA', 'KPa'], factor: 1000, dimension: PRESSURE, system: 'SI', source: SI },
  { symbol: 'bar', synonyms: ['bars'], factor: 1e5, dimension: PRESSURE, system: 'metric', source: SP811 },
  {
    symbol: 'psi',
    synonyms: ['PSI', 'lbf/in²'],
    factor: POUND_FORCE / (INCH * INCH),
    dimension: PRESSURE,
    system: 'US',
    source: 'NIST SP 811, Appendix B: 1 lbf/in² (exact ratio; from memory)',
  },
  { symbol: 'Pa', synonyms: ['pascal', 'pascals'], factor: 1, dimension: PRESSURE, system: 'SI', source: SI },
  { symbol: 'MPa', synonyms: ['MPA'], factor: 1e6, dimension: PRESSURE, system: 'SI', source: SI },

  // Moment
  { symbol: 'N·m', synonyms: ['Nm', 'N-m', 'N m'], factor: 1, dimension: MOMENT, system: 'SI', source: DERIVED },
  { symbol: 'kN·m', synonyms: ['kNm', 'kN-m', 'kN m'], factor: 1000, dimension: MOMENT, system: 'SI', source: DERIVED },
  {
    symbol: 'lbf·ft',
    synonyms: [
      ...['ft·lbf', 'lb·ft', 'ft·lb'],
      ...['ft-lb', 'ft-lbs', 'lb-ft', 'ft-lbf', 'lbf-ft'],
      ...['ft lb', 'ft lbs', 'ft lbf', 'lbf ft'],
    ],
    factor: POUND_FORCE * FOOT,
    dimension: MOMENT,
    system: 'US',
    source: DERIVED,
  },
  {
    symbol: 'lbf·in',
    synonyms: [
      ...['in·lbf', 'lb·in', 'in·lb'],
      ...['in-lb', 'in-lbs', 'lb-in', 'in-lbf', 'lbf-in'],
      ...['in lb', 'in lbs', 'in lbf', 'lbf in'],
    ],
    factor: POUND_FORCE * INCH,
    dimension: MOMENT,
    system: 'US',
    source: DERIVED,
  },

  // Density, mass per area and per length
  { symbol: 'kg/L', synonyms: [], factor: 1000, dimension: DENSITY, system: 'metric', source: DERIVED },
  { symbol: 'kg/m³', synonyms: [], factor: 1, dimension: DENSITY, system: 'SI', source: DERIVED },
  { symbol: 'lb/gal', synonyms: [], factor: POUND / US_GALLON, dimension: DENSITY, system: 'US', source: DERIVED },
  { symbol: 'lb/ft³', synonyms: [], factor: POUND / FOOT ** 3, dimension: DENSITY, system: 'US', source: DERIVED },
  { symbol: 'kg/m²', synonyms: [], factor: 1, dimension: MASS_PER_AREA, system: 'SI', source: DERIVED },
  {
    symbol: 'lb/ft²',
    synonyms: [],
    factor: POUND / (FOOT * FOOT),
    dimension: MASS_PER_AREA,
    system: 'US',
    source: DERIVED,
  },
  { symbol: 'kg/m', synonyms: [], factor: 1, dimension: MASS_PER_LENGTH, system: 'SI', source: DERIVED },
  { symbol: 'lb/ft', synonyms: [], factor: POUND / FOOT, dimension: MASS_PER_LENGTH, system: 'US', source: DERIVED },

  // Springs and dampers
  { symbol: 'N/mm', synonyms: [], factor: 1000, dimension: SPRING_RATE, system: 'SI', source: DERIVED },
  { symbol: 'kN/m', synonyms: [], factor: 1000, dimension: SPRING_RATE, system: 'SI', source: DERIVED },
  { symbol: 'N/m', synonyms: [], factor: 1, dimension: SPRING_RATE, system: 'SI', source: DERIVED },
  {
    symbol: 'lbf/in',
    synonyms: ['lb/in'],
    factor: POUND_FORCE / INCH,
    dimension: SPRING_RATE,
    system: 'US',
    source: DERIVED,
  },
  { symbol: 'N·s/m', synonyms: [], factor: 1, dimension: DAMPING_RATE, system: 'SI', source: DERIVED },
  {
    symbol: 'N·m/rad',
    synonyms: ['Nm/rad', 'N m/rad'],
    factor: 1,
    dimension: ROTARY_STIFFNESS,
    system: 'SI',
    source: DERIVED,
  },
  {
    symbol: 'N·m/deg',
    synonyms: ['Nm/deg', 'N m/deg'],
    factor: 1 / DEGREE,
    dimension: ROTARY_STIFFNESS,
    system: 'metric',
    source: DERIVED,
  },
  {
    symbol: 'lbf·ft/deg',
    synonyms: ['ft·lb/deg', 'lb·ft/deg', 'ft-lb/deg', 'lb-ft/deg'],
    factor: (POUND_FORCE * FOOT) / DEGREE,
    dimension: ROTARY_STIFFNESS,
    system: 'US',
    source: DERIVED,
  },
  {
    symbol: 'N·m·s/rad',
    synonyms: ['Nms/rad', 'N m s/rad'],
    factor: 1,
    dimension: ROTARY_DAMPING,
    system: 'SI',
    source: DERIVED,
  },

  // Inertia
  {
    symbol: 'kg·m²',
    synonyms: ['kg m²', 'kg m^2', 'kgm²', 'kgm2'],
    factor: 1,
    dimension: INERTIA,
    system: 'SI',
    source: DERIVED,
  },
  { symbol: 'lb·ft²', synonyms: [], factor: POUND * FOOT * FOOT, dimension: INERTIA, system: 'US', source: DERIVED },
  { symbol: 'slug·ft²', synonyms: [], factor: POUND_FORCE * FOOT, dimension: INERTIA, system: 'US', source: DERIVED },

  // Cornering stiffness
  { symbol: 'N/rad', synonyms: [], factor: 1, dimension: CORNERING_STIFFNESS, system: 'SI', source: DERIVED },
  {
    symbol: 'N/deg',
    synonyms: [],
    factor: 1 / DEGREE,
    dimension: CORNERING_STIFFNESS,
    system: 'metric',
    source: DERIVED,
  },
  { symbol: 'kN/rad', synonyms: [], factor: 1000, dimension: CORNERING_STIFFNESS, system: 'SI', source: DERIVED },
  {
    symbol: 'kN/deg',
    synonyms: [],
    factor: 1000 / DEGREE,
    dimension: CORNERING_STIFFNESS,
    system: 'metric',
    source: DERIVED,
  },
  {
    symbol: 'lbf/deg',
    synonyms: ['lb/deg'],
    factor: POUND_FORCE / DEGREE,
    dimension: CORNERING_STIFFNESS,
    system: 'US',
    source: DERIVED,
  },
  {
    symbol: 'lbf/rad',
    synonyms: ['lb/rad'],
    factor: POUND_FORCE,
    dimension: CORNERING_STIFFNESS,
    system: 'US',
    source: DERIVED,
  },
];
