import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../language/index.ts';
import { ARGUMENTS, DIRECTIONS, FLAGS, RELATIONS, STATEMENTS } from '../../language/syntax/vocabulary.ts';
import { apply, FILES, fit, randomEdit } from '../laws/rig-texts.ts';
import { read, trailer, uriOf, vehicle, workspaceOf } from './semantics/support.ts';
import { expectSound } from './sound.ts';

const KEYWORDS = [
  ...STATEMENTS.flatMap(({ keyword, synonyms }) => [keyword, ...(synonyms ?? [])]),
  ...Object.keys(ARGUMENTS),
  ...Object.values(FLAGS).flatMap((group) => Object.keys(group)),
  ...Object.keys(DIRECTIONS),
  ...Object.keys(RELATIONS),
];
const NAMES = [
  'Hauler',
  'Truck',
  'bottle',
  'axles',
  'front',
  'rear',
  'fresh',
  'bed',
  'x',
  'constructor',
  '__proto__',
  'toString',
];
const VALUES = [
  '0',
  '1',
  '-3',
  '2600 mm',
  '0 mm',
  '1e308 kg',
  '1e-308 m',
  '1e999 kg',
  '3/0 in',
  '3 5/4 in',
  '40 %',
  '12 kg',
  '7 L',
  '2 x',
  '1e12 m',
  '1e12 kg',
  '3 kg/m²',
  '1e12 N/m',
  '300 kPa',
  '"195R14C 106/104Q"',
  '9 m/s²',
  '50 km/h',
  '4 kN·m',
  '"',
];
const SIGNS = [
  '{',
  '}',
  '{',
  '}',
  '\n',
  '\n',
  '\n',
  ',',
  '(',
  ')',
  '=',
  '+',
  '-',
  '*',
  '/',
  '.',
  '±',
  '<=',
  'to',
  'and',
  '#',
  '##',
  '\0',
  '\r',
  '<<<<<<<',
  '\n=======\n',
];

const soup = fc
  .array(fc.oneof(...[KEYWORDS, KEYWORDS, NAMES, VALUES, SIGNS].map((words) => fc.constantFrom(...words))), {
    maxLength: 120,
  })
  .map((words) => words.join(' ').replaceAll('\n ', '\n'));

/** A line of a unit or rig as the vocabulary has it, with another value or word in one place. */
const mutant = fc
  .tuple(fc.constantFrom(...STATEMENTS), fc.nat(20), fc.constantFrom(...VALUES, ...NAMES, ...KEYWORDS, ''))
  .map(([{ example }, place, word]) => {
    const parts = example.split(/(?<=[ ,])/);
    parts.splice(place % parts.length, 1, `${word} `);
    return parts.join('');
  });

describe('any input at all', { timeout: 30_000 }, () => {
  it('random edits of good files', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...Object.keys(FILES)), randomEdit), { minLength: 1, maxLength: 25 }),
        (edits) => {
          const files = { ...FILES };
          for (const [name, edit] of edits) files[name] = apply(files[name] ?? '', fit(edit, files[name] ?? ''));
          expectSound(analyse(workspaceOf(files)));
        },
      ),
      { numRuns: 40, seed: 1 },
    );
  });

  it('soup of the words of the language', () => {
    fc.assert(
      fc.property(soup, (text) => expectSound(analyse(workspaceOf({ ...FILES, 'main.rig': text })))),
      { numRuns: 80, seed: 2 },
    );
  });

  it('lines with odd values in units and rigs', () => {
    fc.assert(
      fc.property(
        fc.array(mutant, { minLength: 1, maxLength: 5 }),
        fc.array(mutant, { maxLength: 3 }),
        (inside, rig) => {
          const lines = inside.join('\n  ');
          const text = `${trailer(lines)}${vehicle(lines)}rig R {\n  tow Truck\n  haul Hauler\n  ${rig.join('\n  ')}\n}\n`;
          expectSound(analyse(workspaceOf({ ...FILES, 'main.rig': text })));
        },
      ),
      { numRuns: 70, seed: 3 },
    );
  });

  it('any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) =>
        expectSound(analyse(workspaceOf({ 'main.rig': text }))),
      ),
      { numRuns: 60, seed: 4 },
    );
  });

  it('huge and tiny numbers reach no report', () => {
    const numbers = ['1e12', '1e11', '1e-12', '1e-300', '1e300', '5e-324', '1.7e308'];
    const places = [
      ['2600 mm', (number: string) => `${number} m`],
      ['1500 mm', (number: string) => `${number} m`],
      ['240 kg', (number: string) => `${number} kg`],
      ['2450 mm', (number: string) => `${number} m`],
      ['520 mm', (number: string) => `${number} m`],
      ['210 kg·m²', (number: string) => `${number} kg·m²`],
      ['430 mm', (number: string) => `${number} m`],
    ] as const;
    for (const number of numbers) {
      for (const [figure, write] of places) {
        const unit = trailer('tank a 3 L of water at 1 m back, 1 m up').replace(figure, write(number));
        const text = `${vehicle()}${unit}rig R { tow Truck\n haul Hauler\n travel 90 km/h, grades -8 % to 8 %, braking 3 m/s² }`;
        expectSound(analyse(workspaceOf({ 'main.rig': text })));
      }
    }
  });
});

describe('names that objects have', () => {
  it.each(['constructor', '__proto__', 'toString', 'hasOwnProperty', 'valueOf', 'prototype'])('%s', (name) => {
    const text = `item ${name} 3 kg
fluid ${name}_fluid 1.2 kg/L
let ${name}_let = 300 mm
${vehicle(`seat ${name} 70 kg at 1 m back, 700 mm up`)}${trailer(
  `let ${name} = 500 mm
  tank ${name}_tank 10 L of ${name}_fluid at ${name} back, 500 mm up
  locker ${name}_bed from ${name}_let to 900 mm back, floor 500 mm up`,
  `${name}_Trailer`,
)}rig ${name}_Rig {
  tow Truck with ${name}
  haul ${name}_Trailer
  stow 2 x ${name} in ${name}_bed
  case ${name} { ${name}_tank 50 % }
  require ${name}_Trailer.mass at most 2 t in ${name}
}
`;
    const { keys, value, analysis } = read(text);
    expect(keys.filter((key) => key !== 'coupling-share-low' && key !== 'coupling-share-high')).toEqual([]);
    // 240 kg of trailer, 10 L of 1.2 kg/L half full, 2 x 3 kg.
    expect(value(`${name}_Rig`, `${name}_Trailer.mass`, name)).toBeCloseTo(240 + 6 + 6, 9);
    expectSound(analysis);
  });

  it.each(['constructor', '__proto__', 'toString', 'hasOwnProperty'])(
    '%s where nothing of the kind is declared',
    (name) => {
      const texts = [
        `${name}.\n`,
        `${name} 3 kg\n`,
        `${name} {\n`,
        trailer(`${name} 3 kg`),
        trailer(`tank a 3 L of ${name} at 1 m back`),
        trailer(`fitting a 3 kg at 1 m behind ${name}`),
        `rig R { tow ${name}\n ${name} 3 }`,
        `variant V of ${name} { without ${name} }`,
        `item a 3 ${name}\n`,
        `let a = ${name}\n`,
        `item a 3 kg ${name} 4\n`,
        `tyre t "${name}"\n`,
      ];
      for (const text of texts) {
        const { analysis, diagnostics } = read(text);
        expectSound(analysis);
        expect(diagnostics.some(({ severity }) => severity === 'error')).toBe(true);
      }
    },
  );
});

describe('values out of all reason', () => {
  it.each([
    ['item a 1e999 kg', 'too-large'],
    ['item a 1e13 kg', 'too-large'],
    ['item a -3 kg', 'out-of-range'],
    ['item a 3/0 kg', 'not-a-number'],
    ['item a 3 5/4 kg', 'not-a-number'],
    ['item a 1e-999 kg', 'not-a-number'],
    ['let a = 1e300 * 1e300', 'too-large'],
    ['let a = 3 kg / (2 - 2)', 'division-by-zero'],
    ['-3 axles', 'syntax-error'],
    [trailer('-3 axles'), 'unexpected-part'],
    [trailer('fitting f 3 kg at 1e999 m back, 1 m up'), 'too-large'],
    [trailer().replace('240 kg', '0 kg'), 'out-of-range'],
    [trailer().replace('track 1500 mm', 'track -1 m'), 'out-of-range'],
    [trailer().replace('2600 mm back', '0 mm back'), 'no-loads'],
    [trailer().replace('2600 mm back', '1 m ahead'), 'no-loads'],
    [trailer('fitting f 0 x 3 kg at 1 m back, 1 m up'), 'not-whole'],
    [trailer('fitting f 10001 x 3 kg at 1 m back, 1 m up'), 'not-whole'],
  ])('%j: %s', (text, key) => {
    const { analysis, diagnostics } = read(text);
    expect(diagnostics.map((diagnostic) => diagnostic.key)).toContain(key);
    expectSound(analysis);
  });
});

describe('files that cannot be had', () => {
  it.each(['missing', 'outside', 'unreadable'] as const)('%s', (kind) => {
    const { keys, marked } = read('use "gone.rig"\nitem a 3 kg\n', { 'gone.rig': kind });
    expect(keys).toEqual([`file-${kind}`]);
    expect(marked(`file-${kind}`)).toBe('"gone.rig"');
  });
  it('one the workspace does not know is missing', () => {
    expect(read('use "gone.rig"').keys).toEqual(['file-missing']);
  });
  it('circles of use are told in each file of the circle, and names are found all the same', () => {
    const { keys, analysis, messages } = read('use "b.rig"\nlet x = b', {
      'b.rig': 'use "c.rig"\nlet b = c',
      'c.rig': 'use "main.rig"\nlet c = 3 kg',
    });
    expect(keys).toEqual(['use-cycle']);
    expect(messages[0]).toContain('main.rig → b.rig → c.rig → main.rig');
    for (const name of ['b.rig', 'c.rig'])
      expect(analysis.diagnostics(uriOf(name)).map(({ key }) => key)).toEqual(['use-cycle']);
    expect(read('use "main.rig"').keys).toEqual(['use-cycle']);
  });
});
