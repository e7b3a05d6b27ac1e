import { describe, expect, test } from 'vitest';
import type { Combination, WeightDistribution } from '../../language/mechanics/combination.ts';
import { loadsOf, mass, trailer, vehicle } from '../unit/mechanics/rigs.ts';

const inch = 0.0254;
const pound = 0.45359237;
const poundForce = 4.4482216152605;

function rig(weightDistribution?: WeightDistribution): Combination {
  return {
    units: [vehicle(130 * inch, 65 * inch), trailer('equalised', [{ x: -200 * inch }])],
    weightDistribution,
  };
}

const sources = [mass(0, 5000 * pound, -60 * inch), mass(1, 6000 * pound, -178 * inch)];

describe('a moment by spring bars', () => {
  // Source: a published derivation of the load transfer (R. Gratz, 2004): wheelbase 130 in, overhang 65 in, coupling to
  // trailer axles 200 in, bars 30 in long with 2000 lb at their ends: the trailer axles gain 300 lb. Front and rear
  // axle are computed from its equations, ΔFront = Mh/wb·(1 + oh/Lt), the rest leaves the rear axle.
  const moment = 2000 * poundForce * 30 * inch;
  const without = loadsOf(rig(), sources);
  const with_ = loadsOf(rig({ kind: 'moment', moment }), sources);
  const change = (unit: number, axle: number) =>
    ((with_[unit]?.axles[axle] ?? Number.NaN) - (without[unit]?.axles[axle] ?? Number.NaN)) / pound;

  test('trailer axles +300 lb', () => expect(change(1, 0)).toBeCloseTo(300, 9));
  test('front axle +611.54 lb', () => expect(change(0, 0)).toBeCloseTo(611.54, 2));
  test('rear axle −911.54 lb', () => expect(change(0, 1)).toBeCloseTo(-911.54, 2));
  test('the coupling carries 300 lb less', () => {
    expect(((with_[1]?.coupling ?? 0) - (without[1]?.coupling ?? 0)) / pound).toBeCloseTo(-300, 9);
  });
});

describe('front-axle load restoration', () => {
  // Source: the definition used with SAE J2807, FALR = (F_WD − F_noWD)/(F_solo − F_noWD) (read in secondary sources).
  const front = (combination: Combination) => loadsOf(combination, sources)[0]?.axles[0] ?? Number.NaN;
  const solo = front({ units: [vehicle(130 * inch, 65 * inch)] });
  const without = front(rig());

  test.each([0, 0.25, 0.5, 1, 1.1])('a share of %d comes out as that FALR', (share) => {
    expect((front(rig({ kind: 'restored', share })) - without) / (solo - without)).toBeCloseTo(share, 9);
  });

  test('the moment set on level ground stays when braking', () => {
    const braking = { grade: 0, deceleration: 3 };
    const moment = (rig0: Combination) => loadsOf(rig0, sources, braking)[1]?.axles[0] ?? Number.NaN;
    const level = (rig0: Combination) => loadsOf(rig0, sources)[1]?.axles[0] ?? Number.NaN;
    const set = rig({ kind: 'restored', share: 0.5 });
    expect(moment(set) - moment(rig())).toBeCloseTo(level(set) - level(rig()), 9);
  });
});
