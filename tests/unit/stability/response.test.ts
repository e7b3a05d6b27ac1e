import { describe, expect, test } from 'vitest';
import { findPeaks } from '../../../language/mechanics/stability/amplitudes.ts';
import { matrixExponential } from '../../../language/mechanics/stability/exponential.ts';
import { handlingOf } from '../../../language/mechanics/stability/handling.ts';
import { type Pulse, respond } from '../../../language/mechanics/stability/response.ts';
import { solved, TOURING, textbookTrain } from './trains.ts';

const STEER: Pulse = { kind: 'steer', amount: 0.01, duration: 0.35, shape: 'rectangular' };

describe('matrix exponential', () => {
  test('of a rotation and of a nilpotent matrix, by hand', () => {
    const turn = matrixExponential(Float64Array.from([0, -20, 20, 0]), 2);
    for (const [i, value] of [Math.cos(20), -Math.sin(20), Math.sin(20), Math.cos(20)].entries()) {
      expect(turn[i]).toBeCloseTo(value, 12);
    }
    expect([...matrixExponential(Float64Array.from([0, 3, 0, 0]), 2)]).toEqual([1, 3, 0, 1]);
  });
});

describe('response', () => {
  const train = textbookTrain(TOURING, 0.3);

  test.each([0, 0.3])('held steering ends in the steady turn of the handling, lag %s m', (lag) => {
    const own = textbookTrain(TOURING, lag);
    const speed = 20;
    const { understeer, wheelbase } = solved(handlingOf(own));
    const held = solved(respond(own, speed, { ...STEER, duration: 60 }, { end: 40, step: 0.1 }));
    const yawRate = (0.01 * speed) / (wheelbase + understeer * speed * speed);
    expect((held.yawRate.at(-1) ?? 0) / yawRate).toBeCloseTo(1, 6);
    expect((held.lateralAcceleration.at(-1) ?? 0) / (yawRate * speed)).toBeCloseTo(1, 6);
    expect(held.articulationRate[0]?.at(-1)).toBeCloseTo(0, 6);
  });

  test.each(['rectangular', 'half-sine'] as const)('a %s pulse: the step of the times makes no difference', (shape) => {
    const fine = solved(respond(train, 24, { ...STEER, shape }, { end: 2, step: 0.005 }));
    const coarse = solved(respond(train, 24, { ...STEER, shape }, { end: 2, step: 0.08 }));
    for (const [i, time] of coarse.times.entries()) {
      const same = Math.round(time / 0.005);
      expect(coarse.articulation[0]?.[i]).toBeCloseTo(fine.articulation[0]?.[same] ?? Number.NaN, 12);
      expect(coarse.yawRate[i]).toBeCloseTo(fine.yawRate[same] ?? Number.NaN, 12);
    }
  });

  test('a push at the trailer moves the trailer first', () => {
    const push: Pulse = { kind: 'lateral-force', unit: 1, amount: 1000, duration: 0.2, shape: 'rectangular' };
    const { articulation } = solved(respond(train, 20, push, { end: 0.2, step: 0.02 }));
    // Pushed to the left behind its hitch, it turns its nose to the right.
    expect(articulation[0]?.at(-1)).toBeLessThan(0);
  });

  test('rates are the slopes of the angles', () => {
    const { articulation, articulationRate } = solved(respond(train, 24, STEER, { end: 3, step: 0.001 }));
    const [angle = new Float64Array(0), rate = new Float64Array(0)] = [articulation[0], articulationRate[0]];
    for (let i = 500; i < 2900; i += 100) {
      expect(((angle[i + 1] ?? 0) - (angle[i - 1] ?? 0)) / 0.002).toBeCloseTo(rate[i] ?? Number.NaN, 5);
    }
  });

  test('pulses and times that are none', () => {
    const span = { end: 1, step: 0.1 };
    expect(respond(train, 20, { ...STEER, duration: 0 }, span)).toEqual({ problem: 'not-finite' });
    expect(respond(train, 20, { ...STEER, amount: Number.NaN }, span)).toEqual({ problem: 'not-finite' });
    expect(respond(train, 20, STEER, { end: 1, step: 0 })).toEqual({ problem: 'not-finite' });
    expect(respond(train, 20, STEER, { end: 1e9, step: 0.1 })).toEqual({ problem: 'overflow' });
    expect(respond(train, 20, { ...STEER, unit: 5 }, span)).toEqual({ problem: 'no-such-unit' });
    expect(respond(train, 0, STEER, span)).toEqual({ problem: 'speed-out-of-range' });
  });
});

test('turning points of a cosine, from samples that miss them', () => {
  const times = Float64Array.from({ length: 100 }, (_, i) => 0.07 + 0.1 * i);
  const peaks = findPeaks(
    times,
    times.map(Math.cos),
    times.map((t) => -Math.sin(t)),
    0,
  );
  expect(peaks).toHaveLength(3);
  for (const [i, { time, value }] of peaks.entries()) {
    expect(time).toBeCloseTo(Math.PI * (i + 1), 4);
    expect(value).toBeCloseTo((-1) ** (i + 1), 6);
  }
});
