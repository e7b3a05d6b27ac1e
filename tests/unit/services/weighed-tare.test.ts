import { describe, expect, test } from 'vitest';
import { analyse, openDocument } from '../../../language/index.ts';
import { fixes } from '../../../language/services/index.ts';
import { applied, errors, fixTitled, messages, offeredAt, offeredFor } from './fixes-support.ts';
import { analyseMarked, URI, uriOf } from './markers.ts';

const TARE = 'tare 300 kg at 2700 mm back, 500 mm up, inertia 400 kg·m²';

const TRUCK = `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  kerb 1200 kg on front, 800 kg on rear, 600 mm up, inertia 3000 kg·m²
  hitch ball at 1000 mm behind rear, 440 mm up
}
`;

const cart = (tare = TARE): string => `trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm
  ${tare}
  brakes overrun
}
`;

const rig = (lines: string): string =>
  `rig Errand {\n  tow Truck\n  haul Cart\n  case bare { }\n  weighing october {\n    accuracy 1 kg\n    ${lines}\n  }\n}\n`;

/** 60 kg more at 2400 mm, by the lever: (300·2700 + 60·2400) / 3000 = 318 kg on the axle, 42 kg on the coupling. */
const HEAVIER = 'solo Cart { axles 318 kg  coupling 42 kg }';

const offered = (source: string) => offeredAt(source, 'october');
const takeOver = (source: string, title = 'Take over the weighed tare of Cart') =>
  applied(source, fixTitled(offered(source), title));

describe('the weighed tare', () => {
  test('goes into the tare line, with what it was in a comment; then the slip agrees', () => {
    const source = TRUCK + cart() + rig(HEAVIER);
    // x = 3000·A/(A + C): ± 3000/360²·√(42² + 318²) = 7.43 mm for ± 1 kg on the axle A and on the coupling C.
    const { fixes: all } = offeredFor(source, 'slip-disagrees');
    expect(all.map(({ title }) => title.replaceAll('\u202f', ' '))).toEqual([
      'Take over the weighed tare of Cart: 360 kg ± 1.4 kg, 2 650 mm ± 7.4 mm back, in place of 300 kg',
    ]);
    const mended = takeOver(source);
    expect(mended).toContain(
      '  tare 360 kg at 2650 mm back, 500 mm up, inertia 400 kg·m²  # was 300 kg at 2700 mm back, 500 mm up\n  brakes',
    );
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
    expect(errors(mended)).toEqual([]);
    expect(offered(mended).fixes).toEqual([]);
  });

  test.each([
    [
      'a comment behind the line',
      `${TARE} # by the plate`,
      'inertia 400 kg·m² # by the plate; was 300 kg at 2700 mm back, 500 mm up\n',
    ],
    [
      'a place from a thing',
      TARE.replace('2700 mm back', '300 mm ahead of axles'),
      'tare 360 kg at 2650 mm back, 500 mm up',
    ],
    [
      'no place across, where there is nothing to change',
      TARE.replace('500 mm up', '0 mm left, 500 mm up'),
      '360 kg at 2650 mm back, 0 mm left, 500 mm up',
    ],
    ['a tolerance', TARE.replace('300 kg at', '300 kg ± 3 kg at'), 'tare 360 kg ± 3 kg at 2650 mm back'],
    [
      'several lines',
      TARE.replace(', 500', ',\n    500'),
      'tare 360 kg at 2650 mm back,\n    500 mm up, inertia 400 kg·m²  # was 300 kg at 2700 mm back, 500 mm up\n',
    ],
  ])('keeps %s', (_, tare, expected) => {
    const source = TRUCK + cart(tare) + rig(HEAVIER);
    const mended = takeOver(source);
    expect(mended).toContain(expected);
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
    expect(errors(mended)).toEqual([]);
  });

  test('of readings by support changes each of them', () => {
    const source = TRUCK + cart('tare 270 kg on axles, 30 kg on coupling, 500 mm up, inertia 400 kg·m²') + rig(HEAVIER);
    const mended = takeOver(source);
    expect(mended).toContain(
      'tare 318 kg on axles, 42 kg on coupling, 500 mm up, inertia 400 kg·m²  # was 270 kg on axles, 30 kg on coupling, 500 mm up',
    );
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
  });

  test('is that of all slips together, unless they disagree', () => {
    const second = (readings: string) =>
      `  weighing november {\n    accuracy 1 kg\n    solo Cart { ${readings} }\n  }\n}\n`;
    const source = (readings: string) => TRUCK + cart() + rig(HEAVIER).replace(/}\n$/, second(readings));
    const titles = (text: string, at: string) =>
      offeredAt(text, at).fixes.map(({ title }) => title.replaceAll('\u202f', ' '));
    const agreed = source('axles 320 kg  coupling 42 kg');
    // The mean of 360 and 362 kg, ± √2/√2 kg.
    for (const slip of ['october', 'november'])
      expect(titles(agreed, slip)).toEqual([
        expect.stringMatching(
          /^Take over the weighed tare of Cart: 361 kg ± 1 kg, .* in place of 300 kg \(october and november together\)$/,
        ),
      ]);
    const mended = applied(agreed, fixTitled(offeredAt(agreed, 'november'), 'Take over'));
    expect(mended).toContain('tare 361 kg at 265');
    expect(mended).toContain('# was 300 kg at 2700 mm back, 500 mm up');
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
    expect(messages(mended, 'slips-disagree')).toEqual([]);
    const torn = source('axles 418 kg  coupling 42 kg');
    expect(titles(torn, 'october')).toEqual([expect.stringMatching(/Cart: 360 kg ± 1\.4 kg,[^(]*$/)]);
    expect(titles(torn, 'november')).toEqual([expect.stringMatching(/Cart: 460 kg ± 1\.4 kg,[^(]*$/)]);
  });

  test('of a vehicle, and the height where an end was raised', () => {
    // Front raised by 15°, centre at 800 mm instead of 600: R = 1230 − (0.8 − 0.32)·tan 15°·2050/3 (ISO 10392, axle
    // lift).
    const raised = (1230 - (0.48 * Math.tan(Math.PI / 12) * 2050) / 3).toFixed(3);
    const source =
      TRUCK +
      cart() +
      rig(`solo Truck { front 1230 kg  rear 820 kg }
    raised Truck.front 15 deg, wheel_radius 320 mm { front ${raised} kg }`);
    const mended = takeOver(source, 'Take over the weighed tare of Truck');
    expect(mended).toMatch(
      /kerb 1230 kg on front, 820 kg on rear, 800 mm up, inertia 3000 kg·m² {2}# was 1200 kg on front, 800 kg on rear, 600 mm up\n/,
    );
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
  });

  test('leaves a height alone that the slip does not refute', () => {
    // 5 kg heavier all round; the height comes out at 610 mm with a standard error of some 18 mm.
    const raised = (1230 - (0.29 * Math.tan(Math.PI / 12) * 2050) / 3).toFixed(3);
    const source =
      TRUCK.replace('1200 kg on front, 800 kg on rear', '2000 kg at 1200 mm back') +
      cart() +
      rig(`solo Truck { front 1230 kg  rear 820 kg }
    raised Truck.front 15 deg, wheel_radius 320 mm { front ${raised} kg }`);
    expect(takeOver(source, 'Take over the weighed tare of Truck')).toMatch(/kerb 2050 kg at 1200 mm back, 600 mm up,/);
  });

  test('counts without what is listed on top of it', () => {
    const source =
      TRUCK +
      cart(`${TARE}\n  fitting rack 20 kg at 2700 mm back, 500 mm up`) +
      rig('solo Cart { axles 336 kg  coupling 44 kg }');
    // 380 kg less the rack's 20 kg at 2700 mm: (336·3000 − 20·2700) / 360 = 2650 mm.
    expect(takeOver(source)).toContain('tare 360 kg at 2650 mm back');
  });

  test('is written in pounds and inches where the unit is', () => {
    const us = cart('tare 660 lb at 106 in back, 20 in up, gyration 40 in')
      .replaceAll('3000 mm', '118 in')
      .replaceAll('1500 mm', '60 in')
      .replaceAll('440 mm', '17 in');
    const mended = takeOver(TRUCK + us + rig(HEAVIER));
    expect(mended).toMatch(
      /tare 79[34](\.\d)? lb at 10[34](\.\d)? in back, 20 in up, gyration 40 in {2}# was 660 lb at 106 in back, 20 in up\n/,
    );
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
  });

  test('is edited in the file of the trailer', () => {
    const source = `use "cart.rig"\n${TRUCK}${rig(HEAVIER)}`;
    const files = { 'cart.rig': cart() };
    const { analysis } = analyseMarked(source, files);
    const at = source.indexOf('october');
    const [fix, ...others] = fixes(analysis, URI, { start: at, end: at });
    if (fix === undefined) throw new Error('nothing offered');
    expect(others).toEqual([]);
    expect(new Set(fix.edits.map(({ uri }) => uri))).toEqual(new Set([uriOf('cart.rig')]));
    const mended = applied(files['cart.rig'], fix);
    expect(mended).toContain('tare 360 kg at 2650 mm back');
    const again = analyse({
      documents: new Map([
        [URI, { kind: 'text', syntax: openDocument(source) }],
        [uriOf('cart.rig'), { kind: 'text', syntax: openDocument(mended) }],
      ]),
    });
    expect(again.diagnostics(URI).filter(({ key }) => key === 'slip-disagrees')).toEqual([]);
  });

  test.each([
    ['while the slip goes with the file', cart(), 'solo Cart { axles 270 kg  coupling 30 kg }'],
    ['without the mass', cart(), 'Cart.axles 318 kg'],
    ['while readings contradict each other', cart(), `${HEAVIER}\n    Cart.axles 318 kg\n    Cart.coupling 52 kg`],
    [
      'where something else stands behind the line',
      cart(`${TARE}  off_road_note`).replace('off_road_note', 'berths 2'),
      HEAVIER,
    ],
    [
      'for a place that a thing gives',
      cart('locker bed at 2700 mm back, floor 500 mm up\n  tare 300 kg at bed, inertia 400 kg·m²'),
      HEAVIER,
    ],
  ])('is not offered %s', (_, trailer, lines) => {
    const source = TRUCK + trailer + rig(lines);
    expect(offered(source).fixes.filter(({ title }) => title.includes('Take over'))).toEqual([]);
  });

  test('is not offered for the line of an original', () => {
    const source = `${TRUCK}${cart()}variant Other of Cart { berths 2 }\n${rig(HEAVIER).replaceAll('Cart', 'Other')}`;
    expect(messages(source, 'slip-disagrees')).toHaveLength(1);
    expect(offered(source).fixes).toEqual([]);
  });
});

describe('a tare that is the sum of its parts', () => {
  const PARTS =
    'body from 1000 mm to 4000 mm back, width 1800 mm\n  fitting frame 200 kg at 2700 mm back, 500 mm up\n  fitting deck 100 kg at 2700 mm back, 500 mm up';

  test('gets what it lacks as a fitting, where it must be', () => {
    const source = TRUCK + cart(PARTS) + rig(HEAVIER);
    const mended = takeOver(source, 'Add to Cart what its parts lack');
    expect(mended).toContain('\n  fitting unlisted 60 kg at 2400 mm back  # from weighing october\n}\nrig Errand');
    expect(messages(mended, 'slip-disagrees')).toEqual([]);
    expect(errors(mended)).toEqual([]);
  });

  test('less what the growth allowance adds to it', () => {
    const source = TRUCK + cart(`${PARTS}\n  growth 5 %`) + rig('solo Cart { axles 333 kg  coupling 45 kg }');
    // 378 − 315 = 63 kg, of which 3 kg are growth.
    expect(takeOver(source, 'Add to Cart')).toContain('fitting unlisted 60 kg at ');
  });

  test.each([
    ['where the parts weigh too much', 'solo Cart { axles 220 kg  coupling 20 kg }'],
    ['where its place would be outside the body', 'solo Cart { axles 270 kg  coupling 60 kg }'],
  ])('is left alone %s', (_, lines) => {
    const source = TRUCK + cart(PARTS) + rig(lines);
    expect(messages(source, 'slip-disagrees')).toHaveLength(1);
    expect(offered(source).fixes).toEqual([]);
  });
});
