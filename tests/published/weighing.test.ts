import { describe, expect, test } from 'vitest';
import { massInfluence, unitInfluence } from '../../language/mechanics/influence.ts';
import { criticalChiSquare } from '../../language/mechanics/weighing/contradiction.ts';
import { couplingLoadByDifference, towedMassByDifference } from '../../language/mechanics/weighing/differences.ts';
import { deviationOfResolution } from '../../language/mechanics/weighing/observation.ts';
import { reconcile } from '../../language/mechanics/weighing/reconcile.ts';
import { pitchOfRise, raisedSupportInfluence, type Tilt } from '../../language/mechanics/weighing/tilt.ts';

describe('height of the centre of gravity by raising an axle', () => {
  // Source: ISO 10392:2011, h = r + (b − L·Rf/W)·cot θ; the figures are computed from it: W 1800 kg, front 1000 kg,
  // L 2.8 m, θ 15°, r 0.32 m, h 0.62 m ↔ front reading 948.324 kg. b = L · 1000 / 1800.
  const tilt = { standing: { x: -2.8, z: 0.32 }, raised: { x: 0, z: 0.32 }, pitch: Math.PI / 12 };
  const x = -2.8 * (1 - 1000 / 1800);

  function raisedReading(height: number, at: Tilt = tilt): number {
    const own = raisedSupportInfluence(1, 0, at)?.units[0];
    return own === undefined ? Number.NaN : 1800 * (own.one + own.x * x + own.z * height);
  }

  test('0.62 m gives a reading of 948.324 kg', () => {
    expect(raisedReading(0.62)).toBeCloseTo(948.324, 3);
  });

  test('a reading of 948.324 kg means 0.62 m, whatever the file says', () => {
    const centre = { x: -1.1, y: 0, z: 1 };
    const sources = [{ id: 'tare', unit: 0, mass: 1500, centre }];
    const front = unitInfluence(1, 0, { one: 1, x: 1 / 2.8 });
    const lifted = raisedSupportInfluence(1, 0, tilt);
    if (lifted === undefined) throw new Error('not lifted');
    const { tares } = reconcile(
      [
        { influence: massInfluence(1, [0]), sources, reading: 1800, deviation: 1 },
        { influence: front, sources, reading: 1000, deviation: 1 },
        { influence: lifted, sources, reading: 948.324, deviation: 1 },
      ],
      [{ unit: 0, mass: 1500, centre }],
    );
    expect(tares[0]?.mass.value).toBeCloseTo(1800, 6);
    expect(tares[0]?.x.value).toBeCloseTo(x, 6);
    expect(tares[0]?.z.value).toBeCloseTo(0.62, 5);
  });

  test('a centre of gravity at the height of the wheel centres shows no change', () => {
    expect(raisedReading(0.32)).toBeCloseTo(1000, 9);
  });

  test('the angle is that of the rise over the wheelbase', () => {
    // Source: geometry, sin θ = rise / L.
    expect(pitchOfRise(tilt.standing, tilt.raised, 2.8 * Math.sin(Math.PI / 12))).toBeCloseTo(Math.PI / 12, 12);
  });

  test.each([
    { ...tilt, pitch: 0 },
    { ...tilt, pitch: Number.NaN },
    { ...tilt, pitch: Math.PI / 2 },
    { ...tilt, raised: tilt.standing },
  ])('nothing to tell from %o', (useless) => {
    expect(raisedSupportInfluence(1, 0, useless)).toBeUndefined();
  });
});

describe('weighbridge arithmetic', () => {
  const exact = (value: number) => ({ value, deviation: 0 });

  // Source: moments, computed: a trailer of 1500 kg with its centre of gravity 4.2 m and its axle 4.5 m behind the
  // coupling has 1400 kg on the axle and 100 kg on the coupling; wheelbase 2.7 m and overhang 1.0 m make that −37.04 kg
  // at the front axle and +137.04 kg at the rear axle of the tow vehicle. Differences of slips: common practice.
  test('the coupling load is what the tow vehicle gains', () => {
    const coupled = [exact(900 - 37.04), exact(800 + 137.04)];
    expect(couplingLoadByDifference(coupled, [exact(900), exact(800)]).value).toBeCloseTo(100, 9);
  });

  test('the trailer is the combination less the vehicle alone', () => {
    const combination = [exact(862.96), exact(937.04), exact(1400)];
    expect(towedMassByDifference(combination, [exact(1700)]).value).toBeCloseTo(1500, 9);
  });

  test('the centre of gravity is 4.2 m behind the coupling', () => {
    const centre = { x: -4, y: 0, z: 0.8 };
    const sources = [{ id: 'tare', unit: 0, mass: 1300, centre }];
    const { tares } = reconcile(
      [
        { influence: unitInfluence(1, 0, { one: 1, x: 1 / 4.5 }), sources, reading: 100, deviation: 1 },
        { influence: unitInfluence(1, 0, { x: -1 / 4.5 }), sources, reading: 1400, deviation: 1 },
      ],
      [{ unit: 0, mass: 1300, centre }],
    );
    expect(tares[0]?.x.value).toBeCloseTo(-4.2, 9);
  });

  test('deviations add as squares', () => {
    // Source: JCGM 100:2008 (GUM), 5.1.2, independent quantities: √(3² + 4²) = 5, √(5² + 12²) = 13. From memory.
    const sum = couplingLoadByDifference(
      [
        { value: 1, deviation: 3 },
        { value: 1, deviation: 4 },
      ],
      [{ value: 1, deviation: 12 }],
    );
    expect(sum.deviation).toBeCloseTo(13, 12);
  });

  test('a scale with steps of 20 kg is known within 5.77 kg', () => {
    // Source: JCGM 100:2008 (GUM), F.2.2.1: the standard uncertainty of a resolution d is 0.29·d. From memory.
    expect(deviationOfResolution(20) / 20).toBeCloseTo(0.29, 2);
    expect(deviationOfResolution(20)).toBeCloseTo(5.7735, 4);
  });
});

describe('chi square that chance exceeds once in a thousand times', () => {
  // Source: tables of the distribution, column 0.001 (e.g. NIST/SEMATECH e-Handbook 1.3.6.7.4, from memory).
  test.each([
    [1, 10.828],
    [2, 13.816],
    [5, 20.515],
    [10, 29.588],
    [12, 32.909],
    [15, 37.697],
    [20, 45.315],
    [30, 59.703],
  ])('%i degrees of freedom: %f', (degrees, critical) => {
    expect(criticalChiSquare(degrees) / critical).toBeCloseTo(1, 2);
  });
});
