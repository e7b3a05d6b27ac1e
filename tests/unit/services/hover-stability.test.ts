import { describe, expect, test } from 'vitest';
import { REACH } from '../../../language/diagnostics/reach.ts';
import { completeDiagnostics } from '../../../language/index.ts';
import { firstMoves } from '../../../language/rules/stability/first-moves.ts';
import { advise } from '../../../language/rules/stability/help.ts';
import { firstToFold, leastDampedSwing } from '../../../language/rules/stability/results.ts';
import { stabilityOf as recalledStability } from '../../../language/semantics/results.ts';
import { sensitivitiesOf } from '../../../language/semantics/stability/evaluate-stability.ts';
import { hover } from '../../../language/services/index.ts';
import { defined, SWAY, stabilityOf } from '../drawing/rigs.ts';
import { analyseMarked, URI, uriOf } from './markers.ts';
import { caretAt } from './yard.ts';

/** The rig of the drawings, slow enough not to fold, with a tank and a fitting in its trailer. */
const SLOW = SWAY.replace(
  'travel 70 km/h, grades -8 % to 6 %, braking 6 m/s²',
  'travel 45 km/h, grades -8 % to 6 %',
).replace(
  'brakes overrun',
  'tank fresh 60 L of water at 4500 mm back, 500 mm up\n  fitting winch 15 kg at 5500 mm back, 500 mm up\n  brakes overrun',
);

const withSpaces = (text: string): string => text.replaceAll('\u202f', ' ').replaceAll('\\_', '_');

function hoverOn(source: string, files: Readonly<Record<string, string>> = {}): string {
  const { analysis, offset } = analyseMarked(source, files);
  return withSpaces(hover(analysis, URI, offset)?.markdown ?? '');
}

/** The result that hovers speak of, of the rig called Sway. */
function worstOf(text: string) {
  const stability = stabilityOf(text);
  return { stability, worst: defined(leastDampedSwing(stability.results)) };
}

/** A change of a damping ratio as shown: two digits, at most four decimals. */
function expectShown(shown: number | undefined, change: number): void {
  expect(Math.abs((shown ?? Number.NaN) - change)).toBeLessThanOrEqual(Math.max(0.05 * Math.abs(change), 0.00005));
}

const CAUTION =
  /Linear model for small angles, dry road, tyres of Van and Box assumed\. Compare layouts with it, never take a speed from it as safe\. Wind, wet roads, worn or soft tyres make it worse, and the energy of a swing grows with the square of speed\./;

describe('a unit', () => {
  const text = hoverOn(caretAt(SLOW, 'Box {'));
  const { stability, worst } = worstOf(SLOW);

  test('where it is declared: the least damped swing of the rig that has it, and its zero-damping speed', () => {
    const speed = worst.zeroDamping.kind === 'at' ? worst.zeroDamping.speed * 3.6 : Number.NaN;
    const found = /rig Sway at 45 km\/h: damping ratio (\S+), zero-damping speed ([\d.]+) km\/h, in (.*); move/.exec(
      text,
    );
    expect(Number(found?.[1])).toBeCloseTo(defined(worst.mode).damping, 2);
    expect(Math.abs(Number(found?.[2]) / speed - 1)).toBeLessThan(0.005);
    expect(found?.[3]).toBe(withSpaces(worst.label));
    expect(text).toMatch(CAUTION);
  });

  test('tells the first moves among what is in it, and none of another unit', () => {
    const index = stability.rig.units.findIndex(({ name }) => name === 'Box');
    const [best] = firstMoves(worst, stability.speed, 1, index);
    const { source, damping, direction } = defined(best);
    expect(text).toContain(`; move first in Box: ${source.name} 100 mm ${direction}: damping +`);
    const [, gain] = /move first in Box: .*?damping \+([\d.]+)/.exec(text) ?? [];
    expectShown(Number(gain), damping);
    expect(text.match(/100 mm (?:ahead|back): damping/g)?.length).toBeLessThanOrEqual(2);
    const van = hoverOn(caretAt(SLOW, 'Van {'));
    expect(van).toContain('rig Sway at 45 km/h: damping ratio');
    expect(van).not.toContain('move first');
  });

  test('where it is used: of that rig alone', () => {
    const other = `${SLOW}rig Spare {\n  tow Van\n  haul Box\n  travel 40 km/h\n}\n`;
    const used = hoverOn(caretAt(other, 'Box', other.split('Box').length - 2));
    expect(used).toContain('trailer in rig Spare');
    expect(used).toContain('rig Spare at 40 km/h');
    expect(used).not.toContain('rig Sway at');
  });

  test('of another file: the rigs that use that file', () => {
    const [units, rig] = SLOW.split('item lead');
    const files = { 'rigs.rig': `use "main.rig"\nitem lead${rig}` };
    expect(hoverOn(caretAt(defined(units), 'Box {'), files)).toContain('rig Sway at 45 km/h: damping ratio');
  });

  test('in a rig that folds says so', () => {
    const fast = hoverOn(caretAt(SWAY, 'Box {'));
    expect(fast).toMatch(/rig Sway at 70 km\/h: folds in case rear_heavy, .*; where it swings, damping ratio /);
  });

  test('without a rig says nothing', () => {
    const alone = SWAY.slice(0, SWAY.indexOf('item lead'));
    expect(hoverOn(caretAt(alone, 'Box {'))).not.toMatch(/stability/i);
  });
});

describe('of several rigs', () => {
  const rig = (name: string, speed: number) => `rig ${name} {\n  tow Van\n  haul Box\n  travel ${speed} km/h\n}\n`;
  const several = `${SLOW}${rig('Two', 52)}${rig('Three', 54)}${rig('Four', 56)}`;

  test('no more than one is computed, and at most three are told of', () => {
    const { analysis, offset } = analyseMarked(caretAt(several, 'Box {'));
    const text = hover(analysis, URI, offset)?.markdown ?? '';
    expect(text).toContain('- rig Sway at 45 km/h: damping ratio');
    expect(text).toContain('- rig Two: not looked at yet');
    expect(text).toContain('- rig Three: not looked at yet');
    expect(text).not.toMatch(/rig Four(?: at|: not)/);
    const known = analysis
      .entities(URI)
      .flatMap(({ entity }) => (entity?.kind === 'rig' ? [recalledStability.known(entity.rig) !== undefined] : []));
    expect(known).toEqual([true, false, false, false]);
  });

  test('those that have been settled are told of', () => {
    const { analysis, offset } = analyseMarked(caretAt(several, 'Box {'));
    while (analysis.settleNext(URI));
    const text = hover(analysis, URI, offset)?.markdown ?? '';
    expect(text.match(/- rig (?:Sway|Two|Three) at \d+ km\/h: damping ratio/g)).toHaveLength(3);
    expect(text).not.toContain('not looked at yet');
  });
});

describe('a thing of a unit', () => {
  const { stability, worst } = worstOf(SLOW);

  test.each([
    ['tank fresh', 'Box.fresh'],
    ['fitting winch', 'Box.winch'],
  ])('%s: what moving it ahead and loading more gains', (line, name) => {
    const text = hoverOn(caretAt(SLOW, line.split(' ')[1] ?? ''));
    const own = defined(sensitivitiesOf(worst, stability.speed).find(({ source }) => source.name === name));
    const found =
      /rig Sway at 45 km\/h in .* \(damping ratio 0\.\d+\), 100 mm ahead: damping ([+−][\d.]+), zero-damping speed ([+−][\d.]+) km\/h; 10 kg more: damping ([+−][\d.]+)/.exec(
        text,
      );
    const [ahead, speed, more] = (found ?? []).slice(1).map((figure) => Number(figure.replace('−', '-')));
    expectShown(ahead, 0.1 * own.damping.x);
    expect(Math.abs((speed ?? Number.NaN) - 0.36 * (own.zeroDampingSpeed?.x ?? Number.NaN))).toBeLessThanOrEqual(0.05);
    expectShown(more, 10 * own.damping.mass);
    expect(text).toMatch(CAUTION);
  });

  test('in US units round steps of their own, with their own effect', () => {
    const { stability: american, worst: least } = worstOf(SLOW);
    const text = hoverOn(caretAt(SLOW.replace('rig Sway "Badly & <loaded>"', 'rig Sway in US'), 'lead in'));
    const own = defined(
      sensitivitiesOf(least, american.speed).find(({ source }) => source.name === 'lead in Box.tail'),
    );
    const found = /Stability at 28 mph in .*, 4 in ahead: damping ([+−][\d.]+), .* mph; 20 lb more: damping/.exec(text);
    // 4 in = 101.6 mm, exact inch.
    expectShown(Number(found?.[1]?.replace('−', '-')), 0.1016 * own.damping.x);
  });

  test('is judged where the rig swings, not where it folds', () => {
    const text = hoverOn(caretAt(SWAY, 'tin in'));
    const { worst: least } = worstOf(SWAY);
    expect(text).toContain(`Stability at 70 km/h in ${withSpaces(least.label)} (damping ratio `);
    expect(text).not.toContain('damping ratio -1');
  });

  test('an empty tank has nothing to move', () => {
    const dry = SLOW.replaceAll(' {}', ' { fresh 0 % }').replace('{ absent lead }', '{ absent lead  fresh 0 % }');
    expect(hoverOn(caretAt(dry, 'fresh'))).not.toContain('Effect on lateral stability');
  });
});

describe('a rig', () => {
  test('ranks items before the tank, leaves the fitting out, and labels the figures', () => {
    const text = hoverOn(caretAt(SLOW, 'Sway'));
    const moves = [...text.matchAll(/^- (\S+(?: in \S+)?) 100 mm (?:ahead|back): damping \+/gm)].map(
      ([, name]) => name,
    );
    expect(moves).toEqual(['tin in Box.middle', 'lead in Box.tail', 'Box.fresh']);
    expect(moves).not.toContain('Box.winch');
    expect(text).toContain('| case and road | damping ratio | swings at | swing grows from | folds from |');
    expect(text).toMatch(CAUTION);
  });
});

describe('a rig that folds', () => {
  const text = hoverOn(caretAt(SWAY, 'Sway'));
  const stability = stabilityOf(SWAY);
  const first = defined(firstToFold(stability.results));

  test('is advised against folding, not for the damping of roads on which it does not fold', () => {
    expect(text).not.toContain('What to move first');
    expect(text).toContain(`It folds in ${withSpaces(first.label)}. `);
    const help = advise('folding', stability, first);
    expect(help).toMatch(/^Moving .* raises the speed it folds from to \d+ km\/h/);
    expect(text).toContain(withSpaces(help));
    const unit = hoverOn(caretAt(SWAY, 'Box {'));
    expect(unit).not.toContain('move first in');
    expect(unit).toContain(withSpaces(help));
  });

  test('says what moving a thing does to the speed it folds from: as central differences say', () => {
    // Tyres that follow their axle's rating stay the same whatever it carries.
    const rated = SWAY.replace(
      '  hitch ball at 900',
      '  axle front rating 980 kg\n  axle rear rating 800 kg\n  hitch ball at 900',
    );
    const thing = hoverOn(caretAt(rated, 'tin in'));
    const found =
      / it folds from [\d.]+ km\/h, 100 mm ahead: from ([+−][\d.]+) km\/h; 10 kg more: from ([+−][\d.]+) km\/h/.exec(
        thing,
      );
    const [ahead, more] = (found ?? []).slice(1).map((figure) => Number(figure.replace('−', '-')));
    const centred = /; in (case centred, .*?) it folds/.exec(thing)?.[1] ?? '';
    const folding = (changed: string) => {
      const { divergence } = defined(stabilityOf(changed).results.find(({ label }) => withSpaces(label) === centred));
      return divergence.kind === 'at' ? divergence.speed * 3.6 : Number.NaN;
    };
    const at = (from: number) =>
      folding(rated.replace('from 3200 mm to 4000 mm', `from ${from} mm to ${from + 800} mm`));
    expect(Math.abs((ahead ?? Number.NaN) - (at(3190) - at(3210)) * 5)).toBeLessThanOrEqual(0.06);
    const weighing = (mass: number) => folding(rated.replace('tin 50 kg', `tin ${mass} kg`));
    // Five tins.
    expect(Math.abs((more ?? Number.NaN) - (weighing(50.1) - weighing(49.9)) * 10)).toBeLessThanOrEqual(0.06);
  });

  test('names the tyre data that its stability rests on, and says what braking leaves out', () => {
    const assumed = text.slice(text.indexOf('Assumed for the stability:'));
    for (const axle of ['Van.front', 'Van.rear', 'Box.axles']) {
      expect(assumed).toContain(`- tyres of ${axle} not stated: `);
      expect(assumed).toContain(`- cornering stiffness of the tyres of ${axle} not stated: `);
    }
    expect(assumed).toMatch(/^- and \d+ more$/m);
    expect(text).toContain("Braking takes none of the tyres' sideways grip in this model");
    const level = SWAY.replace(', grades -8 % to 6 %, braking 6 m/s²', '');
    expect(hoverOn(caretAt(level, 'Sway'))).not.toContain('Braking takes none');
  });
});

test('a document that is not there has no rigs', () => {
  const { analysis } = analyseMarked(SLOW);
  expect(hover(analysis, uriOf('other.rig'), 3)).toBeUndefined();
});

describe('a rig whose reachable states have been looked at', () => {
  const { example } = REACH['reach-stability'];
  const { analysis, offset } = analyseMarked(caretAt(example, 'Weekend {'));
  const told = () => withSpaces(hover(analysis, URI, offset)?.markdown ?? '');

  test('tells the least damped of them as a sample, and nothing before: a hover does not search', () => {
    expect(told()).toContain('Stability at');
    expect(told()).not.toContain('reachable states (sampled');
    completeDiagnostics(analysis, URI);
    expect(told()).toMatch(
      /Of the reachable states \(sampled: \d+ states tried, others can be worse\) least damped with fresh 0 %, else as in case back, on the level: damping ratio 0\.09\d*, zero-damping speed [\d.]+ km\/h\./,
    );
  });
});
