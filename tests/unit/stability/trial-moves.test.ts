import { describe, expect, test } from 'vitest';
import { firstMoves } from '../../../language/rules/stability/first-moves.ts';
import { harmless } from '../../../language/rules/stability/harmless.ts';
import { helpDamping } from '../../../language/rules/stability/help.ts';
import { NEUTRAL } from '../../../language/rules/stability/results.ts';
import { trialTrain, understeerOf } from '../../../language/rules/stability/trial.ts';
import type { StabilityResult } from '../../../language/semantics/stability/evaluate-stability.ts';
import { firstResult, stabilityOf, weekend } from '../rules/stability/rigs.ts';
import { fail } from '../semantics/support.ts';

const sourceOf = ({ state }: StabilityResult, name: string) =>
  state.sources.find(({ id }) => id.name === name) ?? fail(`no ${name}`);

describe('a move tried out', () => {
  /** A heavy load on the left: the slopes of the tyres' curve differ from side to side. */
  const lopsided = (back: number) =>
    firstResult(stabilityOf(weekend({ tourer: `fitting press 180 kg at ${back} mm back, 900 mm left, 600 mm up` })));
  const stiffness = (result: StabilityResult) => result.built.train.units[1]?.axles[0]?.stiffness ?? fail('no axle');

  test('moves load to both sides, each worth the slope of its own tyres', () => {
    const result = lopsided(3000);
    const { leftSlope, rightSlope } = result.built.loadings.find(({ unit }) => unit === 1) ?? fail('no loading');
    expect(Math.abs(leftSlope / rightSlope - 1)).toBeGreaterThan(0.2);
    const tried = (distance: number) =>
      trialTrain(result.built, sourceOf(result, 'Tourer.press'), distance).units[1]?.axles[0]?.stiffness ?? 0;
    // Central differences of 2 mm through the whole language.
    const written = (stiffness(lopsided(2999)) - stiffness(lopsided(3001))) / 0.002;
    expect((tried(0.001) - tried(-0.001)) / 0.002 / written).toBeCloseTo(1, 5);
  });

  test('what stays behind needs no braking any more', () => {
    const text = weekend({
      tourer: 'fitting press 180 kg at 3000 mm back, 600 mm up',
      rig: 'travel 90 km/h, braking 4 m/s²',
    });
    const braking = stabilityOf(text).results.find(
      ({ scenario }) => scenario.kind === 'braking' && scenario.brakes === 'as fitted',
    );
    if (braking === undefined) throw new Error('it does not brake');
    const forceOf = (train: typeof braking.built.train) => train.units[1]?.axles[0]?.force;
    // 980 kg, then 800 kg, at 4 m/s².
    expect(forceOf(braking.built.train)).toBeCloseTo(-3920, 8);
    expect(forceOf(trialTrain(braking.built, sourceOf(braking, 'Tourer.press'), undefined))).toBeCloseTo(-3200, 8);
    expect(forceOf(trialTrain(braking.built, sourceOf(braking, 'Tourer.press'), 0.5))).toBeCloseTo(-3920, 8);
  });
});

describe('first moves go where they add damping', () => {
  const SPEED = 100 / 3.6;
  const loaded = (chest: number) =>
    firstResult(
      stabilityOf(
        weekend({
          tare: 3200,
          tourer: `fitting chest 90 kg at ${chest} mm back, 600 mm up\n  fitting rack 190 kg at 6800 mm back, 600 mm up`,
        }),
      ),
    );
  const damping = (chest: number) => loaded(chest).mode?.damping ?? fail('nothing swings');
  const zeroDamping = (chest: number) => {
    const { zeroDamping: found } = loaded(chest);
    return found.kind === 'at' ? found.speed : fail('it never swings by itself');
  };

  // Close behind the coupling a mass adds more inertia than load on the hitch; from the middle on it does no such good.
  test.each([
    [200, 'back'],
    [2600, 'ahead'],
  ] as const)('a chest at %s mm back: %s', (at, direction) => {
    const move = firstMoves(loaded(at), SPEED, 10).find(({ source }) => source.name === 'Tourer.chest');
    expect(move?.direction).toBe(direction);
    // Central differences of 2 mm through the whole language.
    const further = direction === 'back' ? 1 : -1;
    const gain = (damping(at + further) - damping(at - further)) / 0.002;
    expect(move?.damping).toBeGreaterThan(0);
    expect((move?.damping ?? 0) / (0.1 * gain)).toBeCloseTo(1, 4);
    const speed = (zeroDamping(at + further) - zeroDamping(at - further)) / 0.002;
    expect((move?.zeroDampingSpeed ?? 0) / (0.1 * speed)).toBeCloseTo(1, 4);
  });
});

describe('no help for damping that turns the steering over', () => {
  const loaded = (front: number) =>
    stabilityOf(
      weekend({
        kerb: [front, 1400 - front],
        ratings: [950, 900],
        file: 'item generator 71 kg\n',
        tourer: 'locker tail at 5600 mm back, floor 500 mm up',
        rig: 'travel 100 km/h\n  stow generator in Tourer.tail',
      }),
    );
  const tried = (front: number) => {
    const { results, speed } = loaded(front);
    const [result] = results;
    if (result === undefined) throw new Error('no result');
    const source = sourceOf(result, 'generator in Tourer.tail');
    return {
      before: understeerOf(result.built.train, speed) ?? Number.NaN,
      after: understeerOf(trialTrain(result.built, source, 0.5), speed) ?? Number.NaN,
      isHarmless: harmless(results, speed)({ source, distance: 0.5 }),
      help: helpDamping(result, speed) ?? '',
    };
  };

  test('where it steers neutrally before and oversteers after', () => {
    const { before, after, isHarmless, help } = tried(770);
    expect(before).toBeGreaterThanOrEqual(NEUTRAL);
    expect(after).toBeLessThan(NEUTRAL);
    expect(isHarmless).toBe(false);
    expect(help).not.toMatch(/ahead/);
  });

  test('where it understeers after as well it is proposed', () => {
    const { after, isHarmless, help } = tried(780);
    expect(after).toBeGreaterThanOrEqual(NEUTRAL);
    expect(isHarmless).toBe(true);
    expect(help).toMatch(/^Moving generator \(71 kg\) 500 mm ahead adds /);
  });
});
