import { describe, expect, it } from 'vitest';
import { read, trailer, vehicle } from './support.ts';

/** Each figure to 1e-12. */
function expectClose(found: readonly unknown[] | undefined, figures: readonly number[]): void {
  expect(found).toEqual(figures.map((figure) => expect.closeTo(figure, 12)));
}

/** Statics by hand in the comments: moments about the coupling, kg and m. */

describe('tare', () => {
  it('by mass and place', () => {
    const { value, keys } = read(trailer());
    // 240 · 2.45 / 2.6 = 226.153846 on the axle, the rest on the coupling.
    expect(value('Hauler', 'Hauler.axles.load')).toBeCloseTo((240 * 2.45) / 2.6, 9);
    expect(value('Hauler', 'Hauler.coupling.load')).toBeCloseTo(240 - (240 * 2.45) / 2.6, 9);
    expect(value('Hauler', 'Hauler.cg.up')).toBeCloseTo(0.52, 9);
    expect(value('Hauler', 'Hauler.yaw_inertia')).toBeCloseTo(210, 9);
    expect(keys).toEqual([]);
  });

  it('by readings of a trailer', () => {
    const text = trailer().replace('240 kg at 2450 mm back', '225 kg on axles, 15 kg on coupling');
    const { value } = read(text);
    expect(value('Hauler', 'Hauler.axles.load')).toBeCloseTo(225, 9);
    expect(value('Hauler', 'Hauler.coupling.load')).toBeCloseTo(15, 9);
    // 225 · 2.6 / 240 = 2.4375 m back.
    expect(value('Hauler', 'Hauler.cg.back')).toBeCloseTo(2.4375, 9);
  });

  it('by readings of a vehicle', () => {
    const { value } = read(vehicle());
    expect(value('Truck', 'Truck.front.load')).toBeCloseTo(1180, 9);
    expect(value('Truck', 'Truck.rear.load')).toBeCloseTo(940, 9);
    // 940 · 3.2 / 2120
    expect(value('Truck', 'Truck.cg.back')).toBeCloseTo((940 * 3.2) / 2120, 9);
  });

  const FULL = `trailer Wagon {
  coupling drawbar 40 mm, 700 mm up
  axle front at 2 m back, track 1800 mm, steered
  axle rear at 6 m back, track 1800 mm
  tare 900 kg on front, 1100 kg on rear, 800 mm up, inertia 9000 kg·m²
  brakes air
  locker deck from 1 m to 7 m back, floor 1 m up
}
`;
  it('by readings of a full trailer, whose drawbar carries nothing', () => {
    const { value, keys, state } = read(FULL);
    expect(keys).toEqual([]);
    expect(value('Wagon', 'Wagon.front.load')).toBeCloseTo(900, 9);
    expect(value('Wagon', 'Wagon.rear.load')).toBeCloseTo(1100, 9);
    // (900 · 2 + 1100 · 6) / 2000 = 4.2 m
    expect(value('Wagon', 'Wagon.cg.back')).toBeCloseTo(4.2, 9);
    expect(state('Wagon').quantities.get('Wagon.coupling.load')?.value ?? 0).toBe(0);
  });

  it('what is missing, doubled or foreign in readings is told', () => {
    const tare = (readings: string) => read(trailer().replace('240 kg at 2450 mm back', readings));
    expect(tare('225 kg on axles').messages[0]).toContain('a reading is missing: on coupling');
    expect(tare('225 kg on axles, 3 kg on axles').messages[0]).toContain("'axles' has two readings");
    expect(tare('225 kg on wheels, 15 kg on coupling').messages[0]).toContain('its supports are axles, coupling');
    expect(tare('240 kg').messages[0]).toContain('not where it acts');
    expect(tare('0 kg on axles, 0 kg on coupling').messages[0]).toContain('add up to nothing');
    expect(tare('225 kg on axles, -15 kg on coupling').keys).not.toContain('out-of-range');
  });

  it('keeps tolerances, however they are written', () => {
    const tolerance = (text: string) => read(text).unit('Hauler').parts[0]?.tolerance;
    expect(tolerance(trailer().replace('240 kg at', '240 kg ± 3 kg at'))).toBeCloseTo(3, 12);
    expect(tolerance(trailer().replace('240 kg at', '240 kg ± 2 % at'))).toBeCloseTo(4.8, 12);
    expect(tolerance(trailer().replace('inertia', 'tolerance 5 %, inertia'))).toBeCloseTo(12, 12);
    const readings = trailer().replace('240 kg at 2450 mm back', '225 kg ± 1 kg on axles, 15 kg ± 0.5 kg on coupling');
    expect(tolerance(readings)).toBeCloseTo(1.5, 12);
    const place = read(trailer().replace('2450 mm back', '2450 mm ± 20 mm back')).unit('Hauler').parts[0]
      ?.placeTolerance;
    expect(place).toEqual({ x: 0.02 });
  });

  it('estimates of the yaw inertia are listed, stated ones are not', () => {
    const bare = trailer().replace(', inertia 210 kg·m²', '');
    // No body: 0.3 · 2.6 m = 0.78 m; 240 · 0.78² = 146.0 kg m².
    expect(read(bare).assumptions('Hauler').join()).toContain('radius of gyration 780 mm taken (146 kg·m²)');
    expect(read(bare).value('Hauler', 'Hauler.yaw_inertia')).toBeCloseTo(240 * 0.78 ** 2, 6);
    expect(read(trailer()).assumptions('Hauler').join()).not.toContain('inertia');
    const gyration = read(trailer().replace('inertia 210 kg·m²', 'gyration 1 m'));
    expect(gyration.value('Hauler', 'Hauler.yaw_inertia')).toBeCloseTo(240, 9);
  });
});

describe('roll-up', () => {
  const rolledUp = (lines: string) => `material ply 8 kg/m²
material channel 10 kg/m
trailer Plan {
  coupling ball 50 mm, 430 mm up
  axles single at 3 m back, track 1500 mm
  brakes overrun
  ${lines}
}
`;
  it('adds fittings, panels and members with their counts', () => {
    const { value, keys, unit } = read(
      rolledUp(`fitting fridge 2 x 15 kg at 1 m back, 600 mm left, 1 m up, size 500 x 500 x 800 mm
  panel floor 2 x 3 m of ply flat at 2 m back, 500 mm up
  panel walls 2 x 3 x 2 m of ply lengthwise at 2 m back, 1500 mm up
  member rails 2 x 4000 mm of channel lengthwise at 2500 mm back, 400 mm up
  member sill of channel from 1 m to 3 m back, 400 mm up`),
    );
    expect(keys).toEqual(['coupling-share-high', 'side-imbalance']);
    const masses = Object.fromEntries(unit('Plan').parts.map(({ name, body }) => [name, body.mass]));
    // 2·15; 2·3·8; 2·(3·2·8); 2·4·10; 2·10
    expect(masses).toEqual({ fridge: 30, floor: 48, walls: 96, rails: 80, sill: 20 });
    const mass = 30 + 48 + 96 + 80 + 20;
    const moment = 30 * 1 + 48 * 2 + 96 * 2 + 80 * 2.5 + 20 * 2;
    expect(value('Plan', 'Plan.mass')).toBeCloseTo(mass, 9);
    expect(value('Plan', 'Plan.axles.load')).toBeCloseTo(moment / 3, 9);
    expect(value('Plan', 'Plan.cg.up')).toBeCloseTo((30 * 1 + 48 * 0.5 + 96 * 1.5 + 80 * 0.4 + 20 * 0.4) / mass, 9);
    expect(value('Plan', 'Plan.cg.left')).toBeCloseTo((30 * 0.6) / mass, 9);
    // About the middle of the mass: own inertia of boxes m/12·(l²+w²), panels, rods m/12·l², and the shifts.
    const xg = moment / mass;
    const yg = (30 * 0.6) / mass;
    const own = (30 / 12) * (0.25 + 0.25) + (48 / 12) * (4 + 9) + (96 / 12) * 9 + (80 / 12) * 16 + (20 / 12) * 4;
    const shifts = [
      [30, 1, 0.6],
      [48, 2, 0],
      [96, 2, 0],
      [80, 2.5, 0],
      [20, 2, 0],
    ].reduce((sum, [m = 0, x = 0, y = 0]) => sum + m * ((x - xg) ** 2 + (y - yg) ** 2), 0);
    expect(value('Plan', 'Plan.yaw_inertia')).toBeCloseTo(own + shifts, 8);
  });

  it('growth sits at the middle of the parts', () => {
    const { value } = read(
      rolledUp('fitting a 100 kg at 1 m back, 1 m up\n  fitting b 300 kg at 3 m back, 1 m up\n  growth 10 %'),
    );
    // 400 kg at (100 + 900)/400 = 2.5 m; 440 kg at 2.5 m.
    expect(value('Plan', 'Plan.mass')).toBeCloseTo(440, 9);
    expect(value('Plan', 'Plan.axles.load')).toBeCloseTo((440 * 2.5) / 3, 9);
  });

  it('places in a group are counted from it', () => {
    const { unit, keys } = read(
      rolledUp(`group kitchen at 2 m back, 600 mm left, 400 mm up {
    fitting sink 4 kg at 100 mm ahead, 450 mm up
    fitting stove 8 kg at 300 mm behind sink, 100 mm right
    group drawers at 500 mm back { fitting box 2 kg }
  }
  fitting lamp 1 kg at kitchen.sink, 2 m up
  fitting fan 1 kg at 200 mm behind kitchen, 2 m up
  fitting bulk 300 kg at 3 m back, 500 mm up`),
    );
    const at = Object.fromEntries(
      unit('Plan').parts.map(({ name, body: { centre } }) => [name, [-centre.x, centre.y, centre.z]]),
    );
    const close = (name: string, place: number[]) => expectClose(at[name], place);
    close('kitchen.sink', [1.9, 0.6, 0.85]);
    close('kitchen.stove', [2.2, 0.5, 0.4]);
    close('kitchen.drawers.box', [2.5, 0.6, 0.4]);
    close('lamp', [1.9, 0.6, 2]);
    close('fan', [2.2, 0, 2]);
    expect(keys).not.toContain('unknown-name');
  });

  it('counts parts beside a tare on top of it, and says so', () => {
    const { value, assumptions } = read(trailer('fitting box 26 kg at 1 m back, 1 m up'));
    expect(value('Hauler', 'Hauler.mass')).toBeCloseTo(266, 9);
    // (240·2.45 + 26·1) / 2.6
    expect(value('Hauler', 'Hauler.axles.load')).toBeCloseTo((588 + 26) / 2.6, 9);
    expect(assumptions('Hauler')).toContain('tare of Hauler is stated, so its 1 listed part is counted on top of it');
  });

  it('a material of the wrong kind is told', () => {
    expect(read(rolledUp('panel p 1 x 1 m of channel at 1 m back, 1 m up')).keys).toContain('wrong-kind');
    expect(read(rolledUp('member p 1 m of ply at 1 m back, 1 m up')).keys).toContain('wrong-kind');
    expect(read(rolledUp('panel p 1 x 1 m at 1 m back, 1 m up')).messages[0]).toContain('its material');
    expect(read(rolledUp('panel p 1 x 1 m of pli at 1 m back, 1 m up')).messages[0]).toContain("the nearest is 'ply'");
  });
});

describe('places', () => {
  const centre = (lines: string, name = 'f') => {
    const { unit, messages } = read(trailer(lines));
    const part = unit('Hauler').parts.find((each) => each.name === name);
    return part ? [-part.body.centre.x, part.body.centre.y, part.body.centre.z] : messages;
  };
  it.each([
    ['fitting f 3 kg at 300 mm behind axles, 1 m up', [2.9, 0, 1]],
    ['fitting f 3 kg at 300 mm ahead of axles, 200 mm right, 1 m up', [2.3, -0.2, 1]],
    ['fitting f 3 kg at axles, 1 m up', [2.6, 0, 1]],
    ['fitting f 3 kg at 1 m behind coupling, 100 mm above coupling', [1, 0, 0.53]],
    ['fitting g 1 kg at 1 m back, 500 mm left, 2 m up\n  fitting f 3 kg at g, 200 mm below g', [1, 0.5, 1.8]],
    [
      'fitting f 3 kg at g, 200 mm right of g, 100 mm behind g\n  fitting g 1 kg at 1 m back, 500 mm left, 2 m up',
      [1.1, 0.3, 2],
    ],
    ['let a = 1 m\n  fitting f 3 kg at a / 2 + 100 mm back, 1 m up', [0.6, 0, 1]],
    ['fitting f 3 kg at 1 m ahead, 1 m down', [-1, 0, -1]],
  ])('%s', (lines, place) => {
    const found = centre(lines);
    expectClose(found, place);
  });

  it('circles are told once, name their members, and leave no loads', () => {
    const text = trailer(
      'fitting a 3 kg at 1 m behind b, 1 m up\n  fitting b 3 kg at 1 m behind c, 1 m up\n  fitting c 3 kg at 1 m behind a, 1 m up',
    );
    const { messages, unit, result } = read(text);
    expect(messages).toEqual(['The place of a → b → c → a is counted from itself.']);
    expect(unit('Hauler').computable).toBe(false);
    expect(result('Hauler').states).toEqual([]);
    expect(read(trailer('fitting a 3 kg at 1 m behind a, 1 m up')).keys).toEqual(['place-cycle']);
  });

  it('what hangs on a thing without a place is not reported again', () => {
    const { keys } = read(trailer('fitting a 3 kg, 1 m up\n  fitting b 3 kg at 1 m behind a, 1 m up'));
    expect(keys).toEqual(['missing-place']);
    expect(read(trailer('fitting b 3 kg at 1 m behind nothing, 1 m up')).keys).toEqual(['unknown-name']);
    expect(read(trailer('fitting b 3 kg at 1 kg back, 1 m up')).keys).toEqual(['dimension-mismatch']);
  });

  it('a direction twice, and a distance without direction, are told', () => {
    expect(read(trailer('fitting b 3 kg at 1 m back, 2 m ahead, 1 m up')).keys).toEqual(['repeated-direction']);
    expect(read(trailer('fitting b 3 kg at 1 m, 1 m up')).keys).toEqual(['unexpected-part']);
  });

  it('above a thing of no stated height counts from the height taken for it, and says so', () => {
    const { unit, assumptions } = read(
      trailer('fitting a 1 kg at 1 m back\n  fitting f 3 kg at 1 m back, 300 mm above a'),
    );
    expect(unit('Hauler').parts.at(-1)?.body.centre.z).toBeCloseTo(1, 12);
    expect(assumptions('Hauler')).toContain('height of a in Hauler not stated: 700 mm up taken');
  });
});
