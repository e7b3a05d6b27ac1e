import { describe, expect, test } from 'vitest';
import { leastDamped, modesOf } from '../../../../language/mechanics/stability/modes.ts';
import { isStabilityProblem } from '../../../../language/mechanics/stability/problems.ts';
import { easiestFirst, worthProposing } from '../../../../language/rules/stability/ease.ts';
import { firstMoves, rankedMoves } from '../../../../language/rules/stability/first-moves.ts';
import { helpDamping, helpUndersteer } from '../../../../language/rules/stability/help.ts';
import { motionOf, trialTrain, understeerOf } from '../../../../language/rules/stability/trial.ts';
import { fail, read } from '../../semantics/support.ts';
import { firstResult, stabilityOf, weekend } from './rigs.ts';

const LOADED = weekend({
  file: 'item generator 71 kg size 700 x 520 x 560 mm\nitem crates 40 kg\n',
  tourer: `locker tail at 5600 mm back, floor 500 mm up
  locker nose at 1200 mm back, 300 mm left, floor 500 mm up
  fitting rack 12 kg at 6100 mm back, 700 mm up
  tank fresh 60 L of water at 3000 mm back, 400 mm up`,
  rig: 'travel 100 km/h\n  stow generator in Tourer.tail\n  stow crates in Tourer.nose',
});

/** The damping of the same file with one figure in it changed. */
function dampingWith(from: string, to: string): number {
  expect(LOADED).toContain(from);
  return firstResult(stabilityOf(LOADED.replace(from, to))).mode?.damping ?? fail('nothing swings');
}

const SPEED = 100 / 3.6;
const result = () => firstResult(stabilityOf(LOADED));

describe('what to move first', () => {
  test('is ranked by what 100 mm gain, and equal to moving it in the file', () => {
    const moves = firstMoves(result(), SPEED, 10);
    expect(moves.map(({ source }) => source.name).toSorted()).toEqual([
      'Tourer.fresh',
      'crates in Tourer.nose',
      'generator in Tourer.tail',
    ]);
    const items = moves.flatMap(({ source, damping }) => (source.kind === 'item' ? [damping] : []));
    expect(items).toEqual(items.toSorted((a, b) => b - a));
    const [first] = moves;
    expect([first?.source.name, first?.direction]).toEqual(['generator in Tourer.tail', 'ahead']);
    // Central differences of 2 mm through the whole language.
    const difference = (dampingWith('at 5600 mm', 'at 5599 mm') - dampingWith('at 5600 mm', 'at 5601 mm')) / 0.002;
    expect(first?.damping).toBeCloseTo(0.1 * difference, 6);
  });

  test('the zero-damping speed comes with it, where there is one', () => {
    const tailHeavy = (at: number) =>
      stabilityOf(weekend({ tare: 3300, tourer: `fitting generator 100 kg at ${at} mm back, 600 mm up` }));
    const zeroDamping = (at: number) => {
      const { zeroDamping: found } = firstResult(tailHeavy(at));
      return found.kind === 'at' ? found.speed : fail('no such speed');
    };
    const [first] = firstMoves(firstResult(tailHeavy(6800)), SPEED, 1);
    const difference = (zeroDamping(6799) - zeroDamping(6801)) / 0.002;
    expect(difference).toBeGreaterThan(0);
    expect((first?.zeroDampingSpeed ?? 0) / (0.1 * difference)).toBeCloseTo(1, 4);
    expect(firstMoves(result(), SPEED, 1)[0]?.zeroDampingSpeed).toBeUndefined();
  });

  test('a mass taken off is told per kilogram', () => {
    const rack = rankedMoves(result(), SPEED).find(({ source }) => source.name === 'Tourer.rack');
    const difference = (dampingWith('rack 12 kg', 'rack 11.99 kg') - dampingWith('rack 12 kg', 'rack 12.01 kg')) / 0.02;
    expect(rack?.perKilogram.damping).toBeCloseTo(difference, 6);
    expect(rack?.perKilogram.damping).toBeGreaterThan(0);
  });

  test('at most so many, and only what can be moved', () => {
    const moves = firstMoves(result(), SPEED, 2);
    expect(moves).toHaveLength(2);
    const all = firstMoves(result(), SPEED, 100);
    expect(all.slice(0, 2)).toEqual(moves);
    const movable = ['item', 'tank', 'fitting'];
    expect(rankedMoves(result(), SPEED).every(({ source }) => movable.includes(source.kind))).toBe(true);
  });

  test('of one unit alone are those of all that are in it', () => {
    const inTourer = firstMoves(result(), SPEED, 10, 1);
    expect(inTourer).toEqual(firstMoves(result(), SPEED, 10));
    expect(firstMoves(result(), SPEED, 10, 0)).toEqual([]);
  });
});

describe('what is easy to move stands first', () => {
  const move = (kind: 'item' | 'tank' | 'fitting', name: string, gain: number) => ({ kind, name, gain });
  const named = (moves: readonly { readonly name: string }[]) => moves.map(({ name }) => name).join(' ');
  const same = <T>(each: T) => each;

  test('items, then tanks, then fittings, of those that gain a fifth of the most', () => {
    const moves = [
      move('fitting', 'beam', 1),
      move('tank', 'fresh', 0.5),
      move('item', 'spade', 0.1),
      move('item', 'bag', 0.3),
      move('item', 'axe', 0.3),
      move('tank', 'grey', 0.05),
    ];
    expect(named(easiestFirst(moves, same))).toBe('axe bag fresh beam spade grey');
  });

  test('a fitting only where nothing else gains a fifth as much', () => {
    const beside = (gain: number) => [
      move('fitting', 'beam', 1),
      move('item', 'bag', gain),
      move('fitting', 'rib', 0.3),
    ];
    expect(named(worthProposing(beside(0.2), same))).toBe('bag');
    expect(named(worthProposing(beside(0.19), same))).toBe('beam bag');
    expect(named(worthProposing(beside(0.05), same))).toBe('beam rib bag');
    expect(worthProposing([], same)).toEqual([]);
  });

  // A beam at the tail beside crates: what the beam would gain is not proposed, except where nothing else gains enough.
  const beam = (crates: string, mass: number) =>
    firstResult(
      stabilityOf(
        weekend({
          file: `item crates ${mass} kg\n`,
          tourer: `locker chest at ${crates} back, floor 500 mm up\n  fitting beam 80 kg at 6100 mm back, 400 mm up`,
          rig: 'travel 100 km/h\n  stow crates in Tourer.chest',
        }),
      ),
    );

  test('of a rig, and the advice follows', () => {
    const crated = beam('5600 mm', 40);
    expect(rankedMoves(crated, SPEED).map(({ source }) => source.name)).toContain('Tourer.beam');
    expect(firstMoves(crated, SPEED, 5).map(({ source }) => source.name)).toEqual(['crates in Tourer.chest']);
    expect(helpDamping(crated, SPEED)).toMatch(/^Moving crates \(40 kg\) 500 mm ahead adds /);
    const light = beam('5600 mm', 2);
    expect(firstMoves(light, SPEED, 1).map(({ source }) => source.name)).toEqual(['Tourer.beam']);
    expect(helpDamping(light, SPEED)).toMatch(/^Moving Tourer\.beam \(80 kg\) 500 mm ahead adds /);
  });
});

describe('a move tried out', () => {
  const source = (name: string) => result().state.sources.find(({ id }) => id.name === name) ?? fail(`no ${name}`);

  test('moves mass and inertia as the file does', () => {
    const trial = trialTrain(result().built, source('generator in Tourer.tail'), 0.5).units[1];
    const written = firstResult(stabilityOf(LOADED.replace('at 5600 mm', 'at 5100 mm'))).built.train.units[1];
    expect(trial?.mass).toBeCloseTo(written?.mass ?? 0, 9);
    expect(trial?.x).toBeCloseTo(written?.x ?? 0, 12);
    expect(trial?.yawInertia).toBeCloseTo(written?.yawInertia ?? 0, 7);
    // Stiffness follows the load by the slope of the curve: second order in the change of load.
    const [axle] = trial?.axles ?? [];
    const stiffness = written?.axles[0]?.stiffness ?? 0;
    expect(Math.abs((axle?.stiffness ?? 0) - stiffness)).toBeLessThan(0.001 * stiffness);
  });

  test('what is left behind is gone', () => {
    const trial = trialTrain(result().built, source('generator in Tourer.tail'), undefined).units[1];
    const written = firstResult(stabilityOf(LOADED.replace('  stow generator in Tourer.tail\n', ''))).built.train
      .units[1];
    expect(trial?.mass).toBeCloseTo(written?.mass ?? 0, 9);
    expect(trial?.x).toBeCloseTo(written?.x ?? 0, 12);
    expect(trial?.yawInertia).toBeCloseTo(written?.yawInertia ?? 0, 7);
  });

  test('damping and understeer are those of the model', () => {
    const { train } = result().built;
    const modes = modesOf(train, SPEED);
    const least = isStabilityProblem(modes) ? undefined : leastDamped(modes)?.damping;
    expect(motionOf(train, SPEED)?.damping).toBe(least);
    expect(understeerOf(train, SPEED)).toBe(result().handling?.understeer);
    expect(motionOf({ ...train, units: [] }, SPEED)).toBeUndefined();
    expect(understeerOf({ ...train, units: [] }, SPEED)).toBeUndefined();
  });
});

describe('what helps, in words', () => {
  test('the move and its whole effect', () => {
    const help = helpDamping(result(), SPEED) ?? fail('no help');
    expect(help).toMatch(/^Moving generator \(71 kg\) 500 mm ahead adds [\d.]+ to the damping ratio\.$/);
    const gain = Number(/adds ([\d.]+) to/.exec(help)?.[1]);
    const now = result().mode?.damping ?? 0;
    expect(gain).toBeCloseTo(dampingWith('at 5600 mm', 'at 5100 mm') - now, 3);
  });

  test('nothing is moved out of the body, and no coupling out of its usual share', () => {
    const short = LOADED.replace('locker tail', 'body from 800 mm to 5650 mm back, width 2000 mm\n  locker tail');
    const found = read(short).keys;
    expect(found).not.toContain('unknown-word');
    const help = helpDamping(firstResult(stabilityOf(short)), SPEED);
    expect(help).toMatch(/^Moving generator \(71 kg\) 500 mm ahead/);
    // With a quarter of its mass on the coupling nothing may go further ahead.
    const noseHeavy = LOADED.replace('tare 800 kg at 3450 mm', 'tare 800 kg at 3100 mm');
    expect(helpDamping(firstResult(stabilityOf(noseHeavy)), SPEED) ?? '').not.toMatch(/ahead/);
  });

  test('in the units of the rig, with round distances', () => {
    const help = helpDamping(firstResult(stabilityOf(LOADED.replace('rig Weekend', 'rig Weekend in US'))), SPEED);
    // 71 kg/0.45359237 = 156.5 lb.
    expect(help).toMatch(/^Moving generator \(157 lb\) 20 in ahead adds /);
  });

  test('no advice on steering that costs damping', () => {
    const one = firstResult(
      stabilityOf(
        weekend({ kerb: [720, 680], ratings: [950, 900], tourer: 'fitting box 40 kg at 1500 mm back, 600 mm up' }),
      ),
    );
    const help = helpUndersteer(one, SPEED);
    const box = one.state.sources.find(({ id }) => id.name === 'Tourer.box') ?? fail('no box');
    // Back it takes load off the hitch and turns the vehicle less, but it swings more: common practice, no source.
    const back = trialTrain(one.built, box, -0.5);
    expect(understeerOf(back, SPEED)).toBeGreaterThan(one.handling?.understeer ?? 0);
    expect(help === undefined).toBe((motionOf(back, SPEED)?.damping ?? 0) < (one.mode?.damping ?? 0));
  });
});
