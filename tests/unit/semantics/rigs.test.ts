import { describe, expect, it } from 'vitest';
import { read as readAll, trailer, vehicle } from './support.ts';

/** As it is read; these rigs are for arithmetic and need no sound share of coupling load. */
const read: typeof readAll = (text, files) => {
  const reading = readAll(text, files);
  return { ...reading, keys: reading.keys.filter((key) => !key.startsWith('coupling-share')) };
};

const ITEMS = 'fluid gasoil 0.84 kg/L\nitem box 30 kg size 600 x 400 x 400 mm\nitem rope 2 kg\n';
const BED = 'locker bed from 500 mm to 2500 mm back, floor 600 mm up';
const SEATS = `seat driver 80 kg at 1200 mm back, 700 mm up
  seat mate 70 kg at 1200 mm back, 700 mm up
  tank fuel 70 L of gasoil at 2400 mm back, 500 mm up`;
const rig = (lines: string, inTrailer = BED, inVehicle = SEATS): string =>
  `${ITEMS}${vehicle(inVehicle)}${trailer(inTrailer)}rig R {\n  tow Truck with driver\n  haul Hauler\n  ${lines}\n}\n`;

/** Hitch 1.15 m behind the rear axle, wheelbase 3.2 m: the lever rule. */
const OVERHANG = 1.15;
const WHEELBASE = 3.2;

describe('a rig', () => {
  it('adds occupants, cargo and the coupling load to the axles of the vehicle', () => {
    const { value, keys } = read(rig('stow 2 x box, rope in Hauler.bed\n  case c { fuel 50 % }'));
    expect(keys).toEqual([]);
    // Trailer: 240 kg at 2.45 m, 62 kg in the middle of the locker at 1.5 m; axle at 2.6 m.
    const axle = (240 * 2.45 + 62 * 1.5) / 2.6;
    const coupling = 302 - axle;
    expect(value('R', 'Hauler.axles.load')).toBeCloseTo(axle, 9);
    expect(value('R', 'Hauler.coupling.load')).toBeCloseTo(coupling, 9);
    expect(value('R', 'Truck.hitch.load')).toBeCloseTo(coupling, 9);
    expect(value('R', 'Hauler.coupling.share')).toBeCloseTo(coupling / 302, 12);
    // Vehicle: readings 1180 and 940 kg; driver at 1.2 m; 35 L of 0.84 kg/L at 2.4 m.
    const fuel = 35 * 0.84;
    const rear = 940 + (80 * 1.2 + fuel * 2.4) / WHEELBASE + (coupling * (WHEELBASE + OVERHANG)) / WHEELBASE;
    const front = 1180 + 80 * (1 - 1.2 / WHEELBASE) + fuel * (1 - 2.4 / WHEELBASE) - (coupling * OVERHANG) / WHEELBASE;
    expect(value('R', 'Truck.rear.load')).toBeCloseTo(rear, 9);
    expect(value('R', 'Truck.front.load')).toBeCloseTo(front, 9);
    expect(value('R', 'rig.mass')).toBeCloseTo(302 + 2120 + 80 + fuel, 9);
    expect(value('R', 'rig.mass_ratio')).toBeCloseTo(302 / (2200 + fuel), 9);
    expect(value('R', 'Truck.payload')).toBeCloseTo(80 + fuel, 9);
    // Items stand on the floor of the locker: 0.6 m and half of 0.4 m.
    expect(value('R', 'Hauler.cg.up')).toBeCloseTo((240 * 0.52 + 60 * 0.8 + 2 * 0.6) / 302, 9);
  });

  it('without a trailer is a loaded vehicle', () => {
    const { value, keys } = read(
      `${ITEMS}${vehicle(SEATS)}rig R { tow Truck with driver, mate\n case c { fuel 0 % } }`,
    );
    expect(keys).toEqual([]);
    expect(value('R', 'Truck.rear.load')).toBeCloseTo(940 + (150 * 1.2) / WHEELBASE, 9);
    expect(value('R', 'Truck.mass')).toBeCloseTo(2270, 9);
  });

  it('without a vehicle is a trailer level on its coupling', () => {
    const { value, keys } = read(`${ITEMS}${trailer(BED)}rig R { haul Hauler\n stow box in bed\n case c { } }`);
    expect(keys).toEqual([]);
    expect(value('R', 'Hauler.axles.load')).toBeCloseTo((588 + 45) / 2.6, 9);
  });

  it('places items where their line says', () => {
    const { rig: model, messages } = read(
      rig(`stow box in Hauler at 1 m back, 200 mm left, 700 mm up
  stow rope in Hauler.bed at 900 mm back
  stow rope in Hauler at 100 mm behind axles
  stow rope in Truck at driver
  case c { fuel 0 % }`),
    );
    expect(messages).toEqual([]);
    const places = model('R').stowed.map(({ centre, unit }) => [unit, -centre.x, centre.y, centre.z]);
    expect(places).toEqual([
      [1, 1, 0.2, 0.7],
      [1, expect.closeTo(0.9, 12), 0, 0.6],
      [1, expect.closeTo(2.7, 12), 0, 0],
      [0, 1.2, 0, 0.7],
    ]);
  });

  it('two trailers in a row, from the rear forward', () => {
    const text = `${vehicle()}${trailer('hitch ball at 4 m back, 430 mm up')}${trailer('', 'Second')}rig R {
  tow Truck
  haul Hauler, Second
  case c { }
}
`;
    const { value, keys } = read(text);
    expect(keys).toEqual([]);
    const second = 240 - 588 / 2.6;
    expect(value('R', 'Second.coupling.load')).toBeCloseTo(second, 9);
    // The first trailer carries that at 4 m behind its coupling, 1.4 m behind its axle.
    const axle = (588 + second * 4) / 2.6;
    expect(value('R', 'Hauler.axles.load')).toBeCloseTo(axle, 9);
    expect(value('R', 'Hauler.coupling.load')).toBeCloseTo(240 + second - axle, 9);
    expect(value('R', 'Truck.rear.load')).toBeCloseTo(
      940 + ((240 + second - axle) * (WHEELBASE + OVERHANG)) / WHEELBASE,
      9,
    );
  });

  it('a kingpin ahead of the rear axle loads both axles', () => {
    const text = `${vehicle().replace('hitch ball at 1150 mm behind rear', 'hitch kingpin at 200 mm ahead of rear')}${trailer()
      .replace('coupling ball 50 mm', 'coupling kingpin 50 mm')
      .replace('2450 mm back', '1300 mm back')}rig R { tow Truck\n haul Hauler\n case c { } }`;
    const { value, keys } = read(text);
    expect(keys).toEqual([]);
    // 240 · (1 − 1.3/2.6) = 120 kg at 3.0 m of 3.2 m.
    expect(value('R', 'Hauler.coupling.load')).toBeCloseTo(120, 9);
    expect(value('R', 'Truck.rear.load')).toBeCloseTo(940 + (120 * 3) / 3.2, 9);
    expect(value('R', 'Truck.front.load')).toBeCloseTo(1180 + (120 * 0.2) / 3.2, 9);
  });

  it('a weight-distribution device by its moment', () => {
    const { value } = read(rig('weight_distribution moment 1000 N·m\n  case c { fuel 0 % }'));
    const plain = read(rig('case c { fuel 0 % }'));
    // The moment in kg m: 1000 / 9.80665; trailer axle +M/Lt, front +M/wb·(1 + oh/Lt).
    const moment = 1000 / 9.80665;
    const change = (name: string) => value('R', name) - plain.value('R', name);
    expect(change('Hauler.axles.load')).toBeCloseTo(moment / 2.6, 8);
    expect(change('Truck.front.load')).toBeCloseTo((moment / WHEELBASE) * (1 + OVERHANG / 2.6), 8);
    expect(change('rig.mass')).toBeCloseTo(0, 9);
  });

  it('a weight-distribution device by its restored share, on the vehicle or on the rig', () => {
    const load = 'stow 3 x box in Hauler.bed';
    const plain = read(rig(`${load}\n  case c { fuel 0 % }`));
    // What the trailer takes off the front axle: coupling load · overhang / wheelbase; the device brings half back.
    const lost = (plain.value('R', 'Hauler.coupling.load') * OVERHANG) / WHEELBASE;
    for (const text of [
      rig(`${load}\n  weight_distribution restores 50 %\n  case c { fuel 0 % }`),
      rig(`${load}\n  case c { fuel 0 % }`, BED, `${SEATS}\n  weight_distribution restores 50 %`),
    ]) {
      const { value } = read(text);
      expect(value('R', 'Truck.front.load') - plain.value('R', 'Truck.front.load')).toBeCloseTo(lost / 2, 8);
    }
  });

  it('a weight-distribution device of the rig goes before the one of the vehicle', () => {
    const load = 'stow 3 x box in Hauler.bed';
    const front = (onRig: string, onVehicle: string) =>
      read(rig(`${load}\n  ${onRig}\n  case c { fuel 0 % }`, BED, `${SEATS}\n  ${onVehicle}`)).value(
        'R',
        'Truck.front.load',
      );
    const half = 'weight_distribution restores 50 %';
    const fifth = 'weight_distribution restores 20 %';
    expect(front(half, fifth)).toBeCloseTo(front(half, ''), 9);
    expect(front(half, fifth)).not.toBeCloseTo(front(fifth, ''), 1);
  });

  it('a trailer without brakes is held back on a descent by the vehicle, one with brakes by itself', () => {
    const drawbar = (brakes: string) => {
      const text = rig('travel 90 km/h, grades -8 % to 0 %\n  case c { fuel 0 % }').replace('brakes overrun', brakes);
      const state = read(text)
        .result('R')
        .states.find(({ motion }) => motion.kind === 'descent');
      return state?.quantities.get('Hauler.coupling.drawbar')?.value;
    };
    // The share of the weight along the road: m · sin(arctan 0.08), pushed together.
    expect(drawbar('brakes unbraked')).toBeCloseTo(-240 * Math.sin(Math.atan(0.08)), 9);
    expect(drawbar('brakes overrun')).toBeCloseTo(0, 9);
  });

  it('the share lost is of the first group of the vehicle, beside the vehicle alone in the same motion', () => {
    const travel = 'travel 90 km/h, braking 3 m/s²\n  case c { fuel 0 % }';
    const braking = (text: string) =>
      read(text)
        .result('R')
        .states.find(({ motion }) => motion.kind === 'braking')?.quantities;
    const both = braking(rig(travel));
    const alone = braking(rig(travel).replace('haul Hauler', ''));
    expect([...(both?.keys() ?? [])].filter((name) => name.endsWith('.lost'))).toEqual(['Truck.front.lost']);
    const front = (quantities: typeof both) => quantities?.get('Truck.front.load')?.value ?? Number.NaN;
    expect(both?.get('Truck.front.lost')?.value).toBeCloseTo(1 - front(both) / front(alone), 12);
    expect([...(alone?.keys() ?? [])].filter((name) => name.endsWith('.lost'))).toEqual([]);
  });

  it('grades and braking are states of each case, level first', () => {
    const { result } = read(
      rig('travel 90 km/h, grades -8 % to 6 %, braking 3 m/s²\n  case a { fuel 0 % }\n  case b { fuel 100 % }'),
    );
    expect(result('R').states.map(({ label }) => label)).toEqual([
      'case a',
      'case a, on the 6 % climb',
      'case a, on the 8 % descent',
      'case a, braking at 3 m/s²',
      'case b',
      'case b, on the 6 % climb',
      'case b, on the 8 % descent',
      'case b, braking at 3 m/s²',
    ]);
    const sums = result('R').states.map(({ quantities }) =>
      ['Truck.front.load', 'Truck.rear.load', 'Hauler.axles.load'].reduce(
        (sum, name) => sum + (quantities.get(name)?.value ?? 0),
        0,
      ),
    );
    // Braking on the level keeps the sum of the vertical loads.
    expect(sums[3]).toBeCloseTo(sums[0] ?? 0, 8);
  });

  it('braking of a vehicle alone: m·a·h over g·wheelbase moves forward', () => {
    const { result } = read(`${vehicle()}rig R { tow Truck\n travel 50 km/h, braking 3 m/s²\n case c { } }`);
    const [level, braking] = result('R').states.map(({ quantities }) => quantities.get('Truck.front.load')?.value ?? 0);
    expect((braking ?? 0) - (level ?? 0)).toBeCloseTo((2120 * 3 * 0.68) / (9.80665 * WHEELBASE), 8);
  });
});

describe('the braking of a travel line', () => {
  const found = (braking: string) => {
    const { keys, messages, result } = read(
      `${vehicle()}rig R { tow Truck\n travel 50 km/h, braking ${braking}\n case c { } }`,
    );
    return { keys, messages, braking: result('R').rig.travel?.braking };
  };
  // 0.8 times standard gravity (9.80665 m/s², exact) is 7.845 m/s²; common practice, no source.
  it('beyond what tyres give is told, with what is usual, and computed with', () => {
    const hard = found('9 m/s²');
    expect(hard.keys).toContain('braking-unusual');
    expect(hard.messages.join()).toContain(
      'The braking is 9 m/s²; tyres on a dry road usually give no more than 7.85 m/s².',
    );
    expect(hard.braking).toBe(9);
    expect(found('0.9 gn').messages.join()).toContain(
      'The braking is 0.9 gn; tyres on a dry road usually give no more than 0.8 gn.',
    );
    expect(found('7.8 m/s²').keys).not.toContain('braking-unusual');
  });
  it('beyond anything is an error, and nothing is computed with it', () => {
    const wild = found('16 m/s²');
    expect(wild.keys).toContain('out-of-range');
    expect(wild.messages.join()).toContain('The braking must be at most 15 m/s²; this is 16 m/s².');
    expect(wild.braking).toBeUndefined();
    expect(found('15 m/s²').braking).toBe(15);
  });
});

describe('cases', () => {
  it('take seats, items and levels', () => {
    const { value, keys } = read(
      rig(`stow box in Hauler.bed
  case all { fuel 100 %
    occupants driver, mate
    stow rope in Hauler.bed }
  case some { Truck.fuel 0 %
    absent box }`),
    );
    expect(keys).toEqual([]);
    expect(value('R', 'Hauler.mass', 'all')).toBeCloseTo(272, 9);
    expect(value('R', 'Truck.mass', 'all')).toBeCloseTo(2120 + 150 + 70 * 0.84, 9);
    expect(value('R', 'Hauler.mass', 'some')).toBeCloseTo(240, 9);
    expect(value('R', 'Truck.mass', 'some')).toBeCloseTo(2200, 9);
  });
  it('what a case stows itself stays, though the item is absent from its usual place', () => {
    const { value, keys } = read(
      rig(`stow box in Hauler.bed
  case moved { fuel 0 %
    absent box
    stow box in Hauler at 1 m back, 700 mm up }`),
    );
    expect(keys).toEqual([]);
    expect(value('R', 'Hauler.mass')).toBeCloseTo(270, 9);
    expect(value('R', 'Hauler.axles.load')).toBeCloseTo((588 + 30) / 2.6, 9);
  });
  it('what they leave open is listed', () => {
    const { assumptions } = read(rig('case a { }\n  case b { fuel 0 % to 50 % }'));
    expect(assumptions('R')).toContain('level of Truck.fuel not stated in case a: full taken');
    expect(assumptions('R')).toContain('case b states ranges: loads are shown at their middle, Truck.fuel at 25 %');
    expect(read(rig('')).assumptions('R')).toContain('no case states the levels of Truck.fuel: full taken');
  });
  it('what is wrong is told with the nearest', () => {
    const messages = (lines: string) => read(rig(lines)).messages.join('\n');
    expect(messages('case c { fual 3 % }')).toContain("the nearest is 'fuel'");
    expect(messages('stow box in Hauler.bad')).toContain("the nearest is 'Hauler.bed'");
    expect(messages('stow boxx in Hauler.bed')).toContain("the nearest is 'box'");
    expect(messages('case c { absent ropes }')).toContain('item stowed in this rig');
    expect(messages('case c { occupants mat }')).toContain("the nearest is 'mate'");
    expect(messages('stow box')).toContain('where');
    expect(messages('stow box in Hauler')).toContain('has no place along the unit');
    expect(messages('stow box in Hauler.bed, Truck')).toContain('second place');
    expect(messages('stow 1.5 x box in Hauler.bed')).toContain('whole number');
    expect(messages('stow box in Hauler at 1 m back, 300 mm above axles')).toContain('a height to count from');
    expect(messages('stow Truck in Hauler.bed')).toContain('a vehicle');
  });
});

describe('how units go together', () => {
  const keys = (text: string) => read(text).keys;
  it('a hitch is needed, and one of the kind of the coupling', () => {
    expect(keys(rig('case c { fuel 0 % }').replace(/ {2}hitch .*\n/, ''))).toEqual(['no-hitch']);
    expect(keys(rig('case c { fuel 0 % }').replace('hitch ball', 'hitch pin'))).toEqual(['coupling-mismatch']);
    expect(
      keys(rig('case c { fuel 0 % }').replace('hitch ball', 'hitch pin').replace('coupling ball', 'coupling eye')),
    ).toEqual([]);
  });
  it('each unit once, of the right kind, and at least one', () => {
    expect(keys(`${vehicle()}${trailer()}rig R { tow Hauler\n haul Truck }`)).toEqual(['wrong-kind', 'wrong-kind']);
    expect(keys(`${vehicle()}rig R { tow Truck\n tow Truck }`)).toEqual(['repeated-part']);
    expect(keys(`${vehicle()}rig R { tow Truck, Truck }`)).toEqual(['unexpected-part']);
    expect(keys(`${vehicle()}${trailer()}rig R { tow Truck\n haul 2 x Hauler }`)).toEqual(['unexpected-part']);
    expect(keys(`${trailer()}rig R { haul Hauler, Hauler }`)).toEqual(['repeated-part']);
    expect(keys('rig R { }')).toEqual(['nothing-to-tow']);
    expect(keys('rig R { tow Nobody }')).toEqual(['unknown-name']);
    expect(keys(`${vehicle()}rig R in XY { tow Truck }`)).toEqual(['unknown-name']);
  });
  it('travel out of range is told', () => {
    expect(keys(`${vehicle()}rig R { tow Truck\n travel 2000 km/h }`)).toEqual(['out-of-range']);
    expect(keys(`${vehicle()}rig R { tow Truck\n travel 90 km/h, grades -200 % to 3 % }`)).toEqual(['out-of-range']);
    expect(keys(`${vehicle()}rig R { tow Truck\n travel 3 m }`)).toEqual(['dimension-mismatch']);
  });
  it('a unit with an error leaves the rig without loads, not with wrong ones', () => {
    const { result, rig: model } = read(
      rig('case c { fuel 0 % }').replace('axles single at 2600 mm back', 'axles single at 2600 kg back'),
    );
    expect(model('R').units).toHaveLength(2);
    expect(result('R').states).toEqual([]);
  });
});
