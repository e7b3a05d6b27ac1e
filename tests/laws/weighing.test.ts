import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LEVEL, type Unit } from '../../language/mechanics/combination.ts';
import {
  evaluateLoadValue,
  type Influence,
  massInfluence,
  renumberInfluence,
} from '../../language/mechanics/influence.ts';
import { isStaticsProblem, solveSupports } from '../../language/mechanics/statics.ts';
import {
  couplingLoadByDifference,
  type Measured,
  towedMassByDifference,
} from '../../language/mechanics/weighing/differences.ts';
import type { Observation, TareGuess } from '../../language/mechanics/weighing/observation.ts';
import { reconcile } from '../../language/mechanics/weighing/reconcile.ts';
import type { Reconciliation, UsedReading } from '../../language/mechanics/weighing/reconciliation.ts';
import {
  pitchOfRise,
  raisedSupportInfluence,
  standingSupportInfluence,
} from '../../language/mechanics/weighing/tilt.ts';
import { number, randomRig } from './combinations.ts';
import { everythingWeighable, TRAILER, VEHICLE, type Weighable } from './weighing-yard.ts';

const runs = { numRuns: 300 };

interface Weighing {
  readonly observations: readonly Observation[];
  /** As the file has them, and as they are. */
  readonly tares: readonly TareGuess[];
  readonly true: readonly TareGuess[];
}

const place = fc.record({ x: number(-6, 0), y: number(-0.4, 0.4), z: number(0.3, 1.5) });

/** A random rig with listed masses and tares, any choice of what can be weighed, read exactly. */
const randomWeighing: fc.Arbitrary<Weighing> = fc
  .record({
    rig: randomRig,
    tares: fc.array(fc.record({ mass: number(500, 3000), centre: place }), { minLength: 3, maxLength: 3 }),
    changes: fc.array(
      fc.record({ mass: number(-200, 400), x: number(-0.5, 0.5), y: number(-0.2, 0.2), z: number(-0.3, 0.3) }),
      {
        minLength: 3,
        maxLength: 3,
      },
    ),
    unknown: fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }),
    chosen: fc.array(fc.nat(1000), { minLength: 1, maxLength: 14 }),
    deviations: fc.array(number(0.5, 10), { minLength: 14, maxLength: 14 }),
  })
  .map(({ rig, tares, changes, unknown, chosen, deviations }) => {
    const { combination, sources } = rig;
    const filed = combination.units.map((_, unit) => ({ unit, ...(tares[unit] ?? { mass: 1000, centre: NOWHERE }) }));
    const actual = filed.map((tare, unit) => (unknown[unit] ? changed(tare, changes[unit]) : tare));
    const weighable = everythingWeighable(combination);
    const observations = chosen.flatMap((choice, index) => {
      const each = weighable[choice % weighable.length];
      return each === undefined ? [] : [observe(each, sources, filed, actual, deviations[index] ?? 1)];
    });
    const isUnknown = ({ unit }: TareGuess) => unknown[unit] === true;
    return { observations, tares: filed.filter(isUnknown), true: actual.filter(isUnknown) };
  });

const NOWHERE = { x: 0, y: 0, z: 0 };

function changed(tare: TareGuess, change: { mass: number; x: number; y: number; z: number } | undefined): TareGuess {
  const { x, y, z } = tare.centre;
  if (change === undefined) return tare;
  return { ...tare, mass: tare.mass + change.mass, centre: { x: x + change.x, y: y + change.y, z: z + change.z } };
}

function named(tares: readonly TareGuess[]) {
  return tares.map(({ unit, mass, centre }) => ({ id: `tare ${unit}`, unit, mass, centre }));
}

function observe(
  { influence, units }: Weighable,
  listed: readonly { id: string; unit: number; mass: number; centre: TareGuess['centre'] }[],
  filed: readonly TareGuess[],
  actual: readonly TareGuess[],
  deviation: number,
): Observation {
  const present = ({ unit }: { unit: number }) => units.includes(unit);
  const reading = evaluateLoadValue(influence, [...listed, ...named(actual)].filter(present));
  return { influence, sources: [...listed, ...named(filed)].filter(present), reading, deviation };
}

function used(result: Reconciliation): UsedReading[] {
  return result.readings.map((reading) => {
    if (reading.refused !== undefined) throw new Error(`refused: ${reading.refused}`);
    return reading;
  });
}

const QUANTITIES = ['mass', 'x', 'y', 'z'] as const;

function quantityOf(tare: TareGuess, quantity: (typeof QUANTITIES)[number]): number {
  return quantity === 'mass' ? tare.mass : tare.centre[quantity];
}

describe('a slip made from a rig', () => {
  test('gives back the tares as far as it determines them, and keeps the rest as the file has it', () => {
    let determined = 0;
    let kept = 0;
    fc.assert(
      fc.property(randomWeighing, ({ observations, tares, true: actual }) => {
        const result = reconcile(observations, tares);
        expect(result.standardErrorFactor).toBeLessThan(1.001);
        expect(result.contradiction).toBeUndefined();
        for (const [i, { fitted }] of used(result).entries()) {
          expect(Math.abs(fitted - (observations[i]?.reading ?? 0))).toBeLessThan(1e-5);
        }
        for (const [t, tare] of result.tares.entries()) {
          const truth = actual[t];
          const file = tares[t];
          if (truth === undefined || file === undefined) continue;
          for (const quantity of QUANTITIES) {
            const { value, filed, standardError } = tare[quantity];
            expect(filed).toBe(quantityOf(file, quantity));
            if (standardError === undefined) {
              kept++;
              expect(value).toBe(filed);
              expect(tare.missing).not.toEqual([]);
            } else {
              determined++;
              expect(Math.abs(value - quantityOf(truth, quantity))).toBeLessThan(1e-6 * (1 + standardError));
            }
          }
        }
      }),
      runs,
    );
    expect(determined).toBeGreaterThan(100);
    expect(kept).toBeGreaterThan(100);
  });
});

describe('readings taken together', () => {
  test('count the same in any order', () => {
    fc.assert(
      fc.property(randomWeighing, ({ observations, tares }) => {
        const noisy = observations.map((each, i) => ({ ...each, reading: each.reading + (i % 3) * each.deviation }));
        const result = reconcile(noisy, tares);
        const reversed = reconcile([...noisy].reverse(), tares);
        expect(reversed.chiSquare).toBeCloseTo(result.chiSquare, 6);
        const back = used(reversed).reverse();
        for (const [i, reading] of used(result).entries()) {
          expect(back[i]?.fitted).toBeCloseTo(reading.fitted, 5);
          expect(back[i]?.redundancy).toBeCloseTo(reading.redundancy, 6);
        }
        expect(reversed.tares.map(({ missing }) => missing)).toEqual(result.tares.map(({ missing }) => missing));
      }),
      runs,
    );
  });

  test('are predicted alike whether a mass is listed as one or as two', () => {
    fc.assert(
      fc.property(randomWeighing, number(0.1, 0.9), ({ observations, tares }, share) => {
        const apart = observations.map((each) => ({
          ...each,
          sources: each.sources.flatMap((source) => [
            { ...source, mass: share * source.mass },
            { ...source, id: `${source.id}, rest`, mass: (1 - share) * source.mass },
          ]),
        }));
        const result = reconcile(observations, tares);
        for (const [i, { predicted }] of used(reconcile(apart, tares)).entries()) {
          expect(predicted).toBeCloseTo(used(result)[i]?.predicted ?? Number.NaN, 6);
        }
      }),
      runs,
    );
  });

  test('twice have the errors of one, over √2', () => {
    fc.assert(
      fc.property(randomWeighing, ({ observations, tares }) => {
        const once = reconcile(observations, tares);
        const twice = reconcile([...observations, ...observations], tares);
        for (const [t, { mass, x, y, z }] of twice.tares.entries()) {
          const other = once.tares[t];
          for (const [a, b] of [
            [mass, other?.mass],
            [x, other?.x],
            [y, other?.y],
            [z, other?.z],
          ] as const) {
            expect(a.standardError === undefined).toBe(b?.standardError === undefined);
            if (a.standardError !== undefined && b?.standardError !== undefined && b.standardError > 1e-9) {
              expect(a.standardError / b.standardError).toBeCloseTo(Math.SQRT1_2, 5);
            }
          }
        }
      }),
      runs,
    );
  });

  test('redundancy numbers add up to the degrees of freedom', () => {
    fc.assert(
      fc.property(randomWeighing, ({ observations, tares }) => {
        const result = reconcile(observations, tares);
        for (const { redundancy } of used(result)) {
          expect(redundancy).toBeGreaterThanOrEqual(0);
          expect(redundancy).toBeLessThanOrEqual(1);
        }
        const sum = used(result).reduce((total, { redundancy }) => total + redundancy, 0);
        expect(sum).toBeCloseTo(result.degreesOfFreedom, 6);
      }),
      runs,
    );
  });
});

describe('the method of differences', () => {
  function loads(units: readonly Unit[], places: readonly number[]): Influence[] {
    const solution = solveSupports({ units }, LEVEL);
    if (isStaticsProblem(solution)) throw new Error(solution.problem);
    return solution.units.flatMap(({ groups }) => groups.map(({ load }) => renumberInfluence(load, places, 2)));
  }

  /**
   * Distance (m) of the centre of gravity from one of two supports `span` m apart, from independent readings of both: by
   * moments, with its standard deviation to first order.
   */
  function distanceFromSupport(support: Measured, other: Measured, span: number): Measured {
    const total = support.value + other.value;
    const share = other.value / total;
    const deviation = Math.hypot((1 - share) * other.deviation, share * support.deviation) / total;
    return { value: span * share, deviation: span * deviation };
  }

  test('is what least squares makes of the same three readings', () => {
    const [front, rear, axle] = loads([VEHICLE, TRAILER], [0, 1]);
    if (front === undefined || rear === undefined || axle === undefined) throw new Error('three axles');
    fc.assert(
      fc.property(
        fc.tuple(number(1700, 2300), number(50, 200), number(900, 1600)),
        fc.tuple(number(1, 10), number(1, 10), number(1, 10)),
        ([alone, coupling, axles], [d1, d2, d3]) => {
          const tares = [
            { unit: 0, mass: 1900, centre: { x: -1.3, y: 0, z: 0.6 } },
            { unit: 1, mass: 1300, centre: { x: -4.1, y: 0, z: 0.7 } },
          ];
          const sources = named(tares);
          const vehicle = { value: alone, deviation: d1 };
          const tow = { value: alone + coupling, deviation: d2 };
          const trailer = { value: axles, deviation: d3 };
          const bothTowAxles = {
            constant: 0,
            units: [0, 1].map((unit) => {
              const [a, b] = [front.units[unit], rear.units[unit]];
              const sum = (key: 'one' | 'x' | 'y' | 'z' | 'xy') => (a?.[key] ?? 0) + (b?.[key] ?? 0);
              return { one: sum('one'), x: sum('x'), y: sum('y'), z: sum('z'), xy: sum('xy') };
            }),
          };
          const result = reconcile(
            [
              { influence: massInfluence(2, [0]), sources: sources.slice(0, 1), reading: alone, deviation: d1 },
              { influence: bothTowAxles, sources, reading: tow.value, deviation: d2 },
              { influence: axle, sources, reading: axles, deviation: d3 },
            ],
            tares,
          );
          const byDifference = couplingLoadByDifference([tow], [vehicle]);
          const mass = towedMassByDifference([tow, trailer], [vehicle]);
          const found = result.tares[1];
          expect(found?.mass.value).toBeCloseTo(mass.value, 6);
          expect(found?.mass.standardError).toBeCloseTo(mass.deviation, 6);
          const place = distanceFromSupport(byDifference, trailer, 4.5);
          expect(found?.x.value).toBeCloseTo(-place.value, 6);
          expect(found?.x.standardError).toBeCloseTo(place.deviation, 6);
          expect(found?.missing).toEqual(['lateral', 'height']);
        },
      ),
      runs,
    );
  });

  test('differences of one reading with itself are nothing', () => {
    expect(couplingLoadByDifference([{ value: 5, deviation: 3 }], [{ value: 5, deviation: 4 }])).toEqual({
      value: 0,
      deviation: 5,
    });
  });
});

describe('a unit with one end raised', () => {
  const point = fc.record({ x: number(-6, 0), z: number(0.2, 0.6) });
  const mass = fc.record({ mass: number(10, 1000), x: number(-6, 0), z: number(0.2, 2) });

  /** Where a point is once the unit has been turned about its standing support, m. */
  function turned({ x, z }: { x: number; z: number }, about: { x: number; z: number }, angle: number) {
    const [ahead, up] = [x - about.x, z - about.z];
    return {
      x: about.x + ahead * Math.cos(angle) - up * Math.sin(angle),
      z: about.z + ahead * Math.sin(angle) + up * Math.cos(angle),
    };
  }

  test('carries what moments of the turned masses about the standing support say', () => {
    fc.assert(
      fc.property(
        point,
        point,
        fc.array(mass, { minLength: 1 }),
        number(0.02, 0.4),
        (standing, raised, masses, pitch) => {
          fc.pre(Math.abs(standing.x - raised.x) > 1);
          const tilt = { standing, raised, pitch };
          const influence = raisedSupportInfluence(1, 0, tilt);
          const other = standingSupportInfluence(1, 0, tilt);
          if (influence === undefined || other === undefined) throw new Error('not tilted');
          // The front raised turns the nose up, the rear raised turns it down.
          const angle = raised.x > standing.x ? pitch : -pitch;
          const lever = turned(raised, standing, angle).x - standing.x;
          const moment = masses.reduce(
            (sum, each) => sum + each.mass * (turned(each, standing, angle).x - standing.x),
            0,
          );
          const sources = masses.map(({ mass: kilograms, x, z }, i) => ({
            id: `${i}`,
            unit: 0,
            mass: kilograms,
            centre: { x, y: 0.3, z },
          }));
          const total = masses.reduce((sum, each) => sum + each.mass, 0);
          expect(evaluateLoadValue(influence, sources) / total).toBeCloseTo(moment / lever / total, 9);
          const both = evaluateLoadValue(influence, sources) + evaluateLoadValue(other, sources);
          expect(both / total).toBeCloseTo(1, 9);
          const rise = turned(raised, standing, angle).z - raised.z;
          fc.pre(rise > 0);
          expect(pitchOfRise(standing, raised, rise)).toBeCloseTo(pitch, 9);
        },
      ),
      runs,
    );
  });
});
