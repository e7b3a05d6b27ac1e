import { describe, expect, test } from 'vitest';
import { weighingsOf } from '../../../language/semantics/results.ts';
import { read } from '../semantics/support.ts';

/**
 * The fleet of tests/unit/cli/fleet.ts: 300 kg of cart at 2700 mm and 200 kg of crates at 2700 mm on an axle at 3000
 * mm, so 450 kg on the axle and 50 kg on the coupling (law of the lever). The truck's hitch is 1000 mm behind its rear
 * axle, its wheelbase 3000 mm.
 */
const FLEET = (slip: string, tolerance = ''): string => `item crate 100 kg size 400 x 400 x 400 mm
vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up, inertia 3000 kg·m²
  hitch ball at 1000 mm behind rear, 440 mm up
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2700 mm back, 500 mm up, inertia 400 kg·m²${tolerance}
  locker bed from 1500 mm to 3900 mm back, floor 500 mm up
  brakes overrun
}
rig Errand {
  tow Truck
  haul Cart
  stow 2 x crate in Cart.bed
  case loaded { }
  weighing october {
${slip}
  }
}
`;

const found = (text: string) =>
  read(text)
    .diagnostics.filter(({ code }) => /^RW95/.test(code))
    .map(({ code, severity, message, start, end }) => ({
      code,
      severity,
      message: message.replaceAll('\u202f', ' '),
      marked: text.slice(start, end),
    }));

const slipOf = (text: string) => {
  const [slip] = weighingsOf(read(text).rig('Errand'));
  if (slip === undefined) throw new Error('no slip');
  return slip;
};

/** What a cart with 60 kg more, at 2400 mm, puts on the scale: (300·2700 + 60·2400 + 200·2700) / 3000 = 498 kg. */
const HEAVIER = 'accuracy 1 kg\n solo Cart { axles 498 kg  coupling 62 kg }';

describe('a slip that goes with the file', () => {
  test('has nothing reported, and gives the tares back', () => {
    const text = FLEET(
      'scale 20 kg\n solo Truck { front 1200 kg  rear 800 kg }\n solo Cart { axles 450 kg  coupling 50 kg }',
    );
    expect(found(text)).toEqual([]);
    const { tares, reconciliation } = slipOf(text);
    expect(reconciliation.agreement).toBe('untested');
    expect(tares.map(({ of, mass, x }) => [of.name, mass.value, x.value])).toEqual([
      ['Truck', expect.closeTo(2000, 6), expect.closeTo(-1.2, 9)],
      ['Cart', expect.closeTo(300, 6), expect.closeTo(-2.7, 9)],
    ]);
    // Two readings with d/√12 each.
    expect(tares[1]?.mass.standardError).toBeCloseTo((20 / Math.sqrt(12)) * Math.SQRT2, 9);
  });

  test('coupled up is predicted by the lever', () => {
    const { readings, differences } = slipOf(
      FLEET('scale 20 kg\n Truck.front 1180 kg\n Truck.rear 860 kg\n Cart.axles 460 kg\n solo Truck { total 2000 kg }'),
    );
    // 50 kg on the hitch take 50·1000/3000 off the front axle.
    expect(readings.map(({ predicted }) => predicted)).toEqual([
      expect.closeTo(1200 - 50 / 3, 6),
      expect.closeTo(800 + 200 / 3, 6),
      expect.closeTo(450, 6),
      expect.closeTo(2000, 6),
    ]);
    expect(readings[1]?.residual).toBeCloseTo(860 - 800 - 200 / 3, 6);
    // 1180 + 860 − 2000 = 40 kg on the coupling, 1180 + 860 + 460 − 2000 = 500 kg of cart.
    const d = 20 / Math.sqrt(12);
    expect(differences).toEqual([
      expect.objectContaining({ quantity: 'Cart.coupling.load', value: 40, predicted: expect.closeTo(50, 6) }),
      expect.objectContaining({ quantity: 'Cart.mass', value: 500, predicted: expect.closeTo(500, 6) }),
    ]);
    expect(differences.map(({ deviation }) => deviation)).toEqual([
      expect.closeTo(d * Math.sqrt(3), 9),
      expect.closeTo(d * 2, 9),
    ]);
  });

  test('there is no difference of passes in different cases', () => {
    const text = FLEET(
      'scale 20 kg\n Truck.front 1180 kg\n Truck.rear 860 kg\n solo Truck in bare { total 2000 kg }',
    ).replace('weighing october {', 'case bare { absent crate }\n  weighing october in loaded {');
    expect(slipOf(text).differences).toEqual([]);
  });
});

describe('a slip that disagrees with the file', () => {
  test('says by how much, against which tolerance, and what would explain it where', () => {
    // Mass: 498 + 62 − 500 = 60 kg ± √2 kg. Its place: 3000·48/60 = 2400 mm; ∂/∂axle = 3000·12/60² = 10 mm/kg,
    // ∂/∂coupling = 3000·48/60² = 40 mm/kg: ± √(10² + 40²) = 41.2 mm.
    expect(found(FLEET(HEAVIER))).toEqual([
      {
        code: 'RW954',
        severity: 'warning',
        marked: 'october',
        message:
          'october and the file disagree: Cart.axles solo reads 498 kg where 450 kg is computed in case loaded, 48 kg more with a tolerance of 2 kg; all 2 readings are beyond tolerance. The slip says that Cart weighs 60 kg ± 1.4 kg more than the file has it, about 2 400 mm ± 41 mm back (± one standard error). The scale outranks the file.',
      },
    ]);
  });

  test('points at the readings beyond tolerance', () => {
    const text = FLEET(HEAVIER);
    const related = read(text).diagnostics.find(({ code }) => code === 'RW954')?.related ?? [];
    expect(related.map(({ start, end }) => text.slice(start, end))).toEqual(['axles', 'coupling']);
  });

  test('not within a tolerance that the file states', () => {
    // 48 kg more on the axle against 2·√(1² + (60/√3·0.9)²) = 62 kg: 60 kg of tolerance, 0.9 kg of it per kg on the
    // axle.
    const { readings } = slipOf(FLEET(HEAVIER, ', tolerance 20 %'));
    expect(readings[0]?.tolerance).toBeCloseTo(2 * Math.hypot(1, (60 / Math.sqrt(3)) * 0.9), 6);
    expect(readings.map(({ verdict }) => verdict)).toEqual(['agrees', 'beyond tolerance']);
  });

  test('not within the tolerances of items and the range of a level', () => {
    const uncertain = FLEET('accuracy 1 kg\n solo Cart { total 500 kg }')
      .replace('400 mm\n', '400 mm tolerance 3 kg\n')
      .replace('  locker bed', '  tank fresh 100 L of water at 2700 mm back, 500 mm up\n  locker bed')
      .replace('case loaded { }', 'case loaded { fresh 0 % to 40 % }');
    // Half widths: two crates of ± 3 kg, 40 kg of water ± 20 kg; each evenly spread (GUM 4.3.7).
    const { readings } = slipOf(uncertain);
    expect(readings[0]?.predictedDeviation).toBeCloseTo(Math.hypot(2 * 3, 20) / Math.sqrt(3), 6);
  });

  test('says what is missing where the readings do not tell what would explain it', () => {
    const [only] = found(FLEET('scale 20 kg\n Cart.axles 500 kg\n Truck.front 1180 kg'));
    expect(only?.message).toContain(
      'What would explain it cannot be told: missing is for Truck all its axles uncoupled; for Cart its axles and its coupling uncoupled.',
    );
  });

  test('names only what is missing of the units that stood there', () => {
    const [only] = found(FLEET('scale 20 kg\n solo Cart { axles 500 kg }'));
    expect(only?.message).toContain('missing is for Cart its axles and its coupling uncoupled. The scale');
  });

  test('says that no tare explains it, where the tares are as the file has them', () => {
    // 18 kg less and 18 kg more than computed, in the mean as the file has it.
    const [only] = found(
      FLEET('accuracy 8 kg\n solo Cart { axles 432 kg  coupling 50 kg }\n solo Cart { axles 468 kg }'),
    );
    expect(only?.message).toContain(
      'No other tare would explain it: compare the readings, the case, and where the file',
    );
  });

  test('says which division it takes for a scale that is not stated', () => {
    const [only] = found(FLEET('solo Cart { axles 500 kg }'));
    expect(only?.message).toContain('a tolerance of 11.5 kg (no scale is stated: a division of 20 kg is taken)');
    expect(found(FLEET('scale 20 kg\n solo Cart { axles 500 kg }'))[0]?.message).not.toContain('is taken');
  });

  test('tells a centre that lies elsewhere', () => {
    // The same mass, 30 kg moved from the axle to the coupling: 30·3000/300 = 300 mm ahead.
    const [only] = found(FLEET('accuracy 1 kg\n solo Cart { axles 420 kg  coupling 80 kg }'));
    expect(only?.message).toContain('the tare of Cart has its centre 300 mm ± ');
    expect(only?.message).toContain('further ahead than the file has it');
  });

  test('finds the height with one end raised', () => {
    // ISO 10392 (axle lift), front raised by 15°: R = 1200 − (h − r)·tan θ·W/L with W = 2000, L = 3, r = 0.32.
    const reading = (height: number) => 1200 - ((height - 0.32) * Math.tan(Math.PI / 12) * 2000) / 3;
    const at = (height: number) =>
      FLEET(`accuracy 0.5 kg
 solo Truck { front 1200 kg  rear 800 kg }
 raised Truck.front 15 deg, wheel_radius 320 mm { front ${reading(height).toFixed(6)} kg }`);
    expect(found(at(0.6))).toEqual([]);
    const [only] = found(at(0.8));
    expect(only?.message).toContain('the tare of Truck has its centre 200 mm ± ');
    expect(only?.message).toContain('further up');
    const byRise = at(0.8).replace('15 deg', `${(3000 * Math.sin(Math.PI / 12)).toFixed(6)} mm`);
    expect(slipOf(byRise).tares[0]?.z.value).toBeCloseTo(0.8, 6);
  });
});

describe('readings against each other', () => {
  const AGREED = [
    'Truck.front 1180 kg',
    'Truck.rear 870 kg',
    'Cart.axles 450 kg',
    'solo Truck { front 1200 kg  rear 800 kg }',
    'solo Cart { axles 450 kg  coupling 50 kg }',
  ];

  test('that agree have nothing reported', () => {
    expect(found(FLEET(['scale 10 kg', ...AGREED].join('\n')))).toEqual([]);
  });

  test('the one that contradicts the others is named, with what goes with them', () => {
    const text = FLEET(['scale 10 kg', ...AGREED].join('\n').replace('Truck.rear 870 kg', 'Truck.rear 970 kg'));
    const [contradiction] = found(text).filter(({ code }) => code === 'RW953');
    expect(contradiction).toMatchObject({ severity: 'warning', marked: 'Truck.rear' });
    expect(contradiction?.message).toMatch(
      /^Truck\.rear reads 970 kg, (99|10\d)(\.\d)? kg more than the 8\d\d kg that go with the other readings of october/,
    );
    expect(found(text).find(({ code }) => code === 'RW954')).toBeUndefined();
  });

  test('two that cannot be told apart are both named', () => {
    const [only] = found(FLEET('scale 10 kg\n Cart.axles 450 kg\n solo Cart { axles 550 kg  coupling 50 kg }'));
    expect(only?.code).toBe('RW953');
    expect(only?.message).toContain('It may as well be Cart.axles (450 kg) that is off: nothing tells them apart');
  });
});

describe('a slip that determines no tare', () => {
  test('says so, as information, with what is missing', () => {
    const [only, ...others] = found(FLEET('scale 20 kg\n Cart.axles 450 kg'));
    expect(others).toEqual([]);
    expect(only).toMatchObject({ code: 'RW955', severity: 'information', marked: 'october' });
    expect(only?.message).toContain(
      'What is missing: for Truck all its axles uncoupled and one axle by itself; for Cart its axles and its coupling uncoupled.',
    );
  });

  test('does not where something is in error on it, or beyond tolerance, which says so itself', () => {
    expect(found(FLEET('scale 20 kg\n Cart.axles 450 kg\n Cart.axels 450 kg')).map(({ code }) => code)).toEqual([
      'RW950',
    ]);
    expect(found(FLEET('scale 20 kg\n Cart.axles 450 kg\n Cart.'))).toEqual([]);
    expect(found(FLEET('scale 20 kg\n Cart.axles 480 kg')).map(({ code }) => code)).toEqual(['RW954']);
  });

  test('can be turned off, like all that slips find', () => {
    const off = FLEET(HEAVIER).replace(
      '  tow Truck',
      '  rule RW954 off "the new floor is not in the file yet"\n  tow Truck',
    );
    expect(found(off)).toEqual([]);
  });
});
