import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse, openDocument } from '../../language/index.ts';
import { isSameChoice } from '../../language/mechanics/envelope.ts';
import { equationsOf } from '../../language/mechanics/stability/equations.ts';
import { leastDampingAt } from '../../language/mechanics/stability/least-damping.ts';
import { isStabilityProblem } from '../../language/mechanics/stability/problems.ts';
import { isFree } from '../../language/semantics/envelope/free-source.ts';
import { wholeReach } from '../../language/semantics/envelope/reach.ts';
import { findReachStability } from '../../language/semantics/envelope/reach-stability.ts';
import { isShownWithin } from '../../language/semantics/envelope/stability-corners.ts';
import { MOST_TRIED, searchLeastDamped } from '../../language/semantics/envelope/stability-search.ts';
import type { CaseModel } from '../../language/semantics/model.ts';
import { evaluateStability, type RigStability } from '../../language/semantics/stability/evaluate-stability.ts';
import type { RigResult } from '../../language/semantics/state.ts';
import { fail, read } from '../unit/semantics/support.ts';
import { type Presence, presences, type ReachableRig, reachableRigs, textOf } from './freely-loaded-rigs.ts';

const stabilityOf = (result: RigResult): RigStability => evaluateStability(result) ?? fail('nothing is towed');
const least = ({ results }: RigStability): number => Math.min(...results.map(({ damping }) => damping));
const rigOf = (text: string): RigResult => read(text).result('Weekend');

/** What is found, with the masses it is found among. */
function search(result: RigResult, most?: number) {
  const { free } = wholeReach(result);
  const found = searchLeastDamped(result, stabilityOf(result), free, most) ?? fail('nothing varies');
  return { ...found, free };
}

/** The rigs of the samples that tow something. */
function samples(): RigResult[] {
  const folder = new URL('../../samples/', import.meta.url);
  const names = readdirSync(folder).filter((name) => name.endsWith('.rig'));
  const documents = new Map(
    names.map((name) => {
      const syntax = openDocument(readFileSync(new URL(name, folder), 'utf8'));
      return [`file:///samples/${name}`, { kind: 'text', syntax } as const];
    }),
  );
  const analysis = analyse({ documents });
  return [...documents.keys()].flatMap((uri) =>
    analysis.entities(uri).flatMap(({ entity }) => (entity?.kind === 'rig' && entity.stability ? [entity.result] : [])),
  );
}

/** Rigs with some of what they can be as named cases; the first has everything, so that all of it is reachable. */
const named = fc
  .record({
    rig: reachableRigs(14),
    cases: fc.array(fc.array(fc.boolean(), { minLength: 14, maxLength: 14 }), { maxLength: 3 }),
  })
  .map(({ rig, cases }) => ({ rig, cases: [rig.things.map(() => true), ...cases] }));

describe('the least-damped reachable state that is found', { timeout: 30_000 }, () => {
  test('is never better than the worst named case, as found and as told', () => {
    fc.assert(
      fc.property(named, ({ rig, cases }) => {
        const result = rigOf(textOf(rig, cases));
        const stability = stabilityOf(result);
        const found = findReachStability(result, stability) ?? fail('nothing varies');
        expect(found.damping).toBeLessThanOrEqual(least(stability) + 1e-9);
        expect(found.worst?.result.damping).toBeLessThanOrEqual(least(stability) + 1e-9);
        // Telling may come upon a state that is a little worse still, where the search ended at its bound.
        expect(found.worst?.result.damping).toBeGreaterThanOrEqual(found.damping - 6e-4);
        expect(found.worst?.result.damping).toBeLessThanOrEqual(found.damping + 6e-4);
        expect(found.tried).toBeLessThanOrEqual(MOST_TRIED + cases.length);
      }),
      { numRuns: 60 },
    );
  });

  test('is looked at on the road that is worst for it', () => {
    // Where only the roads that are worst for the named cases are looked at, one in nine of these rigs has a worse one.
    for (const rig of fc.sample(reachableRigs(14), { numRuns: 60, seed: 2 })) {
      const text = textOf({ ...rig, travel: ', grades -10 % to 8 %, braking 3 m/s²' }, [rig.things.map(() => true)]);
      const result = rigOf(text);
      const stability = stabilityOf(result);
      const { free } = wholeReach(result);
      const { trial, trials } = searchLeastDamped(result, stability, free) ?? fail('nothing varies');
      const roads = new Set(stability.results.map(({ scenario }) => scenario));
      expect(roads.size).toBeGreaterThan(3);
      for (const road of roads) {
        const there = trials.on(trial.choices, road);
        expect(there?.damping).toBeGreaterThan(trial.damping - 1e-6);
      }
    }
  });

  test('of the samples is never better than the worst named case that is reachable', () => {
    const rigs = samples();
    expect(rigs.length).toBeGreaterThan(5);
    for (const result of rigs) {
      const { free } = wholeReach(result);
      const stability = stabilityOf(result);
      const reachable = stability.results.filter(({ state }) => isShownWithin(free, state.case));
      expect(reachable.length).toBeGreaterThan(0);
      const found = findReachStability(result, stability) ?? fail('nothing varies');
      expect(found.worst?.result.damping).toBeLessThanOrEqual(least({ ...stability, results: reachable }) + 1e-9);
    }
  });

  test('is what the file says of it where it is named as a case', () => {
    fc.assert(
      fc.property(named, ({ rig, cases }) => {
        const result = rigOf(textOf(rig, cases));
        const { worst } = findReachStability(result, stabilityOf(result)) ?? fail('nothing varies');
        const { state, scenario, damping } = worst?.result ?? fail('it cannot be told');
        const again = stabilityOf(rigOf(textOf(rig, [sharesIn(rig, state.case)])));
        const same = again.results.find((each) => each.scenario.text === scenario.text);
        expect(same?.damping).toBeCloseTo(damping, 9);
      }),
      { numRuns: 60 },
    );
  });

  test('is the same whenever it is looked for', () => {
    fc.assert(
      fc.property(named, ({ rig, cases }) => {
        const text = textOf(rig, cases);
        const [once, again] = [1, 2].map(() => {
          const result = rigOf(text);
          const { tried, settled, damping, worst } = findReachStability(result, stabilityOf(result)) ?? fail('none');
          return { tried, settled, damping, label: worst?.result.label };
        });
        expect(again).toEqual(once);
      }),
      { numRuns: 20 },
    );
  });

  test('lies within what is reachable', () => {
    fc.assert(
      fc.property(named, ({ rig, cases }) => {
        const result = rigOf(textOf(rig, cases));
        const { trial, free } = search(result);
        for (const [index, source] of free.entries()) {
          const choice = trial.choices[index] ?? fail('nothing chosen');
          const level = source.levelIn?.(choice);
          const isCorner = source.choices.some((corner) => isSameChoice(corner, choice));
          expect(isCorner || (level !== undefined && level > 0 && level < 1)).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });
});

/** How full or present each of the things is in a case: the other way round of `textOf`. */
function sharesIn(rig: ReachableRig, { levels, occupants = [], absent }: CaseModel): number[] {
  return rig.things.map(({ kind, towed }, index) => {
    const unit = towed ? 'Tourer' : 'Runabout';
    if (kind === 'tank') return levels.get(`${unit}.thing${index}`)?.value ?? fail('a tank without a level');
    if (kind === 'seat') return occupants.includes(`Runabout.thing${index}`) ? 1 : 0;
    return absent.has(`thing${index}`) ? 0 : 1;
  });
}

describe('every corner of small rigs', { timeout: 60_000 }, () => {
  /** Each corner as a named case of the file: what the language makes of it, by no part of the search. */
  const leastOfAll = (rig: ReachableRig, all: readonly Presence[]) => least(stabilityOf(rigOf(textOf(rig, all))));

  test('holds none that is much less damped than what is found, and hardly ever one that is at all', () => {
    // Of 1 800 such rigs the least-damped corner was found in all but 6, and missed by at most 2e-5 there.
    const rigs = fc.sample(reachableRigs(6), { numRuns: 100, seed: 2 });
    let missed = 0;
    let folding = 0;
    for (const rig of rigs) {
      const all = presences(rig.things.length);
      const result = rigOf(textOf(rig, all.slice(-1)));
      const { trial, tried } = search(result);
      const corner = leastOfAll(rig, all);
      if (trial.damping > corner + 1e-6) missed += 1;
      if (corner <= -1) folding += 1;
      expect(trial.damping).toBeLessThan(corner + 1e-3);
      expect(tried).toBeLessThanOrEqual(MOST_TRIED + 1);
    }
    expect(missed).toBeLessThanOrEqual(0.03 * rigs.length);
    expect(folding).toBeGreaterThan(0);
  });

  test('has none next to what is found that is less damped, where the search says so', () => {
    const rigs = fc.sample(reachableRigs(8), { numRuns: 40, seed: 7 });
    let settled = 0;
    for (const rig of rigs) {
      const result = rigOf(textOf(rig, presences(rig.things.length).slice(-1)));
      const { trial, trials, free, settled: isSettled } = search(result);
      if (!isSettled) continue;
      settled += 1;
      for (const [index, source] of free.entries()) {
        for (const choice of isFree(source) ? source.choices : []) {
          const next = trial.choices.map((each, at) => (at === index ? choice : each));
          expect(trials.on(next, trial.road)?.damping).toBeGreaterThan(trial.damping - 1e-6);
        }
      }
    }
    expect(settled).toBeGreaterThan(rigs.length / 2);
  });
});

describe('the bound on states', { timeout: 30_000 }, () => {
  test('however small, never leaves less than the worst named case', () => {
    const rigs = fc.sample(reachableRigs(40), { numRuns: 40, seed: 5 }).filter(({ things }) => things.length >= 20);
    for (const rig of rigs) {
      const result = rigOf(textOf(rig, [rig.things.map(() => true)]));
      const named = least(stabilityOf(result));
      for (const most of [0, 1, 5]) expect(search(result, most).trial.damping).toBeLessThan(named + 1e-9);
    }
  });

  test('holds for rigs with many things, and a larger one finds nothing better in nearly all', () => {
    // Of 67 rigs with 20 to 40 things one was 0.007 less damped where 2 000 states could be tried.
    const rigs = fc.sample(reachableRigs(40), { numRuns: 40, seed: 5 }).filter(({ things }) => things.length >= 20);
    expect(rigs.length).toBeGreaterThan(8);
    let worse = 0;
    for (const rig of rigs) {
      const result = rigOf(textOf(rig, [rig.things.map(() => true)]));
      const bounded = search(result);
      const free = search(result, 2000);
      expect(bounded.tried).toBeLessThanOrEqual(MOST_TRIED + 1);
      if (bounded.trial.damping > free.trial.damping + 1e-3) worse += 1;
    }
    expect(worse).toBeLessThanOrEqual(1);
  });
});

test('the damping ratio from eigenvalues alone is that of the modes', () => {
  fc.assert(
    fc.property(named, ({ rig, cases }) => {
      const { results, speed } = stabilityOf(rigOf(textOf(rig, cases)));
      for (const { built, damping } of results) {
        const equations = equationsOf(built.train);
        if (isStabilityProblem(equations)) throw new Error(equations.problem);
        expect(leastDampingAt(equations, speed)).toBeCloseTo(damping, 9);
      }
    }),
    { numRuns: 20 },
  );
});
