import { expect, test, vi } from 'vitest';
import { analyse, openDocument } from '../../../language/index.ts';

const failing = vi.hoisted(() => ({ times: 0 }));

vi.mock('../../../language/semantics/stability/find-stability.ts', async (original) => {
  const actual = await original<typeof import('../../../language/semantics/stability/find-stability.ts')>();
  return {
    ...actual,
    findStability: (...asked: Parameters<typeof actual.findStability>) => {
      if (failing.times-- > 0) throw new Error('failed once');
      return actual.findStability(...asked);
    },
  };
});

const URI = 'file:///main.rig';

// 100 L more of water over the axle of a cart that weighs 500 kg.
const TEXT = `trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm, rating 550 kg
  tare 500 kg at 2900 mm back, 500 mm up
  tank water 100 L of water at 3000 mm back, 500 mm up
  case out { water 0 % }
}
`;

/** More parts than all looks at the text have. */
const MANY = 50;

test('a look that has failed begins anew, and finds what it looks for', () => {
  const analysis = analyse({ documents: new Map([[URI, { kind: 'text' as const, syntax: openDocument(TEXT) }]]) });
  const settle = () => {
    for (let parts = 0; parts < MANY; parts++) if (!analysis.settleNext(URI)) return true;
    return false;
  };
  failing.times = 1;
  expect(settle).toThrow('failed once');
  expect(settle()).toBe(true);
  expect(analysis.diagnostics(URI).map(({ code }) => code)).toContain('RW902');
});
