import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Crossing } from '../../language/mechanics/stability/crossings.ts';
import { dragForce } from '../../language/mechanics/stability/drag.ts';
import { equationsOf } from '../../language/mechanics/stability/equations.ts';
import { modesAt, modesOf } from '../../language/mechanics/stability/modes.ts';
import { respond } from '../../language/mechanics/stability/response.ts';
import { samplerOf } from '../../language/mechanics/stability/samples.ts';
import { criticalSpeedSensitivity, dampingSensitivity } from '../../language/mechanics/stability/sensitivities.ts';
import { sweepEquations, sweepSpeeds } from '../../language/mechanics/stability/sweep.ts';
import type { Train, TrainUnit } from '../../language/mechanics/stability/train.ts';
import { type EigenvaluePair, farthest } from '../unit/stability/spectra.ts';
import { solved, type TextbookRig, textbookTrain } from '../unit/stability/trains.ts';
import { number } from './combinations.ts';
import { sampleTrains, trains } from './trains.ts';

function spectrum(train: Train, speed: number): EigenvaluePair[] {
  return solved(modesOf(train, speed)).map(({ eigenvalue: { real, imaginary } }) => [real, imaginary]);
}

describe('mirror', () => {
  test('a disturbance from the other side gives the same motion to the other side', () => {
    fc.assert(
      fc.property(trains({ units: [2, 3] }), number(5, 35), (train, speed) => {
        const pulse = { kind: 'lateral-force', unit: 1, amount: 900, duration: 0.3, shape: 'half-sine' } as const;
        const left = solved(respond(train, speed, pulse, { end: 1, step: 0.05 }));
        const right = solved(respond(train, speed, { ...pulse, amount: -900 }, { end: 1, step: 0.05 }));
        for (const [i, angles] of left.articulation.entries()) {
          expect(right.articulation[i]?.map((angle) => 0 - angle)).toEqual(angles);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('scaling', () => {
  const scaleUnit = (unit: TrainUnit, length: number, mass: number): TrainUnit => ({
    ...unit,
    mass: unit.mass * mass,
    x: unit.x * length,
    yawInertia: unit.yawInertia * mass * length * length,
    coupling: unit.coupling === undefined ? undefined : unit.coupling * length,
    hitch: unit.hitch === undefined ? undefined : unit.hitch * length,
    axles: unit.axles.map((axle) => ({
      ...axle,
      x: axle.x * length,
      stiffness: axle.stiffness * mass,
      relaxation: (axle.relaxation ?? 0) * length,
      force: (axle.force ?? 0) * mass,
    })),
    joint: {
      damping: (unit.joint?.damping ?? 0) * mass * length ** 1.5,
      spring: (unit.joint?.spring ?? 0) * mass * length,
    },
  });

  test('lengths and masses in any proportion: speeds go with the root of length', () => {
    // Dimensions: forces with mass, so accelerations stay, times go with √length.
    fc.assert(
      fc.property(trains(), number(5, 40), number(0.1, 4), number(0.01, 10), (train, speed, length, mass) => {
        const scaled: Train = {
          ...train,
          units: train.units.map((unit) => scaleUnit(unit, length, mass)),
          forces: train.forces?.map((force) => ({
            ...force,
            x: force.x * length,
            force: force.force * mass,
            perSpeedSquared: ((force.perSpeedSquared ?? 0) * mass) / length,
          })),
        };
        const time = Math.sqrt(length);
        const found = spectrum(scaled, speed * time).map(([re, im]): EigenvaluePair => [re * time, im * time]);
        expect(farthest(found, spectrum(train, speed))).toBeLessThan(1e-6);
      }),
      { numRuns: 200 },
    );
  });

  test('a trailer of next to nothing changes nothing of what pulls it', () => {
    fc.assert(
      fc.property(trains({ units: [1, 2], course: 'vehicle' }), number(5, 40), (train, speed) => {
        const toy: TrainUnit = {
          mass: 1e-7,
          x: -1,
          yawInertia: 1e-7,
          axles: [{ x: -1.2, stiffness: 1e-3 }],
          coupling: 0,
        };
        const towed = spectrum({ ...train, units: [...train.units, toy] }, speed);
        for (const [re, im] of spectrum(train, speed)) {
          const nearest = Math.min(...towed.map(([a, b]) => Math.hypot(a - re, b - im)));
          expect(nearest).toBeLessThan(1e-4 * Math.max(1, Math.hypot(re, im)));
        }
      }),
      { numRuns: 100 },
    );
  });
});

/** Cars and tourers as they are sold and loaded: coupling load forward of the axle, tyres in proportion to load. */
const touring: fc.Arbitrary<TextbookRig> = fc
  .record({
    m1: number(1300, 2600),
    wheelbase: number(2.5, 3),
    front: number(0.42, 0.52),
    overhang: number(0.8, 1.2),
    m2: number(900, 1900),
    L: number(3.6, 5),
    share: number(0.04, 0.1),
    gyration: number(0.3, 0.42),
    grip: number(8, 11),
  })
  .map(({ m1, wheelbase, front, overhang, m2, L, share, gyration, grip }) => {
    const [a, b] = [front * wheelbase, (1 - front) * wheelbase];
    const hitch = share * m2;
    const onFront = (m1 * b - hitch * overhang) / wheelbase;
    const stiffness = (mass: number) => mass * 9.81 * grip;
    return {
      m1,
      I1: 0.25 * m1 * wheelbase ** 2,
      a,
      b,
      d: b + overhang,
      Cf: 0.92 * stiffness(onFront),
      Cr: stiffness(m1 + hitch - onFront),
      m2,
      I2: m2 * (gyration * L) ** 2,
      e: (1 - share) * L,
      L,
      C2: stiffness(m2 - hitch),
    };
  });

describe('cars with tourers', () => {
  test('faster is less damped, beyond the speed where damping is greatest', () => {
    fc.assert(
      fc.property(touring, (rig) => {
        const { damping } = solved(sweepSpeeds(textbookTrain(rig), { least: 4, most: 45, points: 83 }));
        let peak = damping.length - 1;
        while (peak > 0 && (damping[peak - 1] ?? 0) > (damping[peak] ?? 0)) peak--;
        // From the peak on it only falls; what is faster than 60 km/h lies beyond it.
        expect(4 + peak / 2).toBeLessThan(60 / 3.6);
      }),
      { numRuns: 200 },
    );
  });

  test('more yaw inertia at the same coupling load is less damped', () => {
    fc.assert(
      fc.property(touring, number(18, 33), number(1.05, 1.6), (rig, speed, factor) => {
        const range = { least: speed, most: speed + 1, points: 2 };
        const plain = solved(sweepSpeeds(textbookTrain(rig), range)).damping;
        const spread = solved(sweepSpeeds(textbookTrain({ ...rig, I2: factor * rig.I2 }), range)).damping;
        expect(spread[0] ?? 0).toBeLessThan(plain[0] ?? 0);
      }),
      { numRuns: 200 },
    );
  });
});

describe('drag of the air on the trailer', () => {
  const dragged = (rig: TextbookRig, frontalArea: number, coefficient: number): Train => ({
    ...textbookTrain(rig, 0.4),
    forces: [dragForce(1, -rig.e, { frontalArea, coefficient })],
  });
  const zeroDamping = (train: Train, around: number, width: number): number => {
    const range = { least: around - width, most: around + width, points: 5 };
    const found = solved(sweepSpeeds(train, range)).zeroDamping;
    return found.kind === 'at' ? found.speed : Number.NaN;
  };
  const slope = (of: (by: number) => number, width: number): number => {
    const central = (h: number) => (of(h) - of(-h)) / (2 * h);
    return (4 * central(width / 2) - central(width)) / 3;
  };
  const relative = (found: number, expected: number): number => Math.abs(found / expected - 1);

  /** Tourers with more of their mass at the ends: they sway. */
  const swaying = fc.tuple(touring, number(1, 2.2)).map(([rig, factor]) => ({ ...rig, I2: rig.I2 * factor }));

  test('zero-damping speeds rise, and a swinging that dies out slowly is damped more', () => {
    let compared = 0;
    fc.assert(
      fc.property(swaying, number(0.5, 12), number(0.1, 1.5), (rig, area, coefficient) => {
        const range = { least: 10, most: 70, points: 61 };
        const before = solved(sweepSpeeds(textbookTrain(rig, 0.4), range));
        const after = solved(sweepSpeeds(dragged(rig, area, coefficient), range));
        const speedOf = ({ zeroDamping: found }: typeof before): number =>
          found.kind === 'at' ? found.speed : found.kind === 'above' ? Number.POSITIVE_INFINITY : 0;
        if (before.zeroDamping.kind === 'at') {
          expect(speedOf(after)).toBeGreaterThan(speedOf(before));
          compared += 1;
        } else expect(speedOf(after)).toBeGreaterThanOrEqual(speedOf(before));
        // Up to 35 m/s, faster than rigs travel.
        for (const [i, damping] of before.damping.slice(0, 26).entries()) {
          if (damping < 0.05) expect(after.damping[i] ?? 0).toBeGreaterThan(damping);
        }
      }),
      { numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(50);
  });

  test('derivatives equal central differences, also with respect to the drag and to speed', () => {
    let compared = 0;
    for (const rig of fc.sample(swaying, { numRuns: 120, seed: 5 })) {
      const [area, coefficient] = [4.6, 0.8];
      const train = dragged(rig, area, coefficient);
      const pressure = (speed: number) => -((1.225 / 2) * speed * speed);
      const speed = 22;
      const damping = solved(dampingSensitivity(train, speed));
      const value = (by: Train, at = speed) => solved(dampingSensitivity(by, at)).value;
      const perArea = (damping.gradient.forces[0] ?? 0) * pressure(speed) * coefficient;
      expect(
        relative(
          perArea,
          slope((by) => value(dragged(rig, area + by, coefficient)), 0.2),
        ),
      ).toBeLessThan(1e-5);
      expect(
        relative(
          damping.gradient.speed,
          slope((by) => value(train, speed + by), 0.1),
        ),
      ).toBeLessThan(1e-5);

      const critical = solved(sweepSpeeds(train, { least: 10, most: 70, points: 60 })).zeroDamping;
      if (critical.kind !== 'at') continue;
      const at = solved(criticalSpeedSensitivity(train, critical.speed, true));
      // Where the damping hardly changes with speed the zero-damping speed runs away: no difference tells its slope.
      if (Math.abs(at.gradient.units[1]?.yawInertia ?? 0) * rig.I2 > 40) continue;
      compared += 1;
      const moved = (changed: Train) => zeroDamping(changed, critical.speed, 1);
      const speedPerArea = (at.gradient.forces[0] ?? 0) * pressure(critical.speed) * coefficient;
      expect(
        relative(
          speedPerArea,
          slope((by) => moved(dragged(rig, area + by, coefficient)), 0.02),
        ),
      ).toBeLessThan(1e-5);
      expect(
        relative(
          at.gradient.units[1]?.yawInertia ?? 0,
          slope((by) => moved(dragged({ ...rig, I2: rig.I2 + by }, area, coefficient)), 1e-3 * rig.I2),
        ),
      ).toBeLessThan(1e-5);
    }
    expect(compared).toBeGreaterThan(10);
  });
});

describe('critical speeds', () => {
  const range = { least: 1, most: 60, points: 60 };
  const fine = 700;

  test('no change of stability is missed and none invented: over a thousand random trains against a fine sweep', () => {
    let crossings = 0;
    const wrong: string[] = [];
    for (const [i, train] of sampleTrains(1200, 7, { units: [1, 3], course: 'either' }).entries()) {
      const equations = solved(equationsOf(train));
      const found = solved(sweepEquations(equations, range)).crossings;
      crossings += found.length;
      const sampler = samplerOf(equations);
      const step = ({ swinging, growsAbove }: Crossing) => (swinging ? 2 : 1) * (growsAbove ? 1 : -1);
      for (const each of found) {
        const { speed } = each;
        const change = (sampler(speed * (1 + 1e-4))?.growing ?? 0) - (sampler(speed * (1 - 1e-4))?.growing ?? 0);
        if (change !== step(each)) wrong.push(`train ${i}: none at ${speed}`);
      }
      // The number of growing eigenvalues at every fine step is what the crossings below it say.
      let growing = sampler(range.least)?.growing ?? 0;
      let passed = 0;
      for (let k = 1; k < fine; k++) {
        const speed = range.least + ((range.most - range.least) * k) / fine;
        for (let next = found[passed]; next !== undefined && next.speed < speed; next = found[passed]) {
          growing += step(next);
          passed += 1;
        }
        if (sampler(speed)?.growing === growing) continue;
        if (!found.some((each) => Math.abs(each.speed - speed) < 0.01)) wrong.push(`train ${i}: one below ${speed}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(crossings).toBeGreaterThan(400);
  }, 120_000);

  test('at a critical speed an eigenvalue lies on the axis, to rounding', () => {
    for (const train of sampleTrains(300, 8, {})) {
      const equations = solved(equationsOf(train));
      for (const { speed, swinging } of solved(sweepEquations(equations, range)).crossings) {
        const modes = solved(modesAt(equations, speed));
        const size = Math.max(...modes.map(({ eigenvalue }) => Math.hypot(eigenvalue.real, eigenvalue.imaginary)));
        const own = modes.filter(({ eigenvalue }) => eigenvalue.imaginary > 1e-6 * size === swinging);
        expect(Math.min(...own.map(({ eigenvalue }) => Math.abs(eigenvalue.real)))).toBeLessThan(1e-11 * size);
      }
    }
  });
});
