import { describe, expect, test } from 'vitest';
import { AIR_DENSITY, dragForce } from '../../language/mechanics/stability/drag.ts';
import { sweepSpeeds } from '../../language/mechanics/stability/sweep.ts';
import { longitudinalBalance, type Train } from '../../language/mechanics/stability/train.ts';
import { solved, TOURING, textbookTrain } from '../unit/stability/trains.ts';

const dragged = (frontalArea: number, coefficient: number): Train => ({
  ...textbookTrain(TOURING),
  forces: [dragForce(1, -TOURING.e, { frontalArea, coefficient })],
});

describe('drag of the air', () => {
  test('density is that of the standard atmosphere at sea level', () => {
    // Source: ISO 2533 (from memory): 101 325 Pa, 288.15 K, specific gas constant 287.052 87 J/(kg·K); ρ = p/(R·T).
    expect(AIR_DENSITY).toBeCloseTo(101_325 / (287.05287 * 288.15), 5);
  });

  test('the coupling is stretched by ½·ρ·cd·A·V²', () => {
    // By hand, at 100 km/h: V² = 771.605 m²/s², q = ½·1.225·771.605 = 472.608 Pa, 0.8·4.6 m² = 3.68 m²: 1739.197 N.
    const { tension, traction } = longitudinalBalance(dragged(4.6, 0.8), 100 / 3.6);
    expect(tension[1]).toBeCloseTo(1739.197, 2);
    expect(traction).toBeCloseTo(1739.197, 2);
    // By hand, at 60 mph (26.8224 m/s): q = 440.659 Pa; 1.0·2 m²: 881.318 N.
    expect(longitudinalBalance(dragged(2, 1), 26.8224).tension[1]).toBeCloseTo(881.318, 2);
  });

  test('four times at twice the speed', () => {
    const [slow, fast] = [15, 30].map((speed) => longitudinalBalance(dragged(4.6, 0.8), speed).tension[1] ?? 0);
    expect(fast).toBeCloseTo(4 * (slow ?? 0), 9);
  });

  test('stretching the drawbar raises the critical speed (common practice, no source)', () => {
    const zeroDamping = (train: Train): number => {
      const found = solved(sweepSpeeds(train, { least: 3, most: 90, points: 88 })).zeroDamping;
      return found.kind === 'at' ? found.speed : Number.POSITIVE_INFINITY;
    };
    const speeds = [0.1, 0.3, 0.6].map((area) => zeroDamping(dragged(area, 1)));
    expect(speeds[0]).toBeGreaterThan(zeroDamping(textbookTrain(TOURING)));
    expect(speeds).toEqual([...speeds].sort((a, b) => a - b));
    expect(Number.isFinite(speeds[2])).toBe(true);
  });
});
