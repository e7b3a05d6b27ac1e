import { describe, expect, test } from 'vitest';
import { completions, definition, documentSymbols, hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { caretAt, TRAILER, TRUCK } from './yard.ts';

const UNITS = `${TRUCK}${TRAILER.replace('tank fresh', '# tank fresh')}`;

/**
 * 300 kg at 2800 mm and 5 kg of rack: see the hover tests of the yard. The slip has 50 kg more on the axle than the
 * file.
 */
const RIG = `rig Delivery {
  tow Truck
  haul Cart
  case bare { fuel 0 % }
  ## After the new floor.
  weighing october "Works scale" {
    scale 2 kg
    Cart.axles 334 kg
    solo Cart { axles 334 kg  coupling 22 kg }
    raised Truck.front 12 deg, wheel_radius 340 mm { front 1150 kg }
  }
}
`;

const SOURCE = UNITS + RIG;

const hoverOn = (text: string, index = 0): string => {
  const { analysis, offset } = analyseMarked(caretAt(SOURCE, text, index));
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
};

const lineOf = (markdown: string, start: string): string =>
  markdown.split('\n').find((line) => line.startsWith(start)) ?? '';

describe('a hover', () => {
  test('on a slip shows its readings beside what is computed, the tares, and what is missing', () => {
    const text = hoverOn('october');
    expect(text).toMatch(/^\*\*october\*\* — weighing of Delivery in case bare “Works scale”\n\nAfter the new floor\./);
    expect(text).toContain('The scale has a division of 2 kg, a standard deviation of 0.58 kg (a division / √12).');
    expect(text).toContain('| weighed | reading | read | computed | difference | tolerance |   |');
    // (300·2800 + 4·2100 + 1·2300) / 3000 = 283.57 kg on the axle, 21.43 kg on the coupling.
    expect(lineOf(text, '| coupled up | Cart.axles |')).toBe(
      '| coupled up | Cart.axles | 334 kg | 284 kg | +50.4 kg | 1.2 kg | **beyond tolerance** |',
    );
    expect(lineOf(text, '| Cart alone | Cart.coupling |')).toBe(
      '| Cart alone | Cart.coupling | 22 kg | 21.4 kg | +0.6 kg | 1.2 kg | agrees |',
    );
    expect(lineOf(text, '| Truck alone with front raised by 12 deg, wheel centres 340 mm up |')).toContain(
      '| 1 150 kg |',
    );
    // Two readings of the axle: the mean, so ± 0.577·√(1 + 1/2) kg.
    expect(lineOf(text, '| Cart | mass |')).toBe('| Cart | mass | 305 kg | 356 kg ± 0.71 kg |');
    expect(lineOf(text, '| Truck | mass |')).toBe('| Truck | mass | 2 000 kg | not determined |');
    expect(text).toContain('The slip says that Cart weighs 51 kg ± 0.71 kg more than the file has it, about 2 967 mm');
    expect(text).toContain('The readings agree with each other: 1 more than needed.');
    expect(text).toContain('Missing to determine the rest: for Truck all its axles uncoupled');
    expect(text).toContain('it is taken for granted that springs were blocked');
    expect(text).toContain('A reading on a good scale outranks a computed load');
  });

  test('on a slip that others belong to shows what they say together', () => {
    const joint = (readings: string): string => {
      const slip = `weighing november { scale 2 kg  solo Cart { ${readings} } }\n}\n`;
      const { analysis, offset } = analyseMarked(caretAt(SOURCE.replace(/}\n$/, slip), 'october', 0));
      return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
    };
    const agreed = joint('axles 334 kg  coupling 22 kg');
    const [before = '', after = ''] = agreed.split('**october and november together**');
    expect(before).toContain('of 4 readings beyond tolerance: the file is off, or the case is.');
    expect(before).not.toContain('Missing to determine');
    expect(after).toContain('| tare |   | file | slips |');
    expect(lineOf(after, '| Cart | mass |')).toMatch(/^\| Cart \| mass \| 305 kg \| 356 kg ± 0\.\d\d kg \|$/);
    expect(after).toContain('The slips agree with each other: together 3 more readings than needed.');
    expect(after).toContain('Missing to determine the rest: for Truck');
    const torn = joint('axles 434 kg  coupling 22 kg');
    expect(torn).toContain('october and november disagree with each other: by november Cart weighs 100 kg');
    expect(torn).not.toContain('| slips |');
  });

  test('names a difference once, with what it is made of', () => {
    const slip =
      'scale 2 kg\n    Truck.front 1200 kg  Truck.rear 820 kg\n    solo Truck { front 1210 kg  rear 790 kg }';
    const { analysis, offset } = analyseMarked(caretAt(SOURCE.replace('scale 2 kg', slip), 'october', 0));
    const text = hover(analysis, URI, offset)?.markdown ?? '';
    expect(lineOf(text, '| Cart.coupling.load |')).toMatch(
      /^\| Cart\.coupling\.load \| axles of Truck coupled up less Truck alone \| 20 kg ± [\d.]+ kg \| 21\.4 kg \|$/,
    );
  });

  test('on a reading shows that one, also where its name is a keyword elsewhere', () => {
    expect(hoverOn('Cart.axles')).toMatch(/^\*\*Cart\.axles\*\* — reading of weighing october, coupled up\n/);
    const coupling = hoverOn('coupling 22');
    expect(coupling).toMatch(/^\*\*Cart\.coupling\*\* — reading of weighing october, Cart alone\n/);
    expect(coupling).toContain('| 22 kg | 21.4 kg | +0.6 kg | 1.2 kg | agrees |');
    expect(coupling).toContain('No other reading checks it.');
    expect(hoverOn('axles 334', 1)).toContain('The other readings show 50 % of an error in it.');
    expect(hoverOn('front 1150')).toContain('Truck alone with front raised by 12 deg');
  });

  test('on the words of a slip says what they mean', () => {
    expect(hoverOn('solo')).toContain('one unit uncoupled');
    expect(hoverOn('wheel_radius')).toContain('wheel centres above the road');
    expect(hoverOn('scale 2')).toContain('smallest division');
  });
});

test('the outline lists slips with how they stand', () => {
  const { analysis } = analyseMarked(SOURCE);
  const rig = documentSymbols(analysis, URI).find(({ name }) => name === 'Delivery');
  expect(rig?.children.find(({ kind }) => kind === 'weighing')).toMatchObject({
    name: 'october',
    detail: expect.stringMatching(/^[34] of 4 readings beyond tolerance$/),
  });
});

test('a reading leads to the line of what was weighed', () => {
  const { analysis, offset } = analyseMarked(SOURCE.replace('Cart.axles 334', 'Cart.ax|les 334'));
  const [found] = definition(analysis, URI, offset);
  expect(SOURCE.slice(found?.start, found?.end)).toContain('axles');
});

describe('completion', () => {
  const at = (lines: string): readonly string[] => {
    const text = `${UNITS}rig Delivery {\n  tow Truck\n  haul Cart\n  case bare { fuel 0 % }\n  weighing w ${lines}`;
    const { analysis, offset } = analyseMarked(text);
    return completions(analysis, URI, offset).map(({ label }) => label);
  };

  test('offers what can be weighed, then the statements of the block', () => {
    const labels = at('{\n    |\n  }\n}\n');
    expect(labels).toEqual(
      expect.arrayContaining([
        'front',
        'rear',
        'axles',
        'coupling',
        'Cart',
        'Truck',
        'total',
        'Cart.axles',
        'axles.left',
      ]),
    );
    expect(labels.indexOf('axles')).toBeLessThan(labels.indexOf('axles.left'));
    expect(labels).toEqual(expect.arrayContaining(['scale', 'accuracy', 'coupled', 'solo', 'raised']));
    expect(labels).not.toContain('fresh');
    expect(at('{\n    Cart.|\n  }\n}\n')).toEqual(['coupling', 'axles', 'axles.left', 'axles.right']);
  });

  test('of a unit alone, only what it has', () => {
    const labels = at('{\n    solo Truck {\n      |\n    }\n  }\n}\n');
    expect(labels).toEqual(expect.arrayContaining(['front', 'rear', 'Truck', 'total']));
    expect(labels).not.toContain('coupling');
    const raised = at('{\n    raised Cart.coupling 9 deg, wheel_radius 300 mm {\n      |\n    }\n  }\n}\n');
    expect(raised).toEqual(expect.arrayContaining(['coupling', 'axles']));
    expect(raised).not.toContain('axles.left');
  });

  test('of units, their ends, cases and units of mass', () => {
    expect(at('{\n    solo |\n  }\n}\n')).toEqual(['Truck', 'Cart']);
    expect(at('{\n    raised |\n  }\n}\n')).toEqual(['Truck.front', 'Truck.rear', 'Cart.coupling', 'Cart.axles']);
    expect(at('in |')).toEqual(['bare']);
    expect(at('{\n    coupled in |\n  }\n}\n')).toEqual(['bare']);
    const coupled = at('{\n    coupled in bare {\n      |\n    }\n  }\n}\n');
    expect(coupled).toEqual(expect.arrayContaining(['Cart.axles', 'Truck.front', 'total']));
    expect(coupled).not.toContain('solo');
    const units = at('{\n    Cart.axles 334 |\n  }\n}\n');
    expect(units).toEqual(expect.arrayContaining(['kg', 'lb']));
    expect(units).not.toContain('%');
    expect(at('{\n    Cart.axles 334 kg |\n  }\n}\n')).not.toContain('to');
  });
});
