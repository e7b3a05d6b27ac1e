import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beyond } from '../../language/mechanics/half-planes.ts';
import { excessOf } from '../../language/rules/limits/check-limits.ts';
import type { ReachLimit } from '../../language/rules/reach/reach-limit.ts';
import { questionOf } from '../../language/rules/window/question.ts';
import { extentsOf, rulesOf } from '../../language/rules/window/rules-of-sides.ts';
import { amountRange, type OperatingWindow, worstOf } from '../../language/rules/window/window.ts';
import type { StateResult } from '../../language/semantics/state.ts';
import { MASS, sameDimension } from '../../language/units/dimension.ts';
import { openWindow, PLAIN, type Plan, type Probe, plan, probed, probeOf, textOf } from './window-rigs.ts';

const share = fc.double({ min: 0, max: 1, noNaN: true });
const probes: fc.Arbitrary<(Probe & { readonly u: number; readonly v: number })[]> = fc.array(
  fc
    .record({ u: share, v: share, fuel: share, spare: share, mate: fc.boolean(), crates: fc.boolean() })
    .map(({ u, v, fuel, spare, mate, crates }) => ({
      u,
      v,
      mate,
      crates,
      levels: new Map([
        ['Tourer.fresh', u],
        ['Tourer.waste', v],
        ['Tourer.spare', 0.6 * spare],
        ['Hauler.fuel', fuel],
      ]),
    })),
  { minLength: 40, maxLength: 40 },
);

const inWindow = ({ borders }: OperatingWindow, point: { readonly u: number; readonly v: number }) =>
  borders.every((border) => beyond(border, point) <= 0);

/** kg, or shares, beyond a limit in a state; less than 0 where it holds. */
const brokenBy = ({ limited }: ReachLimit, state: StateResult): number => {
  const comparison = limited.compare(state);
  return comparison === undefined ? Number.NEGATIVE_INFINITY : excessOf(limited, comparison);
};

/** What counts as rounding: a gram of load; of shares and heights a gram of the rig's mass. */
const roundingOf = ({ limited: { dimension } }: ReachLimit) => (sameDimension(dimension, MASS) ? 1.1e-3 : 2e-6);

const sameLimit = (one: ReachLimit, other: ReachLimit) =>
  one.code === other.code &&
  one.limited.subject === other.limited.subject &&
  one.limited.quantity === other.limited.quantity &&
  one.limited.sense === other.limited.sense;

/** Plans that have a window, neither all levels nor none, occur among those drawn; how often is counted. */
const tally = { some: 0, none: 0, curved: 0, inside: 0, outside: 0 };

describe('the operating window', () => {
  test('holds all limits inside with the rest at random, and outside a state breaks one of them', () => {
    fc.assert(
      fc.property(plan, probes, (drawn, tries) => {
        const { window, reaches, result, axes } = openWindow(textOf(drawn), ['fresh', 'waste']);
        const question = questionOf(result, reaches, axes, PLAIN);
        if (question === undefined) throw new Error('no question');
        if (window.corners.length === 0) tally.none++;
        else if (window.sides.length > 0) tally.some++;
        if (window.borders.some(({ label }) => !label.exact)) tally.curved++;
        const { limits, states } = probed(drawn, tries);
        const exhibits: { readonly probe: Probe; readonly limit: ReachLimit }[] = [];
        for (const [index, point] of tries.entries()) {
          const state = states[index];
          if (state === undefined) throw new Error('no state');
          if (inWindow(window, point)) {
            tally.inside++;
            for (const limit of limits) expect(brokenBy(limit, state)).toBeLessThan(roundingOf(limit));
            continue;
          }
          const broken = window.borders.find((border) => border.label.exact && beyond(border, point) > 0.01);
          const worst = broken && worstOf(question)(broken.label.limit, [point.u, point.v]);
          if (broken === undefined || worst === undefined || exhibits.length >= 12) continue;
          const probe = probeOf(worst.witness.state.case);
          expect(probe.levels.get('Tourer.fresh')).toBe(point.u);
          expect(probe.levels.get('Tourer.waste')).toBe(point.v);
          expect(probe.levels.get('Tourer.spare')).toBeLessThanOrEqual(0.6);
          tally.outside++;
          exhibits.push({ probe, limit: broken.label.limit });
        }
        const shown = probed(
          drawn,
          exhibits.map(({ probe }) => probe),
        );
        for (const [index, { limit }] of exhibits.entries()) {
          const state = shown.states[index];
          const same = shown.limits.find((each) => sameLimit(each, limit));
          if (state === undefined || same === undefined) throw new Error('no state');
          expect(brokenBy(same, state)).toBeGreaterThan(0);
        }
      }),
      { numRuns: 40 },
    );
    expect(tally.some).toBeGreaterThan(5);
    expect(tally.none).toBeGreaterThan(0);
    expect(tally.curved).toBeGreaterThan(3);
    expect(tally.inside).toBeGreaterThan(100);
    expect(tally.outside).toBeGreaterThan(100);
  }, 20_000);

  test('with tolerances holds all limits with the lightest and the heaviest tare that are stated', () => {
    fc.assert(
      fc.property(plan, probes, fc.constantFrom(0.98, 1.02), (drawn, tries, scale) => {
        const { window } = openWindow(textOf(drawn), ['fresh', 'waste'], { ...PLAIN, tolerances: 'worst' });
        const { limits, states } = probed(drawn, tries, scale);
        for (const [index, point] of tries.entries()) {
          const state = states[index];
          if (state === undefined) throw new Error('no state');
          if (!inWindow(window, point)) continue;
          for (const limit of limits) expect(brokenBy(limit, state)).toBeLessThan(roundingOf(limit));
        }
      }),
      { numRuns: 25 },
    );
  });

  test('is a window of each case, and shrinks with tolerances and practice', () => {
    const inside = (inner: OperatingWindow, outer: OperatingWindow) => {
      for (const corner of inner.corners) {
        for (const border of outer.borders) expect(beyond(border, corner)).toBeLessThanOrEqual(1e-6);
      }
    };
    fc.assert(
      fc.property(
        plan.map((drawn): Plan => ({ ...drawn, height: 0 })),
        (drawn) => {
          const open = (more: object) => openWindow(textOf(drawn), ['fresh', 'waste'], { ...PLAIN, ...more }).window;
          const whole = open({});
          inside(whole, open({ case: 'out' }));
          inside(whole, open({ case: 'home' }));
          inside(open({ tolerances: 'worst' }), whole);
          inside(open({ practice: true }), whole);
        },
      ),
      { numRuns: 20 },
    );
  });

  test('of one amount holds all limits at every level of the other', () => {
    fc.assert(
      fc.property(plan, (drawn) => {
        const { window, reaches, result, axes } = openWindow(textOf(drawn), ['fresh', 'waste']);
        const range = amountRange(result, reaches, axes[0], PLAIN);
        if (range === undefined) throw new Error('no range');
        const holds = (u: number) => [0, 1].every((v) => inWindow(window, { u, v }));
        const step = 0.02;
        for (let u = 0; u <= 1; u += step) {
          const { least, most } = range.holds ?? { least: 2, most: -1 };
          // The second amount is taken exactly where it is not chosen, on the safe side where it is.
          if (u >= least + 1e-9 && u <= most - 1e-9) {
            if (drawn.height === 0) expect(holds(u)).toBe(true);
          } else if (u < least - 1e-9 || u > most + 1e-9) expect(holds(u)).toBe(false);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('in printed rules allows nothing outside of it, and nearly all inside', () => {
    let allowed = 0;
    fc.assert(
      fc.property(
        plan,
        fc.constantFrom(['fresh', 'waste'] as const, ['waste', 'spare'] as const, ['crate', 'waste'] as const),
        fc.array(fc.record({ u: share, v: share }), { minLength: 60, maxLength: 60 }),
        (drawn, names, points) => {
          const { window, axes } = openWindow(textOf(drawn), names);
          const [first, second] = axes;
          for (const { u: x, v: y } of points) {
            const u = first.kind === 'item' ? Math.round(2 * x) : x * first.most;
            const point = { u, v: y * second.most };
            const isAllowed = rulesAllow(window, point);
            if (isAllowed) {
              allowed++;
              for (const border of window.borders) expect(beyond(border, point)).toBeLessThan(1e-6);
            }
            const margin = 0.035;
            const around = [-margin, margin].flatMap((du) =>
              [-margin, margin].map((dv) => ({ u: u + (first.kind === 'item' ? 0 : du), v: point.v + dv })),
            );
            if (around.every((each) => inWindow(window, each)) && u <= first.most - margin && u >= margin) {
              expect(isAllowed || point.v < margin || point.v > second.most - margin).toBe(true);
            }
          }
        },
      ),
      { numRuns: 60 },
    );
    expect(allowed).toBeGreaterThan(300);
  });
});

/** Whether a reader of the rules takes a pair of amounts as allowed: bounds between two figures in proportion. */
function rulesAllow(window: OperatingWindow, { u, v }: { readonly u: number; readonly v: number }): boolean {
  const extents = extentsOf(window);
  if (extents === undefined) return false;
  if (u < extents.u.least || u > extents.u.most || v < extents.v.least || v > extents.v.most) return false;
  return rulesOf(window).every(({ side: { bounds }, at }) => {
    const [kept, by] = bounds.axis === 'u' ? [u, v] : [v, u];
    const [first] = at;
    let bound = at.length === 1 ? first?.bound : undefined;
    for (const [index, to] of at.entries()) {
      const from = at[index - 1];
      if (from?.when === undefined || to.when === undefined || by < from.when || by > to.when) continue;
      bound = from.bound + ((by - from.when) / (to.when - from.when)) * (to.bound - from.bound);
    }
    return bound === undefined || (bounds.sense === 'at most' ? kept <= bound + 1e-12 : kept >= bound - 1e-12);
  });
}
