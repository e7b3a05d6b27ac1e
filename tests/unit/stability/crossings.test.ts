import { describe, expect, test } from 'vitest';
import { sweepSpeeds } from '../../../language/mechanics/stability/sweep.ts';
import type { Train } from '../../../language/mechanics/stability/train.ts';
import { solved, TOURING, textbookTrain } from './trains.ts';

/** Drag stretches the coupling the more the faster it goes: a swing that began to grow dies out again. */
const dragged: Train = {
  ...textbookTrain({ ...TOURING, e: 4.3, c: 600 }, 0.4),
  forces: [{ unit: 1, x: -4, force: 0, perSpeedSquared: -4, direction: 'unit' }],
};

const found = (points: number, least = 5, most = 65) => solved(sweepSpeeds(dragged, { least, most, points }));

describe('two changes of stability between neighbouring samples', () => {
  test('are found, in and out again', () => {
    const fine = found(601).crossings;
    expect(fine).toHaveLength(2);
    expect(fine.map(({ growsAbove }) => growsAbove)).toEqual([true, false]);
    // Every 4 m/s from 5: both lie between the samples at 33 and 37 m/s.
    for (const { speed } of fine) expect(Math.abs(speed - 35)).toBeLessThan(2);
    const coarse = found(16);
    expect(coarse.growth.every((growth) => growth < 0)).toBe(true);
    expect(coarse.crossings).toHaveLength(2);
    for (const [i, { speed, growsAbove, swinging }] of coarse.crossings.entries()) {
      expect(speed).toBeCloseTo(fine[i]?.speed ?? Number.NaN, 8);
      expect([growsAbove, swinging]).toEqual([i === 0, true]);
    }
    expect(coarse.zeroDamping).toEqual({ kind: 'at', speed: coarse.crossings[0]?.speed });
  });
});
