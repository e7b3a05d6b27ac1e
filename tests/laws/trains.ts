import fc from 'fast-check';
import type { PointForce, Train, TrainAxle, TrainUnit } from '../../language/mechanics/stability/train.ts';
import { number } from './combinations.ts';

/** Which of the things that complicate a train may occur. */
export interface TrainFeatures {
  readonly units: readonly [number, number];
  readonly lag: boolean;
  readonly longitudinal: boolean;
  readonly joints: boolean;
  readonly course: 'vehicle' | 'space' | 'either';
}

const EVERYTHING: TrainFeatures = { units: [1, 4], lag: true, longitudinal: true, joints: true, course: 'vehicle' };

const optional = (present: boolean, arbitrary: fc.Arbitrary<number>): fc.Arbitrary<number> =>
  present ? fc.oneof(fc.constant(0), arbitrary) : fc.constant(0);

function axle({ lag, longitudinal }: TrainFeatures): fc.Arbitrary<Omit<TrainAxle, 'x'>> {
  return fc.record({
    stiffness: number(1e4, 2e5),
    relaxation: optional(lag, number(0.1, 0.8)),
    force: optional(longitudinal, number(-3000, 1000)),
  });
}

function vehicle(features: TrainFeatures): fc.Arbitrary<TrainUnit> {
  return fc
    .record({
      mass: number(700, 4000),
      wheelbase: number(2, 4.5),
      centre: number(0.2, 0.8),
      gyration: number(0.35, 0.7),
      overhang: number(-0.5, 1.8),
      axles: fc.tuple(axle(features), axle(features), axle(features)),
      three: fc.boolean(),
    })
    .map(({ mass, wheelbase, centre, gyration, overhang, axles, three }) => ({
      mass,
      x: -centre * wheelbase,
      yawInertia: mass * (gyration * wheelbase) ** 2,
      axles: axles
        .slice(0, three ? 3 : 2)
        .map((each, i) => ({ ...each, x: i === 2 ? -wheelbase - 1.2 : -i * wheelbase })),
      hitch: -wheelbase - overhang,
    }));
}

function trailer(features: TrainFeatures): fc.Arbitrary<TrainUnit> {
  return fc
    .record({
      mass: number(300, 4000),
      length: number(1.5, 6),
      centre: number(0.6, 1.15),
      gyration: number(0.25, 0.6),
      behind: number(-1, 2),
      axles: fc.array(axle(features), { minLength: 1, maxLength: 3 }),
      damping: optional(features.joints, number(100, 6000)),
      spring: optional(features.joints, number(100, 3000)),
    })
    .map(({ mass, length, centre, gyration, behind, axles, damping, spring }) => ({
      mass,
      x: -centre * length,
      yawInertia: mass * (gyration * length) ** 2,
      axles: axles.map((each, i) => ({ ...each, x: -length - 0.8 * i })),
      coupling: 0,
      hitch: -length - behind,
      joint: { damping, spring },
    }));
}

function force(units: number): fc.Arbitrary<PointForce> {
  return fc.record({
    unit: fc.integer({ min: 0, max: units - 1 }),
    x: number(-4, 1),
    force: number(-1500, 1500),
    perSpeedSquared: number(-1.5, 0),
    direction: fc.constantFrom<PointForce['direction']>('unit', 'course'),
  });
}

/** A random train, not necessarily a sensible one. */
export function trains(given: Partial<TrainFeatures> = {}): fc.Arbitrary<Train> {
  const features = { ...EVERYTHING, ...given };
  const [least, most] = features.units;
  return fc
    .tuple(
      vehicle(features),
      fc.array(trailer(features), { minLength: least - 1, maxLength: most - 1 }),
      optional(features.longitudinal, number(-2, 2)),
      fc.boolean(),
    )
    .chain(([first, towed, bodyForce, fixed]) => {
      const course = features.course === 'either' ? (fixed ? 'space' : 'vehicle') : features.course;
      const forces = fc.array(force(towed.length + 1), { maxLength: features.longitudinal ? 2 : 0 });
      return forces.map((found): Train => ({ units: [first, ...towed], forces: found, bodyForce, course }));
    });
}

/** Always the same `count` trains. */
export function sampleTrains(count: number, seed: number, given: Partial<TrainFeatures> = {}): Train[] {
  return fc.sample(trains(given), { numRuns: count, seed });
}
