import { describe, expect, test } from 'vitest';
import { pulseResponses, readPeaks } from '../../../language/drawing/pulses.ts';
import { responsePlot } from '../../../language/drawing/response-plot.ts';
import { svgOf } from '../../../language/drawing/svg.ts';
import { dampingFromAmplitudes } from '../../../language/mechanics/stability/amplitudes.ts';
import { motionAt } from '../../../language/semantics/stability/motion-at.ts';
import { defined, SWAY, stabilityOf } from './rigs.ts';
import { curvesOf, marksOf, rulers, shapesOf, wordsOf } from './shapes.ts';
import { elementsOf } from './xml.ts';

const { results } = stabilityOf(SWAY);
const centred = defined(results.find(({ state }) => state.case.name === 'centred'));
const SPEED = 70 / 3.6;
const found = defined(pulseResponses(centred, SPEED));
const drawing = defined(responsePlot(centred, SPEED));

/** The frames of the panels: the lines of rest lie in their middles. */
const panels = shapesOf(drawing).flatMap((shape) =>
  shape.shape === 'rectangle' && shape.role === 'pulse'
    ? [
        {
          left: shape.at.x,
          right: shape.at.x + 416,
          top: shape.at.y,
          bottom: shape.at.y + shape.height,
          width: shape.width,
        },
      ]
    : [],
);

describe('responses to pulses', () => {
  test('die out as the eigenvalue says', () => {
    const eigenvalue = defined(motionAt(centred, SPEED)?.mode).damping;
    expect(eigenvalue).toBeGreaterThan(0.05);
    for (const { peaks, damping } of [found.push, found.steer]) {
      expect(peaks.length).toBeGreaterThanOrEqual(4);
      // One swing outlasts the rest by far here: ISO 9815's reading and the eigenvalue are the same thing.
      expect(Math.abs(defined(damping) / eigenvalue - 1)).toBeLessThan(0.02);
    }
  });

  test('answer twice the pulse with twice the motion, and a push to the left turns the trailer away', () => {
    const [angle] = found.push.response.articulation;
    expect(found.push.pulse).toMatchObject({ kind: 'lateral-force', unit: 1, duration: 0.5 });
    expect(found.push.pulse.amount / (defined(centred.built.train.units[1]).mass * 9.80665)).toBeCloseTo(0.1, 2);
    expect(Math.max(...defined(angle).map(Math.abs))).toBeGreaterThan(0);
  });
});

describe('the damping of a signal', () => {
  const TIMES = Float64Array.from({ length: 1200 }, (_, i) => i * 0.01);
  /** y = e^(-ζωt) cos(ωd t), ωd = ω√(1-ζ²): the textbooks' free oscillation; with what settles, and what swings, beside it. */
  interface Beside {
    readonly offset?: number;
    readonly settling?: number;
    readonly second?: number;
  }
  const read = (ratio: number, { offset = 0, settling = 0.05, second = 0 }: Beside = {}) => {
    const frequency = 4;
    const swing = (t: number, omega: number, damped: number) =>
      Math.exp(-damped * omega * t) * Math.cos(omega * Math.sqrt(1 - damped * damped) * t);
    const value = (t: number) =>
      swing(t, frequency, ratio) + offset * Math.exp(-settling * t) + second * swing(t, 2.3 * frequency, 0.02);
    const rate = (t: number) => (value(t + 1e-6) - value(t - 1e-6)) / 2e-6;
    return readPeaks(TIMES, TIMES.map(value), TIMES.map(rate), 0.5);
  };

  test.each([0.02, 0.1, 0.2, -0.05])('%s is read as such', (ratio) => {
    expect(Math.abs(defined(read(ratio).damping) / ratio - 1)).toBeLessThan(0.001);
  });

  test('is read from peak to peak: what settles beside the swing does not count', () => {
    const { peaks, damping } = read(0.1, { offset: 0.3 });
    expect(Math.abs(defined(damping) / 0.1 - 1)).toBeLessThan(0.02);
    // Unsigned amplitudes about the line of rest are those of another motion.
    const unsigned = defined(dampingFromAmplitudes(peaks.map(({ value }) => value)));
    expect(Math.abs(unsigned / 0.1 - 1)).toBeGreaterThan(0.1);
  });

  test('is none where there are fewer than four peaks, or more than one swing', () => {
    const few = read(0.8);
    expect(few.peaks.length).toBeLessThan(4);
    expect(few.damping).toBeUndefined();
    const mixed = read(0.1, { second: 0.5 });
    expect(mixed.peaks.length).toBeGreaterThanOrEqual(4);
    expect(mixed.damping).toBeUndefined();
  });
});

describe('response over time', () => {
  test('has four panels, with the motion of the model in them', () => {
    expect(panels).toHaveLength(4);
    const curves = curvesOf(drawing, 'curve');
    const signals = [found.push, found.steer].flatMap(({ response }) => [
      defined(response.articulation[0]),
      response.yawRate,
    ]);
    expect(curves).toHaveLength(4);
    for (const [i, { points }] of curves.entries()) {
      const panel = defined(panels[i]);
      const { x, y } = rulers(drawing, panel);
      expect(x(panel.left + panel.width)).toBeCloseTo(0.5, 9);
      for (const at of [10, 57, 120, 300]) {
        const point = defined(points[at]);
        expect(x(point.x)).toBeCloseTo(at * 0.01, 9);
        expect(y(point.y)).toBeCloseTo((defined(defined(signals[i])[at]) * 180) / Math.PI, 9);
      }
    }
  });

  test('marks the amplitudes that the damping is read off, and tells both damping ratios', () => {
    expect(marksOf(drawing, 'dot')).toHaveLength(found.push.peaks.length + found.steer.peaks.length);
    const shown = (value: number | undefined) => String(Number(defined(value).toPrecision(2)));
    const eigenvalue = shown(motionAt(centred, SPEED)?.mode?.damping);
    expect(wordsOf(drawing).filter((each) => each.startsWith('damping'))).toEqual(
      [found.push, found.steer].map(
        ({ damping }) => `damping from successive amplitudes ${shown(damping)}; eigenvalue ${eigenvalue}`,
      ),
    );
  });

  test('names pulse, speed, tyres and the caution', () => {
    const words = wordsOf(drawing).join(' ');
    expect(words).toMatch(/Push of 1\u202f\d00 N for 0\.5 s to the left on Box/);
    expect(words).toContain('Steered wheels turned by 1 deg for 0.5 s to the left');
    expect(words).toContain('case centred, on the level, at 70 km/h');
    expect(words).toContain('ISO 9815');
    expect(words).toContain('Compare layouts with it, never take a speed from it as safe.');
  });

  test('is a well-formed SVG with title and description', () => {
    const elements = elementsOf(svgOf(drawing));
    expect(elements[1]?.text).toBe('Sway: response to a push and to a turn of the steering');
    expect(elements[2]?.text).toMatch(
      /amplitudes from peak to peak .* deg; damping from successive amplitudes 0\.\d+; eigenvalue 0\.\d+/,
    );
  });

  test('claims no damping, and marks nothing, where too few peaks can be read', () => {
    const slow = 15 / 3.6;
    const { push, steer } = defined(pulseResponses(centred, slow));
    expect([push.damping, steer.damping]).toEqual([undefined, undefined]);
    const still = defined(responsePlot(centred, slow));
    expect(marksOf(still, 'dot')).toEqual([]);
    const words = wordsOf(still).join(' ');
    expect(words).toMatch(/too few peaks: no damping read off; eigenvalue 0\.\d+/);
    expect(words).not.toContain('ISO 9815');
  });

  test('of a rig that folds says so, and reads no damping off', () => {
    const folding = defined(results.find((result) => motionAt(result, 30)?.folds === true));
    const words = wordsOf(defined(responsePlot(folding, 30))).join(' ');
    expect(words).toContain('it leaves its course without swinging');
    expect(words).not.toContain('damping from');
  });

  test('is none at a speed that nothing is computed for', () => {
    expect(responsePlot(centred, 0)).toBeUndefined();
    expect(responsePlot(centred, Number.NaN)).toBeUndefined();
  });

  test('of several trailers names each joint', () => {
    const two = SWAY.replace('brakes overrun\n', 'brakes overrun\n  hitch ball at 6500 mm back, 420 mm up\n')
      .replace(
        'rig Sway',
        'trailer Tail {\n  coupling ball 50 mm, 420 mm up\n  axles single at 2500 mm back, track 1400 mm\n  tare 200 kg at 2400 mm back, 500 mm up, gyration 900 mm\n}\nrig Sway',
      )
      .replace('haul Box\n', 'haul Box\n  haul Tail\n');
    const result = defined(stabilityOf(two).results[0]);
    const train = defined(responsePlot(result, SPEED));
    expect(wordsOf(train).filter((each) => each === 'Tail')).toHaveLength(2);
    expect(curvesOf(train, 'curve')).toHaveLength(6);
  });
});
