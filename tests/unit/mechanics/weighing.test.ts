import { describe, expect, test } from 'vitest';
import type { AxleGroup, Unit } from '../../../language/mechanics/combination.ts';
import { massInfluence, renumberInfluence, unitInfluence } from '../../../language/mechanics/influence.ts';
import type { Observation, TareGuess } from '../../../language/mechanics/weighing/observation.ts';
import { reconcile } from '../../../language/mechanics/weighing/reconcile.ts';
import type { Reconciliation } from '../../../language/mechanics/weighing/reconciliation.ts';
import {
  pitchOfRise,
  raisedSupportInfluence,
  standingGroup,
  tiltSupports,
} from '../../../language/mechanics/weighing/tilt.ts';

const TARE: TareGuess = { unit: 0, mass: 1000, centre: { x: -4, y: 0, z: 0.7 } };

const SOURCES = [{ id: 'tare', unit: 0, mass: 1000, centre: TARE.centre }];

/** An axle 5 m behind a coupling: 800 kg on it, 200 kg on the coupling, as filed. */
const AXLE = unitInfluence(1, 0, { x: -0.2 });
const COUPLING = unitInfluence(1, 0, { one: 1, x: 0.2 });
const LEFT = unitInfluence(1, 0, { x: -0.1, y: 0.5 });
const RIGHT = unitInfluence(1, 0, { x: -0.1, y: -0.5 });
const TOTAL = massInfluence(1, [0]);

function read(influence: Observation['influence'], reading: number, deviation = 2): Observation {
  return { influence, sources: SOURCES, reading, deviation };
}

/** Every number anywhere in a result. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

function expectFinite(result: Reconciliation): void {
  expect(numbersIn(result).filter((value) => !Number.isFinite(value))).toEqual([]);
}

describe('too few readings', () => {
  test('none: the file stands, all is missing', () => {
    const result = reconcile([], [TARE]);
    expect(result).toEqual({
      readings: [],
      tares: [
        {
          unit: 0,
          mass: { filed: 1000, value: 1000 },
          x: { filed: -4, value: -4 },
          y: { filed: 0, value: 0 },
          z: { filed: 0.7, value: 0.7 },
          missing: ['total', 'longitudinal', 'lateral', 'height'],
          unlisted: undefined,
        },
      ],
      degreesOfFreedom: 0,
      chiSquare: 0,
      scale: undefined,
      standardErrorFactor: 1,
      agreement: 'untested',
      contradiction: undefined,
    });
  });

  test('one axle: no figure of the tare by itself, and the total would tell two', () => {
    const result = reconcile([read(AXLE, 850)], [TARE]);
    expect(result.tares[0]?.missing).toEqual(['total', 'lateral', 'height']);
    expect(result.tares[0]?.mass).toEqual({ filed: 1000, value: 1000 });
    expect(result.tares[0]?.unlisted).toBeUndefined();
    expect(result.readings[0]).toMatchObject({ predicted: 800, residual: 50, beyondTolerance: true });
    expect(result.readings[0]?.refused === undefined && result.readings[0]?.fitted).toBeCloseTo(850, 9);
    expectFinite(result);
  });

  test('the total: the mass, and nothing of the place', () => {
    const result = reconcile([read(TOTAL, 1050)], [TARE]);
    expect(result.tares[0]?.mass.value).toBeCloseTo(1050, 9);
    expect(result.tares[0]?.mass.standardError).toBeCloseTo(2, 9);
    expect(result.tares[0]?.x).toEqual({ filed: -4, value: -4 });
    expect(result.tares[0]?.missing).toEqual(['longitudinal', 'lateral', 'height']);
    expect(result.tares[0]?.unlisted?.mass.value).toBeCloseTo(50, 9);
    expect(result.tares[0]?.unlisted?.x).toBeUndefined();
    expect(result.agreement).toBe('untested');
  });

  test('two units together: neither by itself, and each says what it lacks', () => {
    const both = [TARE, { ...TARE, unit: 1 }];
    const sources = [...SOURCES, { id: 'other', unit: 1, mass: 1000, centre: TARE.centre }];
    const whole = { influence: massInfluence(2, [0, 1]), sources, reading: 2100, deviation: 5 };
    const result = reconcile([whole], both);
    expect(result.tares.map(({ missing }) => missing[0])).toEqual(['total', 'total']);
    expect(result.tares.map(({ mass }) => mass.value)).toEqual([1000, 1000]);
    const first = { ...whole, influence: massInfluence(2, [0]), sources: SOURCES, reading: 1040 };
    const told = reconcile([whole, first], both);
    expect(told.tares[1]?.mass.value).toBeCloseTo(1060, 9);
    expect(told.tares[1]?.mass.standardError).toBeCloseTo(5 * Math.SQRT2, 9);
  });

  test('a tare of a unit that no reading weighs', () => {
    const result = reconcile([read(TOTAL, 1000)], [{ ...TARE, unit: 5 }]);
    expect(result.tares[0]?.missing).toHaveLength(4);
    expect(result.degreesOfFreedom).toBe(1);
    expectFinite(result);
  });

  test('what is left of rounding does not tell the height', () => {
    const rounded = unitInfluence(1, 0, { x: -0.2, z: 1e-16 });
    expect(reconcile([read(TOTAL, 1000), read(AXLE, 800), read(rounded, 800)], [TARE]).tares[0]?.missing).toEqual([
      'lateral',
      'height',
    ]);
  });

  test('no tare unknown: readings only test the file', () => {
    const result = reconcile([read(TOTAL, 1001), read(AXLE, 799)], []);
    expect(result).toMatchObject({ tares: [], degreesOfFreedom: 2, agreement: 'agree' });
    expect(result.chiSquare).toBeCloseTo(0.5, 9);
  });
});

describe('left and right', () => {
  test('of an axle and the coupling tell all but the height', () => {
    const result = reconcile([read(COUPLING, 200), read(LEFT, 430), read(RIGHT, 400)], [TARE]);
    expect(result.tares[0]?.mass.value).toBeCloseTo(1030, 9);
    expect(result.tares[0]?.x.value).toBeCloseTo(-4150 / 1030, 9);
    expect(result.tares[0]?.y.value).toBeCloseTo(30 / 1030, 9);
    expect(result.tares[0]?.missing).toEqual(['height']);
    expect(result.tares[0]?.unlisted?.x?.value).toBeCloseTo(-5, 9);
    expect(result.tares[0]?.unlisted?.y?.value).toBeCloseTo(1, 9);
  });

  test('of one axle of two do not: a mass may sit at a corner', () => {
    const front = { one: 1, x: 1 / 3 };
    const sided = (sign: number) => unitInfluence(1, 0, { one: 0.5, x: 1 / 6, y: sign / 1.6, xy: sign / 4.8 });
    const rear = (sign: number) => unitInfluence(1, 0, { x: -1 / 6, xy: -sign / 4.8 });
    const centre = { x: -1.2, y: 0, z: 0.6 };
    const sources = [{ id: 'tare', unit: 0, mass: 1500, centre }];
    const tare = { unit: 0, mass: 1500, centre };
    const at = (influence: Observation['influence'], reading: number) => ({
      influence,
      sources,
      reading,
      deviation: 1,
    });
    const one = [at(unitInfluence(1, 0, front), 900), at(TOTAL, 1500), at(sided(1), 470), at(sided(-1), 430)];
    expect(reconcile(one, [tare]).tares[0]?.missing).toEqual(['lateral', 'height']);
    expect(reconcile([...one, at(rear(1), 310)], [tare]).tares[0]?.missing).toEqual(['height']);
  });
});

describe('readings that contradict each other', () => {
  test('two of one load: both are suspect', () => {
    const result = reconcile([read(TOTAL, 1000), read(TOTAL, 1040), read(AXLE, 800)], [TARE]);
    expect([...(result.contradiction?.suspects ?? [])].sort()).toEqual([0, 1]);
    expect(result.contradiction?.othersAgree).toBe(true);
    expect(result.agreement).toBe('disagree');
  });

  test('three of one load: the odd one is named', () => {
    const result = reconcile([read(TOTAL, 1000), read(TOTAL, 1040), read(TOTAL, 1001), read(AXLE, 800)], [TARE]);
    expect(result.contradiction).toEqual({ suspects: [1], othersAgree: true });
  });

  test('four that all differ: the others do not agree either', () => {
    const result = reconcile(
      [0, 40, 85, 130].map((more) => read(TOTAL, 1000 + more)),
      [TARE],
    );
    expect(result.contradiction?.othersAgree).toBe(false);
  });

  test('none to spare: nothing is tested and nothing named', () => {
    const result = reconcile([read(TOTAL, 1500), read(AXLE, 100)], [TARE]);
    expect(result.agreement).toBe('untested');
    expect(result.contradiction).toBeUndefined();
    expect(result.readings.map((each) => each.refused === undefined && each.standardised)).toEqual([
      undefined,
      undefined,
    ]);
  });

  test('a difference that an uncertain listed mass explains is no contradiction', () => {
    const water = (mass: number) => ({
      id: 'water',
      unit: 0,
      mass,
      centre: TARE.centre,
      ...(mass > 0 ? { spread: { mass: 20 } } : {}),
    });
    const pass = (mass: number, reading: number) => ({ ...read(TOTAL, reading), sources: [...SOURCES, water(mass)] });
    const uncertain = reconcile([pass(0, 1000), pass(100, 1130)], [TARE]);
    expect(uncertain.agreement).toBe('agree');
    expect(uncertain.tares[0]?.unlisted).toBeUndefined();
    const exact = [pass(0, 1000), pass(100, 1130)].map((each) => ({
      ...each,
      sources: each.sources.map(({ id, unit, mass, centre }) => ({ id, unit, mass, centre })),
    }));
    expect(reconcile(exact, [TARE]).agreement).toBe('disagree');
  });
});

describe('a prediction', () => {
  test('varies by the spreads of tare and listed masses', () => {
    const box = { id: 'box', unit: 0, mass: 100, centre: { x: -2, y: 0, z: 1 }, spread: { mass: 10, x: 0.5 } };
    const axle = { ...read(AXLE, 840), sources: [...SOURCES, box] };
    const result = reconcile([axle], [{ ...TARE, spread: { mass: 20, x: 0.05, y: 1, z: 1 } }]);
    // 0.8·20 and 1000·0.2·0.05 of the tare, 0.4·10 and 100·0.2·0.5 of the box.
    expect(result.readings[0]).toMatchObject({ predicted: 840, predictedDeviation: Math.hypot(16, 10, 4, 10) });
  });

  test('is beyond tolerance from two combined deviations on', () => {
    const at = (reading: number) =>
      reconcile([read(TOTAL, reading, 3)], [{ ...TARE, spread: { mass: 4 } }]).readings[0];
    expect(at(1009.9)).toMatchObject({ beyondTolerance: false });
    expect(at(1010.1)).toMatchObject({ beyondTolerance: true });
    expect(at(989.9)).toMatchObject({ beyondTolerance: true });
  });
});

describe('what cannot be used', () => {
  test.each([0, -1, 1e-7])('a deviation of %f kg is refused: no scale is exact', (deviation) => {
    const result = reconcile([read(TOTAL, 1000, deviation), read(TOTAL, 1010)], [TARE]);
    expect(result.readings[0]).toEqual({ refused: 'deviation-too-small' });
    expect(result.tares[0]?.mass.value).toBeCloseTo(1010, 9);
  });

  test.each([
    read(TOTAL, Number.NaN),
    read(TOTAL, Number.POSITIVE_INFINITY),
    read(TOTAL, 1e200),
    read(TOTAL, 1000, Number.NaN),
    read(TOTAL, 1000, Number.POSITIVE_INFINITY),
    read(unitInfluence(1, 0, { one: Number.NaN }), 1000),
    { ...read(TOTAL, 1000), sources: [{ id: 'huge', unit: 0, mass: 1e300, centre: { x: 1e300, y: 0, z: 0 } }] },
    {
      ...read(TOTAL, 1000),
      sources: [{ id: 'vague', unit: 0, mass: 1, centre: TARE.centre, spread: { mass: 1e300 } }],
    },
  ])('out of range: %o', (useless) => {
    const result = reconcile([read(TOTAL, 1010), useless, read(TOTAL, 1010)], [TARE]);
    expect(result.readings.map(({ refused }) => refused)).toEqual([undefined, 'out-of-range', undefined]);
    expect(result.degreesOfFreedom).toBe(1);
    expectFinite(result);
  });

  test('a suspect is counted among all readings, refused ones too', () => {
    const readings = [read(TOTAL, 1000, 0), ...[1000, 1001, 1100].map((each) => read(TOTAL, each))];
    expect(reconcile(readings, [TARE]).contradiction?.suspects).toEqual([3]);
  });

  test('huge and tiny values leave finite results', () => {
    const huge = [read(TOTAL, 1e11), read(AXLE, 9e10), read(COUPLING, 1e10, 1e-6), read(LEFT, 4e10, 1e9)];
    expectFinite(reconcile(huge, [TARE]));
    expectFinite(reconcile([read(TOTAL, 0), read(AXLE, 0)], [{ ...TARE, mass: 0 }]));
  });

  test('a mass that comes out negative has no centre', () => {
    const result = reconcile([read(TOTAL, -50), read(AXLE, -10)], [TARE]);
    expect(result.tares[0]?.mass.value).toBeCloseTo(-50, 9);
    expect(result.tares[0]?.x).toEqual({ filed: -4, value: -4 });
    expectFinite(result);
  });

  test('two tares of one unit are not told apart', () => {
    const result = reconcile([read(TOTAL, 1050), read(AXLE, 800)], [TARE, TARE]);
    expect(result.tares.map(({ mass }) => mass.standardError)).toEqual([undefined, undefined]);
    expectFinite(result);
  });
});

describe('supports of a unit with an end raised', () => {
  const axle = (x: number) => ({ x, track: 1.6 });
  const single = (x: number): AxleGroup => ({ axles: [axle(x)], suspension: 'independent' });
  const pair = (suspension: AxleGroup['suspension']): AxleGroup => ({ axles: [axle(-4), axle(-5)], suspension });
  const unit = (groups: AxleGroup[], carries = false): Unit => ({
    groups,
    coupling: carries ? { x: 0.2, z: 0.45 } : undefined,
    couplingCarries: carries,
    brakeShare: 1,
  });

  test('of a vehicle: either axle', () => {
    const [front, rear] = [
      { x: 0, z: 0.3 },
      { x: -2.7, z: 0.3 },
    ];
    const vehicle = unit([single(0), single(-2.7)]);
    expect(tiltSupports(vehicle, 0, 0.3)).toEqual({ standing: rear, raised: front });
    expect(tiltSupports(vehicle, 1, 0.3)).toEqual({ standing: front, raised: rear });
    expect(tiltSupports(vehicle, 'coupling', 0.3)).toBeUndefined();
    expect(standingGroup(vehicle, 0)).toBe(1);
    expect(standingGroup(unit([single(0)]), 1)).toBeUndefined();
  });

  test('of several axles: their middle, if they share the load that is raised or that stands', () => {
    const supports = (suspension: AxleGroup['suspension'], raised: number) =>
      tiltSupports(unit([single(0), pair(suspension)]), raised, 0.3);
    const [front, rear] = [
      { x: 0, z: 0.3 },
      { x: -4.5, z: 0.3 },
    ];
    expect(supports('equalised', 1)).toEqual({ standing: front, raised: rear });
    expect(supports('equalised', 0)).toEqual({ standing: rear, raised: front });
    expect(supports('independent', 1)).toBeUndefined();
    expect(supports('independent', 0)).toBeUndefined();
  });

  test('of a trailer: the coupling, if its axles pivot as one', () => {
    expect(tiltSupports(unit([pair('equalised')], true), 'coupling', 0.3)).toEqual({
      standing: { x: -4.5, z: 0.3 },
      raised: { x: 0.2, z: 0.45 },
    });
    expect(tiltSupports(unit([pair('independent')], true), 'coupling', 0.3)).toBeUndefined();
    expect(tiltSupports(unit([pair('equalised')], true), 0, 0.3)).toBeUndefined();
    expect(tiltSupports(unit([single(-1), single(-4)], true), 'coupling', 0.3)).toBeUndefined();
    expect(tiltSupports(unit([]), 0, 0.3)).toBeUndefined();
  });

  test('the pitch by a rise of the coupling takes its own height into account', () => {
    const standing = { x: -4, z: 0.3 };
    const raised = { x: 0, z: 0.45 };
    const pitch = pitchOfRise(standing, raised, 0.8) ?? 0;
    expect(4 * Math.sin(pitch) + 0.15 * Math.cos(pitch)).toBeCloseTo(0.95, 12);
    expect(pitchOfRise(standing, raised, 0)).toBeUndefined();
    expect(pitchOfRise(standing, raised, 4)).toBeUndefined();
  });

  test('no reading where the raised support would come to stand above the other', () => {
    const tilt = { standing: { x: 0, z: 0 }, raised: { x: 0.5, z: 2 }, pitch: 0.3 };
    expect(raisedSupportInfluence(1, 0, tilt)).toBeUndefined();
  });
});

test('an influence of a unit alone, counted among the units of a rig', () => {
  const alone = { ...unitInfluence(1, 0, { one: 0.4, y: 1 }), constant: 3 };
  expect(renumberInfluence(alone, [1], 3)).toEqual({ ...unitInfluence(3, 1, { one: 0.4, y: 1 }), constant: 3 });
});
