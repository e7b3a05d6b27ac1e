import { describe, expect, test } from 'vitest';
import { REACH } from '../../../../language/diagnostics/reach.ts';
import { analyse, completeDiagnostics, openDocument, updateDocument } from '../../../../language/index.ts';
import { findExtremes, valueAt } from '../../../../language/mechanics/envelope.ts';
import { checkReachStability } from '../../../../language/rules/reach/stability.ts';
import { figureOf } from '../../../../language/semantics/envelope/figures.ts';
import { wholeReach } from '../../../../language/semantics/envelope/reach.ts';
import { reachStabilityOf } from '../../../../language/semantics/envelope/reach-stability.ts';
import { stabilityCorners } from '../../../../language/semantics/envelope/stability-corners.ts';
import type { Choices } from '../../../../language/semantics/envelope/trial-states.ts';
import { fail, MAIN, read as readRig, workspaceOf } from '../../semantics/support.ts';
import { findingsOf, keysOf, stabilityOf, weekend } from '../stability/rigs.ts';

const { code, example, mended } = REACH['reach-stability'];

/** A tank at the tail that makes it swing, and one ahead that outweighs it in the named cases. */
const tanks = (rig: string, tourer = '') =>
  weekend({
    tare: 3400,
    tourer: `tank waste 90 L of grey_water at 6600 mm back, 500 mm up
  tank fresh 60 L of water at 2400 mm back, 500 mm up
  ${tourer}`,
    rig,
  }).replace('case empty { }', 'case out { fresh 100 %  waste 0 % }\n  case back { fresh 100 %  waste 100 % }');

const read = (text: string) => analyse(workspaceOf({ 'main.rig': text }));
const reachFindings = (text: string) => checkReachStability(stabilityOf(text));
const messageOf = (text: string) => reachFindings(text)[0]?.message ?? '';

describe('a state that swings more than every named case', () => {
  test('is told with its damping, the limit, the road, the worst named case and how many states were tried', () => {
    const text = tanks('travel 90 km/h, grades -6 % to 6 %');
    const message = messageOf(text);
    const stability = stabilityOf(text);
    const reached = reachStabilityOf(stability.rig);
    expect(message).toMatch(
      /^The swinging of Tourer has a damping ratio of 0\.0\d+ at the intended 90 km\/h, below the recommended 0\.1, with fresh 0 %, else as in case back, (on the level|up the 6 % grade|down the 6 % grade, .*?) \(linear model/,
    );
    expect(message).toContain('tyres of Runabout and Tourer assumed');
    expect(message).toMatch(/Every named case has 0\.1\d* or more; sampled: \d+ states tried, others can be worse\./);
    expect(message).toContain(`sampled: ${reached?.tried} states tried`);
    expect(message).toMatch(/ Moving \S+ \(.*?\) \d+ mm (ahead|back) adds [\d.]+ to the damping ratio/);
  });

  test('is a warning at the reachable block, else at the travel line, and points at the case it is told by', () => {
    const placeOf = (text: string) => {
      const found = completeDiagnostics(read(text), MAIN).find((each) => each.code === code);
      const { severity, related, start = 0, end = 0 } = found ?? {};
      return { severity, text: text.slice(start, end), related };
    };
    expect(placeOf(example)).toMatchObject({ severity: 'warning', text: expect.stringContaining('travel') });
    const [related] = placeOf(example).related ?? [];
    expect(related?.message).toContain('case back');
    const limited = tanks('travel 90 km/h\n  reachable { fresh 0 % to 100 % }');
    expect(placeOf(limited).text).toContain('reachable');
  });

  test('is left out where the author says that it cannot be', () => {
    expect(reachFindings(example)).toHaveLength(1);
    expect(reachFindings(mended)).toEqual([]);
    expect(reachStabilityOf(stabilityOf(mended).rig)?.damping).toBeGreaterThan(0.1);
  });

  test('is turned off with the rule that tells it of named cases', () => {
    const analysis = read(example.replace('travel 90 km/h', 'travel 90 km/h\n  rule RW711 off "driven slowly"'));
    expect(completeDiagnostics(analysis, MAIN).filter((each) => each.code === code)).toEqual([]);
    expect(analysis.turnedOff(MAIN).map(({ diagnostic, level }) => [diagnostic.code, level.code])).toEqual([
      [code, 'RW711'],
    ]);
  });

  test('stays within the levels that the author states', () => {
    const text = tanks('travel 90 km/h\n  reachable { fresh 30 % to 100 %  waste 0 % to 80 % }');
    const reached = reachStabilityOf(stabilityOf(text).rig);
    const levels = reached?.worst?.witness.state.case.levels;
    expect(levels?.get('Tourer.fresh')?.value).toBeCloseTo(0.3, 9);
    expect(levels?.get('Tourer.waste')?.value).toBeCloseTo(0.8, 9);
    // The named case with more is out of reach, and worse.
    expect(reached?.damping).toBeGreaterThan(0.1);
  });

  test('is not searched for where a named case swings too much already, which is told of that', () => {
    const text = tanks('travel 90 km/h').replace('case back {', 'case dry { fresh 0 %  waste 100 % }\n  case back {');
    expect(keysOf(text)).toContain('damping-low');
    expect(reachFindings(text)).toEqual([]);
    expect(reachStabilityOf.known(stabilityOf(text).rig)).toBeUndefined();
  });

  // Filling x takes more damping than filling y, both by less than anybody would see.
  test('is never told with more damping than the worst named case, however little that is', () => {
    const text = weekend({
      tare: 3400,
      tourer: 'tank x 0.15 L of water at 6600 mm back, 500 mm up\n  tank y 0.1 L of water at 6600 mm back, 500 mm up',
      rig: 'travel 90 km/h',
    }).replace('case empty { }', 'case second { x 0 %  y 100 % }\n  case worst { x 100 %  y 0 % }');
    const stability = stabilityOf(text);
    const named = Math.min(...stability.results.map(({ damping }) => damping));
    const { damping, worst } = reachStabilityOf(stability.rig) ?? { damping: 1, worst: undefined };
    expect(damping).toBeLessThan(named);
    expect(named - damping).toBeLessThan(4e-4);
    expect(worst?.result.damping).toBeLessThanOrEqual(named);
  });

  test('is looked for at the states in which couplings carry most and least', () => {
    const result = readRig(tanks('travel 90 km/h')).result('Weekend');
    const { rig } = result;
    const [loads = fail('no loads')] = result.motions;
    const { free } = wholeReach(result);
    for (const name of ['Tourer.coupling.load', 'Tourer.cg.back', 'Tourer.mass']) {
      const { figure } = figureOf(rig, loads, name) ?? fail(name);
      const figureWith = (choices: Choices) =>
        valueAt(figure.numerator, choices) / (figure.denominator ? valueAt(figure.denominator, choices) : 1);
      const values = stabilityCorners(rig, free, loads).map(figureWith);
      const ends = findExtremes(figure, free) ?? fail(name);
      expect(Math.min(...values)).toBeCloseTo(ends.least.value, 9);
      expect(Math.max(...values)).toBeCloseTo(ends.most.value, 9);
    }
  });

  test('says so where the swinging does not die out at all', () => {
    const message = messageOf(
      tanks('travel 105 km/h\n  reachable { waste 0 % to 100 % }')
        .replace('case back { fresh 100 %  waste 100 % }', 'case back { fresh 100 %  waste 30 % }')
        .replaceAll('waste 90 L', 'waste 160 L'),
    );
    expect(message).toMatch(
      /^The swinging of Tourer does not die out: it has a damping ratio of -0\.\d+ at the intended/,
    );
  });

  test('says so where the rig folds', () => {
    const text = weekend({
      kerb: [700, 700],
      ratings: [950, 950],
      tare: 3600,
      tourer: 'tank bow 220 L of water at 500 mm back, 500 mm up',
      rig: 'travel 110 km/h',
    }).replace('case empty { }', 'case empty { bow 0 % }');
    expect(findingsOf(text).filter(({ severity }) => severity !== 'information')).toEqual([]);
    expect(messageOf(text)).toMatch(/^Weekend folds at the intended 110 km\/h, with bow \d+ %, else as in case empty/);
  });

  test('says nothing of damping at walking pace, where it is the lag of the tyres', () => {
    const text = weekend({ tourer: 'tank big 300 L of water at 3900 mm back, 700 mm up', rig: 'travel 4.5 km/h' });
    const slow = stabilityOf(text.replace('case empty { }', 'case empty { big 0 % }'));
    expect(Math.min(...slow.results.map(({ damping }) => damping))).toBeGreaterThan(0.1);
    expect(reachStabilityOf(slow.rig)?.damping).toBeLessThan(0.1);
    expect(checkReachStability(slow)).toEqual([]);
  });

  test('may be one with a tank between its ends', () => {
    const text = weekend({ tourer: 'tank big 900 L of water at 3900 mm back, 700 mm up', rig: 'travel 8 km/h' });
    const { rig } = stabilityOf(text.replace('case empty { }', 'case empty { big 0 % }'));
    const reached = reachStabilityOf(rig);
    const level = reached?.worst?.witness.state.case.levels.get('Tourer.big')?.value;
    expect(level).toBeGreaterThan(0.1);
    expect(level).toBeLessThan(0.9);
    const ends = text.replace('case empty { }', 'case empty { big 0 % }\n  case full { big 100 % }');
    const least = Math.min(...stabilityOf(ends).results.map(({ damping }) => damping));
    expect(reached?.worst?.result.damping).toBeLessThan(least - 1e-3);
  });

  test('is nothing where nothing varies', () => {
    const { rig } = stabilityOf(weekend({ rig: 'travel 90 km/h' }));
    expect(reachStabilityOf(rig)).toBeUndefined();
  });
});

describe('in the analysis', () => {
  const codes = (text: string) => completeDiagnostics(read(text), MAIN).map((each) => each.code);

  test('follows the other diagnostics, and can be turned off', () => {
    expect(
      read(example)
        .diagnostics(MAIN)
        .map((each) => each.code),
    ).not.toContain(code);
    expect(codes(example)).toContain(code);
    expect(codes(example.replace('  travel', `  rule ${code} off "weighed and driven"\n  travel`))).not.toContain(code);
  });

  test('is kept for a rig that an edit does not reach, and found anew in one that it does', () => {
    const syntax = openDocument(example);
    const before = analyse({ documents: new Map([[MAIN, { kind: 'text', syntax }]]) });
    completeDiagnostics(before, MAIN);
    const spare = updateDocument(
      syntax,
      { start: 0, end: 0, text: 'item spare 4 kg\n' },
      `item spare 4 kg\n${example}`,
    );
    const same = analyse({ documents: new Map([[MAIN, { kind: 'text', syntax: spare }]]) }, before);
    expect(same.diagnostics(MAIN).map((each) => each.code)).toContain(code);
    const at = example.indexOf('90 km/h');
    const slower = example.replace('90 km/h', '60 km/h');
    const edited = updateDocument(syntax, { start: at, end: at + 2, text: '60' }, slower);
    const after = analyse({ documents: new Map([[MAIN, { kind: 'text', syntax: edited }]]) }, before);
    expect(after.diagnostics(MAIN).map((each) => each.code)).not.toContain(code);
    expect(completeDiagnostics(after, MAIN)).toEqual(completeDiagnostics(read(slower), MAIN));
  });
});
