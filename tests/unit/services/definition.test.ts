import { expect, test } from 'vitest';
import { definition } from '../../../language/services/index.ts';
import { analyseMarked, URI, uriOf } from './markers.ts';
import { caretAt, ITEMS, RIG, TRAILER, TRUCK, YARD } from './yard.ts';

/** The text of the lines that a caret leads to, from the name on. */
function targets(source: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  const { analysis, offset } = analyseMarked(source, files);
  return definition(analysis, URI, offset).map(({ uri, start, end }) => {
    const document = analysis.workspace.documents.get(uri);
    const text = document?.kind === 'text' ? document.syntax.text : '';
    const lineStart = text.lastIndexOf('\n', start - 1) + 1;
    return `${text.slice(lineStart, start).trim()} <${text.slice(start, end)}>`.trim();
  });
}

test.each([
  ['a vehicle', caretAt(YARD, 'Truck with'), 'vehicle <Truck>'],
  ['a seat', caretAt(YARD, 'driver\n'), 'seat <driver>'],
  ['an item', caretAt(YARD, 'toolbox in'), 'item <toolbox>'],
  ['the unit of a locker', caretAt(YARD, 'Cart.bed'), 'trailer <Cart>'],
  ['a locker', caretAt(YARD, 'bed\n'), 'locker <bed>'],
  ['a tank by its short name', caretAt(YARD, 'fresh 100 %'), 'tank <fresh>'],
  ['a tank of a unit', caretAt(YARD, 'fuel 50'), 'tank <fuel>'],
  ['the unit of a tank', caretAt(YARD, 'Truck.fuel'), 'vehicle <Truck>'],
  ['a datum without a name', caretAt(YARD, 'axles, 600'), '<axles>'],
  ['an axle of the wheelbase', caretAt(YARD, 'rear, 430'), '<wheelbase>'],
  ['a sibling in a group', caretAt(YARD, 'bar, 50'), 'fitting <bar>'],
  ['a case', caretAt(YARD, 'out "house'), 'case <out>'],
  ['the unit of a computed quantity', caretAt(YARD, 'Cart.coupling'), 'trailer <Cart>'],
  ['a coupling', caretAt(YARD, 'coupling.share'), '<coupling>'],
  ['a quantity of a coupling', caretAt(YARD, 'share between'), '<coupling>'],
  ['a name where it is declared', caretAt(YARD, 'fresh 100 L'), 'tank <fresh>'],
  ['the rig itself', caretAt(YARD.replace('Cart.coupling.share', 'rig.mass'), 'rig.mass'), 'rig <Delivery>'],
])('%s', (_, source, target) => {
  expect(targets(source)).toEqual([target]);
});

test.each([
  ['a tank', 'fresh 0 % to 40 %  Truck', 'tank <fresh>'],
  ['a tank of a unit', 'fuel 20 % to', 'tank <fuel>'],
  ['the unit of a tank', 'Truck.fuel 20', 'vehicle <Truck>'],
  ['a seat', 'driver, toolbox', 'seat <driver>'],
  ['an item', 'toolbox }', 'item <toolbox>'],
])('what a block of reachable states names: %s', (_, text, target) => {
  const block = '  reachable { fresh 0 % to 40 %  Truck.fuel 20 % to 90 %  optional driver, toolbox }\n  require';
  const source = YARD.replace(' absent toolbox', '').replace('  require', block);
  expect(targets(caretAt(source, text))).toEqual([target]);
});

test('names lead into used files', () => {
  const { analysis, offset } = analyseMarked(caretAt(`use "items.rig"\n${TRUCK}${TRAILER}${RIG}`, 'sack in'), {
    'items.rig': ITEMS,
  });
  const start = ITEMS.indexOf('sack');
  expect(definition(analysis, URI, offset)).toEqual([{ uri: uriOf('items.rig'), start, end: start + 4 }]);
});

test('a used file leads to its start; a missing one nowhere', () => {
  const { analysis, offset } = analyseMarked('use "it|ems.rig"\n', { 'items.rig': ITEMS });
  expect(definition(analysis, URI, offset)).toEqual([{ uri: uriOf('items.rig'), start: 0, end: 0 }]);
  expect(targets('use "no|where.rig"\n')).toEqual([]);
});

test('named quantities: of the block before those of the file', () => {
  const source = 'let gap = 1 m\ntrailer T {\n  let gap = 2 m\n  fitting a 3 kg at g|ap back\n}\n';
  const { analysis, offset, text } = analyseMarked(source);
  expect(definition(analysis, URI, offset)[0]?.start).toBe(text.indexOf('gap', 20));
  expect(targets('let gap = 1 m\nlet b = g|ap * 2\n')).toEqual(['let <gap>']);
});

test('a material, a fluid of the file and a tyre', () => {
  const file = 'material sheet 6 kg/m²\nfluid brine 1.1 kg/L\ntyre wide "195R14C 106/104Q"\ntrailer T {\n';
  expect(targets(`${file}  panel a 1 x 1 m of sh|eet at 1 m back\n}\n`)).toEqual(['material <sheet>']);
  expect(targets(`${file}  tank a 1 L of br|ine at 1 m back\n}\n`)).toEqual(['fluid <brine>']);
  expect(targets(`${file}  axles single { tyres 2 x wi|de }\n}\n`)).toEqual(['tyre <wide>']);
});

test('a built-in fluid is declared nowhere', () => {
  expect(targets(caretAt(YARD, 'diesel'))).toEqual([]);
});

test('in a variant: lines of its own, then those of what it varies', () => {
  const variant = `${TRAILER}variant Long of Cart {\n  tank spare 9 L at 1 m back\n}\nrig R {\n  haul Long\n  case c { WHAT 3 % }\n}\n`;
  expect(targets(variant.replace('WHAT', 'Long.sp|are'))).toEqual(['tank <spare>']);
  expect(targets(variant.replace('WHAT', 'Long.fr|esh'))).toEqual(['tank <fresh>']);
  expect(targets(variant.replace('of Cart', 'of C|art'))).toEqual(['trailer <Cart>']);
});

test('a name that is declared twice leads to both', () => {
  expect(targets('item a 1 kg\nitem a 2 kg\nrig R {\n  stow |a in b\n}\n')).toEqual(['item <a>', 'item <a>']);
});

test('a tag and a market are no names of things', () => {
  expect(targets('item heavy 1 kg\nitem a 2 kg tags he|avy\n')).toEqual([]);
  expect(targets('item AU 1 kg\nrig R in A|U { }\n')).toEqual([]);
});

test.each(['rig R {\n  haul Nob|ody\n}\n', '|', '# to|olbox', 'item a 3| kg\n'])('%j leads nowhere', (source) => {
  expect(targets(source)).toEqual([]);
});
