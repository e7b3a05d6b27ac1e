import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { reachesOf } from '../../language/rules/reach/check-reach.ts';
import { type ReachMargin, reachMargins } from '../../language/rules/reach/margins.ts';
import { derivedFigures } from '../../language/semantics/envelope/figures.ts';
import { type QuantityRange, rangeOf } from '../../language/semantics/envelope/ranges.ts';
import type { Reach } from '../../language/semantics/envelope/reach.ts';
import { tellRange } from '../../language/semantics/envelope/told-range.ts';
import type { CaseModel } from '../../language/semantics/model.ts';
import type { RigResult, StateResult } from '../../language/semantics/state.ts';
import { deviated, drawn } from './deviations.ts';
import { chances, evaluateCase, randomCase, reachableText, resultsOf, sampleResults } from './reachable-rigs.ts';

const STATES = 200;

/** What rounding may add up to over some hundred masses; SI. */
const near = (value: number) => 1e-9 * Math.max(1, Math.abs(value));

function holds({ least, most }: QuantityRange, value: number): boolean {
  return value >= least.value - near(value) && value <= most.value + near(value);
}

function setUp(result: RigResult) {
  const reaches = reachesOf(result);
  if (reaches === undefined) throw new Error(`${result.rig.name} has no loads`);
  const { loads, whole, cases, bases } = reaches;
  const names = [...loads.influences.keys(), ...derivedFigures(result.rig)];
  const ranges = (reach: Reach, among: 'free' | 'toleranced' = 'free') =>
    new Map(names.flatMap((name) => [[name, rangeOf(reach, loads, name, among)] as const]));
  return { reaches, loads, whole, cases, bases, names, ranges };
}

const valueIn = (state: StateResult, name: string) => state.quantities.get(name)?.value;

/** Quantities of a state that a range does not hold. */
function outside(ranges: ReadonlyMap<string, QuantityRange | undefined>, state: StateResult): string[] {
  return [...ranges].flatMap(([name, range]) => {
    const value = valueIn(state, name);
    if (value === undefined || range === undefined || holds(range, value)) return [];
    return [`${name} ${value} is not in ${range.least.value} to ${range.most.value} (${state.label})`];
  });
}

function checkNamed(result: RigResult): void {
  const { whole, cases, bases, ranges } = setUp(result);
  const all = ranges(whole);
  for (const state of bases) expect(outside(all, state), result.rig.name).toEqual([]);
  for (const { reach, state } of cases) expect(outside(ranges(reach), state), result.rig.name).toEqual([]);
}

function drawStates(reach: Reach, seed: number): StateResult[] {
  const chance = chances(seed);
  return Array.from({ length: STATES }, () => evaluateCase(reach.result, randomCase(reach, chance)));
}

function checkDrawn(result: RigResult, seed: number): void {
  const { whole, cases, ranges } = setUp(result);
  for (const reach of [whole, ...cases.map((each) => each.reach).filter(({ varies }) => varies)]) {
    const [free, toleranced] = [ranges(reach), ranges(reach, 'toleranced')];
    for (const state of drawStates(reach, seed)) {
      expect(outside(free, state), result.rig.name).toEqual([]);
      expect(outside(toleranced, state), result.rig.name).toEqual([]);
    }
  }
}

/** States drawn from everything reachable in which masses and places are anywhere within their tolerances, half of them at an end. */
function checkDeviated(result: RigResult, seed: number): void {
  const { whole, ranges } = setUp(result);
  const chance = chances(seed);
  const toleranced = ranges(whole, 'toleranced');
  for (let count = 0; count < STATES; count++) {
    const state = randomCase(whole, chance);
    const by = drawn(() => (chance() < 0.5 ? Math.sign(chance() - 0.5) : 2 * chance() - 1));
    const found = deviated(result, state, by);
    for (const [name, range] of toleranced) {
      const value = found.get(name)?.value;
      if (value === undefined || range === undefined) continue;
      if (!holds(range, value)) expect.unreachable(`${name} ${value}, ${range.least.value} to ${range.most.value}`);
    }
  }
}

function checkWitnesses(result: RigResult): void {
  const { loads, whole, cases, bases, ranges } = setUp(result);
  for (const reach of [whole, ...cases.map((each) => each.reach)]) {
    const own = reach.case === undefined ? bases : bases.filter((state) => state.case === reach.case);
    for (const [name, range] of ranges(reach)) {
      if (range === undefined) continue;
      const { least, most } = tellRange(reach, range, own, loads);
      for (const [witness, end] of [
        [least, range.least],
        [most, range.most],
      ] as const) {
        if (witness === undefined) continue;
        const text = `${result.rig.name}: ${name} ${end.value} ${witness.state.label}`;
        const claimed = valueIn(witness.state, name);
        expect(Math.abs((claimed ?? Number.NaN) - end.value), text).toBeLessThan(1e-5);
        // As the language evaluates a case, past the masses of the envelope.
        const evaluated = valueIn(evaluateCase(result, witness.state.case), name);
        expect(Math.abs((evaluated ?? Number.NaN) - end.value), text).toBeLessThan(1e-5);
      }
    }
  }
}

function checkLimits(result: RigResult, seed: number): void {
  const { reaches, whole } = setUp(result);
  const margins = reachMargins(result, reaches, whole).filter(({ limit }) => limit.cases === undefined);
  for (const state of [...reaches.bases, ...drawStates(whole, seed)]) {
    expect(margins.filter(({ found }) => found === 'proved').flatMap(worseIn(state)), result.rig.name).toEqual([]);
  }
  for (const { limit, worst } of margins) {
    const evaluated = limit.limited.compare(evaluateCase(result, worst.witness.state.case));
    const text = `${result.rig.name}: ${limit.limited.subject}, ${worst.witness.state.label}`;
    expect(Math.abs((evaluated?.value ?? Number.NaN) - worst.value), text).toBeLessThan(1e-5);
  }
  // What is only tried is tried in the named cases too.
  for (const state of reaches.bases) expect(margins.flatMap(worseIn(state)), result.rig.name).toEqual([]);
}

/** Where a state is nearer to a limit than its worst state is said to be, or further beyond. */
const worseIn =
  (state: StateResult) =>
  ({ limit: { limited }, worst }: ReachMargin): string[] => {
    const compared = limited.compare(state);
    if (compared === undefined || limited.toldElsewhere?.(state) === true) return [];
    const by = (compared.value - compared.limit) * (limited.sense === 'at most' ? 1 : -1);
    const text = `${limited.subject}, ${limited.quantity}: beyond by ${by} and not ${worst.by} (${state.label})`;
    return by > worst.by + near(compared.value) ? [text] : [];
  };

const samples = sampleResults();

describe('everything reachable in the samples', () => {
  test('there are rigs and units alone, with limits, tanks and cases', () => {
    expect(samples.length).toBeGreaterThan(20);
    expect(samples.filter(({ rig }) => rig.cases.length > 1).length).toBeGreaterThan(10);
  });

  test.each(samples.map((result) => [result.rig.name, result] as const))('of %s holds by all laws', (_, result) => {
    checkNamed(result);
    checkDrawn(result, 11);
    checkDeviated(result, 13);
    checkWitnesses(result);
    checkLimits(result, 12);
  });
});

const RUNS = { numRuns: 15 };

const optional = (result: RigResult) => {
  const { rig } = result;
  return `optional mate, ${rig.stowed.map(({ item }) => item.name).join(', ')}`;
};

function resultOf(text: string): RigResult {
  const found = resultsOf({ 'main.rig': text }).find(({ rig }) => rig.name === 'Draw');
  if (found === undefined) throw new Error(`no loads of:\n${text}`);
  return found;
}

describe('everything reachable in rigs drawn at random', () => {
  test('holds every named case, and every state drawn', () => {
    fc.assert(
      fc.property(reachableText, fc.nat(1e6), ({ text }, seed) => {
        const plain = resultOf(text(''));
        checkNamed(plain);
        checkDrawn(plain, seed);
        checkDeviated(plain, seed);
        checkDrawn(resultOf(text(`reachable { ${optional(plain)} }`)), seed);
      }),
      RUNS,
    );
  });

  test('is told by states that take the values claimed', () => {
    fc.assert(
      fc.property(reachableText, ({ text }) => {
        const plain = resultOf(text(''));
        checkWitnesses(plain);
        checkWitnesses(resultOf(text(`reachable { ${optional(plain)} }`)));
      }),
      RUNS,
    );
  });

  test('keeps the limits that are proved to hold, and is nowhere worse than the worst state', () => {
    let proved = 0;
    let broken = 0;
    fc.assert(
      fc.property(reachableText, fc.nat(1e6), ({ text }, seed) => {
        const result = resultOf(text(''));
        checkLimits(result, seed);
        const { reaches, whole } = setUp(result);
        for (const { found, verdict } of reachMargins(result, reaches, whole)) {
          if (verdict === 'broken') broken++;
          else if (found === 'proved') proved++;
        }
      }),
      RUNS,
    );
    expect(proved).toBeGreaterThan(RUNS.numRuns);
    expect(broken).toBeGreaterThan(RUNS.numRuns);
  });

  test('shrinks with the ranges of its tanks', () => {
    fc.assert(
      fc.property(reachableText, fc.integer({ min: 0, max: 100 }), ({ text, ranges }, share) => {
        const block = (narrow: number) =>
          `reachable { ${ranges.map(({ tank, wide: [least, most] }) => `${tank} ${least * narrow} % to ${most + (100 - most) * (1 - narrow)} %`).join('  ')} }`;
        const wide = setUp(resultOf(text(block(share / 100))));
        const narrow = setUp(resultOf(text(block(1))));
        const outer = wide.ranges(wide.whole);
        for (const [name, inner] of narrow.ranges(narrow.whole)) {
          const around = outer.get(name);
          if (inner === undefined || around === undefined) continue;
          expect([name, holds(around, inner.least.value), holds(around, inner.most.value)]).toEqual([name, true, true]);
        }
      }),
      RUNS,
    );
  });

  test('is for loads and shares what trying every corner gives', () => {
    fc.assert(
      fc.property(reachableText, ({ text }) => {
        const plain = resultOf(text(''));
        const result = resultOf(text(`reachable { ${optional(plain)} }`));
        const { whole, names, ranges } = setUp(result);
        const corners = everyCorner(whole).map((state) => evaluateCase(result, state));
        for (const name of names.filter((each) => !each.endsWith('.cg.up'))) {
          const range = ranges(whole).get(name);
          const values = corners.flatMap((state) => valueIn(state, name) ?? []);
          if (range === undefined) continue;
          expect(range.most.value, name).toBeCloseTo(Math.max(...values), 8);
          if (range.exact) expect(range.least.value, name).toBeCloseTo(Math.min(...values), 8);
          else expect(range.least.value, name).toBeLessThanOrEqual(Math.min(...values) + 1e-9);
        }
      }),
      { numRuns: 8 },
    );
  });
});

/** Every combination of the ends of all tanks, seats taken or empty, and items on board or left. */
function everyCorner({ result: { rig, states }, free }: Reach): CaseModel[] {
  const [first] = states;
  if (first === undefined) return [];
  const { location } = first.case;
  const empty: CaseModel = {
    name: 'corner',
    levels: new Map(),
    occupants: [],
    absent: new Set(),
    stowed: [],
    location,
  };
  let corners: CaseModel[] = [empty];
  const branch = (ways: readonly ((corner: CaseModel) => CaseModel)[]) => {
    corners = corners.flatMap((corner) => ways.map((way) => way(corner)));
  };
  for (const { name, kind, choices, levelIn } of free) {
    if (levelIn !== undefined) {
      const ends = new Set(choices.map(levelIn));
      branch(
        [...ends].map((value) => (corner: CaseModel) => ({
          ...corner,
          levels: new Map([...corner.levels, [name, { value, least: value, most: value, location }] as const]),
        })),
      );
    }
    if (kind === 'seat') {
      const take = (corner: CaseModel) => ({ ...corner, occupants: [...(corner.occupants ?? []), name] });
      branch(choices.map((choice) => (choice.length > 0 ? take : (corner: CaseModel) => corner)));
    }
  }
  for (const { item } of rig.stowed) {
    branch([(corner) => corner, (corner) => ({ ...corner, absent: new Set([...corner.absent, item.name]) })]);
  }
  return corners;
}
