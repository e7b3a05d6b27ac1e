import { describe, expect, test } from 'vitest';
import {
  CORNERING_STIFFNESS,
  DIMENSIONLESS,
  type Dimension,
  dimensionKey,
  dimensionName,
  divide,
  FORCE,
  INERTIA,
  LENGTH,
  MASS,
  MASS_PER_AREA,
  MOMENT,
  multiply,
  PRESSURE,
  power,
  ROTARY_STIFFNESS,
  SPRING_RATE,
  sameDimension,
  TIME,
} from '../../../language/units/dimension.ts';

describe('dimensions', () => {
  test('derived dimensions follow from their definitions', () => {
    const acceleration = divide(LENGTH, power(TIME, 2));
    expect(multiply(MASS, acceleration)).toEqual(FORCE);
    expect(divide(FORCE, power(LENGTH, 2))).toEqual(PRESSURE);
    expect(multiply(FORCE, LENGTH)).toEqual(MOMENT);
    expect(divide(FORCE, LENGTH)).toEqual(SPRING_RATE);
    expect(multiply(MASS, power(LENGTH, 2))).toEqual(INERTIA);
    expect(power(LENGTH, 0)).toEqual(DIMENSIONLESS);
  });

  test('an angle is a dimension of its own, so stiffness per angle is neither a force nor a moment', () => {
    expect(sameDimension(CORNERING_STIFFNESS, FORCE)).toBe(false);
    expect(sameDimension(ROTARY_STIFFNESS, MOMENT)).toBe(false);
  });

  test('names carry their article', () => {
    expect(dimensionName(LENGTH)).toBe('a length');
    expect(dimensionName(MASS_PER_AREA)).toBe('a mass per area');
    expect(dimensionName(DIMENSIONLESS)).toBe('a plain number');
    expect(dimensionName([0, 0, 0, 1])).toBe('an angle');
  });

  test('a dimension without a name is spelled in base units', () => {
    expect(dimensionName([-5, 1, 0, 0])).toBe('kg·m⁻⁵');
    expect(dimensionName([4, 0, -12, 1])).toBe('m⁴·s⁻¹²·rad');
  });

  test('keys are equal exactly for equal dimensions', () => {
    const other: Dimension = [1, 1, -2, 0];
    expect(dimensionKey(other)).toBe(dimensionKey(FORCE));
    expect(dimensionKey(other)).not.toBe(dimensionKey(MOMENT));
  });
});
