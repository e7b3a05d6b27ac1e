import { describe, expect, test } from 'vitest';
import { wordDocumentation } from '../../../language/services/hover/words.ts';
import { hover } from '../../../language/services/index.ts';
import { ARGUMENTS, DIRECTIONS, FLAGS, RELATIONS, STATEMENTS } from '../../../language/syntax/vocabulary.ts';
import { analyseMarked, URI } from './markers.ts';
import { caretAt, YARD } from './yard.ts';

function hoverOn(source: string, files: Readonly<Record<string, string>> = {}): string {
  const { analysis, offset } = analyseMarked(source, files);
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
}

describe('keywords', () => {
  test('a head shows documentation and example of the vocabulary', () => {
    const tank = STATEMENTS.find(({ keyword }) => keyword === 'tank');
    const text = hoverOn(caretAt(YARD, 'tank fresh'));
    expect(text).toContain(tank?.documentation);
    expect(text).toContain(`\`\`\`rig\n${tank?.example}\n\`\`\``);
  });

  test('a synonym says what it is read as', () => {
    expect(hoverOn('vehicle T {\n  ke|rb 3 kg\n}\n')).toContain('read as `tare`');
  });

  test('arguments, flags and words of place', () => {
    expect(hoverOn(caretAt(YARD, 'holds'))).toContain(ARGUMENTS.holds.documentation);
    expect(hoverOn(caretAt(YARD, 'single'))).toContain(FLAGS.arrangement.single);
    expect(hoverOn(caretAt(YARD, 'behind'))).toContain('Towards the rear');
    expect(hoverOn(caretAt(YARD, 'between'))).toContain('Both ends');
  });

  test('every direction and relation of the vocabulary is explained', () => {
    for (const word of [...Object.keys(DIRECTIONS), ...Object.keys(RELATIONS)]) {
      expect(wordDocumentation(word), word).toBeDefined();
    }
  });

  test('a market', () => {
    expect(hoverOn(caretAt(YARD, 'AU'))).toContain('Australia');
  });
});

describe('numbers and units', () => {
  test('a number with a unit: in SI and in the other system', () => {
    // 1 in = 25.4 mm: NIST SP 811, Appendix B.
    expect(hoverOn('item a 1 kg size 254| x 100 x 100 mm\n')).toBe('**254 mm** = 10 in = 0.254 m (a length)');
  });

  test('a compound measure is added up', () => {
    // 11 ft 3 in = 135 in = 3.429 m.
    expect(hoverOn('let a = 11 ft |3 in\n')).toContain('= 3.429 m (a length, added up)');
  });

  test('fractions, and numbers without a unit', () => {
    expect(hoverOn('let a = 3 3|/4 in\n')).toContain('95.25 mm');
    expect(hoverOn('let a = 2| * 3 mm\n')).toBe('');
  });

  test('a unit: dimension, factor, source', () => {
    // 1 lb = 0.45359237 kg exactly: NIST SP 811, Appendix B.
    const text = hoverOn('item a 3 l|b\n');
    expect(text).toContain('unit of a mass: 1 lb = 0.45359237 kg');
    expect(text).toContain('NIST SP 811');
  });
});

describe('catalogue', () => {
  test('a built-in fluid: density, range and source', () => {
    const text = hoverOn(caretAt(YARD, 'diesel'));
    // EN 590: 820 to 845 kg/m³ at 15 °C.
    expect(text).toContain('(0.82 kg/L to 0.845 kg/L)');
    expect(text).toContain('EN 590');
  });

  test('a fluid, material and tyre of the file', () => {
    const file = 'fluid brine 1.15 kg/L "Brine"\nmaterial sheet 6.4 kg/m²\ntyre wide "195R14C 106/104Q" at 450 kPa\n';
    expect(hoverOn(caretAt(file, 'brine'))).toContain('**brine** — fluid “Brine”: 1.15 kg/L');
    expect(hoverOn(caretAt(file, 'sheet'))).toContain('6.4 kg/m²');
    const text = hoverOn(caretAt(`${file}trailer T {\n  axles single at 3 m back { tyres 2 x wide }\n}\n`, 'wide }'));
    // Load index 104 = 900 kg, speed symbol Q = 160 km/h: UN Regulation No. 54.
    expect(text).toContain('Load index 106: 950 kg a tyre, load index 104 in twin fitting: 900 kg.');
    expect(text).toContain('160 km/h');
  });

  test('a marking', () => {
    expect(hoverOn(caretAt(YARD, '195R14C'))).toContain('Load index 106: 950 kg');
  });

  test('a named quantity, of the file and of a block', () => {
    expect(hoverOn('let bench = 2 * 300 mm + 18 mm\nlet x = 3 * be|nch\n')).toContain('**618 mm**');
    const local = 'trailer T {\n  let gap = 200 mm\n  fitting f 3 kg at g|ap back\n}\n';
    expect(hoverOn(local)).toContain('**200 mm**');
  });

  test('a used file: the names it brings', () => {
    const text = hoverOn('use "it|ems.rig"\n', { 'items.rig': 'item a 1 kg\nitem b 2 kg\n' });
    expect(text).toBe('Declares a and b.');
  });
});

describe('nothing to say', () => {
  test.each(['|', '# com|ment\n', '\n\n|\n', 'item a 3 kg  |  \n'])('%j', (source) => {
    expect(hoverOn(source)).toBe('');
  });

  test('a document that is not there', () => {
    const { analysis } = analyseMarked('item a 3 kg\n');
    expect(hover(analysis, 'file:///yard/other.rig', 3)).toBeUndefined();
  });
});

test('what the author wrote is shown as written, not as markup', () => {
  expect(hoverOn('item t|ool 3 kg "a *b* [c]"\n')).toContain('“a \\*b\\* \\[c\\]”');
});
