import fc from 'fast-check';
import { expect, test } from 'vitest';
import { excessOf, roundingOf } from '../../language/rules/limits/check-limits.ts';
import { isProvedToHold, standingOf } from '../../language/rules/reach/breach.ts';
import { reachesOf, reachSurvey } from '../../language/rules/reach/check-reach.ts';
import type { Reach } from '../../language/semantics/envelope/reach.ts';
import type { CaseModel } from '../../language/semantics/model.ts';
import { checkRequirement } from '../../language/semantics/requirements.ts';
import type { RigResult, StateResult } from '../../language/semantics/state.ts';
import { deviated, drawn } from './deviations.ts';
import { chances, evaluateCase, randomCase, reachableText, resultsOf } from './reachable-rigs.ts';

const LOADS = [
  'Truck.front.load',
  'Truck.rear.load',
  'Hauler.axles.load',
  'Hauler.axles.left',
  'Hauler.coupling.load',
  'Hauler.mass',
  'Truck.mass',
  'Truck.payload',
  'Hauler.payload',
] as const;
const SHARES = ['Hauler.coupling.share', 'rig.mass_ratio', 'Truck.front.lost'] as const;
const PLACES = ['Truck.cg.back', 'Truck.cg.left', 'Truck.cg.up', 'Hauler.cg.back', 'Hauler.cg.up'] as const;
const SIZES = ['Hauler.axles.imbalance', 'Truck.front.imbalance'] as const;

/** What is required, in the unit of its limit, with something that moves the limit. */
interface Form {
  readonly value: string;
  readonly unit: '' | ' kg' | ' m';
  readonly more: string;
  readonly sense: 'at most' | 'at least';
  /** How far the limit is beyond the worst of some states, as a share of all they come to. */
  readonly slack: number;
}

const load = fc.constantFrom(...LOADS);
const share = fc.constantFrom(...SHARES);
const place = fc.constantFrom(...PLACES);
const factor = fc
  .integer({ min: -30, max: 30 })
  .map((tenths) => `${tenths < 0 ? '(0 - ' : ''}${Math.abs(tenths) / 10}${tenths < 0 ? ')' : ''}`);

const inMass = fc.record({
  value: fc.oneof(
    load,
    fc.tuple(load, load).map(([a, b]) => `${a} - ${b}`),
    fc.tuple(factor, load, load).map(([f, a, b]) => `${f} * ${a} - (${b} + 100 kg) / 2`),
    fc.tuple(load, load).map(([a, b]) => `50 % * ${a} + ${b}`),
  ),
  unit: fc.constant(' kg' as const),
  more: fc.oneof(
    fc.constant(''),
    fc.tuple(factor, load).map(([f, a]) => ` + ${f} * ${a}`),
  ),
});

const inShares = fc.record({
  value: fc.oneof(
    share,
    fc.constantFrom(...SIZES),
    fc.tuple(load, load).map(([a, b]) => `${a} / ${b}`),
    fc.tuple(load, load, load).map(([a, b, c]) => `(${a} - ${b}) / (${c} + 200 kg)`),
    fc.tuple(load, load, load).map(([a, b, c]) => `${a} / ${c} - ${b} / ${c}`),
    fc.tuple(factor, share).map(([f, s]) => `1 - ${f} * ${s}`),
    fc.tuple(share, factor).map(([s, f]) => `${s} * 2 + ${f}`),
    fc.tuple(share, share).map(([s, t]) => `${s} / ${t}`),
    share.map((s) => `1 / ${s}`),
    load.map((a) => `${a} / 1000 kg`),
  ),
  unit: fc.constant('' as const),
  more: fc.oneof(
    fc.constant(''),
    fc.tuple(factor, share).map(([f, s]) => ` + ${f} * ${s} / 10`),
    load.map((a) => ` + ${a} / 20000 kg`),
  ),
});

const inMetres = fc.record({
  value: fc.oneof(
    place,
    fc.tuple(place, place).map(([a, b]) => `${a} - ${b}`),
    fc.tuple(factor, place).map(([f, a]) => `${f} * ${a} + 100 mm`),
  ),
  unit: fc.constant(' m' as const),
  more: fc.constant(''),
});

const form: fc.Arbitrary<Form> = fc
  .tuple(
    fc.oneof(inMass, inShares, inMetres),
    fc.constantFrom('at most' as const, 'at least' as const),
    fc.double({ min: -0.3, max: 0.3, noNaN: true }),
  )
  .map(([what, sense, slack]) => ({ ...what, sense, slack }));

const written = (value: number, unit: string) =>
  value < 0 ? `(0${unit} - ${(-value).toFixed(9)}${unit})` : `${value.toFixed(9)}${unit}`;

const line = ({ value, unit, more, sense }: Form, limit: number) =>
  `  require ${value} ${sense} ${written(limit, unit)}${more}\n`;

function rigOf(text: string): RigResult {
  const found = resultsOf({ 'main.rig': text }).find(({ rig }) => rig.name === 'Draw');
  if (found === undefined) throw new Error(`no loads of:\n${text}`);
  return found;
}

/** Cases drawn from everything reachable, each as stated and with its masses and places somewhere within their tolerances. */
function drawCases(reach: Reach, seed: number, count: number) {
  const chance = chances(seed);
  return Array.from({ length: count }, (): { readonly named: CaseModel; readonly states: readonly StateResult[] } => {
    const named = randomCase(reach, chance);
    const state = evaluateCase(reach.result, named);
    const by = drawn(() => (chance() < 0.6 ? Math.sign(chance() - 0.5) : 2 * chance() - 1));
    return { named, states: [state, { ...state, quantities: deviated(reach.result, named, by) }] };
  });
}

/** The forms with limits near to the worst that some states come to; those that have a value in none of them are left out. */
function linesOf(forms: readonly Form[], text: (rig: string) => string, seed: number): string {
  const result = rigOf(text(forms.map((each) => line(each, 0)).join('')));
  const whole = reachesOf(result)?.whole;
  if (whole === undefined) throw new Error('no loads');
  const states = drawCases(whole, seed, 30).flatMap((each) => each.states);
  const requirements = result.rig.requirements.slice(-forms.length);
  return forms
    .flatMap((each, index) => {
      const requirement = requirements[index];
      const beyond = states.flatMap((state) => {
        const check = requirement && checkRequirement(requirement, state);
        if (check === undefined || 'problem' in check) return [];
        return check.value.value - (check.most ?? check.least ?? check.value).value;
      });
      const [least, most] = [Math.min(...beyond), Math.max(...beyond)];
      if (!Number.isFinite(most - least)) return [];
      const by = each.slack * Math.max(1e-3, most - least);
      return [line(each, each.sense === 'at most' ? most + by : least - by)];
    })
    .join('');
}

const RUNS = { numRuns: 40 };
const MARKETS = ['AU', 'CA', 'DE', 'EU', 'UK', 'US'] as const;

test('what is proved of limits that authors write in any form, and of texts of the markets, no state breaks', () => {
  const proved = { nominal: 0, toleranced: 0, worst: 0 };
  fc.assert(
    fc.property(
      reachableText,
      fc.array(form, { minLength: 6, maxLength: 12 }),
      fc.constantFrom(...MARKETS),
      fc.boolean(),
      fc.nat(1e6),
      ({ text: textOf }, forms, market, isOptional, seed) => {
        const optional = isOptional ? 'reachable { optional mate, thing0 }\n' : '';
        const text = (lines: string) => textOf(optional + lines).replace('rig Draw {', `rig Draw in ${market} {`);
        const result = rigOf(text(linesOf(forms, text, seed)));
        const [reaches, survey] = [reachesOf(result), reachSurvey(result)];
        if (reaches === undefined || survey === undefined) throw new Error('no loads');
        const { whole, bases, loads } = reaches;
        const cases = drawCases(whole, seed + 1, 60);
        for (const limit of survey.limits) {
          const { limited } = limit;
          const isProved = survey.isProvedToHold(limit);
          const isCertain = isProvedToHold(limited, whole, whole.toleranced, bases, loads);
          const standing = standingOf(limited, whole, whole.free, bases, loads);
          const isWorst = standing?.found === 'proved';
          proved.nominal += Number(isProved);
          proved.toleranced += Number(isCertain);
          proved.worst += Number(isWorst);
          for (const { states } of cases) {
            for (const [index, state] of states.entries()) {
              const compared = limited.compare(state);
              if (compared === undefined) continue;
              const by = excessOf(limited, compared);
              const told = `${limited.subject}, ${limited.quantity} ${limited.sense} ${compared.limit}: ${compared.value}`;
              const rounding = roundingOf(limited, compared.limit) + 1e-7;
              if (index === 0 ? isProved : isCertain) expect(by, told).toBeLessThanOrEqual(rounding);
              if (index === 0 && isWorst) {
                expect(by, told).toBeLessThanOrEqual(standing.worst.by + 1e-7 * Math.max(1, Math.abs(by)));
              }
            }
          }
          const breach = survey.isBrokenInCase(limit) ? undefined : survey.breachOf(limit);
          if (breach === undefined || breach.kind === 'tolerance') continue;
          const again = limited.compare(evaluateCase(result, breach.worst.witness.state.case));
          const by = again === undefined ? Number.NaN : excessOf(limited, again);
          expect(Math.abs(by - breach.worst.by), limited.subject).toBeLessThan(1e-6 * Math.max(1, Math.abs(by)));
        }
      },
    ),
    RUNS,
  );
  expect(Math.min(proved.nominal, proved.toleranced, proved.worst)).toBeGreaterThan(5 * RUNS.numRuns);
});
