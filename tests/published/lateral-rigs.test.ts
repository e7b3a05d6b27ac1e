import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { analyse, completeDiagnostics, openDocument } from '../../language/index.ts';
import type { CriticalSpeed } from '../../language/mechanics/stability/sweep.ts';
import type { RigStability } from '../../language/semantics/stability/evaluate-stability.ts';

// Source: a second model from the text of a rig to its damping (own statics, own tyre curves, Lagrange's equations, mpmath with
// 25 digits), written from the language reference without the language (oracle/rigs.py, which CI runs again).

/** m/s, or on which side of the speeds looked at it lies. */
type OracleSpeed = number | 'below' | 'above';

interface OracleResult {
  readonly case: string;
  readonly road: string;
  readonly brakes: string;
  readonly damping: number;
  readonly frequency: number;
  readonly folds: boolean;
  readonly zeroDamping: OracleSpeed;
  readonly divergence: OracleSpeed;
  readonly understeer: number;
}

interface OracleRig {
  readonly name: string;
  readonly about: string;
  readonly text: string;
  readonly results: readonly OracleResult[];
}

const RIGS: readonly OracleRig[] = JSON.parse(readFileSync(new URL('oracle/rigs.json', import.meta.url), 'utf8'));

const URI = 'file:///yard/rig.rig';

function stabilityOf(text: string): RigStability {
  const analysis = analyse({ documents: new Map([[URI, { kind: 'text', syntax: openDocument(text) }]]) });
  const errors = completeDiagnostics(analysis, URI).filter(({ severity }) => severity === 'error');
  expect(errors.filter(({ code }) => /^RW[1-3]/.test(code)).map(({ message }) => message)).toEqual([]);
  for (const { entity } of analysis.entities(URI)) {
    if (entity?.kind === 'rig' && entity.stability !== undefined) return entity.stability;
  }
  throw new Error('no stability');
}

function expectSpeed(found: CriticalSpeed, expected: OracleSpeed, what: string): void {
  if (typeof expected === 'string') expect(found, what).toEqual({ kind: expected });
  else expect(found.kind === 'at' ? found.speed / expected : found.kind, what).toBeCloseTo(1, 5);
}

test('the stored rigs are of every kind', () => {
  const all = RIGS.flatMap(({ results }) => results);
  expect(RIGS).toHaveLength(16);
  expect(all.filter(({ folds }) => folds).length).toBeGreaterThan(6);
  expect(all.filter(({ zeroDamping }) => typeof zeroDamping === 'number').length).toBeGreaterThan(40);
  expect(all.filter(({ divergence }) => typeof divergence === 'number').length).toBeGreaterThan(20);
  // A speed beyond the range looked at for usual intended speeds.
  expect(all.some(({ divergence }) => typeof divergence === 'number' && divergence > 200 / 3.6)).toBe(true);
});

describe.each(RIGS.map((rig) => [rig.name, rig] as const))('%s', (_, { about, text, results }) => {
  const stability = stabilityOf(text);
  const of = (expected: OracleResult) => {
    const found = stability.results.find(
      ({ scenario, state }) =>
        scenario.kind === expected.road && scenario.brakes === expected.brakes && state.case.name === expected.case,
    );
    if (found === undefined) throw new Error(`${about}: no ${expected.case}, ${expected.road}, ${expected.brakes}`);
    return found;
  };

  test('has the cases and roads of the second model', () => {
    expect(stability.results).toHaveLength(results.length);
  });

  test.each(results.map((each) => [`${each.case}, ${each.road}, ${each.brakes}`, each] as const))(
    '%s: swings, folds and steers as in the second model',
    (label, expected) => {
      const found = of(expected);
      expect(Math.abs((found.mode?.damping ?? 1) - expected.damping), label).toBeLessThan(1e-6);
      expect(Math.abs((found.mode?.frequency ?? 0) - expected.frequency), label).toBeLessThan(1e-6);
      expect(found.folds, label).toBe(expected.folds);
      expect(found.damping, label).toBe(expected.folds ? -1 : (found.mode?.damping ?? 1));
      expectSpeed(found.zeroDamping, expected.zeroDamping, `${label}: zero-damping speed`);
      expectSpeed(found.divergence, expected.divergence, `${label}: divergence speed`);
      expect(Math.abs((found.handling?.understeer ?? Number.NaN) - expected.understeer), label).toBeLessThan(1e-9);
    },
  );
});
