import { describe, expect, test } from 'vitest';
import {
  boxInertia,
  cylinderInertia,
  principalInertia,
  rodInertia,
  translateInertia,
} from '../../language/mechanics/inertia.ts';
import { combine, pointBody } from '../../language/mechanics/mass.ts';

describe('textbook moments of inertia', () => {
  test('uniform box of 1200 kg, 5.5 × 2.2 m: Iz = m/12·(l² + w²) = 3509 kg m²', () => {
    // Source: the formula of every mechanics handbook; figure computed by hand.
    expect(boxInertia(1200, { length: 5.5, width: 2.2, height: 2 }).zz).toBeCloseTo(3509, 9);
  });

  test('solid cylinder: m·r²/2 along its axis, m·(3r² + l²)/12 across', () => {
    // Source: mechanics handbooks. m 60 kg, r 0.5 m, l 2 m → 7.5 and 23.75 kg m².
    expect(cylinderInertia(60, 1, 2, 'x')).toEqual(principalInertia(7.5, 23.75, 23.75));
    expect(cylinderInertia(60, 1, 2, 'y')).toEqual(principalInertia(23.75, 7.5, 23.75));
    expect(cylinderInertia(60, 1, 2, 'z')).toEqual(principalInertia(23.75, 23.75, 7.5));
  });

  test('thin rod: m·l²/12 about its middle, m·l²/3 about its end', () => {
    // Source: mechanics handbooks. m 12 kg, l 3 m.
    const rod = rodInertia(12, { x: 3, y: 0, z: 0 });
    expect(rod.zz).toBeCloseTo(9, 12);
    expect(rod.xx).toBe(0);
    expect(translateInertia(rod, 12, { x: 1.5, y: 0, z: 0 }).zz).toBeCloseTo(36, 12);
  });

  test('a slanted rod has a product of inertia −m·lx·ly/12', () => {
    expect(rodInertia(12, { x: 3, y: 4, z: 0 }).xy).toBeCloseTo(-12, 12);
  });

  test('two equal masses at a distance: m1·m2/(m1 + m2)·d² about their centre', () => {
    // Source: reduced mass, mechanics handbooks. 30 and 60 kg, 2 m apart → 80 kg m².
    const pair = combine([pointBody(30, { x: 0, y: 0, z: 1 }), pointBody(60, { x: -2, y: 0, z: 1 })]);
    expect(pair.inertia.zz).toBeCloseTo(80, 12);
    expect(pair.inertia.yy).toBeCloseTo(80, 12);
    expect(pair.inertia.xx).toBeCloseTo(0, 12);
    expect(pair.centre?.x).toBeCloseTo(-4 / 3, 12);
  });

  test('eight small boxes make one large box', () => {
    const size = { length: 2, width: 1, height: 0.5 };
    const half = { length: 1, width: 0.5, height: 0.25 };
    const signs = [-1, 1];
    const parts = signs.flatMap((i) =>
      signs.flatMap((j) =>
        signs.map((k) => ({
          mass: 10,
          centre: { x: i / 2, y: j / 4, z: k / 8 },
          inertia: boxInertia(10, half),
        })),
      ),
    );
    const whole = combine(parts);
    const expected = boxInertia(80, size);
    for (const key of ['xx', 'yy', 'zz', 'xy', 'xz', 'yz'] as const) {
      expect(whole.inertia[key]).toBeCloseTo(expected[key], 12);
    }
  });
});
