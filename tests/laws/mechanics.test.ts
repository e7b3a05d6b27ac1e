import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Combination,
  type Field,
  LEVEL,
  STANDARD_GRAVITY,
  type Unit,
} from '../../language/mechanics/combination.ts';
import {
  addInfluences,
  evaluateLoad,
  evaluateLoadValue,
  type Influence,
  type MassSource,
  scaleInfluence,
} from '../../language/mechanics/influence.ts';
import { isStaticsProblem, type SupportSolution, solveSupports } from '../../language/mechanics/statics.ts';
import { number, randomRig } from './combinations.ts';
import { type Equilibrium, solveEquilibrium } from './equilibrium.ts';

const runs = { numRuns: 300 };

/** The solution; a draw whose device has no front load to restore is skipped, anything else unsolved is a failure. */
function solved(combination: Combination, field: Field): SupportSolution {
  const solution = solveSupports(combination, field);
  if (isStaticsProblem(solution)) {
    fc.pre(solution.problem !== 'nothing-to-restore');
    throw new Error(`unsolved: ${JSON.stringify(solution)}`);
  }
  return solution;
}

function verticals(solution: SupportSolution): Influence[] {
  return solution.units.flatMap(({ groups }) => groups.map(({ load }) => load));
}

function everyLoad(solution: SupportSolution): Influence[] {
  return solution.units.flatMap(({ coupling, drawbar, groups }) => [
    ...(coupling ? [coupling] : []),
    ...(drawbar ? [drawbar] : []),
    ...groups.flatMap(({ load, axles }) => [load, ...axles.flatMap((axle) => [axle.load, axle.left, axle.right])]),
  ]);
}

/** A load by which differences are judged: the masses and the constants that springs and devices add. */
function scaleOf(solution: SupportSolution, sources: readonly MassSource[]): number {
  const masses = sources.reduce((sum, { mass }) => sum + mass, 1);
  return everyLoad(solution).reduce((sum, { constant }) => sum + Math.abs(constant), masses);
}

function expectNear(actual: number, expected: number, scale: number): void {
  expect(Math.abs(actual - expected) / scale, `${actual} against ${expected}`).toBeLessThan(1e-9);
}

/** Runs a check on random rigs; the loads of `before` and `after` are to agree one by one. */
function expectSame(
  change: (combination: Combination, sources: readonly MassSource[]) => [Combination, readonly MassSource[]],
): void {
  fc.assert(
    fc.property(randomRig, ({ combination, field, sources }) => {
      const before = solved(combination, field);
      const [changed, changedSources] = change(combination, sources);
      const after = everyLoad(solved(changed, field));
      const scale = scaleOf(before, sources);
      for (const [i, influence] of everyLoad(before).entries()) {
        const same = after[i];
        expect(same).toBeDefined();
        if (same === undefined) continue;
        expectNear(evaluateLoadValue(same, changedSources), evaluateLoadValue(influence, sources), scale);
      }
    }),
    runs,
  );
}

describe('loads and weights', () => {
  test('all supports together carry the weight, normal to the road', () => {
    fc.assert(
      fc.property(randomRig, ({ combination, field, sources }) => {
        const solution = solved(combination, field);
        const alone = solution.units[0]?.coupling;
        const sum = [...verticals(solution), ...(alone ? [alone] : [])].reduce(addInfluences);
        const weight = sources.reduce((total, { mass }) => total + mass, 0) * Math.cos(Math.atan(field.grade));
        expectNear(evaluateLoadValue(sum, sources), weight, scaleOf(solution, sources));
      }),
      runs,
    );
  });

  test('axles make up their group, wheels their axle, and the wheels balance the roll moment of every unit', () => {
    fc.assert(
      fc.property(randomRig, ({ combination, field, sources }) => {
        const solution = solved(combination, field);
        const scale = scaleOf(solution, sources);
        for (const [u, { groups }] of solution.units.entries()) {
          let roll = 0;
          for (const [g, { load, axles }] of groups.entries()) {
            expect(axles).toHaveLength(combination.units[u]?.groups[g]?.axles.length ?? 0);
            const sum = axles.map((axle) => axle.load).reduce(addInfluences);
            expectNear(evaluateLoadValue(sum, sources), evaluateLoadValue(load, sources), scale);
            for (const [a, axle] of axles.entries()) {
              const left = evaluateLoadValue(axle.left, sources);
              const right = evaluateLoadValue(axle.right, sources);
              expectNear(left + right, evaluateLoadValue(axle.load, sources), scale);
              roll += ((left - right) * (combination.units[u]?.groups[g]?.axles[a]?.track ?? 0)) / 2;
            }
          }
          const own = sources
            .filter(({ unit }) => unit === u)
            .reduce((sum, { mass, centre }) => sum + mass * centre.y, 0);
          expectNear(roll, own * Math.cos(Math.atan(field.grade)), scale);
        }
      }),
      runs,
    );
  });

  test('on a climb every coupling pulls all that is behind it', () => {
    fc.assert(
      fc.property(randomRig, ({ combination, sources }) => {
        const climb = solved(combination, { grade: 0.1, deceleration: 0 });
        const sine = Math.sin(Math.atan(0.1));
        for (const [u, { drawbar }] of climb.units.entries()) {
          if (drawbar === undefined) continue;
          const behind = sources.filter(({ unit }) => unit >= u).reduce((sum, { mass }) => sum + mass, 0);
          expectNear(evaluateLoadValue(drawbar, sources), behind * sine, scaleOf(climb, sources));
        }
      }),
      runs,
    );
  });
});

describe('the one form of a load', () => {
  test('its terms and its constant sum to its value', () => {
    fc.assert(
      fc.property(randomRig, ({ combination, field, sources }) => {
        const solution = solved(combination, field);
        for (const influence of everyLoad(solution)) {
          const load = evaluateLoad(influence, sources);
          const sum = load.terms.reduce((total, term) => total + term.load, load.constant);
          expectNear(sum, load.value, scaleOf(solution, sources));
          expect(load.value).toBe(evaluateLoadValue(influence, sources));
        }
      }),
      runs,
    );
  });

  test('moving one mass along an axis changes every load by its slope', () => {
    const move = fc.record({
      axis: fc.constantFrom<'x' | 'y' | 'z'>('x', 'y', 'z'),
      by: number(-2, 2),
    });
    fc.assert(
      fc.property(randomRig, move, ({ combination, field, sources }, { axis, by }) => {
        const solution = solved(combination, field);
        const moved = sources.map((source, i) =>
          i === 0 ? { ...source, centre: { ...source.centre, [axis]: source.centre[axis] + by } } : source,
        );
        for (const influence of everyLoad(solution)) {
          const before = evaluateLoad(influence, sources);
          const change = (before.terms[0]?.slope[axis] ?? Number.NaN) * by;
          expectNear(evaluateLoadValue(influence, moved) - before.value, change, scaleOf(solution, sources));
        }
      }),
      runs,
    );
  });

  test('superposition: loads of two sets of masses add up, and scale with them', () => {
    fc.assert(
      fc.property(randomRig, number(0, 5), ({ combination, field, sources }, factor) => {
        const solution = solved(combination, field);
        const scale = scaleOf(solution, sources) * (1 + factor);
        const [some, others] = [sources.slice(0, 2), sources.slice(2)];
        const heavier = sources.map((source) => ({ ...source, mass: source.mass * factor }));
        for (const influence of everyLoad(solution)) {
          const whole = evaluateLoadValue(influence, sources) - influence.constant;
          const parts = evaluateLoadValue(influence, some) + evaluateLoadValue(influence, others);
          expectNear(parts - 2 * influence.constant, whole, scale);
          expectNear(evaluateLoadValue(influence, heavier) - influence.constant, whole * factor, scale);
          expectNear(evaluateLoadValue(scaleInfluence(influence, 2), sources), 2 * (whole + influence.constant), scale);
        }
      }),
      runs,
    );
  });
});

describe('what changes nothing', () => {
  test('splitting a mass in two at its place', () => {
    expectSame((combination, sources) => [
      combination,
      sources.flatMap((each) => [
        { ...each, mass: each.mass * 0.3 },
        { ...each, mass: each.mass * 0.7 },
      ]),
    ]);
  });

  test('measuring a unit from another origin', () => {
    const shift = 3.7;
    const moved = (unit: Unit): Unit => ({
      ...unit,
      groups: unit.groups.map((group) => ({
        ...group,
        axles: group.axles.map((axle) => ({ ...axle, x: axle.x + shift })),
      })),
      coupling: unit.coupling && { ...unit.coupling, x: unit.coupling.x + shift },
      hitch: unit.hitch && { ...unit.hitch, x: unit.hitch.x + shift },
    });
    expectSame((combination, sources) => [
      { ...combination, units: combination.units.map(moved) },
      sources.map((each) => ({ ...each, centre: { ...each.centre, x: each.centre.x + shift } })),
    ]);
  });

  test('the scale of all spring rates, while hitch and coupling are level with each other', () => {
    const levelled = (combination: Combination, factor: number): Combination => ({
      ...combination,
      units: combination.units.map((unit, u) => ({
        ...unit,
        coupling: unit.coupling && { ...unit.coupling, z: combination.units[u - 1]?.hitch?.z ?? unit.coupling.z },
        groups: unit.groups.map((group) => ({
          ...group,
          axles: group.axles.map((axle) => ({ ...axle, rate: axle.rate && axle.rate * factor })),
        })),
      })),
    });
    fc.assert(
      fc.property(randomRig, ({ combination, field, sources }) => {
        const soft = solved(levelled(combination, 1), field);
        const stiff = everyLoad(solved(levelled(combination, 7), field));
        for (const [i, influence] of everyLoad(soft).entries()) {
          const same = evaluateLoadValue(stiff[i] ?? influence, sources);
          expectNear(same, evaluateLoadValue(influence, sources), scaleOf(soft, sources));
        }
      }),
      runs,
    );
  });
});

test('mirrored masses swap left and right', () => {
  fc.assert(
    fc.property(randomRig, ({ combination, field, sources }) => {
      const solution = solved(combination, field);
      const mirrored = sources.map((each) => ({ ...each, centre: { ...each.centre, y: -each.centre.y } }));
      for (const { left, right } of solution.units.flatMap(({ groups }) => groups.flatMap(({ axles }) => axles))) {
        const scale = scaleOf(solution, sources);
        expectNear(evaluateLoadValue(left, mirrored), evaluateLoadValue(right, sources), scale);
      }
    }),
    runs,
  );
});

describe('against all equations of equilibrium and compliance at once', () => {
  /** The moment (N m) of a device, found with the equations alone: linear, so two trials on level ground tell. */
  function momentOf({ units, weightDistribution }: Combination, sources: readonly MassSource[]): number {
    if (weightDistribution === undefined) return 0;
    if (weightDistribution.kind === 'moment') return weightDistribution.moment;
    const front = (found: Equilibrium) => found.units[0]?.axles[0]?.reduce((sum, load) => sum + load, 0) ?? Number.NaN;
    const own = sources.filter(({ unit }) => unit === 0);
    const solo = front(solveEquilibrium({ units: units.slice(0, 1) }, LEVEL, own));
    const without = front(solveEquilibrium({ units }, LEVEL, sources));
    const gain = (front(solveEquilibrium({ units }, LEVEL, sources, 1000)) - without) / 1000;
    return (weightDistribution.share * (solo - without)) / gain;
  }

  test('every coupling, drawbar and axle load agrees', () => {
    fc.assert(
      fc.property(randomRig, ({ combination, field, sources }) => {
        const solution = solved(combination, field);
        const moment = momentOf(combination, sources);
        const expected = solveEquilibrium(combination, field, sources, moment);
        const scale = scaleOf(solution, sources) + Math.abs(moment) / STANDARD_GRAVITY;
        if (solution.deviceMoment) {
          expectNear(evaluateLoadValue(solution.deviceMoment, sources), moment / STANDARD_GRAVITY, scale);
        }
        for (const [u, { coupling, drawbar, groups }] of solution.units.entries()) {
          const unit = expected.units[u];
          if (coupling) expectNear(evaluateLoadValue(coupling, sources), unit?.coupling ?? Number.NaN, scale);
          if (drawbar) expectNear(evaluateLoadValue(drawbar, sources), unit?.drawbar ?? Number.NaN, scale);
          for (const [g, { axles }] of groups.entries()) {
            for (const [a, { load }] of axles.entries()) {
              expectNear(evaluateLoadValue(load, sources), unit?.axles[g]?.[a] ?? Number.NaN, scale);
            }
          }
        }
      }),
      { numRuns: 600 },
    );
  });
});
