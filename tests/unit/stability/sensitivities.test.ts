import { describe, expect, test } from 'vitest';
import type { Field } from '../../../language/mechanics/combination.ts';
import { itemSensitivities, type MovableMass } from '../../../language/mechanics/stability/items.ts';
import { modesOf } from '../../../language/mechanics/stability/modes.ts';
import {
  criticalSpeedSensitivity,
  dampingSensitivity,
  type Sensitivity,
} from '../../../language/mechanics/stability/sensitivities.ts';
import { sweepSpeeds } from '../../../language/mechanics/stability/sweep.ts';
import type { Train, TrainAxle, TrainUnit } from '../../../language/mechanics/stability/train.ts';
import { curveThrough } from '../../../language/mechanics/stability/tyres.ts';
import { sampleTrains } from '../../laws/trains.ts';
import { solve, trailer, vehicle } from '../mechanics/rigs.ts';
import { loadTrain } from './loaded-train.ts';
import { solved } from './trains.ts';

// Central differences with two steps, extrapolated, against the derivatives from the eigenvectors.

function slope(of: (by: number) => number, width: number): number {
  const central = (h: number) => (of(h) - of(-h)) / (2 * h);
  return (4 * central(width / 2) - central(width)) / 3;
}

function expectSlope(found: number, of: (by: number) => number, width: number, size: number, what: string): void {
  const expected = slope(of, width);
  // What is next to nothing beside the figure itself is compared with that.
  expect(Math.abs(found - expected), what).toBeLessThan(1e-5 * Math.max(Math.abs(expected), (1e-2 * size) / width));
}

const withUnit = (train: Train, index: number, change: (unit: TrainUnit) => TrainUnit): Train => ({
  ...train,
  units: train.units.map((unit, i) => (i === index ? change(unit) : unit)),
});

const withAxle = (train: Train, unit: number, index: number, change: (axle: TrainAxle) => TrainAxle): Train =>
  withUnit(train, unit, (own) => ({ ...own, axles: own.axles.map((axle, i) => (i === index ? change(axle) : axle)) }));

describe('derivatives with respect to what a train is made of', () => {
  const trains = sampleTrains(80, 11, { units: [1, 3] });

  interface Change {
    readonly what: string;
    readonly found: (sensitivity: Sensitivity) => number;
    readonly apply: (by: number) => Train;
    readonly width: number;
  }

  function changesOf(train: Train): Change[] {
    const changes: Change[] = [
      {
        what: 'body force',
        found: ({ gradient }) => gradient.bodyForce,
        apply: (by) => ({ ...train, bodyForce: (train.bodyForce ?? 0) + by }),
        width: 1e-2,
      },
    ];
    for (const [i, unit] of train.units.entries()) {
      for (const key of ['mass', 'x', 'yawInertia'] as const) {
        changes.push({
          what: `unit ${i} ${key}`,
          found: ({ gradient }) => gradient.units[i]?.[key] ?? Number.NaN,
          apply: (by) => withUnit(train, i, (own) => ({ ...own, [key]: own[key] + by })),
          width: key === 'x' ? 2e-3 : 1e-3 * unit[key],
        });
      }
      for (const [k, axle] of unit.axles.entries()) {
        changes.push({
          what: `unit ${i} axle ${k} stiffness`,
          found: ({ gradient }) => gradient.units[i]?.axles[k]?.stiffness ?? Number.NaN,
          apply: (by) => withAxle(train, i, k, (own) => ({ ...own, stiffness: own.stiffness + by })),
          width: 1e-3 * axle.stiffness,
        });
        changes.push({
          what: `unit ${i} axle ${k} force`,
          found: ({ gradient }) => gradient.units[i]?.axles[k]?.force ?? Number.NaN,
          apply: (by) => withAxle(train, i, k, (own) => ({ ...own, force: (own.force ?? 0) + by })),
          width: 20,
        });
      }
      for (const [key, name] of [
        ['damping', 'jointDamping'],
        ['spring', 'jointSpring'],
      ] as const) {
        if (i > 0 && (unit.joint?.[key] ?? 0) > 0) {
          changes.push({
            what: `unit ${i} joint ${key}`,
            found: ({ gradient }) => gradient.units[i]?.[name] ?? Number.NaN,
            apply: (by) =>
              withUnit(train, i, (own) => ({ ...own, joint: { ...own.joint, [key]: (own.joint?.[key] ?? 0) + by } })),
            width: 20,
          });
        }
      }
    }
    for (const i of (train.forces ?? []).keys()) {
      changes.push({
        what: `force ${i}`,
        found: ({ gradient }) => gradient.forces[i] ?? Number.NaN,
        apply: (by) => ({
          ...train,
          forces: train.forces?.map((own, k) => (k === i ? { ...own, force: own.force + by } : own)),
        }),
        width: 20,
      });
    }
    return changes;
  }

  test('damping ratio at 22 m/s', () => {
    let compared = 0;
    for (const [i, train] of trains.entries()) {
      const at = dampingSensitivity(train, 22);
      // Where nothing swings there is nothing to compare; near a change of the least-damped mode there is no slope.
      if (at === undefined || 'problem' in at || at.mode.eigenvalue.imaginary < 0.2 || at.value > 0.9) continue;
      const others = solved(modesOf(train, 22)).filter(({ frequency, damping }) => frequency > 0 && damping > at.value);
      if (others.some(({ damping }) => damping < at.value + 0.05)) continue;
      compared += 1;
      for (const { what, found, apply, width } of changesOf(train)) {
        const value = (by: number) => solved(dampingSensitivity(apply(by), 22)).value;
        expectSlope(found(at), value, width, 1, `train ${i}: ${what}`);
      }
      expectSlope(
        at.gradient.speed,
        (by) => solved(dampingSensitivity(train, 22 + by)).value,
        0.02,
        1,
        `train ${i}: speed`,
      );
    }
    expect(compared).toBeGreaterThan(25);
  }, 30_000);

  test('zero-damping and divergence speeds', () => {
    const kinds = { zeroDamping: 0, divergence: 0 };
    for (const [i, train] of trains.entries()) {
      const sweep = solved(sweepSpeeds(train, { least: 2, most: 60, points: 40 }));
      for (const kind of ['zeroDamping', 'divergence'] as const) {
        const critical = sweep[kind];
        if (critical.kind !== 'at' || critical.speed < 3 || critical.speed > 58) continue;
        const at = criticalSpeedSensitivity(train, critical.speed, kind === 'zeroDamping');
        // Where what grows already only changes its kind, no eigenvalue is on the axis.
        if (!sweep.crossings.some(({ speed }) => speed === critical.speed)) {
          expect(at, `train ${i}`).toBeUndefined();
          continue;
        }
        if (at === undefined || 'problem' in at) throw new Error(`train ${i}: no derivative`);
        // Where the curve hardly slopes, a critical speed runs away: no difference tells its slope.
        if (Math.abs(at.gradient.units[0]?.mass ?? 0) * (train.units[0]?.mass ?? 0) > 60) continue;
        kinds[kind] += 1;
        for (const { what, found, apply, width } of changesOf(train)) {
          const value = (by: number) => {
            const moved = solved(
              sweepSpeeds(apply(by), { least: critical.speed - 0.7, most: critical.speed + 0.7, points: 3 }),
            );
            return moved[kind].kind === 'at' ? moved[kind].speed : Number.NaN;
          };
          expectSlope(found(at), value, width, critical.speed, `train ${i} ${kind}: ${what}`);
        }
      }
    }
    expect(kinds.zeroDamping).toBeGreaterThan(5);
    expect(kinds.divergence).toBeGreaterThan(5);
  }, 30_000);
});

describe('derivatives with respect to a mass and its place', () => {
  const units = [
    vehicle(2.8, 1.05),
    trailer(
      'independent',
      [
        { x: -4.0, rate: 9e4 },
        { x: -4.8, rate: 9e4 },
      ],
      { brakeShare: 0.6 },
    ),
  ];
  const masses: MovableMass[] = [
    { unit: 0, mass: 1500, centre: { x: -1.25, y: 0.03, z: 0.6 }, yawInertia: 2300 },
    { unit: 0, mass: 160, centre: { x: -1.5, y: -0.3, z: 0.8 }, yawInertia: 0 },
    { unit: 0, mass: 90, centre: { x: -3.1, y: 0.2, z: 0.7 }, yawInertia: 6 },
    { unit: 1, mass: 1150, centre: { x: -4.15, y: -0.05, z: 0.9 }, yawInertia: 4800 },
    { unit: 1, mass: 120, centre: { x: -1.4, y: 0.4, z: 0.5 }, yawInertia: 10 },
    { unit: 1, mass: 290, centre: { x: -6.1, y: 0.7, z: 1.1 }, yawInertia: 14 },
  ];
  const tyres = { curve: curveThrough(8, 5200, 1.41), perSide: 1, relaxation: 0.4 };
  const fittings = [{ tyres: [tyres, tyres] }, { tyres: [tyres, tyres], joint: { damping: 800 } }];
  const drag = { unit: 1, x: -4, force: 0, perSpeedSquared: -1.2, direction: 'course' } as const;

  function loaded(list: readonly MovableMass[], field: Field) {
    return loadTrain({ units }, solve({ units }, field), field, fittings, list, [drag]);
  }

  const fields: [string, Field][] = [
    ['level', { grade: 0, deceleration: 0 }],
    ['8 % climb', { grade: 0.08, deceleration: 0 }],
    ['8 % descent', { grade: -0.08, deceleration: 0 }],
    ['braking at 2.5 m/s²', { grade: 0, deceleration: 2.5 }],
  ];

  const moves: [string, (mass: MovableMass, by: number) => MovableMass, number][] = [
    ['mass', (m, by) => ({ ...m, mass: m.mass + by, yawInertia: (m.yawInertia * (m.mass + by)) / m.mass }), 0.2],
    ['x', (m, by) => ({ ...m, centre: { ...m.centre, x: m.centre.x + by } }), 0.002],
    ['y', (m, by) => ({ ...m, centre: { ...m.centre, y: m.centre.y + by } }), 0.002],
    ['z', (m, by) => ({ ...m, centre: { ...m.centre, z: m.centre.z + by } }), 0.002],
  ];

  test.each(fields)('%s: damping ratio at 25 m/s and zero-damping speed', (_, field) => {
    const { train, units: totals, axles } = loaded(masses, field);
    const damping = (list: readonly MovableMass[]) => solved(dampingSensitivity(loaded(list, field).train, 25)).value;
    const critical = (list: readonly MovableMass[]) => {
      const { zeroDamping } = solved(sweepSpeeds(loaded(list, field).train, { least: 5, most: 80, points: 60 }));
      return zeroDamping.kind === 'at' ? zeroDamping.speed : Number.NaN;
    };
    const zero = critical(masses);
    const byDamping = solved(dampingSensitivity(train, 25)).gradient;
    const bySpeed = solved(criticalSpeedSensitivity(train, zero, true)).gradient;
    const found = [byDamping, bySpeed].map((gradient) => itemSensitivities(gradient, totals, axles, masses));
    for (const [i, mass] of masses.entries()) {
      for (const [what, moved, width] of moves) {
        const list = (by: number) => masses.with(i, moved(mass, by));
        for (const [k, figure] of [damping, critical].entries()) {
          const slope = found[k]?.[i];
          const own = { mass: slope?.mass, x: slope?.x, y: slope?.y, z: slope?.z }[what] ?? Number.NaN;
          expectSlope(
            own,
            (by) => figure(list(by)),
            width,
            k === 0 ? 0.1 : zero / 10,
            `mass ${i} ${what}, figure ${k}`,
          );
        }
      }
    }
  });

  test('a unit that is not there has no sensitivity', () => {
    const { train, units: totals, axles } = loaded(masses, { grade: 0, deceleration: 0 });
    const { gradient } = solved(dampingSensitivity(train, 25));
    const elsewhere = { unit: 7, mass: 10, centre: { x: 0, y: 0, z: 0 }, yawInertia: 0 };
    expect(itemSensitivities(gradient, totals, axles, [elsewhere])).toEqual([{ mass: 0, x: 0, y: 0, z: 0 }]);
  });
});
