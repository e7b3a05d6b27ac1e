import { describe, expect, test } from 'vitest';
import { loadsOf, mass, trailer, vehicle } from '../unit/mechanics/rigs.ts';

describe('one axle behind a car', () => {
  // Computed by hand: moments about the coupling, 1500·4.2/4.5 = 1400; then about the vehicle's axles,
  // ΔFront = −H·oh/wb = −100·1.0/2.7 and ΔRear = H·(wb + oh)/wb (textbook statics).
  const tourer = trailer('equalised', [{ x: -4.5 }]);
  const load = mass(1, 1500, -4.2);

  test('mass 1500 kg, 4.2 m behind the coupling, axle at 4.5 m: axle 1400 kg, coupling 100 kg', () => {
    const [alone] = loadsOf({ units: [tourer] }, [{ ...load, unit: 0 }]);
    expect(alone?.axles[0]).toBeCloseTo(1400, 9);
    expect(alone?.coupling).toBeCloseTo(100, 9);
  });

  test('wheelbase 2.7 m, overhang 1.0 m: front −37.04 kg, rear +137.04 kg', () => {
    const [car, towed] = loadsOf({ units: [vehicle(2.7, 1), tourer] }, [load]);
    expect(car?.axles[0]).toBeCloseTo(-37.04, 2);
    expect(car?.axles[1]).toBeCloseTo(137.04, 2);
    expect(towed?.coupling).toBeCloseTo(100, 9);
  });

  test('the coupling load is what the tow axles weigh more when coupled (weighing by differences)', () => {
    // Source: common practice at public weighbridges, and vertical equilibrium.
    const own = [mass(0, 1100, -0.9), mass(0, 700, -2.2)];
    const [solo] = loadsOf({ units: [vehicle(2.7, 1)] }, own);
    const [coupled, towed] = loadsOf({ units: [vehicle(2.7, 1), tourer] }, [...own, load]);
    const sum = (loads: readonly number[] = []) => loads.reduce((total, each) => total + each, 0);
    expect(sum(coupled?.axles) - sum(solo?.axles)).toBeCloseTo(towed?.coupling ?? Number.NaN, 9);
  });
});

test('trailer mass less axle load is coupling load: ATM − GTM', () => {
  // Source: ATM and GTM as defined in Australian vehicle standards (ATM: laden mass including what the trailer imposes
  // on the drawing vehicle; GTM: what its axles carry when coupled).
  const [alone] = loadsOf({ units: [trailer('equalised', [{ x: -3.4 }, { x: -4.2 }])] }, [mass(0, 1850, -3.5)]);
  expect(alone?.coupling).toBeCloseTo(1850 - (alone?.groups[0] ?? Number.NaN), 9);
});

test('a vehicle alone: axle loads by the lever rule', () => {
  // Textbook statics: F = W·b/wb, R = W·a/wb with a = 1.2 m behind the front axle, b = 1.5 m.
  const [car] = loadsOf({ units: [vehicle(2.7, 1)] }, [mass(0, 1620, -1.2)]);
  expect(car?.axles[0]).toBeCloseTo((1620 * 1.5) / 2.7, 9);
  expect(car?.axles[1]).toBeCloseTo((1620 * 1.2) / 2.7, 9);
});

describe('grade and braking', () => {
  // Textbook longitudinal load transfer (e.g. Gillespie, Fundamentals of Vehicle Dynamics, ch. 1; from memory):
  // Wf = W·(c·cosθ − h·ax/g − h·sinθ)/L, Wr = W·(b·cosθ + h·ax/g + h·sinθ)/L, ax accelerating, θ uphill.
  const units = [vehicle(2.7, 1)];
  const sources = [mass(0, 1620, -1.2, 0, 0.6)];

  test('braking at 4 m/s² on the level', () => {
    const [car] = loadsOf({ units }, sources, { grade: 0, deceleration: 4 });
    expect(car?.axles[0]).toBeCloseTo((1620 * (1.5 + (0.6 * 4) / 9.80665)) / 2.7, 9);
    expect(car?.axles[1]).toBeCloseTo((1620 * (1.2 - (0.6 * 4) / 9.80665)) / 2.7, 9);
  });

  test('climbing at constant speed', () => {
    const angle = Math.atan(0.12);
    const [car] = loadsOf({ units }, sources, { grade: 0.12, deceleration: 0 });
    expect(car?.axles[0]).toBeCloseTo((1620 * (1.5 * Math.cos(angle) - 0.6 * Math.sin(angle))) / 2.7, 9);
    expect(car?.axles[1]).toBeCloseTo((1620 * (1.2 * Math.cos(angle) + 0.6 * Math.sin(angle))) / 2.7, 9);
  });

  test('an unbraked trailer pushes the coupling: moments about its axle', () => {
    // By hand, in kg: push P = W·a/g at 0.45 m, mass at 0.9 m: coupling = W·(0.3/4.5) + P·(0.9 − 0.45)/4.5.
    const tourer = trailer('equalised', [{ x: -4.5 }], { brakeShare: 0 });
    const push = (1500 * 3) / 9.80665;
    const [, towed] = loadsOf({ units: [vehicle(2.7, 1), tourer] }, [mass(1, 1500, -4.2, 0, 0.9)], {
      grade: 0,
      deceleration: 3,
    });
    expect(towed?.drawbar).toBeCloseTo(-push, 9);
    expect(towed?.coupling).toBeCloseTo(100 + (push * 0.45) / 4.5, 9);
  });

  test('a trailer that brakes itself fully pushes nothing, but still pitches onto the coupling', () => {
    const tourer = trailer('equalised', [{ x: -4.5 }], { brakeShare: 1 });
    const [, towed] = loadsOf({ units: [vehicle(2.7, 1), tourer] }, [mass(1, 1500, -4.2, 0, 0.9)], {
      grade: 0,
      deceleration: 3,
    });
    expect(towed?.drawbar).toBeCloseTo(0, 9);
    expect(towed?.coupling).toBeCloseTo(100 + (((1500 * 3) / 9.80665) * 0.9) / 4.5, 9);
  });
});
