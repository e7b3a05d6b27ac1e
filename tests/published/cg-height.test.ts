import { describe, expect, test } from 'vitest';
import { centreOfGravityHeight, raisedAxleReading } from '../../language/mechanics/cg-height.ts';

describe('height of the centre of gravity by raising an axle', () => {
  // Source: ISO 10392:2011, h = r + (b − L·Rf/W)·cot θ; the figures are computed from it: W 1800 kg, front 1000 kg,
  // L 2.8 m, θ 15°, r 0.32 m, h 0.62 m ↔ front reading 948.324 kg.
  const lift = { mass: 1800, wheelbase: 2.8, levelReading: 1000, angle: Math.PI / 12, wheelRadius: 0.32 };

  test('reading 948.324 kg means 0.62 m', () => {
    expect(centreOfGravityHeight(lift, 948.324)).toBeCloseTo(0.62, 5);
  });

  test('0.62 m gives a reading of 948.324 kg', () => {
    expect(raisedAxleReading(lift, 0.62)).toBeCloseTo(948.324, 3);
  });

  test('a centre of gravity at the height of the wheel centres shows no change', () => {
    expect(raisedAxleReading(lift, 0.32)).toBeCloseTo(1000, 9);
  });

  test.each([
    { ...lift, angle: 0 },
    { ...lift, angle: Number.NaN },
    { ...lift, mass: 0 },
    { ...lift, wheelbase: 0 },
  ])('nothing to tell from %o', (useless) => {
    expect(centreOfGravityHeight(useless, 948)).toBeUndefined();
    expect(raisedAxleReading(useless, 0.6)).toBeUndefined();
  });
});
