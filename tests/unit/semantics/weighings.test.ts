import { describe, expect, test } from 'vitest';
import { weighingsOf } from '../../../language/semantics/results.ts';
import { read, trailer, vehicle } from './support.ts';

const CARGO = '  stow sand in Hauler.bed\n';
const UNITS = `item sand 400 kg size 1800 x 1100 x 200 mm
${vehicle('seat driver 80 kg at 1350 mm back, 700 mm up')}${trailer('locker bed from 1400 mm to 3400 mm back, floor 500 mm up')}`;

const rig = (lines: string, cases = '  case loaded { }\n'): string =>
  `${UNITS}rig Delivery {\n  tow Truck with driver\n  haul Hauler\n${CARGO}${cases}  ${lines}\n}\n`;

const slip = (lines: string): string => rig(`weighing october "Works scale" {\n    ${lines}\n  }`);

/** Readings of the only slip, pass by pass: `solo Hauler.coupling = Hauler.coupling.load`. */
function readings(text: string): readonly string[] {
  const { weighings } = read(text).rig('Delivery');
  return weighings.flatMap(({ passes }) =>
    passes.flatMap(({ kind, readings: own }) => own.map(({ name, quantity }) => `${kind} ${name} = ${quantity}`)),
  );
}

const errorsOf = (text: string): readonly string[] =>
  read(text)
    .diagnostics.filter(({ severity }) => severity === 'error')
    .map(({ message }) => message.replaceAll('\u202f', ' '));

describe('what a slip reads', () => {
  test('names the loads of the rig as it stands, of units alone and of raised ends', () => {
    const text = slip(`scale 20 kg
    Truck.front 1 t, Truck 2 t
    axles 500 kg
    Hauler.axles.left 250 kg
    coupling 50 kg
    total 3 t
    solo Truck { front 1 t  rear 1 t  total 2 t }
    solo Hauler { axles 500 kg  coupling 50 kg  Hauler 550 kg }
    raised Truck.front 12 deg, wheel_radius 340 mm { front 900 kg  rear 1 t }
    raised Hauler.coupling 300 mm, wheel_radius 340 mm { coupling 40 kg }`);
    expect(readings(text)).toEqual([
      'coupled Truck.front = Truck.front.load',
      'coupled Truck = Truck.axles_total',
      'coupled Hauler.axles = Hauler.axles.load',
      'coupled Hauler.axles.left = Hauler.axles.left',
      'coupled Hauler.coupling = Hauler.coupling.load',
      'coupled total = rig.mass',
      'solo Truck.front = Truck.front.load',
      'solo Truck.rear = Truck.rear.load',
      'solo total = rig.mass',
      'solo Hauler.axles = Hauler.axles.load',
      'solo Hauler.coupling = Hauler.coupling.load',
      'solo Hauler = Hauler.mass',
      'raised Truck.front = Truck.front.load',
      'raised Truck.rear = Truck.rear.load',
      'raised Hauler.coupling = Hauler.coupling.load',
    ]);
  });

  test('takes a standard deviation from the division, the accuracy, or a tolerance of the reading', () => {
    const deviations = (lines: string) =>
      read(slip(lines))
        .rig('Delivery')
        .weighings.flatMap(({ passes }) => passes.flatMap((pass) => pass.readings.map(({ deviation }) => deviation)));
    // An error evenly spread over a division d has the standard deviation d/√12 (GUM, JCGM 100:2008, 4.3.7).
    expect(deviations('scale 20 kg\n total 3 t\n axles 500 kg ± 3 kg')).toEqual([
      expect.closeTo(20 / Math.sqrt(12), 9),
      expect.closeTo(3 / Math.sqrt(3), 9),
    ]);
    expect(deviations('accuracy 8 kg\n total 3 t')).toEqual([8]);
  });

  test('takes a usual division where none is stated, which is no matter of the loads', () => {
    const { rig: rigOf, assumptions, keys } = read(slip('total 2838 kg'));
    expect(rigOf('Delivery').weighings[0]?.scale).toMatchObject({ kind: 'assumed', value: 20 });
    expect(assumptions('Delivery')).toEqual(read(slip('scale 20 kg\n total 2838 kg')).assumptions('Delivery'));
    expect(keys).not.toContain('missing-part');
  });

  test('takes the case named, the only one, or none where there is none', () => {
    const two = '  case loaded { }\n  case bare { absent sand }\n';
    const of = (head: string, cases: string) =>
      read(rig(`weighing w ${head} { scale 20 kg  total 3 t  solo Truck { total 2 t } }`, cases)).rig('Delivery')
        .weighings[0];
    expect(of('in bare', two)).toMatchObject({ case: 'bare', passes: [{ case: 'bare' }, { case: 'bare' }] });
    expect(of('', '  case loaded { }\n')).toMatchObject({ case: 'loaded' });
    expect(of('', '')).not.toHaveProperty('case');
    expect(of('', two)).toBeUndefined();
    expect(errorsOf(rig('weighing w { scale 20 kg  total 3 t }', two))).toEqual([
      'The weighing w lacks the case it was taken in (loaded, bare). For example: weighing w in loaded { … }',
    ]);
  });

  test('lets a pass have a case of its own', () => {
    const text = rig(
      'weighing w in loaded { scale 20 kg  total 3 t  solo Hauler in bare { total 240 kg } }',
      '  case loaded { }\n  case bare { absent sand }\n',
    );
    const [result] = weighingsOf(read(text).rig('Delivery'));
    // The tare of the trailer alone.
    expect(result?.readings.find(({ pass }) => pass.kind === 'solo')?.predicted).toBeCloseTo(240, 9);
  });

  test('reads slips in the block of a unit, where all of it stands alone', () => {
    const { unit, keys } = read(trailer('weighing yard { scale 1 kg  axles 226 kg  coupling 14 kg  total 240 kg }'));
    expect(keys).toEqual([]);
    expect(unit('Hauler').weighings[0]?.passes[0]?.readings.map(({ quantity }) => quantity)).toEqual([
      'Hauler.axles.load',
      'Hauler.coupling.load',
      'rig.mass',
    ]);
  });

  test('leaves the slips of an original to the original', () => {
    const text = `${trailer('weighing yard { scale 1 kg  total 240 kg }')}variant Long of Hauler { limits { ATM 700 kg } }\n`;
    expect(read(text).unit('Hauler').weighings).toHaveLength(1);
    expect(read(text).unit('Long').weighings).toHaveLength(0);
  });

  test('knows the axles of a group and their sides', () => {
    const tandem = trailer('weighing yard { scale 1 kg  axles.axle1 113 kg  axle2.right 56 kg }').replace(
      'axles single at 2600 mm back, track 1500 mm',
      'axles tandem at 2600 mm back, spacing 700 mm, track 1500 mm, equalised',
    );
    expect(errorsOf(tandem)).toEqual([expect.stringContaining("There is no 'axle2.right' to weigh as it stands")]);
    expect(errorsOf(tandem.replace('axle2.right', 'axles.axle2.right'))).toEqual([]);
  });
});

describe('further readings coupled up', () => {
  const TWO = '  case loaded { }\n  case bare { absent sand }\n';
  const passes = (text: string) =>
    read(text)
      .rig('Delivery')
      .weighings.flatMap((weighing) => weighing.passes.map(({ kind, case: state }) => [kind, state]));

  test('are of their own case', () => {
    const text = rig('weighing w in loaded { scale 20 kg  total 2838 kg\n coupled in bare { total 2438 kg } }', TWO);
    expect(errorsOf(text)).toEqual([]);
    expect(passes(text)).toEqual([
      ['coupled', 'loaded'],
      ['coupled', 'bare'],
    ]);
  });

  test('need no case of the slip where each pass names one', () => {
    const text = rig(
      'weighing w { scale 20 kg\n coupled in bare { total 2438 kg }\n solo Hauler in bare { total 240 kg } }',
      TWO,
    );
    expect(errorsOf(text)).toEqual([]);
    expect(read(text).rig('Delivery').weighings[0]).not.toHaveProperty('case');
    expect(passes(text)).toEqual([
      ['coupled', 'bare'],
      ['solo', 'bare'],
    ]);
    const open = text.replace('solo Hauler in bare', 'solo Hauler');
    expect(errorsOf(open)).toEqual([expect.stringContaining('The weighing w lacks the case it was taken in')]);
  });

  test.each([
    ['an unknown case', 'coupled in baer { total 3 t }', "the nearest is 'bare'"],
    ['no readings', 'coupled in bare { }', 'What was weighed coupled up lacks its readings'],
    ['a unit', 'coupled Truck { total 3 t }', "'coupled' takes no 'Truck'"],
    ['an unknown axle', 'coupled in bare { Hauler.axels 500 kg }', "the nearest is 'Hauler.axles'"],
    ['the same twice', 'coupled in bare { total 3 t  total 3 t }', "'coupled' says the reading of total twice"],
  ])('%s is one error', (_, line, message) => {
    expect(errorsOf(rig(`weighing w in loaded { scale 20 kg  total 2838 kg\n ${line} }`, TWO))).toEqual([
      expect.stringContaining(message),
    ]);
  });

  test('are none of a unit by itself', () => {
    const text = trailer('weighing yard { scale 1 kg  total 240 kg\n coupled { axles 226 kg } }');
    expect(errorsOf(text)).toEqual([
      "'weighing' takes no 'coupled' of Hauler by itself. It takes: 'solo Hauler in' with another case.",
    ]);
  });
});

describe('bad slips', () => {
  test.each([
    ['the capacity for the division', 'solo Truck { total 2 t ± 2 t }', 'must be from 0.001 kg to 500 kg'],
    [
      'a wheel centre above the roof',
      'raised Truck.front 9 deg, wheel_radius 34 m { front 1 t }',
      'up to 1 500 mm; this is 34 m',
    ],
    [
      'an axle that the rig lacks',
      'Hauler.axels 500 kg',
      "There is no 'Hauler.axels' to weigh coupled up; the nearest is 'Hauler.axles'.",
    ],
    ['a unit that the rig lacks', 'Wagon.axles 500 kg', "There is no 'Wagon.axles' to weigh coupled up;"],
    ['a wrong dimension', 'Hauler.axles 500 mm', 'The reading of Hauler.axles'],
    ['no unit', 'Hauler.axles 500', 'The reading of Hauler.axles'],
    ['less than nothing', 'Hauler.axles -5 kg', 'The reading of Hauler.axles must be zero or more'],
    ['a range', 'Hauler.axles 500 kg to 600 kg', 'range'],
    ['nothing', 'Hauler.axles', 'Hauler.axles lacks what the scale read'],
    ['a place', 'Hauler.axles 500 kg at 200 mm back', 'Hauler.axles lacks a plain reading'],
    ['the same twice', 'Hauler.axles 500 kg\n axles 500 kg', 'says the reading of Hauler.axles twice'],
    ['the coupling of a vehicle', 'solo Truck { coupling 50 kg }', 'Truck has no coupling to weigh with Truck alone'],
    ['a unit alone that is not here', 'solo Wagon { total 1 t }', "'Wagon'"],
    ['two units alone', 'solo Truck, Hauler { total 1 t }', 'takes no second unit'],
    ['no readings of a unit alone', 'solo Truck { }', 'What was weighed with Truck alone lacks its readings'],
    ['an end that is none', 'raised Truck.middle 10 deg, wheel_radius 300 mm { front 1 t }', "'Truck.middle'"],
    [
      'an end that cannot be raised',
      'raised Hauler.axles 10 deg, wheel_radius 300 mm { coupling 9 kg }',
      'With Hauler.axles raised the readings tell no height',
    ],
    ['no angle', 'raised Truck.front wheel_radius 300 mm { front 1 t }', 'lacks how far it was raised'],
    ['no wheel radius', 'raised Truck.front 10 deg { front 1 t }', 'lacks the height of its wheel centres'],
    ['a right angle', 'raised Truck.front 90 deg, wheel_radius 300 mm { front 1 t }', 'an angle up to 45 deg'],
    [
      'a rise above the wheelbase',
      'raised Truck.front 4 m, wheel_radius 300 mm { front 1 t }',
      'an angle up to 45 deg',
    ],
    ['two scales', 'accuracy 5 kg', "says what its scale shows ('accuracy') twice"],
    ['another statement', 'tank fresh 95 L', "'tank'"],
    ['an unknown case', 'solo Truck in lodaed { total 1 t }', "'lodaed'"],
  ])('%s is told where it stands, and costs no load', (_, line, message) => {
    const text = slip(`scale 20 kg\n    total 2840 kg\n    ${line}`);
    const reading = read(text);
    const found = reading.diagnostics.filter(({ severity }) => severity === 'error');
    expect(found.map((each) => each.message.replaceAll('\u202f', ' ')).join('\n')).toContain(message);
    expect(found).toHaveLength(1);
    expect(found[0]?.start).toBeGreaterThanOrEqual(text.indexOf('scale 20 kg'));
    expect(reading.assumptions('Delivery').join()).not.toContain('left out');
    // 2120 kg of truck, the driver, 240 kg of trailer, 400 kg of sand.
    expect(reading.value('Delivery', 'rig.mass')).toBeCloseTo(2840, 9);
  });

  test('axles cannot be raised while a coupling carries too', () => {
    const wagon = `trailer Wagon {
  coupling ball 50 mm, 430 mm up
  axles front single at 2000 mm back, track 1500 mm, rate 60 N/mm
  axles rear single at 4000 mm back, track 1500 mm, rate 60 N/mm
  tare 900 kg at 2900 mm back, 520 mm up, inertia 900 kg·m²
  brakes overrun
  weighing yard { scale 5 kg  raised rear 9 deg, wheel_radius 300 mm { rear 300 kg } }
}
`;
    expect(errorsOf(wagon)).toEqual([expect.stringContaining('With Wagon.rear raised the readings tell no height')]);
    const hinged = wagon
      .replace('coupling ball 50 mm', 'coupling drawbar')
      .replace('axles front', 'axles front steered');
    expect(errorsOf(hinged)).toEqual([]);
    // How two axles on springs of their own share what is raised is not known.
    const tandem = hinged.replace('rear single', 'rear tandem spacing 800 mm');
    expect(errorsOf(tandem)).toEqual([]);
    expect(errorsOf(tandem.replace('spacing 800 mm', 'spacing 800 mm, independent'))).toEqual([
      expect.stringContaining('each of them the coupling, one axle or axles that share their load equally'),
    ]);
  });

  test.each([
    ['scale 60 t', 'The division of the scale must be from 0.001 kg to 500 kg', 'this is 60 t'],
    ['scale 500.1 kg', 'The division of the scale must be from', 'this is 500.1 kg'],
    ['accuracy 0.0001 g', 'The accuracy of the scale must be from', 'this is 0.0001 g'],
    ['scale 20 kg ± 5 kg', "'scale' takes no tolerance", ''],
    ['scale 0 kg', 'more than zero', ''],
  ])('%s is no scale', (line, message, figure) => {
    const errors = errorsOf(slip(`${line}\n    total 2838 kg`));
    expect(errors).toHaveLength(1);
    expect(errors[0]).toContain(message);
    expect(errors[0]).toContain(figure);
    expect(errorsOf(slip('scale 500 kg\n    total 2838 kg'))).toEqual([]);
    expect(errorsOf(slip('accuracy 1 g\n    total 2838 kg'))).toEqual([]);
  });

  test('more readings than anybody takes are told, and left out', () => {
    const text = slip(`scale 20 kg\n${'solo Truck { front 1180 kg  rear 940 kg }\n'.repeat(205)}`);
    expect(errorsOf(text)).toEqual(["'weighing october' takes no further pass. It takes: up to 400 readings."]);
    expect(readings(text)).toHaveLength(400);
  });

  test('a scale that swallows the readings is one error, not two', () => {
    expect(errorsOf(slip('scale 20  total 2838 kg'))).not.toContainEqual(expect.stringContaining('lacks its readings'));
  });

  test('a hinged drawbar carries nothing to be weighed', () => {
    const hinged = `${UNITS.replace('coupling ball 50 mm', 'coupling drawbar').replace('axles single', 'axles front single at 1000 mm back, track 1500 mm, steered\n  axles single')}`;
    const text = `${hinged}rig Delivery {\n  tow Truck\n  haul Hauler\n  weighing w { scale 20 kg  coupling 50 kg }\n}\n`;
    expect(errorsOf(text)).toContainEqual(expect.stringMatching(/^The drawbar of Hauler is hinged: no load stands on/));
    const second = hinged.slice(hinged.indexOf('trailer Hauler')).replace('Hauler', 'Second');
    const two = text
      .replace('rig Delivery', `${second}rig Delivery`)
      .replace('haul Hauler', 'haul Hauler, Second')
      .replace('trailer Hauler {', 'trailer Hauler {\n  hitch ball at 3500 mm back, 430 mm up');
    expect(errorsOf(two)).toContainEqual(expect.stringMatching(/^There is no 'coupling' to weigh coupled up/));
    expect(errorsOf(two.replace('  coupling 50 kg }', '  Second.coupling 50 kg }'))).toContainEqual(
      expect.stringMatching(/^The drawbar of Second is hinged/),
    );
  });

  test('a name that two units have asks which', () => {
    const two = `${UNITS}${vehicle('', 'Van')}${trailer('hitch ball at 4000 mm back, 430 mm up', 'Front')}${trailer('', 'Rear')}`;
    const text = `${two}rig Road { tow Van\n haul Front, Rear\n weighing w { scale 20 kg  axles 200 kg } }\n`;
    expect(errorsOf(text)).toEqual(["'axles' could be Front.axles and Rear.axles: write which."]);
  });

  test('an empty slip, and two of one name', () => {
    expect(errorsOf(slip(''))).toEqual(['The weighing october lacks its readings. For example: Hauler.axles 1920 kg']);
    const twice = rig('weighing w { scale 20 kg  total 2840 kg }\n  weighing w { scale 20 kg  total 2840 kg }');
    expect(errorsOf(twice)).toHaveLength(1);
    expect(read(twice).keys).toContain('duplicate-name');
    expect(read(twice).rig('Delivery').weighings).toHaveLength(1);
  });

  test('the nearest name is offered as the replacement', () => {
    const found = read(slip('scale 20 kg\n    Hauler.axels 500 kg')).diagnostics.find(({ code }) => code === 'RW950');
    expect(found?.replacement).toBe('Hauler.axles');
  });
});

describe('readings that cannot all be true', () => {
  const impossible = (lines: string) =>
    read(slip(`scale 20 kg\n    ${lines}`)).diagnostics.filter(({ code }) => code === 'RW952');

  test.each([
    [
      'left and right of an axle',
      'Hauler.axles.left 300 kg\n Hauler.axles.right 280 kg\n Hauler.axles 640 kg',
      '60 kg apart',
    ],
    ['axles of a vehicle', 'Truck.front 1200 kg\n Truck.rear 1000 kg\n Truck 2300 kg', '100 kg apart'],
    [
      'units of the rig',
      'Truck 2240 kg\n Hauler.axles.left 300 kg\n Hauler.axles.right 300 kg\n total 2900 kg',
      '60 kg apart',
    ],
    ['coupling and axles alone', 'solo Hauler { coupling 60 kg  axles 580 kg  total 700 kg }', '60 kg apart'],
  ])('%s', (_, lines, apart) => {
    const [found, ...others] = impossible(lines);
    expect(others).toEqual([]);
    expect(found?.severity).toBe('error');
    expect(found?.message.replaceAll('\u202f', ' ')).toContain(apart);
  });

  test('are told once, and say nothing else of their slip', () => {
    const { keys } = read(
      slip('scale 20 kg\n Hauler.axles.left 300 kg\n Hauler.axles.right 280 kg\n Hauler.axles 640 kg'),
    );
    expect(keys).toContain('readings-impossible');
    expect(keys).not.toContain('reading-contradicts');
    expect(keys).not.toContain('slip-open');
  });

  test('half a division for each reading is within reason', () => {
    // Three readings: half of 20 kg each.
    const apart = (axle: number) => `Hauler.axles.left 300 kg\n Hauler.axles.right 280 kg\n Hauler.axles ${axle} kg`;
    expect(impossible(apart(610))).toEqual([]);
    expect(impossible(apart(611))).toHaveLength(1);
    expect(impossible(apart(550))).toEqual([]);
  });

  test('coupled up the coupling is no part of a unit', () => {
    expect(impossible('Hauler.coupling 60 kg\n Hauler.axles 580 kg\n Hauler 580 kg')).toEqual([]);
  });
});
