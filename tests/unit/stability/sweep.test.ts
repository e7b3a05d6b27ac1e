import { describe, expect, test } from 'vitest';
import { equationsOf } from '../../../language/mechanics/stability/equations.ts';
import { leastDamped, modesAt } from '../../../language/mechanics/stability/modes.ts';
import { samplerOf } from '../../../language/mechanics/stability/samples.ts';
import { sweepSpeeds } from '../../../language/mechanics/stability/sweep.ts';
import { trackerOf } from '../../../language/mechanics/stability/tracking.ts';
import { sampleTrains } from '../../laws/trains.ts';
import { solved, TOURING, textbookTrain } from './trains.ts';

describe('carrying eigenvalues on from speed to speed', () => {
  test('gives what starting anew at each speed gives', () => {
    for (const [i, train] of sampleTrains(200, 21, { course: 'either' }).entries()) {
      const equations = solved(equationsOf(train));
      const tracker = trackerOf(equations);
      const sampler = samplerOf(equations);
      // What swings least is what counts; far to the left eigenvalues lie so close that rounding parts them.
      let near = 0;
      let far = 0;
      for (let k = 0; k < 60; k++) {
        const carried = tracker(3 + 0.8 * k);
        const anew = sampler(3 + 0.8 * k);
        for (const [m, real] of anew?.real.entries() ?? []) {
          const away = Math.abs((carried?.real[m] ?? Number.NaN) - real) / (anew?.magnitude ?? 0);
          if (real > -10) near = Math.max(near, away);
          far = Math.max(far, away);
        }
      }
      expect(near, `train ${i}`).toBeLessThan(1e-8);
      expect(far, `train ${i}`).toBeLessThan(1e-5);
    }
  }, 30_000);
});

describe('a sweep over speeds', () => {
  const train = textbookTrain({ ...TOURING, e: 4.25 }, 0.4);
  const sweep = solved(sweepSpeeds(train, { least: 5, most: 45, points: 60 }));

  test('has at every speed the damping and frequency of the least-damped mode', () => {
    const equations = solved(equationsOf(train));
    for (const [i, speed] of sweep.speeds.entries()) {
      const mode = leastDamped(solved(modesAt(equations, speed)));
      expect(sweep.damping[i]).toBeCloseTo(mode?.damping ?? 1, 8);
      expect(sweep.frequency[i]).toBeCloseTo(mode?.frequency ?? 0, 8);
    }
  });

  test('changes sign at the zero-damping speed, where the trailer swings', () => {
    const { zeroDamping, crossings, divergence } = sweep;
    if (zeroDamping.kind !== 'at') throw new Error('a zero-damping speed');
    expect(divergence.kind).toBe('above');
    expect(crossings).toHaveLength(1);
    expect(crossings[0]).toMatchObject({ speed: zeroDamping.speed, swinging: true, growsAbove: true });
    for (const [i, speed] of sweep.speeds.entries()) {
      expect((sweep.damping[i] ?? 0) > 0).toBe(speed < zeroDamping.speed);
      expect((sweep.growth[i] ?? 0) < 0).toBe(speed < zeroDamping.speed);
    }
    const mode = leastDamped(solved(modesAt(solved(equationsOf(train)), zeroDamping.speed)));
    expect(mode).toMatchObject({ motion: 'trailer-swing', unit: 1 });
    expect(mode?.damping).toBeCloseTo(0, 10);
    expect(mode?.frequency).toBeCloseTo(crossings[0]?.frequency ?? 0, 8);
  });

  test('says so when the range starts beyond the critical speed', () => {
    expect(solved(sweepSpeeds(train, { least: 40, most: 45, points: 10 })).zeroDamping).toEqual({ kind: 'below' });
  });
});

describe('where something begins to grow', () => {
  const RANGE = { least: 3, most: 60, points: 60 };
  const FINE = 1500;
  const kinds = [
    ['while it swings', 'zeroDamping', true],
    ['without swinging', 'divergence', false],
  ] as const;

  test.each(kinds)(
    '%s is the lowest speed at which a fine sweep has it',
    (_, name, swinging) => {
      const seen = { at: 0, below: 0, above: 0 };
      let changedKind = 0;
      for (const [i, train] of sampleTrains(150, 33, { course: 'either' }).entries()) {
        const sweep = solved(sweepSpeeds(train, RANGE));
        const sampler = samplerOf(solved(equationsOf(train)));
        const step = (RANGE.most - RANGE.least) / FINE;
        let first = 0;
        for (; first <= FINE; first++) {
          const { growing = 0, imaginary = [] } = sampler(RANGE.least + first * step) ?? {};
          if (imaginary.slice(0, growing).some((value) => value > 0 === swinging)) break;
        }
        const found = sweep[name];
        seen[found.kind] += 1;
        if (found.kind === 'below') expect(first, `train ${i}`).toBe(0);
        else if (found.kind === 'above') expect(first, `train ${i}`).toBe(FINE + 1);
        else {
          const away = RANGE.least + first * step - found.speed;
          expect(away, `train ${i}`).toBeGreaterThan(-1e-6);
          expect(away, `train ${i}`).toBeLessThan(1.001 * step);
          const crosses = sweep.crossings.some(({ speed }) => Math.abs(speed - found.speed) < 1e-6);
          if (!crosses) changedKind += 1;
        }
      }
      expect(Math.min(seen.at, seen.above)).toBeGreaterThan(0);
      // A growing swing that becomes a fold, or the other way round, is among them.
      if (!swinging) expect(changedKind).toBeGreaterThan(0);
    },
    60_000,
  );
});

describe('modes in words', () => {
  test('a car alone yaws; an oversteering one spins; a trailer heavy at the nose makes it fold', () => {
    const [car] = textbookTrain(TOURING).units;
    const [unruly] = textbookTrain({ ...TOURING, Cr: 60_000 }).units;
    if (car === undefined || unruly === undefined) throw new Error('a car');
    const first = (units: (typeof car)[], speed: number) => solved(modesAt(solved(equationsOf({ units })), speed))[0];
    expect(first([car], 25)).toMatchObject({ motion: 'vehicle-yaw', unit: 0 });
    expect(first([unruly], 60)).toMatchObject({ motion: 'spin', unit: 0 });
    const folding = solved(modesAt(solved(equationsOf(textbookTrain({ ...TOURING, Cr: 55_000, e: 3.2 }))), 45));
    expect(folding[0]).toMatchObject({ motion: 'folding', frequency: 0, damping: -1 });
  });
});
