import { describe, expect, test } from 'vitest';
import { estimateOf } from '../../../language/rules/weighings.ts';
import { jointWeighingOf, weighingsOf } from '../../../language/semantics/results.ts';
import { read } from '../semantics/support.ts';

/**
 * The fleet of tests/unit/cli/fleet.ts: 300 kg of cart at 2700 mm on an axle at 3000 mm, in case loaded 200 kg of crates
 * at 2700 mm too; 2000 kg of truck, 1200 mm behind its front axle.
 */
const FLEET = (slips: string, gate = '', tank = ''): string => `item crate 100 kg size 400 x 400 x 400 mm
vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up, inertia 3000 kg·m²
  hitch ball at 1000 mm behind rear, 440 mm up
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2700 mm back, 500 mm up, inertia 400 kg·m²
  locker bed from 1500 mm to 3900 mm back, floor 500 mm up
  brakes overrun
  ${tank}
  ${gate}
}
rig Errand {
  tow Truck
  haul Cart
  stow 2 x crate in Cart.bed
  case loaded { }
  case bare { absent crate }
  ${slips}
}
`;

const found = (text: string) =>
  read(text)
    .diagnostics.filter(({ code }) => /^RW95/.test(code))
    .map(({ code, message, start, end }) => ({
      code,
      message: message.replaceAll('\u202f', ' '),
      marked: text.slice(start, end),
    }));

const jointOf = (text: string) => {
  const joint = jointWeighingOf(read(text).rig('Errand'));
  if (joint === undefined) throw new Error('no joint estimate');
  return joint;
};

const names = (slips: ReturnType<typeof jointOf>['slips']) =>
  slips.map(({ weighing, of }) => (of === undefined ? weighing.name : `${weighing.name} of ${of.name}`));

/** 60 kg more at 2400 mm: (300·2700 + 60·2400) / 3000 = 318 kg on the axle, 42 kg on the coupling of the bare cart. */
const HEAVIER = (name: string) =>
  `weighing ${name} in bare { accuracy 1 kg  solo Cart { axles 318 kg  coupling 42 kg } }\n`;
const AS_FILED = (name: string) =>
  `weighing ${name} in bare { accuracy 1 kg  solo Cart { axles 270 kg  coupling 30 kg } }\n`;

describe('a slip with passes in several cases', () => {
  const text = FLEET(`weighing w in loaded {
    accuracy 1 kg
    Truck.rear 867 kg
    Cart.axles 450 kg
    coupled in bare { Truck.rear 840 kg  Cart.axles 270 kg }
    solo Truck { total 2000 kg }
  }`);

  test('compares each with what is computed in its own case', () => {
    const [slip] = weighingsOf(read(text).rig('Errand'));
    expect(
      slip?.readings.map(({ pass, reading, predicted }) => [pass.kind, pass.case, reading.name, predicted]),
    ).toEqual([
      ['coupled', 'loaded', 'Truck.rear', expect.closeTo(800 + 200 / 3, 6)],
      ['coupled', 'loaded', 'Cart.axles', expect.closeTo(450, 6)],
      // 30 kg on the hitch: 30·4000/3000 on the rear axle.
      ['coupled', 'bare', 'Truck.rear', expect.closeTo(840, 6)],
      ['coupled', 'bare', 'Cart.axles', expect.closeTo(270, 6)],
      ['solo', 'loaded', 'total', expect.closeTo(2000, 6)],
    ]);
    expect(found(text)).toEqual([]);
  });

  test('names the case of a reading that is not in that of the slip', () => {
    const [only] = found(text.replace('Cart.axles 270 kg', 'Cart.axles 290 kg'));
    expect(only?.message).toContain('It may as well be Cart.axles in bare (290 kg) that is off');
  });

  test('gives differences case by case, each with the vehicle alone in that case', () => {
    const both = text
      .replace('Truck.rear 867 kg', 'Truck.front 1183 kg  Truck.rear 867 kg')
      .replace('Truck.rear 840 kg', 'Truck.front 1190 kg  Truck.rear 840 kg');
    const differences = (source: string) =>
      weighingsOf(read(source).rig('Errand'))[0]?.differences.map((each) => [each.case, each.quantity, each.value]);
    expect(differences(both)).toEqual([
      ['loaded', 'Cart.coupling.load', expect.closeTo(50, 6)],
      ['loaded', 'Cart.mass', expect.closeTo(500, 6)],
    ]);
    expect(differences(both.replace('solo Truck {', 'solo Truck in bare { total 2000 kg }\n solo Truck {'))).toEqual([
      ['loaded', 'Cart.coupling.load', expect.closeTo(50, 6)],
      ['loaded', 'Cart.mass', expect.closeTo(500, 6)],
      ['bare', 'Cart.coupling.load', expect.closeTo(30, 6)],
      ['bare', 'Cart.mass', expect.closeTo(300, 6)],
    ]);
  });
});

describe('all slips of a rig as one', () => {
  test('are the least squares of all their readings', () => {
    const text = FLEET(`weighing w1 in loaded {
    scale 10 kg
    Truck.front 1180 kg
    Truck.rear 880 kg
    Cart.axles 490 kg
    coupled in bare { Truck.front 1190 kg  Truck.rear 850 kg  Cart.axles 310 kg ± 3 kg }
    solo Truck { front 1200 kg  rear 800 kg }
  }
  weighing w2 in bare { accuracy 4 kg  solo Cart { axles 315 kg  coupling 35 kg } }`);
    const { tares, reconciliation, disagreement } = jointOf(text);
    // Computed with numpy (pseudo-inverse of the normal equations in masses and first moments), statics by the lever.
    expect(disagreement).toBeUndefined();
    expect(reconciliation.degreesOfFreedom).toBe(6);
    expect(reconciliation.chiSquare).toBeCloseTo(3.374916405993413, 8);
    const figures = tares.flatMap(({ mass, x }) => [mass.value, mass.standardError, x.value, x.standardError]);
    const expected = [
      2001.6688339835284, 2.763363845535313, -1.2006691425663458, 0.002704312801199977, 348.1025648566945,
      2.5729389972723884, -2.6768474052455433, 0.016688259054311295,
    ];
    expect(figures).toEqual(expected.map((value) => expect.closeTo(value, 8)));
  });

  test('determine what no single one does', () => {
    const text = FLEET(`weighing w1 in bare { accuracy 1 kg  Truck.front 1190 kg  Truck.rear 840 kg  Cart.axles 270 kg }
  weighing w2 in bare { accuracy 1 kg  solo Truck { front 1200 kg  rear 800 kg } }`);
    const single = weighingsOf(read(text).rig('Errand')).map(({ tares }) => tares[1]?.mass.standardError);
    expect(single).toEqual([undefined, undefined]);
    const { tares } = jointOf(text);
    expect(tares[1]?.mass.value).toBeCloseTo(300, 6);
    expect(tares[1]?.x.value).toBeCloseTo(-2.7, 6);
    // Neither is called open then, though w1 alone determines nothing.
    expect(found(text)).toEqual([]);
    expect(found(text.replace('weighing w2', 'case other { }\n  # weighing w2'))[0]?.code).toBe('RW955');
  });

  test('have the slips of the units by themselves with them', () => {
    const text = FLEET(AS_FILED('w'), 'weighing gate { accuracy 1 kg  axles 270 kg  coupling 30 kg }');
    const { slips, tares } = jointOf(text);
    expect(names(slips)).toEqual(['w', 'gate of Cart']);
    // Two readings of the whole cart, ± √2 kg each.
    expect(tares.find(({ of }) => of.name === 'Cart')?.mass.standardError).toBeCloseTo(1, 9);
    expect(tares.find(({ of }) => of.name === 'Truck')?.mass.standardError).toBeUndefined();
    expect(found(text)).toEqual([]);
  });

  test('are told by the findings of each slip', () => {
    const [first, second] = found(FLEET(HEAVIER('w1') + HEAVIER('w2')));
    // Two slips of ± √2 kg each.
    for (const each of [first, second])
      expect(each?.message).toContain('w1 and w2 together say that Cart weighs 60 kg ± 1 kg more than the file has it');
  });

  test('are there only where a rig has one of its own, and there are two', () => {
    const gate = 'weighing gate { accuracy 1 kg  axles 270 kg  coupling 30 kg }';
    expect(jointWeighingOf(read(FLEET(AS_FILED('w'))).rig('Errand'))).toBeUndefined();
    expect(jointWeighingOf(read(FLEET('', gate)).rig('Errand'))).toBeUndefined();
    const second = gate.replace('gate', 'again').replace('270', '370');
    const twoOfUnit = FLEET('', `${gate}\n  ${second}`);
    expect(jointWeighingOf(read(twoOfUnit).rig('Errand'))).toBeUndefined();
    expect(found(twoOfUnit).map(({ code, marked }) => [code, marked])).toContainEqual(['RW956', 'again']);
  });

  test('leave out a slip whose own readings do not go together', () => {
    const torn = 'weighing torn in bare { accuracy 1 kg  Cart.axles 270 kg  solo Cart { axles 370 kg } }\n';
    const text = FLEET(AS_FILED('w1') + torn + AS_FILED('w2'));
    const joint = jointOf(text);
    const { slips, leftOut, disagreement } = joint;
    const together = weighingsOf(read(text).rig('Errand')).map((slip) => estimateOf(slip, joint).together?.length);
    expect(together).toEqual([undefined, undefined, undefined]);
    expect([names(slips), leftOut.map(({ slip, reason }) => [slip.weighing.name, reason]), disagreement]).toEqual([
      ['w1', 'w2'],
      [['torn', 'contradictory']],
      undefined,
    ]);
  });

  test('are no more readings than can be reconciled in good time', () => {
    const many = (name: string) =>
      `weighing ${name} in bare { accuracy 1 kg ${'solo Cart { axles 270 kg  coupling 30 kg } '.repeat(150)} }\n`;
    const { slips, leftOut } = jointOf(FLEET(many('w1') + many('w2') + AS_FILED('w3')));
    expect(names(slips)).toEqual(['w1', 'w3']);
    expect(leftOut).toEqual([{ slip: expect.objectContaining({}), reason: 'too many' }]);
  });

  test('are none where only one goes with itself', () => {
    const torn = 'weighing torn in bare { accuracy 1 kg  Cart.axles 270 kg  solo Cart { axles 370 kg } }\n';
    expect(jointWeighingOf(read(FLEET(AS_FILED('w1') + torn)).rig('Errand'))).toBeUndefined();
  });

  test('agree however much the readings of each scatter', () => {
    // 268 and 272 kg twice each: chi square 16 with 3 degrees of freedom on each slip, nothing between them.
    const scattered = (name: string) =>
      `weighing ${name} in bare { accuracy 1 kg  ${[268, 272, 268, 272].map((axles) => `solo Cart { axles ${axles} kg }`).join('  ')} solo Cart { coupling 30 kg } }\n`;
    const { reconciliation, disagreement } = jointOf(FLEET(['w1', 'w2', 'w3', 'w4'].map(scattered).join('')));
    expect(reconciliation.chiSquare).toBeCloseTo(64, 6);
    expect(disagreement).toBeUndefined();
  });

  test('share what an item is off, but not where in its range a level was', () => {
    const joint = (source: string) => {
      const cart = jointOf(source).tares.find(({ of }) => of.name === 'Cart');
      return cart?.mass.standardError;
    };
    const visit = (name: string) => `weighing ${name} in loaded { accuracy 1 kg  solo Cart { total 500 kg } }\n`;
    const items = FLEET(visit('w1') + visit('w2')).replace('400 mm\n', '400 mm tolerance 6 kg\n');
    // Two crates ± 6 kg each, evenly spread, the same on both slips: 12/√3 besides the scale's 1/√2.
    expect(joint(items)).toBeCloseTo(Math.hypot(12 / Math.sqrt(3), Math.SQRT1_2), 6);
    const tank = 'tank fresh 100 L of water at 2700 mm back, 500 mm up';
    const level = (name: string) => visit(name).replace('500 kg', '520 kg');
    const levels = FLEET(level('w1') + level('w2'), '', tank).replace('{ }', '{ fresh 0 % to 40 % }');
    expect(weighingsOf(read(levels).rig('Errand')).map(({ readings: [only] }) => only?.predicted)).toEqual([
      expect.closeTo(520, 6),
      expect.closeTo(520, 6),
    ]);
    // 40 kg of range, ± 20 kg evenly spread, apart on each slip.
    expect(joint(levels)).toBeCloseTo(Math.hypot(20 / Math.sqrt(3), 1) / Math.SQRT2, 6);
  });
});

describe('slips that disagree', () => {
  test('say what changed between them, and stand for themselves', () => {
    const text = FLEET(AS_FILED('w1') + HEAVIER('w2'));
    const [own, between, ...others] = found(text);
    expect(others).toEqual([]);
    expect(own?.message).toContain('The slip says that Cart weighs 60 kg ± 1.4 kg more');
    // 60 kg ± √2·√2 kg, which is all that is certain.
    expect(between).toMatchObject({ code: 'RW956', marked: 'w2' });
    expect(between?.message).toMatch(
      /^w1 and w2 disagree with each other: by w2 Cart weighs 60 kg ± 2 kg more than by w1/,
    );
    expect(between?.message).toContain('Something changed in between, or');
    expect(jointOf(text).disagreement?.odd).toBeUndefined();
  });

  test('of three name the one that is off', () => {
    const text = FLEET(AS_FILED('w1') + HEAVIER('w2') + AS_FILED('w3'));
    const { disagreement } = jointOf(text);
    expect(disagreement?.odd?.weighing.name).toBe('w2');
    // Both others tell of these: each is named once.
    expect(disagreement?.changes.map(({ figure }) => figure)).toEqual(['mass', 'x']);
    expect(found(text).find(({ code }) => code === 'RW956')).toMatchObject({
      marked: 'w2',
      message: expect.stringMatching(/^w2 disagrees with w1 and w3: by w2 Cart weighs 60 kg ± 2 kg more than by w[13]/),
    });
  });

  test('name the reading that would explain it alone', () => {
    const text = FLEET(AS_FILED('w1') + AS_FILED('w2').replace('270 kg', '330 kg') + AS_FILED('w3'));
    const between = found(text).find(({ code }) => code === 'RW956');
    expect(between?.message).toContain('or one reading is off: Cart.axles solo of w2 (330 kg).');
  });

  test('do however many readings each slip has', () => {
    // The means of five readings each, 3.5 ± √(2/5) kg apart on the axle.
    const five = (name: string, axles: number) =>
      `weighing ${name} in bare { accuracy 1 kg  ${`solo Cart { axles ${axles} kg  coupling 30 kg }  `.repeat(5)} }\n`;
    const { disagreement, reconciliation } = jointOf(FLEET(five('w1', 270) + five('w2', 273.5)));
    expect(reconciliation.chiSquare).toBeCloseTo((10 * 3.5 ** 2) / 4, 6);
    expect(disagreement?.changes[0]).toMatchObject({ figure: 'mass', change: { value: expect.closeTo(3.5, 6) } });
  });

  test('name a reading that is off though the slips as a whole would pass', () => {
    // 4·√0.8 standard deviations from the mean of five.
    const others = ['w1', 'w2', 'w4', 'w5'].map(AS_FILED).join('');
    const { disagreement } = jointOf(FLEET(AS_FILED('w3').replace('270 kg', '274 kg') + others));
    expect(disagreement?.suspects.map(({ slip, reading }) => [slip.weighing.name, reading.value])).toEqual([
      ['w3', 274],
    ]);
  });

  test('name no reading where no single one would explain it', () => {
    const text = FLEET(
      AS_FILED('w1') +
        AS_FILED('w2').replace('270 kg', '330 kg') +
        AS_FILED('w3').replace('30 kg', '90 kg') +
        AS_FILED('w4'),
    );
    expect(jointOf(text).disagreement?.suspects).toEqual([]);
    expect(found(text).find(({ code }) => code === 'RW956')?.message).toContain(
      'Something changed in between, or a reading is off. ',
    );
  });

  test('name no odd one where it may be either of two', () => {
    const axles = (name: string, kilograms: number) => AS_FILED(name).replace('270 kg', `${kilograms} kg`);
    const { disagreement } = jointOf(FLEET(axles('w1', 270) + axles('w2', 274) + axles('w3', 278)));
    expect(disagreement).toBeDefined();
    expect(disagreement).not.toHaveProperty('odd');
  });

  test('tell changes from the others to the odd one', () => {
    const between = found(FLEET(HEAVIER('w1') + AS_FILED('w2') + AS_FILED('w3'))).find(({ code }) => code === 'RW956');
    expect(between?.marked).toBe('w1');
    expect(between?.message).toMatch(/^w1 disagrees with w2 and w3: by w1 Cart weighs 60 kg ± 2 kg more than by w[23]/);
  });

  test('tell a centre that moved', () => {
    // 20 kg from the axle to the coupling: 3000·20/300 = 200 mm ahead.
    const moved = AS_FILED('w2').replace('270 kg', '250 kg').replace('30 kg', '50 kg');
    const between = found(FLEET(AS_FILED('w1') + moved)).find(({ code }) => code === 'RW956');
    expect(between?.message).toMatch(/by w2 the tare of Cart has its centre 200 mm ± \d\d mm further ahead than by w1/);
  });

  test('do not for the rounding of coarse scales', () => {
    // 318 and 42 kg by a scale of 20 kg, and the same by one of 50 kg.
    const text = FLEET(`weighing w1 in bare { scale 20 kg  solo Cart { axles 320 kg  coupling 40 kg } }
  weighing w2 in bare { scale 50 kg  solo Cart { axles 300 kg  coupling 50 kg } }`);
    expect(jointOf(text).disagreement).toBeUndefined();
  });
});
