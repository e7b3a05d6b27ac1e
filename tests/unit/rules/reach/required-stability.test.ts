import { describe, expect, test } from 'vitest';
import { REACH } from '../../../../language/diagnostics/reach.ts';
import { analyse, completeDiagnostics, type Diagnostic } from '../../../../language/index.ts';
import { reachStabilityOf } from '../../../../language/semantics/envelope/reach-stability.ts';
import { fixes } from '../../../../language/services/index.ts';
import { fail, MAIN, workspaceOf } from '../../semantics/support.ts';
import { applied } from '../../services/fixes-support.ts';
import { stabilityOf } from '../stability/rigs.ts';

const { example } = REACH['reach-stability'];
const requiring = (line: string): string => example.replace('travel 90 km/h', `travel 90 km/h\n  ${line}`);
const read = (text: string) => analyse(workspaceOf({ 'main.rig': text }));
const diagnosticsOf = (text: string, code: string): readonly Diagnostic[] =>
  completeDiagnostics(read(text), MAIN).filter((each) => each.code === code);
const messages = (text: string, code: string) => diagnosticsOf(text, code).map(({ message }) => message);

/** The text with the state that a finding is told of as a case. */
function withCase(text: string, code: string): string {
  const analysis = read(text);
  const { start, message } = completeDiagnostics(analysis, MAIN).find((each) => each.code === code) ?? fail(code);
  const offered = fixes(analysis, MAIN, { start, end: start }).filter(
    ({ diagnostic, title }) => diagnostic?.message === message && title.startsWith('Add this state as a case: '),
  );
  expect(offered).toHaveLength(1);
  return applied(text, offered[0] ?? fail('no fix'));
}

describe('what is required of lateral stability', () => {
  const damping = 'require rig.damping at least 0.12';

  test('is held in the least-damped reachable state found, and told as sampled', () => {
    const text = requiring(damping);
    const { worst } = reachStabilityOf(stabilityOf(text).rig) ?? fail('nothing is reachable');
    const least = Math.min(...(worst?.results ?? []).map((each) => each.damping));
    const [found = fail('nothing found')] = diagnosticsOf(text, 'RW902');
    const [, value = '', by = ''] =
      /the value of ([\d.]+) is ([\d.]+) under the least allowed here \(0\.12\)/.exec(found.message) ?? [];
    expect(Number(value)).toBeCloseTo(least, 3);
    expect(Number(by)).toBeCloseTo(0.12 - least, 3);
    expect(found.message).toContain(
      'with fresh 0 %, else as in case back, on the level. Every named case holds it; states were tried',
    );
    expect(found.message).toMatch(/ Moving \S+ \(.*?\) \d+ mm (ahead|back) adds [\d.]+ to the damping ratio/);
    expect(text.slice(found.start, found.end)).toBe(damping);
  });

  test('is told at the block of reachable states where there is one, and points at what is required', () => {
    const text = requiring(`${damping}\n  reachable { waste 0 % to 100 % }`);
    const [{ start = 0, end = 0, related } = fail('nothing found')] = diagnosticsOf(text, 'RW902');
    expect(text.slice(start, end)).toContain('reachable');
    expect(related.map(({ message }) => message)).toContain('Required here.');
  });

  test('is told of the road on which least is left of it', () => {
    const text = requiring(damping).replace('travel 90 km/h', 'travel 90 km/h, grades -8 % to 6 %');
    const { worst } = reachStabilityOf(stabilityOf(text).rig) ?? fail('nothing is reachable');
    const dampings = (worst?.results ?? []).map((each) => each.damping);
    const [least = 0, second = 0] = dampings.sort((a, b) => a - b);
    expect(second - least).toBeGreaterThan(1e-3);
    const [message = ''] = messages(text, 'RW902');
    expect(Number(/value of ([\d.]+)/.exec(message)?.[1])).toBeCloseTo(least, 3);
  });

  test('may be a speed, in the unit that it is required in', () => {
    // The least-damped state sways by itself from about 123 km/h (76 mph), the named cases from 146 km/h.
    expect(messages(requiring('require rig.zero_damping_speed at least 110 km/h'), 'RW902')).toEqual([]);
    const [message] = messages(requiring('require rig.zero_damping_speed at least 85 mph'), 'RW902');
    expect(message).toMatch(
      /^rig\.zero_damping_speed: the value of 7\d\.?\d* mph is \d+\.?\d* mph under the least allowed here \(85 mph\)/,
    );
    const most = messages(requiring('require rig.zero_damping_speed at most 100 km/h'), 'RW902');
    expect(most).toEqual([]);
  });

  test.each([
    ['that holds there', 'require rig.damping at least 0.09'],
    ['that a named case breaks already', 'require rig.damping at least 0.2'],
    ['of some cases only', 'require rig.damping at least 12 % in out, back'],
    ['that cannot be checked', 'require rig.damping at least 3 kg'],
    ['that cannot be reached', `${damping}\n  reachable { fresh 100 % }`],
  ])('is not told %s', (_, line) => {
    expect(messages(requiring(line), 'RW902')).toEqual([]);
  });

  test('is turned off with the rule that tells it of named cases', () => {
    expect(messages(requiring(`${damping}\n  rule RW581 off "as agreed"`), 'RW902')).toEqual([]);
  });

  test('is broken in the case that the quick fix adds', () => {
    const text = requiring(damping);
    const [before = ''] = messages(text, 'RW902');
    const named = withCase(text, 'RW902');
    expect(messages(named, 'RW902')).toEqual([]);
    const [message = ''] = messages(named, 'RW581');
    expect(message).toContain('in case reached');
    expect(message).toContain(/value of ([\d.]+)/.exec(before)?.[1] ?? 'none');
  });
});

test('a state that swings too much is a case after its quick fix, and told of that', () => {
  const named = withCase(example, 'RW906');
  expect(messages(named, 'RW906')).toEqual([]);
  expect(messages(named, 'RW711').join()).toContain('in case reached');
});
