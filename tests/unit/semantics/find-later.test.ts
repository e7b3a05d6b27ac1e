import { expect, test, vi } from 'vitest';
import { analyse, completeDiagnostics, openDocument } from '../../../language/index.ts';

const failing = vi.hoisted(() => ({ times: 0 }));

vi.mock('../../../language/rules/reach/check-reach.ts', async (original) => {
  const actual = await original<typeof import('../../../language/rules/reach/check-reach.ts')>();
  return {
    ...actual,
    checkReach: (...result: Parameters<typeof actual.checkReach>) => {
      if (failing.times-- > 0) throw new Error('failed once');
      return actual.checkReach(...result);
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

test('a look that has failed begins anew, and finds what it looks for', () => {
  const analysis = analyse({ documents: new Map([[URI, { kind: 'text' as const, syntax: openDocument(TEXT) }]]) });
  failing.times = 1;
  expect(() => completeDiagnostics(analysis, URI)).toThrow('failed once');
  const codes = () => completeDiagnostics(analysis, URI).map(({ code }) => code);
  expect(codes()).toContain('RW902');
});
