import { describe, expect, it } from 'vitest';
import { read, trailer, vehicle } from './support.ts';

describe('tanks', () => {
  const tankOf = (line: string, more = '') => {
    const { unit, messages } = read(`${more}${trailer(line)}`);
    const tank = unit('Hauler').tanks[0];
    if (tank === undefined) throw new Error(messages.join());
    return tank;
  };
  it('a content as volume or as mass', () => {
    // Water 1 kg/L; diesel 0.84 kg/L is the catalogue's.
    expect(tankOf('tank t 95 L of water at 1 m back, 1 m up')).toMatchObject({
      content: expect.closeTo(95, 9),
      capacity: 0.095,
    });
    const brine = tankOf('tank t 100 L of brine at 1 m back, 1 m up', 'fluid brine 1.15 kg/L\n');
    expect(brine.content).toBeCloseTo(115, 9);
    const gas = tankOf('tank t 9 kg of brine, empty 8.5 kg, at 1 m back, 1 m up', 'fluid brine 500 kg/m³\n');
    expect(gas).toMatchObject({ content: 9, empty: 8.5, capacity: 0.018 });
    // 10 US gallons of 231 in³: 37.854 L.
    expect(tankOf('tank t 10 gal of water at 1 m back, 1 m up').content).toBeCloseTo(37.85411784, 6);
  });

  it('a declared fluid goes before a built-in one of its name', () => {
    expect(tankOf('tank t 10 L of water at 1 m back, 1 m up', 'fluid water 2 kg/L\n').content).toBeCloseTo(20, 9);
  });

  it('a level that is no share says what it is wanted as', () => {
    const { messages } = read(trailer('tank t 100 L of water at 1 m back, 1 m up\n  case half { t 50 L }'));
    expect(messages).toContainEqual(expect.stringMatching(/The level of t is a share in %; this is a volume \(50 L\)/));
  });

  it('a level with a tolerance goes from empty to full at most', () => {
    const cases = `tank t 100 L of water at 1 m back, 1 m up
  case low { t 5 % ± 10 % }
  case high { t 95 % ± 10 % }`;
    const { value, messages } = read(trailer(cases));
    expect(messages.filter((message) => message.includes('filled to'))).toEqual([]);
    // From 0 to 15 %, and from 85 to 100 %, shown at the middle: 240 + 7.5 and 240 + 92.5 kg.
    expect(value('Hauler', 'Hauler.mass', 'low')).toBeCloseTo(247.5, 9);
    expect(value('Hauler', 'Hauler.mass', 'high')).toBeCloseTo(332.5, 9);
  });

  it('levels move the mass and its height', () => {
    const { value, state } = read(
      trailer(`tank t 100 L of water at 1 m back, 800 mm up, size 500 x 500 x 400 mm
  case half { t 50 % }
  case range { t 0 % to 50 % }`),
    );
    // 240 · 0.52 + 50 · z over 290; the water fills the lowest 0.2 m of a box from 0.6 to 1.0 m: z = 0.7.
    expect(value('Hauler', 'Hauler.mass', 'half')).toBeCloseTo(290, 9);
    expect(value('Hauler', 'Hauler.cg.up', 'half')).toBeCloseTo((240 * 0.52 + 50 * 0.7) / 290, 9);
    expect(value('Hauler', 'Hauler.axles.load', 'half')).toBeCloseTo((588 + 50) / 2.6, 9);
    // A range is shown at its middle and keeps its ends.
    expect(value('Hauler', 'Hauler.mass', 'range')).toBeCloseTo(265, 9);
    const source = state('Hauler', 'range').sources.find(({ id }) => id.kind === 'tank');
    expect(source?.bounds).toEqual({ min: 0, max: 50 });
  });

  it('the ends of a range hold the empty mass of the tank', () => {
    const { state, value } = read(
      trailer('tank t 100 L of water at 1 m back, 800 mm up, empty 6 kg\n  case range { t 10 % to 50 % }'),
    );
    const source = state('Hauler', 'range').sources.find(({ id }) => id.kind === 'tank');
    expect([source?.bounds?.min, source?.bounds?.max]).toEqual([expect.closeTo(16, 9), expect.closeTo(56, 9)]);
    expect(value('Hauler', 'Hauler.mass', 'range')).toBeCloseTo(240 + 36, 9);
  });

  it('round tanks, standing and lying', () => {
    expect(tankOf('tank t 30 L of water upright diameter 400 mm height 300 mm at 1 m back, 1 m up').shape).toEqual({
      kind: 'upright-cylinder',
      diameter: 0.4,
      height: 0.3,
    });
    expect(tankOf('tank t 30 L of water lying diameter 400 mm length 300 mm at 1 m back, 1 m up').shape).toMatchObject({
      kind: 'lying-cylinder',
      diameter: 0.4,
      length: 0.3,
    });
    expect(read(trailer('tank t 3 L of water lying diameter 400 mm at 1 m back, 1 m up')).messages[0]).toContain(
      'diameter and length',
    );
  });

  it('a round tank with a length is told that it has to lie', () => {
    const { messages } = read(trailer('tank t 30 L of water diameter 400 mm length 300 mm at 1 m back, 1 m up'));
    expect(messages).toEqual([
      "Tank t lacks 'lying' beside its diameter and length. For example: tank t … lying diameter 300 mm length 500 mm",
    ]);
  });

  it('a lying tank lies across, or lengthwise', () => {
    const shape = (words: string) =>
      tankOf(`tank t 30 L of water ${words} diameter 400 mm length 300 mm at 1 m back, 1 m up`).shape;
    expect(shape('lying')).toMatchObject({ axis: 'y' });
    expect(shape('lying crosswise')).toMatchObject({ axis: 'y' });
    expect(shape('lying lengthwise')).toMatchObject({ axis: 'x' });
    const messages = (words: string) => read(trailer(`tank t 3 L of water ${words} at 1 m back, 1 m up`)).messages;
    expect(messages('lying flat diameter 400 mm length 300 mm')).toEqual([
      "'tank' takes no 'flat'. It takes: 'lengthwise' or 'crosswise'.",
    ]);
    expect(messages('upright lengthwise diameter 400 mm height 300 mm')).toEqual([
      "'tank t' takes no 'lengthwise' alone. It takes: 'lying lengthwise' with a diameter and a length.",
    ]);
    expect(messages('lying lengthwise crosswise diameter 400 mm length 300 mm')).toHaveLength(1);
  });

  it('holds no more than its size: the volume by hand', () => {
    // 0.5 · 0.5 · 0.4 m = 100 L; two in a hundred for walls and rounding.
    expect(read(trailer('tank t 102 L of water at 1 m back, 1 m up, size 500 x 500 x 400 mm')).keys).not.toContain(
      'out-of-range',
    );
    expect(read(trailer('tank t 103 L of water at 1 m back, 1 m up, size 500 x 500 x 400 mm')).keys).toContain(
      'out-of-range',
    );
    // π/4 · 0.4² · 0.3 m = 37.7 L
    expect(
      read(trailer('tank t 39 L of water upright diameter 400 mm height 300 mm at 1 m back, 1 m up')).keys,
    ).toContain('out-of-range');
  });

  it('keeps its tolerance as a mass', () => {
    expect(
      tankOf('tank t 100 L of brine at 1 m back, 1 m up, tolerance 2 %', 'fluid brine 1.2 kg/L\n').tolerance,
    ).toBeCloseTo(2.4, 9);
    expect(tankOf('tank t 100 L ± 5 L of brine at 1 m back, 1 m up', 'fluid brine 1.2 kg/L\n').tolerance).toBeCloseTo(
      6,
      9,
    );
  });

  it('its own level and range hold where a case states none', () => {
    const { value, assumptions } = read(
      trailer(`tank t 100 L of water at 1 m back, 1 m up, level 40 %
  tank u 10 L of water at 1 m back, 1 m up
  case loose { }`),
    );
    expect(value('Hauler', 'Hauler.mass', 'loose')).toBeCloseTo(240 + 40 + 10, 9);
    expect(assumptions('Hauler')).toContain('level of Hauler.u not stated in case loose: full taken');
  });

  it('what is wrong is told with the nearest', () => {
    const keys = (line: string) => read(trailer(line)).keys;
    expect(read(trailer('tank t 3 L of watr at 1 m back, 1 m up')).messages[0]).toContain("the nearest is 'water'");
    expect(keys('tank t of water at 1 m back, 1 m up')).toEqual(['missing-part']);
    expect(keys('tank t 3 L of water')).toEqual(['missing-place']);
    expect(keys('tank t 3 m of water at 1 m back, 1 m up')).toEqual(['dimension-mismatch']);
    expect(keys('tank t -3 L of water at 1 m back, 1 m up')).toEqual(['out-of-range']);
    expect(keys('tank t 3 L of water, diesel at 1 m back, 1 m up')).toEqual(['unexpected-part']);
    expect(read(trailer('tank t 3 L at 1 m back, 1 m up')).assumptions('Hauler').join()).toContain(
      'water, 1 kg/L, taken',
    );
    expect(keys('tank t 3 L of water at 1 m back, 1 m up\n  case c { t 50 %\n t 60 % }')).toEqual(['repeated-part']);
    expect(keys('tank t 3 L of water at 1 m back, 1 m up\n  case c { u 50 % }')).toEqual(['unknown-name']);
    expect(keys('tank t 3 L of water at 1 m back, 1 m up\n  case c { t }')).toEqual(['missing-part']);
  });
});

describe('lockers', () => {
  const lockerOf = (line: string, body = 'body from 0 m to 6 m back, width 2 m, from 400 mm to 2400 mm up') => {
    const { unit, messages } = read(trailer(`${body}\n  ${line}`));
    const locker = unit('Hauler').lockers[0];
    if (locker === undefined) throw new Error(messages.join());
    return locker;
  };
  it('from extents, with a floor and a side', () => {
    const left = lockerOf('locker a from 1900 to 2700 mm back, left, floor 320 mm up, holds 80 kg, height 500 mm');
    // The left half of 2 m: from 0 to 1 m, middle 0.5.
    expect(left.centre.x).toBeCloseTo(-2.3, 12);
    expect(left).toMatchObject({
      centre: { y: 0.5, z: 0.32 },
      length: expect.closeTo(0.8, 12),
      width: 1,
      height: 0.5,
      holds: { value: 80 },
    });
    expect(lockerOf('locker a from 1 m to 2 m back, right, floor 320 mm up').centre.y).toBe(-0.5);
    expect(lockerOf('locker a from 1 m to 2 m back, from 200 mm to 800 mm left, floor 320 mm up')).toMatchObject({
      centre: { y: 0.5 },
      width: expect.closeTo(0.6, 12),
    });
  });
  it('on a side with a width of their own, against the wall of that side', () => {
    // The wall of a body 2 m wide is 1 m from the middle line: 1 − 0.6/2.
    expect(lockerOf('locker a from 1 m to 2 m back, left, width 600 mm, floor 320 mm up')).toMatchObject({
      centre: { y: expect.closeTo(0.7, 12) },
      width: 0.6,
    });
    expect(lockerOf('locker a at 1 m back, right, size 800 x 500 x 300 mm, floor 320 mm up')).toMatchObject({
      centre: { y: expect.closeTo(-0.75, 12) },
      width: 0.5,
    });
    expect(lockerOf('locker a from 1 m to 2 m back, width 600 mm, floor 320 mm up').centre.y).toBe(0);
    expect(lockerOf('locker a from 1 m to 2 m back, left, from 100 mm to 400 mm left, floor 1 m up').centre.y).toBe(
      0.25,
    );
  });
  it('on a side of a body without a width lack where its wall is', () => {
    const { messages, marked } = read(trailer('locker a from 1 m to 2 m back, left, width 600 mm, floor 1 m up'));
    expect(messages).toHaveLength(1);
    expect(messages[0]).toMatch(/Locker a lacks how far left its wall is: the unit has no body width.*from .* left/);
    expect(marked('missing-part')).toBe('left');
    const keys = (body: string, more = '') =>
      read(trailer(`${body}\n  locker a from 1 m to 2 m back, right, ${more}floor 1 m up`)).keys;
    expect(keys('body from 0 m to 6 m back')).toEqual(['missing-part']);
    expect(keys('', 'from 300 mm to 900 mm right, ')).toEqual([]);
    expect(keys('', 'at 600 mm right, ')).toEqual([]);
    // An error in the line of the body is told there, and nowhere else.
    expect(keys('body from 0 m to 6 m back, width 2 kg')).toEqual(['dimension-mismatch']);
    expect(keys('body from 6 m to 0 m back, width 2 m')).toEqual(['missing-part', 'range-reversed']);
  });
  it('an extent upward gives floor and height', () => {
    const locker = lockerOf('locker a from 1 m to 2 m back, from 500 mm to 900 mm up');
    expect(locker.centre.z).toBeCloseTo(0.5, 12);
    expect(locker.height).toBeCloseTo(0.4, 12);
  });
  it('on both sides of the datum, or ahead of it', () => {
    expect(lockerOf('locker a from 300 mm to 900 mm ahead, floor 1 m up').centre.x).toBeCloseTo(0.6, 12);
    expect(lockerOf('locker a from 200 mm ahead to 800 mm back, floor 1 m up')).toMatchObject({
      centre: { x: expect.closeTo(-0.3, 12) },
      length: expect.closeTo(1, 12),
    });
  });
  it('counted from a named thing', () => {
    // The axle stands 2.6 m back.
    expect(lockerOf('locker boot from 300 mm to 900 mm behind axles, floor 450 mm up')).toMatchObject({
      centre: { x: expect.closeTo(-3.2, 12), z: 0.45 },
      length: expect.closeTo(0.6, 12),
    });
    expect(lockerOf('locker a from 400 mm ahead to 200 mm behind axles, floor 1 m up').centre.x).toBeCloseTo(-2.5, 12);
    const { unit, keys } = read(
      trailer(`locker b from 100 mm to 500 mm back of a, floor 1 m up
  locker a from 1 m to 2 m back, from 500 mm to 900 mm up
  locker c at a, from 100 mm to 300 mm above a`),
    );
    expect(keys).toEqual([]);
    const [b, a, c] = unit('Hauler').lockers;
    // From the middle of the other one, 1.5 m back, and from its floor, 0.5 m up.
    expect(b?.centre.x).toBeCloseTo(-1.8, 12);
    expect(a?.centre.z).toBeCloseTo(0.5, 12);
    expect(c?.centre.z).toBeCloseTo(0.6, 12);
    expect(c?.height).toBeCloseTo(0.2, 12);
    expect(read(trailer('locker a from 1 m to 2 m behind axels, floor 1 m up')).messages[0]).toContain(
      "the nearest is 'axles'",
    );
    expect(
      read(
        trailer('locker a from 1 m to 2 m behind b, floor 1 m up\n  locker b from 1 m to 2 m behind a, floor 1 m up'),
      ).keys,
    ).toContain('place-cycle');
    expect(read(trailer('body from 1 m to 2 m behind axles')).keys).toContain('missing-part');
  });
  it('in either order where both ends say their direction', () => {
    const middle = { centre: { x: expect.closeTo(0.55, 12) }, length: expect.closeTo(0.7, 12) };
    expect(lockerOf('locker a from 900 mm ahead to 200 mm ahead, floor 1 m up')).toMatchObject(middle);
    expect(lockerOf('locker a from 200 mm ahead to 900 mm ahead, floor 1 m up')).toMatchObject(middle);
    expect(lockerOf('locker a from 800 mm back to 200 mm ahead, floor 1 m up').centre.x).toBeCloseTo(-0.3, 12);
    const keys = (extent: string) => read(trailer(`locker a ${extent}, floor 1 m up`)).keys;
    expect(keys('from 900 mm to 200 mm ahead')).toEqual(['range-reversed']);
    expect(keys('from 900 mm ahead to 900 mm ahead')).toEqual(['range-reversed']);
    expect(keys('from 900 mm ahead to 900 mm left')).toEqual(['missing-part']);
  });
  it('what is wrong is told', () => {
    const keys = (line: string) => read(trailer(line)).keys;
    expect(keys('locker a from 2 m to 1 m back, floor 1 m up')).toEqual(['range-reversed']);
    expect(keys('locker a from 2 m back, floor 1 m up')).toEqual(['missing-part']);
    expect(keys('locker a from 1 m to 2 m, floor 1 m up')).toEqual(['missing-part']);
    expect(keys('locker a from 1 m to 2 m back, left, floor 1 m up')).toEqual(['missing-part']);
    expect(keys('locker a from 1 m to 2 m back, floor 1 m down')).toEqual(['unexpected-part']);
    expect(keys('locker a from 1 m to 2 m back, floor 1 m up, width 2 m up')).toEqual(['unexpected-part']);
  });
});

describe('seats', () => {
  it('weigh what they state, or 75 kg, listed', () => {
    const { unit, assumptions } = read(
      vehicle('seat driver 80 kg at 1 m back, 700 mm up\n  seat mate at 1 m back, 700 mm up'),
    );
    expect(unit('Truck').seats.map(({ mass }) => mass)).toEqual([80, 75]);
    expect(assumptions('Truck')).toContain('mass on mate of Truck not stated: 75 kg taken');
  });
});

describe('limits', () => {
  it('are read by name; GVWR in a trailer is its ATM', () => {
    const { unit, keys } = read(trailer('limits { GVWR 750 kg  GTM 1500 lb, coupling 75 kg  payload 400 kg }'));
    expect(keys).toEqual([]);
    const { limits } = unit('Hauler');
    expect(limits.ATM?.value).toBe(750);
    // 1500 · 0.45359237 kg, exact.
    expect(limits.GTM?.value).toBeCloseTo(680.388555, 9);
    expect(Object.keys(limits)).toEqual(['ATM', 'GTM', 'coupling', 'payload']);
    expect(read(vehicle('limits { GVWR 3 t  GCWR 6 t }')).unit('Truck').limits).toMatchObject({
      GVM: { value: 3000 },
      GCM: { value: 6000 },
    });
  });
  it('are read by the words of other markets', () => {
    const ofTrailer = read(trailer('limits { MAM 750 kg  GTM 700 kg  nose_load 75 kg }'));
    expect(ofTrailer.keys).toEqual([]);
    expect(Object.keys(ofTrailer.unit('Hauler').limits)).toEqual(['ATM', 'GTM', 'coupling']);
    expect(read(trailer('limits { MTPLM 750 kg }')).unit('Hauler').limits.ATM?.value).toBe(750);
    for (const word of ['tongue_load', 'ball_load', 'nose_load', 'pin_load']) {
      expect(read(trailer(`limits { ${word} 75 kg }`)).unit('Hauler').limits.coupling?.value).toBe(75);
    }
    expect(read(vehicle('limits { MAM 3 t  GTW 6 t }')).unit('Truck').limits).toMatchObject({
      GVM: { value: 3000 },
      GCM: { value: 6000 },
    });
    expect(read(trailer('limits { MAM 3 t  MTPLM 3 t }')).keys).toEqual(['repeated-part']);
  });
  it('what is wrong is told', () => {
    expect(read(trailer('limits { GVM 3 t }')).keys).toEqual(['unknown-statement']);
    expect(read(trailer('limits { ATM 3 t  ATM 4 t }')).keys).toEqual(['repeated-part']);
    expect(read(trailer('limits { ATM }')).keys).toEqual(['missing-part']);
    expect(read(trailer('limits { ATM 3 m }')).keys).toEqual(['dimension-mismatch']);
    expect(read(trailer('limits { ATN 3 t }')).messages[0]).toContain("the nearest is 'ATM'");
  });
});

describe('what a unit is used for', () => {
  it('berths are a whole number', () => {
    expect(read(trailer('berths 2')).unit('Hauler').berths).toBe(2);
    expect(read(vehicle('let places = 2 * 2\n  berths places')).unit('Truck').berths).toBe(4);
    expect(read(trailer()).unit('Hauler').berths).toBeUndefined();
  });
  it.each([
    ['berths', 'missing-part', 'berths'],
    ['berths 2.5', 'not-whole', '2.5'],
    ['berths 0', 'not-whole', '0'],
    ['berths 2 kg', 'not-whole', '2 kg'],
    ['berths 2 to 4', 'unexpected-part', '4'],
    ['berths 2 x 3', 'unexpected-part', '3'],
    ['berths 2\n  berths 3', 'repeated-part', 'berths'],
  ])('%s is told as %s', (lines, key, marked) => {
    const reading = read(trailer(lines));
    expect(reading.keys).toEqual([key]);
    expect(reading.marked(key)).toBe(marked);
  });
  it('an off-road vehicle says so; a trailer cannot', () => {
    expect(read(vehicle('off_road')).unit('Truck').offRoad).toBe(true);
    expect(read(vehicle()).unit('Truck').offRoad).toBeUndefined();
    expect(read(trailer('off_road')).keys).toEqual(['unknown-statement']);
  });
});

describe('brakes and coupling', () => {
  it('not stated is listed', () => {
    const bare = trailer().replace('brakes overrun', '').replace('coupling ball 50 mm, 430 mm up', '');
    const { assumptions, unit } = read(bare);
    expect(assumptions('Hauler')).toContain('brakes of Hauler not stated: overrun brakes taken');
    expect(assumptions('Hauler')).toContain('coupling of Hauler not stated: ball, 430 mm up taken');
    expect(unit('Hauler').coupling).toMatchObject({ kind: 'ball', x: 0, z: 0.43 });
    expect(read(trailer().replace('overrun', 'unbraked')).unit('Hauler').brakes).toBe('unbraked');
    expect(read(trailer().replace('brakes overrun', 'brakes')).keys).toEqual(['missing-part']);
  });
  it('a line that may stand once, twice', () => {
    expect(read(trailer('brakes air')).keys).toEqual(['repeated-part']);
    expect(read(trailer('tare 3 kg at 1 m back, 1 m up')).keys).toEqual(['repeated-part']);
  });
});

describe('items', () => {
  it('keep mass, size, tolerance, title, tags and documentation', () => {
    const { item, keys } = read(
      '## Wet.\nitem awning 38 kg "Roll-out" size 2600 x 160 x 150 mm tolerance 1 kg tags long, wet\nitem b 10 kg ± 5 %\n',
    );
    expect(keys).toEqual([]);
    expect(item('awning')).toMatchObject({
      mass: 38,
      title: 'Roll-out',
      documentation: 'Wet.',
      tolerance: 1,
      tags: ['long', 'wet'],
      size: { length: 2.6, width: 0.16, height: 0.15 },
    });
    expect(item('b').tolerance).toBeCloseTo(0.5, 12);
    expect(read('item a 3 ft 2 kg').keys).toEqual(['dimension-mismatch', 'repeated-part']);
    // 11 lb 4 oz = 11.25 · 0.45359237 kg
    expect(read('item a 11 lb 4 oz').item('a').mass).toBeCloseTo(11.25 * 0.45359237, 12);
  });
  it('sizes take one unit for all, or each its own', () => {
    expect(read('item a 3 kg size 1 x 2 x 3 m').item('a').size).toEqual({ length: 1, width: 2, height: 3 });
    expect(read('item a 3 kg size 10 mm x 2 cm x 3 m').item('a').size).toEqual({
      length: 0.01,
      width: 0.02,
      height: 3,
    });
    expect(read('item a 3 kg size 1 x 2 x 3 m ± 5 mm').keys).toEqual(['unexpected-part']);
    expect(read('item a 3 kg size 1 x 2 m').keys).toEqual(['out-of-range']);
    expect(read('item a 3 kg size 1 x 2 x 3').keys).toEqual(['missing-unit']);
  });
  it('say each thing once', () => {
    expect(read('item a 3 kg 5 kg').keys).toEqual(['repeated-part']);
    expect(read('item a 3 kg "x" "y"').keys).toEqual(['repeated-part']);
    expect(read('item a 3 kg tags x tags y').keys).toEqual(['repeated-part']);
    expect(read('item a 3 kg at 1 m back').keys).toEqual(['unexpected-part']);
    expect(read('item a').keys).toEqual(['missing-part']);
  });
});
