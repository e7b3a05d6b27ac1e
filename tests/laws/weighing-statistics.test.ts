import { describe, expect, test } from 'vitest';
import { evaluateLoadValue } from '../../language/mechanics/influence.ts';
import type { Observation, TareGuess, WeighedSource } from '../../language/mechanics/weighing/observation.ts';
import { reconcile } from '../../language/mechanics/weighing/reconcile.ts';
import { everythingWeighable, seeded, TRAILER, VEHICLE } from './weighing-yard.ts';

// All draws are seeded: nothing here passes or fails by chance.

const WEIGHABLE = everythingWeighable({ units: [VEHICLE, TRAILER] });

const FILED: readonly TareGuess[] = [
  { unit: 0, mass: 1900, centre: { x: -1.2, y: 0, z: 0.65 } },
  { unit: 1, mass: 1200, centre: { x: -4.2, y: 0, z: 0.8 } },
];

const TRUE: readonly TareGuess[] = [
  { unit: 0, mass: 1960, centre: { x: -1.25, y: 0.03, z: 0.7 } },
  { unit: 1, mass: 1310, centre: { x: -4.1, y: -0.04, z: 0.9 } },
];

const LISTED: readonly WeighedSource[] = [
  { id: 'guest', unit: 0, mass: 80, centre: { x: -1.4, y: 0.4, z: 0.8 }, spread: { mass: 7 } },
  { id: 'tank', unit: 1, mass: 60, centre: { x: -3, y: 0.5, z: 0.5 }, spread: { mass: 6, x: 0.2 } },
];

const named = (tares: readonly TareGuess[]) =>
  tares.map(({ spread: _, ...tare }) => ({ ...tare, id: `tare ${tare.unit}` }));

/** Everything weighed once, with errors of the scales and of the listed masses as stated. */
function weigh({ normal }: ReturnType<typeof seeded>): Observation[] {
  const listed = LISTED.map(({ spread, ...source }) => ({
    ...source,
    mass: source.mass + (spread?.mass ?? 0) * normal(),
    centre: { ...source.centre, x: source.centre.x + (spread?.x ?? 0) * normal() },
  }));
  return WEIGHABLE.map(({ influence, units }, index) => {
    const present = ({ unit }: { unit: number }) => units.includes(unit);
    const deviation = 1 + (index % 4);
    const reading = evaluateLoadValue(influence, [...named(TRUE), ...listed].filter(present)) + deviation * normal();
    return { influence, sources: [...LISTED, ...named(FILED)].filter(present), reading, deviation };
  });
}

const QUANTITIES = ['mass', 'x', 'y', 'z'] as const;

const quantityOf = (tare: TareGuess, quantity: (typeof QUANTITIES)[number]) =>
  quantity === 'mass' ? tare.mass : tare.centre[quantity];

const REPEATS = 600;

test('everything is weighed', () => {
  expect(WEIGHABLE.length).toBe(26);
});

describe('errors as stated', () => {
  const random = seeded(1);
  const weighings = Array.from({ length: REPEATS }, () => weigh(random));
  const results = weighings.map((observations) => reconcile(observations, FILED));

  /** Errors of the estimates in their standard errors by the stated deviations. */
  function errors(tare: number, quantity: (typeof QUANTITIES)[number]): number[] {
    return results.map((result) => {
      const found = result.tares[tare]?.[quantity];
      const truth = TRUE[tare];
      if (found?.standardError === undefined || truth === undefined) throw new Error('not determined');
      return ((found.value - quantityOf(truth, quantity)) / found.standardError) * result.standardErrorFactor;
    });
  }

  test.each(FILED.flatMap((_, tare) => QUANTITIES.map((quantity) => [tare, quantity] as const)))(
    'tare %i, %s: unbiased, within 1.96 standard errors 95 times in 100, nearly never beyond 4',
    (tare, quantity) => {
      const all = errors(tare, quantity);
      const mean = all.reduce((sum, error) => sum + error, 0) / REPEATS;
      const square = all.reduce((sum, error) => sum + error ** 2, 0) / REPEATS;
      // Within four standard deviations of what these means and shares vary by.
      expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(REPEATS));
      expect(Math.abs(square - 1)).toBeLessThan(4 * Math.sqrt(2 / REPEATS));
      const within = all.filter((error) => Math.abs(error) < 1.96).length / REPEATS;
      expect(Math.abs(within - 0.95)).toBeLessThan(4 * Math.sqrt((0.95 * 0.05) / REPEATS));
      expect(all.filter((error) => Math.abs(error) > 4).length).toBeLessThanOrEqual(1);
    },
  );

  test('chi square is the degrees of freedom on average, with twice that as its variance', () => {
    const degrees = results[0]?.degreesOfFreedom ?? 0;
    expect(degrees).toBe(26 - 9);
    const mean = results.reduce((sum, { chiSquare }) => sum + chiSquare, 0) / REPEATS;
    expect(Math.abs(mean - degrees)).toBeLessThan(4 * Math.sqrt((2 * degrees) / REPEATS));
    const variance = results.reduce((sum, { chiSquare }) => sum + (chiSquare - mean) ** 2, 0) / REPEATS;
    expect(variance / (2 * degrees)).toBeGreaterThan(0.7);
    expect(variance / (2 * degrees)).toBeLessThan(1.3);
  });

  test('no reading is named but by the chance that is allowed, three in a hundred weighings of 26 readings', () => {
    const namedWrongly = results.filter(({ contradiction }) => contradiction !== undefined).length;
    expect(namedWrongly / REPEATS).toBeLessThan(0.03 + 4 * Math.sqrt((0.03 * 0.97) / REPEATS));
    const disagreeing = results.filter(({ agreement }) => agreement === 'disagree').length;
    expect(disagreeing).toBeGreaterThanOrEqual(namedWrongly);
    expect(disagreeing / REPEATS).toBeLessThan(0.06);
  });

  test('the file is found beyond tolerance where it is, and its uncertain masses are reckoned with', () => {
    const asFiled = TRUE.map((tare) => ({ ...tare }));
    let beyond = 0;
    let all = 0;
    for (const observations of weighings.slice(0, 200)) {
      const right = observations.map((each) => ({
        ...each,
        sources: each.sources.map((source) => named(asFiled).find(({ id }) => id === source.id) ?? source),
      }));
      for (const reading of reconcile(right, asFiled).readings) {
        if (reading.refused !== undefined) continue;
        all++;
        if (reading.beyondTolerance) beyond++;
      }
    }
    // Two standard deviations leave 4.6 % of a normal distribution outside.
    expect(beyond / all).toBeGreaterThan(0.03);
    expect(beyond / all).toBeLessThan(0.06);
  });
});

describe('one reading off by ten deviations', () => {
  const random = seeded(2);

  test('is named wherever the others check it, and alone nearly always', () => {
    let checked = 0;
    let suspected = 0;
    let alone = 0;
    let othersAgree = 0;
    for (let repeat = 0; repeat < 300; repeat++) {
      const observations = weigh(random);
      const at = Math.floor(random.even() * observations.length);
      const spoiled = observations.map((each, i) =>
        i === at ? { ...each, reading: each.reading + (repeat % 2 ? 10 : -10) * each.deviation } : each,
      );
      const result = reconcile(spoiled, FILED);
      const reading = result.readings[at];
      // With 0.6 an error of ten deviations shows as one of 7.7.
      if (reading === undefined || reading.refused !== undefined || reading.redundancy < 0.6) continue;
      checked++;
      expect(result.agreement).toBe('disagree');
      if (result.contradiction?.suspects.includes(at)) suspected++;
      if (result.contradiction?.suspects[0] === at && result.contradiction.suspects.length === 1) alone++;
      if (result.contradiction?.othersAgree) othersAgree++;
    }
    expect(checked).toBeGreaterThan(150);
    expect(suspected / checked).toBeGreaterThan(0.99);
    expect(alone / checked).toBeGreaterThan(0.9);
    expect(othersAgree / checked).toBeGreaterThan(0.98);
  });

  test('makes all standard errors larger, and leaves them when it is omitted', () => {
    const observations = weigh(random);
    const spoiled = observations.map((each, i) => (i === 2 ? { ...each, reading: each.reading + 100 } : each));
    const result = reconcile(spoiled, FILED);
    expect(result.contradiction?.suspects).toEqual([2]);
    expect(result.standardErrorFactor).toBeGreaterThan(3);
    expect(result.scale).toBe(result.standardErrorFactor);
    const without = reconcile(
      spoiled.filter((_, i) => i !== 2),
      FILED,
    );
    expect(without.contradiction).toBeUndefined();
    expect(without.agreement).toBe('agree');
    // What leaving out a reading takes off chi square is the square of its standardised residual.
    const reading = result.readings[2];
    const standardised = reading?.refused === undefined ? (reading?.standardised ?? 0) : 0;
    expect(result.chiSquare - without.chiSquare).toBeCloseTo(standardised ** 2, 5);
  });
});

test('a mass that is not there is found unlisted in about one weighing of twenty', () => {
  const random = seeded(3);
  let found = 0;
  for (let repeat = 0; repeat < 400; repeat++) {
    const observations = weigh(random).map((each) => ({
      ...each,
      sources: each.sources.map((source) => named(TRUE).find(({ id }) => id === source.id) ?? source),
    }));
    if (reconcile(observations, TRUE).tares[1]?.unlisted !== undefined) found++;
  }
  expect(found / 400).toBeGreaterThan(0.005);
  expect(found / 400).toBeLessThan(0.09);
});
