import { describe, expect, test } from 'vitest';
import { massInfluence, unitInfluence } from '../../language/mechanics/influence.ts';
import { combinedDeviation, firstOrderEffect, rectangularDeviation } from '../../language/mechanics/uncertainty.ts';

// JCGM 100:2008 (GUM), figures from memory.
describe('the Guide to the expression of uncertainty in measurement', () => {
  test('4.3.7: copper expands by 16.52e-6 per °C, within 0.40e-6: a variance of 53.3e-15, 0.23e-6', () => {
    expect(rectangularDeviation(0.4e-6) ** 2).toBeCloseTo(53.3e-15, 16);
    expect(rectangularDeviation(0.4e-6)).toBeCloseTo(0.23e-6, 8);
  });

  test('H.1: an end gauge of 50 mm is calibrated to 32 nm', () => {
    const [length, expansion] = [0.05, 11.5e-6];
    // Bounds of 1e-6 per °C about 0 at -0.1 °C, and of 0.05 °C.
    const ofExpansion = length * 0.1 * 1e-6;
    const ofTemperature = length * expansion * 0.05;
    expect(rectangularDeviation(ofExpansion)).toBeCloseTo(2.9e-9, 10);
    expect(rectangularDeviation(ofTemperature)).toBeCloseTo(16.6e-9, 10);
    // Two components are given as standard deviations.
    const given = [25e-9, 9.7e-9].map((deviation) => deviation * Math.sqrt(3));
    expect(combinedDeviation([...given, ofExpansion, ofTemperature])).toBeCloseTo(32e-9, 9);
  });

  test('5.1.6: of a quotient the relative variances add up', () => {
    // Load on one support of a beam over the mass on it, each with a deviation of its own: 10 kg more at the support itself
    // add to both, so that the derivative is (1 - share) / mass.
    const at = (mass: number) => [{ unit: 0, mass, centre: { x: 1, y: 0, z: 0 } }];
    const share = { numerator: unitInfluence(1, 0, { x: 1 }), denominator: massInfluence(1, [0]) };
    const effect = firstOrderEffect(share, { above: 60, below: 240 }, { lower: at(90), upper: at(110) });
    expect(effect).toBeCloseTo((10 * (1 - 60 / 240)) / 240, 15);
    // Numerator and denominator apart: |N/D| · √((u/N)² + (v/D)²).
    const numerator = { numerator: unitInfluence(2, 0, { one: 1 }), denominator: unitInfluence(2, 1, { one: 1 }) };
    const of = (unit: number, half: number) => ({
      lower: [{ unit, mass: 50 - half, centre: { x: 0, y: 0, z: 0 } }],
      upper: [{ unit, mass: 50 + half, centre: { x: 0, y: 0, z: 0 } }],
    });
    const effects = [of(0, 3), of(1, 8)].map((ends) => firstOrderEffect(numerator, { above: 60, below: 240 }, ends));
    const relative = Math.hypot(rectangularDeviation(3) / 60, rectangularDeviation(8) / 240);
    expect(combinedDeviation(effects)).toBeCloseTo(0.25 * relative, 15);
  });
});
