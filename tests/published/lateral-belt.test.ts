import { describe, expect, test } from 'vitest';
import { leastDamped, modesOf } from '../../language/mechanics/stability/modes.ts';
import { solved } from '../unit/stability/trains.ts';
import { type BeltRig, type BeltRun, beltSpeed, beltTrain } from './oracle/belt.ts';

/*
 * A model rig on a moving belt, as people who demonstrate it report; common practice, no source. One fixed set of assumed
 * figures orders all layouts as they do. The set was searched for (differential evolution over plausible ranges, the
 * distance to the first flipped order as objective); the belt is horizontal, speed scaled by √10.
 */
const RIG: BeltRig = {
  carMass: 1,
  wheelbase: 0.29,
  carCentre: 0.414,
  carGyration: 0.085,
  overhang: 0.05,
  trailerMass: 1.04,
  axle: 0.597,
  trailerCentre: 0.58,
  trailerGyration: 0.189,
  looseMass: 0.295,
  front: 0.3,
  rear: 0.75,
  // Narrow hard tyres: 0.17 and 0.04 of the load per degree.
  carTyre: 9.8,
  trailerTyre: 2.2,
  peakLoad: 12,
  relaxation: 0.02,
  // Small wheels on plain bearings.
  drag: 0.08,
  tether: 0.1,
};

const AT_AXLE: BeltRun = { front: 0, middle: 3, rear: 0, speed: 90 };
const ONE_REAR: BeltRun = { front: 0, middle: 2, rear: 1, speed: 90 };
const TWO_FRONT: BeltRun = { front: 2, middle: 1, rear: 0, speed: 90 };
const BOTH_ENDS: BeltRun = { front: 1, middle: 0, rear: 2, speed: 90 };

interface Behaviour {
  readonly damping: number;
  /** Of the slowest swinging, 1/s. */
  readonly growth: number;
  readonly settles: boolean;
}

function watch(rig: BeltRig, run: BeltRun): Behaviour {
  const modes = solved(modesOf(beltTrain(rig, run), beltSpeed(run)));
  const swinging = leastDamped(modes);
  return {
    damping: swinging?.damping ?? 1,
    growth: swinging?.eigenvalue.real ?? 0,
    settles: modes.every(({ eigenvalue }) => eigenvalue.real < 0),
  };
}

/** The eight reports, each as a question of a rig. */
const ORDERS: Readonly<Record<string, (rig: BeltRig) => boolean>> = {
  'loose masses over the axle: dies out': (rig) => watch(rig, AT_AXLE).settles,
  'one of them moved to the rear: does not': (rig) => watch(rig, ONE_REAR).damping < 0,
  'two at the very front: less damped than over the axle': (rig) =>
    watch(rig, TWO_FRONT).damping < watch(rig, AT_AXLE).damping,
  'at front and rear: worst': (rig) =>
    [AT_AXLE, ONE_REAR, TWO_FRONT].every((other) => watch(rig, BOTH_ENDS).damping < watch(rig, other).damping),
  'the same with 0.7 kg added to the car between its axles: stable again': (rig) =>
    watch(rig, { ...BOTH_ENDS, onCar: 0.7 }).settles,
  'the same with 0.7 kg added over the trailer axle: stable again although heavier': (rig) =>
    watch(rig, { ...BOTH_ENDS, onTrailer: 0.7 }).settles,
  'the stable layout at 120: slower to settle than at 90': (rig) => {
    const faster = watch(rig, { ...AT_AXLE, speed: 120 });
    const { damping, growth } = watch(rig, AT_AXLE);
    return faster.damping < damping && faster.growth > growth;
  },
  'the unstable layout on an 8° climb settles, on the level does not': (rig) =>
    watch(rig, { ...BOTH_ENDS, climb: 8 }).settles && watch(rig, BOTH_ENDS).damping < 0,
};

describe('a model rig on a belt behaves as people report', () => {
  test.each(Object.entries(ORDERS))('%s', (_, holds) => {
    expect(holds(RIG)).toBe(true);
  });

  test('no order hangs by a thread: damping ratios differ by 0.03 at least', () => {
    const damping = (run: BeltRun) => watch(RIG, run).damping;
    const steps = [
      damping(AT_AXLE),
      -damping(ONE_REAR),
      damping(AT_AXLE) - damping(TWO_FRONT),
      damping(ONE_REAR) - damping(BOTH_ENDS),
      damping({ ...BOTH_ENDS, onCar: 0.7 }),
      damping({ ...BOTH_ENDS, onTrailer: 0.7 }),
      damping(AT_AXLE) - damping({ ...AT_AXLE, speed: 120 }),
      damping({ ...BOTH_ENDS, climb: 8 }),
    ];
    for (const step of steps) expect(step).toBeGreaterThan(0.03);
  });
});

describe('how far the assumptions can move, one at a time, before an order flips', () => {
  // Found by moving each in steps of 0.1 %: those given here hold, those a little farther do not (60 % was not passed).
  // What hangs on millimetres is where the masses lie along the trailer over its axle.
  const ranges: readonly [keyof BeltRig, number, number][] = [
    ['carMass', -20, 22],
    ['wheelbase', -15, 26],
    ['carCentre', -22, 38],
    ['carGyration', -59, 59],
    ['overhang', -59, 59],
    ['trailerMass', -47, 39],
    ['axle', -0.8, 1],
    ['trailerCentre', -1.8, 2],
    ['trailerGyration', -9.8, 8.6],
    ['looseMass', -19, 47],
    ['front', -48, 41],
    ['rear', -2.5, 1.7],
    ['carTyre', -23, 34],
    ['trailerTyre', -18, 15],
    ['peakLoad', -17, 23],
    ['relaxation', -59, 59],
    ['drag', -15, 21],
    ['tether', -59, 59],
  ];

  const holdsAll = (rig: BeltRig) => Object.values(ORDERS).every((holds) => holds(rig));

  test.each(ranges)('%s from %s %% to %s %%', (figure, least, most) => {
    for (let k = 0; k <= 10; k++) {
      const percent = least + ((most - least) * k) / 10;
      expect(holdsAll({ ...RIG, [figure]: RIG[figure] * (1 + percent / 100) }), `${percent} %`).toBe(true);
    }
    // Beyond, where an end was found, an order flips.
    for (const end of [least, most].filter((each) => Math.abs(each) < 59)) {
      const beyond = end + Math.sign(end) * Math.max(2, 0.1 * Math.abs(end));
      expect(holdsAll({ ...RIG, [figure]: RIG[figure] * (1 + beyond / 100) }), `${beyond} %`).toBe(false);
    }
  });
});
