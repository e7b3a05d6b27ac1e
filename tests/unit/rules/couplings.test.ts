import { describe, expect, test } from 'vitest';
import { couplingNegative } from '../../../language/rules/coupling-negative.ts';
import { couplingShare } from '../../../language/rules/coupling-share.ts';
import { rearHeavy } from '../../../language/rules/rear-heavy.ts';
import type { CouplingKind } from '../../../language/semantics/model.ts';
import { at, axle, HAULER, hauler, RIG, rigResult, tare, truck } from './fixture.ts';

/** A trailer of 1000 kg whose coupling carries this share of it: by moments, its mass sits so much ahead of the axle. */
const sharing = (share: number, kind: CouplingKind = 'ball') =>
  hauler({
    coupling: { kind, x: 0, z: 0.43, location: at(HAULER, 20) },
    parts: [tare(1000, -2.6 * (1 - share), at(HAULER, 40))],
  });

const shareOf = (share: number, kind?: CouplingKind) => [
  ...couplingShare.check(rigResult([truck(), sharing(share, kind)])),
];

describe('share of the trailer on its coupling', () => {
  // 4 %: StVZO § 44(3); 15 %: the most that practice names for ball couplings. Kingpins: common practice, no source.
  test.each([
    [0.041, 'ball'],
    [0.149, 'ball'],
    [0.041, 'eye'],
    [0.101, 'kingpin'],
    [0.249, 'gooseneck'],
  ] as const)('%f on a %s is within the band', (share, kind) => {
    expect(shareOf(share, kind)).toEqual([]);
  });

  test('too little', () => {
    const [finding, ...others] = shareOf(0.03);
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW602', 'warning']);
    expect(finding?.message).toBe(
      'Coupling of Hauler carries 3 % of its mass (30 kg) in case loaded; common practice is at least 4 %.',
    );
    expect(shareOf(0.09, 'kingpin').map(({ key }) => key)).toEqual(['coupling-share-low']);
  });

  test('too much', () => {
    expect(shareOf(0.16).map(({ key, severity }) => [key, severity])).toEqual([['coupling-share-high', 'information']]);
    expect(shareOf(0.16, 'kingpin')).toEqual([]);
    expect(shareOf(0.26, 'kingpin')[0]?.message).toContain('carries 26 % of its mass (260 kg)');
  });

  test('a trailer that is rear-heavy or lifts its hitch is not told off twice', () => {
    expect(shareOf(-0.01)).toEqual([]);
  });

  test('nor one that only lifts its hitch', () => {
    // Unequal rates at 2 m and 3 m, on independent springs: with its mass ahead of their middle (2.5 m), the coupling
    // is still pulled up where the stiffer axle is the front one.
    const axles = [
      { x: -2, track: 1.5, rate: 90_000 },
      { x: -3, track: 1.5, rate: 10_000 },
    ];
    const groups = [axle('axles', -2.5, at(HAULER, 10), { axles, suspension: 'independent' })];
    const result = rigResult([truck(), hauler({ groups, parts: [tare(400, -2.4, at(HAULER, 40))] })]);
    expect(result.states[0]?.quantities.get('Hauler.coupling.share')?.value).toBeLessThan(0);
    expect([...rearHeavy.check(result)]).toEqual([]);
    expect([...couplingShare.check(result)]).toEqual([]);
  });

  test('a drawbar carries no share', () => {
    const groups = [axle('front', -1, at(HAULER)), axle('rear', -4, at(HAULER))];
    const trailer = { ...sharing(0.02, 'drawbar'), groups };
    expect([...couplingShare.check(rigResult([truck(), trailer]))]).toEqual([]);
  });
});

describe('a coupling that is pulled up', () => {
  test('on level ground', () => {
    const [finding, ...others] = couplingNegative.check(rigResult([truck(), sharing(-0.02)]));
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toBe('Hauler lifts the hitch of Truck in case loaded: its coupling load comes to -20 kg.');
    expect(finding?.location).toEqual(at(RIG, 80));
    expect(finding?.related.at(-1)?.message).toBe('Hauler.tare (1\u202f000 kg) contributes -20 kg');
  });

  test('only on the climb, where a high centre of gravity pulls back', () => {
    const high = hauler({ parts: [tare(1000, -2.6 * 0.95, at(HAULER, 40), 1.6)] });
    const travel = { down: 0, up: 0.15, location: at(RIG, 65) };
    const result = rigResult([truck(), high], { travel });
    // Moments about the coupling at 0.43 m on a slope with sin 0.14834 and cos 0.98894:
    // 1000 · (0.98894 · 0.05 - 0.14834 · (1.6 - 0.43) / 2.6) = -17.31 kg.
    const messages = [...couplingNegative.check(result)].map(({ message }) => message);
    expect(messages).toEqual([
      'Hauler lifts the hitch of Truck in case loaded, on the 15 % climb: its coupling load comes to -17.3 kg.',
    ]);
    expect([...couplingNegative.check(rigResult([truck(), high]))]).toEqual([]);
  });

  test('a trailer alone speaks of its own coupling', () => {
    const unit = sharing(-0.02);
    const result = rigResult([unit], { standalone: true, location: unit.location });
    expect([...couplingNegative.check(result)][0]?.message).toMatch(/^Hauler lifts its coupling in case loaded/);
  });
});

describe('a rear-heavy trailer', () => {
  test('by how far, and how hard it tips', () => {
    const [finding, ...others] = rearHeavy.check(rigResult([truck(), sharing(-0.02)]));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW511', 'warning']);
    // 2 % of 2600 mm; 1000 kg · 0.052 m.
    expect(finding?.message).toBe(
      'Hauler is rear-heavy in case loaded: its centre of gravity is 52 mm behind the middle of its axles; ' +
        'uncoupled, it tips back with 52 kg·m.',
    );
  });

  test('a centre of gravity over the axle is the limit', () => {
    expect([...rearHeavy.check(rigResult([truck(), sharing(0)]))]).toEqual([]);
  });

  test('on independent springs the coupling can still be loaded', () => {
    // Equal rates at 2.6 m and 3.4 m: the coupling carries W · (1 - 6 · x / (2.6² + 3.4²)), 1.09 % at x = 3.02 m.
    const axles = [
      { x: -2.6, track: 1.5 },
      { x: -3.4, track: 1.5 },
    ];
    const groups = [axle('axles', -3, at(HAULER, 10), { axles, suspension: 'independent' })];
    const result = rigResult([truck(), hauler({ groups, parts: [tare(400, -3.02, at(HAULER, 40))] })]);
    expect(result.states[0]?.quantities.get('Hauler.coupling.share')?.value).toBeCloseTo(0.01092, 5);
    expect([...rearHeavy.check(result)].map(({ key }) => key)).toEqual(['rear-heavy']);
    expect([...couplingNegative.check(result)]).toEqual([]);
    expect([...couplingShare.check(result)]).toEqual([]);
  });
});
