import { describe, expect, test } from 'vitest';
import { completeDiagnostics } from '../../../language/index.ts';
import { MAIN, read } from './support.ts';

/** Water at the middle of the wheelbase: half of what it weighs is on each axle. */
const text = ({ cases = '', reachable = '', own = '', rating = 1300 }) => `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  kerb 1000 kg on front, 1000 kg on rear, 600 mm up, inertia 3000 kg·m²
  axle front rating ${rating} kg
  tank nose 100 L of water at 1500 mm back, 600 mm up${own}
  tank tail 100 L of water at 1500 mm back, 600 mm up
}
rig Trip {
  tow Truck
  case out { ${cases} }
  ${reachable === '' ? '' : `reachable { ${reachable} }`}
}
`;

const errors = (source: string) =>
  read(source).diagnostics.flatMap(({ code, severity, message, start, end }) =>
    severity === 'error' ? [{ code, message, text: source.slice(start, end) }] : [],
  );
const codes = (source: string) => completeDiagnostics(read(source).analysis, MAIN).map(({ code }) => code);
const front = (source: string) => read(source).value('Trip', 'Truck.front.load');

describe('a line of a level', () => {
  test.each([
    ['nose 0 % to 120 %  tail -5 %', 'tail -5 %', "'nose' takes no 'tail -5 %' behind '0 % to 120 %'."],
    ['nose 0.5  tail 0.2 to 0.4', '0.2 to 0.4', "'nose' takes no '0.2 to 0.4' behind '0.5 tail'."],
    ['nose at 50 %', 'at 50 %', "'nose' takes no 'at 50 %'."],
    ['nose "half"', '"half"', `'nose' takes no '"half"'.`],
    ['nose 50 % back', 'back', "'nose' takes no 'back'."],
  ])('with more than a level names what is too much, once: %s', (line, marked, message) => {
    for (const parts of [{ cases: line }, { reachable: line }]) {
      const [only, ...others] = errors(text(parts));
      expect(others).toEqual([]);
      expect(only).toMatchObject({ code: 'RW110', text: marked });
      expect(only?.message).toBe(
        `${message} It takes: one level or one range of levels; another tank has a line of its own.`,
      );
    }
  });

  test('without one lacks it', () => {
    expect(errors(text({ cases: 'nose' }))).toMatchObject([
      { code: 'RW112', message: expect.stringMatching(/^nose lacks its level/) },
    ]);
  });

  test('ends where the next one begins', () => {
    const source = text({ cases: 'nose 50 %  tail 20 %', reachable: 'nose 0 % to 60 %, tail 20 %' });
    expect(errors(source)).toEqual([]);
    // 1000 + (50 + 20) / 2
    expect(front(source)).toBeCloseTo(1035, 9);
  });
});

describe('levels that no tank can have', () => {
  const cases = (nose: string) => text({ cases: `nose ${nose}  tail 0 %` });

  test.each([
    ['130 %', 1050, 'RW521', /filled to 130 % in case out/],
    ['60 % to 140 %', 1040, 'RW521', /filled to 140 % in case out/],
    ['-5 %', 1000, 'RW306', /^The level of nose must be zero or more; this is -5 %\.$/],
    ['-20 % to 40 %', 1010, 'RW306', /zero or more; this is -20 %/],
    ['40 % to -20 %', 1010, 'RW306', /zero or more; this is -20 %/],
  ])('are told once and count as full or empty: %s', (nose, load, code, message) => {
    const source = cases(nose);
    expect(errors(source)).toMatchObject([{ code, message: expect.stringMatching(message), text: nose }]);
    expect(front(source)).toBeCloseTo(load, 9);
  });

  test('in the line of the tank too', () => {
    const source = text({ own: ', level 120 %', cases: 'tail 0 %' });
    expect(errors(source)).toMatchObject([{ code: 'RW521', message: expect.stringMatching(/filled to 120 %/) }]);
    expect(front(source)).toBeCloseTo(1050, 9);
  });

  test('are no states that something is told of', () => {
    // With both tanks full 1100 kg: only water that does not fit into them goes beyond the rating.
    const parts = { cases: 'nose 0 %  tail 0 %', reachable: 'nose 0 % to 130 %' };
    expect(codes(text({ ...parts, rating: 1100 })).filter((code) => code > 'RW900')).toEqual([]);
    expect(codes(text({ ...parts, rating: 1099 }))).toContain('RW902');
    expect(codes(text({ ...parts, rating: 1100 }))).toContain('RW521');
  });
});

describe('a level that a case states in a line with an error', () => {
  const broken = { cases: 'nose 20 zz  tail 0 %' };

  test('is that of the tank’s own line, and not called unstated', () => {
    const source = text({ ...broken, own: ', level 40 %' });
    expect(errors(source)).toMatchObject([{ code: 'RW301', text: 'zz' }]);
    expect(front(source)).toBeCloseTo(1020, 9);
    expect(front(text(broken))).toBeCloseTo(1050, 9);
    const [incomplete, ...others] = read(text(broken)).assumptions('Trip');
    expect(incomplete).toMatch(/^lines with errors are left out of Trip/);
    expect(others.filter((each) => each.includes('not stated'))).toEqual([]);
    expect(
      read(text({ cases: 'tail 0 %' }))
        .assumptions('Trip')
        .join(),
    ).toContain('Truck.nose not stated in case out');
  });

  test('is not held against what is reachable', () => {
    const reachable = 'nose 0 % to 55 %';
    expect(codes(text({ ...broken, reachable }))).not.toContain('RW905');
    expect(codes(text({ cases: 'nose 0 % to 20 % tail 0 %', reachable }))).not.toContain('RW905');
    expect(codes(text({ cases: 'tail 0 %', reachable }))).toContain('RW905');
  });
});
