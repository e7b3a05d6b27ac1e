import { describe, expect, test } from 'vitest';
import { firstResult, keysOf, stabilityOf, weekend } from '../rules/stability/rigs.ts';

const rigAt = (rig: string) =>
  weekend({ tare: 3300, tourer: 'fitting generator 80 kg at 6800 mm back, 600 mm up', rig });

/** km/h from which it swings by itself on the level: the same whatever speed is intended. */
function onTheLevel(): number {
  const { zeroDamping } = firstResult(stabilityOf(rigAt('travel 100 km/h')));
  if (zeroDamping.kind !== 'at') throw new Error(`it swings ${zeroDamping.kind}`);
  return zeroDamping.speed * 3.6;
}

describe('a fault is told once', () => {
  test('little damping, not the margin of the same swing as well', () => {
    const intended = onTheLevel() / 1.2;
    const { mode } = firstResult(stabilityOf(rigAt(`travel ${intended} km/h`)));
    // Within 1.25 times the intended speed it swings by itself, and below a tenth of damping at it.
    expect(mode?.damping).toBeGreaterThan(0);
    expect(mode?.damping).toBeLessThan(0.1);
    const keys = keysOf(rigAt(`travel ${intended} km/h`));
    expect(keys).toContain('damping-low');
    expect(keys).not.toContain('speed-margin-small');
  });

  test('what swings on the level below the intended speed, not that braking makes it worse as well', () => {
    const braking = (speed: number) => keysOf(rigAt(`travel ${speed} km/h, braking 6 m/s²`));
    const level = onTheLevel();
    expect(braking(level - 5)).toContain('worse-off-level');
    expect(braking(level + 5)).toContain('sways-below-speed');
    expect(braking(level + 5)).not.toContain('worse-off-level');
  });
});
