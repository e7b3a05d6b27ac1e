import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { LEVEL, type Unit } from '../../language/mechanics/combination.ts';
import { type Influence, massInfluence, renumberInfluence } from '../../language/mechanics/influence.ts';
import type { GroupLoads } from '../../language/mechanics/lateral.ts';
import { isStaticsProblem, solveSupports } from '../../language/mechanics/statics.ts';
import type { TareGuess, WeighedSource } from '../../language/mechanics/weighing/observation.ts';
import { reconcile } from '../../language/mechanics/weighing/reconcile.ts';
import type { Estimate } from '../../language/mechanics/weighing/reconciliation.ts';
import { raisedSupportInfluence } from '../../language/mechanics/weighing/tilt.ts';

// Source: least squares with numpy over loads by moments, mass and coordinates as unknowns, numerical derivatives, and
// uncertain masses as further unknowns, written without a line of the language (oracle/weighing.py, which CI runs
// again).

type Kind =
  | { readonly what: 'all' }
  | { readonly what: 'coupling'; readonly unit: number }
  | { readonly what: 'group' | 'left' | 'right'; readonly unit: number; readonly group: number }
  | {
      readonly what: 'raised';
      readonly unit: number;
      readonly tilt: {
        readonly standing: readonly [number, number];
        readonly raised: readonly [number, number];
        readonly pitch: number;
      };
    };

interface OracleReading {
  readonly kind: Kind;
  /** The units that stood there, coupled. */
  readonly coupled: readonly number[];
  readonly deviation: number;
  readonly reading: number;
  readonly sources: readonly WeighedSource[];
}

type OracleTare = { readonly [Q in 'mass' | 'x' | 'y' | 'z']?: Estimate } & {
  readonly unlisted?: { readonly mass: Estimate } & { readonly [Q in 'x' | 'y' | 'z']?: Estimate };
};

interface OracleCase {
  readonly name: string;
  readonly units: readonly Unit[];
  readonly tares: readonly TareGuess[];
  readonly readings: readonly OracleReading[];
  readonly expected: {
    readonly readings: readonly {
      readonly predicted: number;
      readonly predictedDeviation: number;
      readonly fitted: number;
      readonly redundancy: number;
      readonly standardised: number | null;
    }[];
    readonly tares: readonly OracleTare[];
    readonly degreesOfFreedom: number;
    readonly chiSquare: number;
  };
}

const CASES: readonly OracleCase[] = readFileSync(new URL('oracle/weighing.jsonl', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line));

/** What a reading weighs, in terms of all units of the case. */
function influenceOf({ kind, coupled }: OracleReading, units: readonly Unit[]): Influence {
  if (kind.what === 'all') return massInfluence(units.length, coupled);
  if (kind.what === 'raised') {
    const [standing, raised] = [kind.tilt.standing, kind.tilt.raised].map(([x, z]) => ({ x, z }));
    const tilted =
      standing &&
      raised &&
      raisedSupportInfluence(units.length, kind.unit, { standing, raised, pitch: kind.tilt.pitch });
    if (tilted === undefined) throw new Error('not tilted');
    return tilted;
  }
  const solution = solveSupports({ units: coupled.flatMap((unit) => units[unit] ?? []) }, LEVEL);
  if (isStaticsProblem(solution)) throw new Error(solution.problem);
  const loads = solution.units[coupled.indexOf(kind.unit)];
  const found = kind.what === 'coupling' ? loads?.coupling : groupLoad(loads?.groups[kind.group], kind.what);
  if (found === undefined) throw new Error(`nothing of ${kind.what}`);
  return renumberInfluence(found, coupled, units.length);
}

function groupLoad(group: GroupLoads | undefined, what: 'group' | 'left' | 'right'): Influence | undefined {
  return what === 'group' ? group?.load : group?.axles[0]?.[what];
}

function reconciled({ units, tares, readings }: OracleCase) {
  const listed = tares.map(({ unit, mass, centre }) => ({ id: `tare ${unit}`, unit, mass, centre }));
  return reconcile(
    readings.map((each) => ({
      influence: influenceOf(each, units),
      sources: [...each.sources, ...listed.filter(({ unit }) => each.coupled.includes(unit))],
      reading: each.reading,
      deviation: each.deviation,
    })),
    tares,
  );
}

function expectEstimate(found: Partial<Estimate> | undefined, expected: Estimate | undefined, what: string): void {
  if (expected === undefined) {
    expect(found?.standardError, what).toBeUndefined();
    return;
  }
  expect(found?.value, what).toBeCloseTo(expected.value, 5);
  expect((found?.standardError ?? 0) / expected.standardError, `${what}, standard error`).toBeCloseTo(1, 5);
}

test('the stored weighings are of every kind', () => {
  expect(CASES).toHaveLength(22);
  const tares = CASES.flatMap(({ expected }) => expected.tares);
  expect(tares.filter(({ unlisted }) => unlisted !== undefined).length).toBeGreaterThan(15);
  expect(tares.filter(({ z }) => z !== undefined).length).toBeGreaterThan(15);
  expect(tares.filter(({ mass }) => mass === undefined)).toHaveLength(3);
  const readings = CASES.flatMap((each) => each.readings);
  expect(new Set(readings.map(({ kind }) => kind.what)).size).toBe(6);
});

describe('reconciled as by an independent least squares', () => {
  test.each(CASES.map((each) => [each.name, each] as const))('%s', (_, each) => {
    const found = reconciled(each);
    const { expected } = each;
    expect(found.degreesOfFreedom).toBe(expected.degreesOfFreedom);
    expect(found.chiSquare).toBeCloseTo(expected.chiSquare, 5);
    for (const [i, reading] of found.readings.entries()) {
      const other = expected.readings[i];
      if (reading.refused !== undefined || other === undefined) throw new Error(`no reading ${i}`);
      expect(reading.predicted).toBeCloseTo(other.predicted, 6);
      expect(reading.predictedDeviation).toBeCloseTo(other.predictedDeviation, 6);
      expect(reading.residual).toBeCloseTo((each.readings[i]?.reading ?? 0) - other.predicted, 6);
      expect(reading.fitted).toBeCloseTo(other.fitted, 5);
      expect(reading.fittedResidual).toBeCloseTo((each.readings[i]?.reading ?? 0) - other.fitted, 5);
      expect(reading.redundancy).toBeCloseTo(other.redundancy, 5);
      if (other.standardised === null) expect(reading.standardised).toBeUndefined();
      else expect(reading.standardised).toBeCloseTo(other.standardised, 4);
    }
    for (const [t, tare] of found.tares.entries()) {
      const other = expected.tares[t];
      for (const quantity of ['mass', 'x', 'y', 'z'] as const) {
        expectEstimate(tare[quantity], other?.[quantity], `${quantity} of tare ${t}`);
        expectEstimate(tare.unlisted?.[quantity], other?.unlisted?.[quantity], `unlisted ${quantity} of tare ${t}`);
      }
    }
  });
});
