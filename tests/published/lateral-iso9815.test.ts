import { describe, expect, test } from 'vitest';
import { dampingFromAmplitudes, dampingFromPeaks, findPeaks } from '../../language/mechanics/stability/amplitudes.ts';
import { leastDamped, modesOf } from '../../language/mechanics/stability/modes.ts';
import { type Pulse, respond } from '../../language/mechanics/stability/response.ts';
import { solved, TOURING, textbookTrain } from '../unit/stability/trains.ts';

describe('damping from successive amplitudes', () => {
  // Source: ISO 9815, r̄ = mean of (Ai + Ai+1)/(Ai+1 + Ai+2), D̄ = ln r̄/√(π² + (ln r̄)²), from memory; figures by hand:
  // (1.72/1.24 + 1.24/0.895 + 0.895/0.645)/3 = 1.38672.
  test('1.0, 0.72, 0.52, 0.375, 0.27 give 0.10351', () => {
    expect(dampingFromAmplitudes([1, 0.72, 0.52, 0.375, 0.27])).toBeCloseTo(0.10351, 5);
    expect(dampingFromAmplitudes([1, -0.72, 0.52, -0.375, 0.27])).toBeCloseTo(0.10351, 5);
  });

  test.each([0.02, 0.1, 0.35, -0.05])('an oscillation that dies out with %s gives that', (ratio) => {
    const factor = Math.exp((-Math.PI * ratio) / Math.sqrt(1 - ratio * ratio));
    expect(dampingFromAmplitudes([1, 2, 3, 4, 5].map((k) => factor ** k))).toBeCloseTo(ratio, 12);
  });

  test('two amplitudes, or one of 0, say nothing', () => {
    expect(dampingFromAmplitudes([1, 0.5])).toBeUndefined();
    expect(dampingFromAmplitudes([1, 0.5, 0])).toBeUndefined();
    expect(dampingFromAmplitudes([])).toBeUndefined();
  });
});

describe('the response to a pulse dies out as the least-damped mode does', () => {
  // ISO 9815 disturbs with a short steering pulse and evaluates the articulation angle; from memory.
  const pulses: [string, Pulse][] = [
    ['steering pulse', { kind: 'steer', amount: 0.02, duration: 0.4, shape: 'half-sine' }],
    ['push on the trailer', { kind: 'lateral-force', unit: 1, amount: 2000, duration: 0.25, shape: 'rectangular' }],
  ];
  test.each(
    pulses.flatMap(([name, pulse]) =>
      [0, 0.4].flatMap((lag) => [20, 28].map((speed) => ({ name, pulse, lag, speed }))),
    ),
  )('$name at $speed m/s, lag $lag m', ({ pulse, lag, speed }) => {
    const train = textbookTrain({ ...TOURING, e: 4.25, I2: 5200 }, lag);
    const mode = leastDamped(solved(modesOf(train, speed)));
    const { times, articulation, articulationRate } = solved(respond(train, speed, pulse, { end: 14, step: 0.01 }));
    const [angle = new Float64Array(0)] = articulation;
    const [rate = new Float64Array(0)] = articulationRate;
    // From the third peak on the other modes have died out.
    const peaks = findPeaks(times, angle, rate, pulse.duration).slice(3, 9);
    expect(peaks).toHaveLength(6);
    expect(mode?.motion).toBe('trailer-swing');
    expect(dampingFromAmplitudes(peaks.map(({ value }) => value))).toBeCloseTo(mode?.damping ?? Number.NaN, 3);
    expect(dampingFromPeaks(peaks)).toBeCloseTo(mode?.damping ?? Number.NaN, 3);
    const period = ((peaks[5]?.time ?? 0) - (peaks[0]?.time ?? 0)) / 2.5;
    expect(1 / period).toBeCloseTo(mode?.frequency ?? Number.NaN, 3);
  });
});
