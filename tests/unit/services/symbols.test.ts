import { expect, test, vi } from 'vitest';
import { analyse, editDocument } from '../../../language/index.ts';
import { documentSymbols, type SymbolEntry } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { YARD } from './yard.ts';

const symbolsOf = (source: string): readonly SymbolEntry[] => documentSymbols(analyseMarked(source).analysis, URI);

function find(symbols: readonly SymbolEntry[], ...path: readonly string[]): SymbolEntry | undefined {
  const [first, ...rest] = path;
  const found = symbols.find(({ name }) => name === first);
  return rest.length === 0 || found === undefined ? found : find(found.children, ...rest);
}

const detail = (symbols: readonly SymbolEntry[], ...path: readonly string[]): string | undefined =>
  find(symbols, ...path)?.detail.replaceAll('\u202f', ' ');

test('declarations in text order, with kind and key figure', () => {
  const symbols = symbolsOf(YARD);
  expect(symbols.map(({ name, kind }) => `${kind} ${name}`)).toEqual([
    'vehicle Truck',
    'trailer Cart',
    'item toolbox',
    'item sack',
    'rig Delivery',
  ]);
  expect(detail(symbols, 'Truck')).toBe('2 000 kg (2 000 – 2 050 kg reachable)');
  // Moments about the axle, as in the hover tests: 20 + 1.2 + 0.2 kg on the coupling.
  expect(detail(symbols, 'Cart')).toBe('305 kg (305 – 405 kg reachable), coupling 21.4 kg (21.4 – 71.4 kg reachable)');
  expect(detail(symbols, 'toolbox')).toBe('60 kg');
  expect(detail(symbols, 'Delivery')).toMatch(
    /kg reachable\), coupling 23.1 kg to 63.1 kg \(13.1 – 63.1 kg reachable\)$/,
  );
});

test('what is in a declaration, groups nested', () => {
  const symbols = symbolsOf(YARD);
  expect(detail(symbols, 'Cart', 'axles')).toBe('284 kg');
  expect(detail(symbols, 'Cart', 'fresh')).toBe('100 L, 100 kg when full');
  expect(detail(symbols, 'Cart', 'bed')).toBe('holds 250 kg');
  expect(detail(symbols, 'Cart', 'rack')).toBe('5 kg');
  expect(detail(symbols, 'Cart', 'rack', 'bar')).toBe('4 kg');
  expect(detail(symbols, 'Truck', 'kerb')).toBe('2 000 kg');
  expect(detail(symbols, 'Truck', 'wheelbase')).toBe('3000 mm');
  expect(detail(symbols, 'Truck', 'driver')).toBe('80 kg');
  expect(detail(symbols, 'Delivery', 'out')).toMatch(/^2 645 kg, coupling 63.1 kg \(12.3 %\)$/);
});

test('a case that states ranges shows between what its loads lie, others do not', () => {
  const symbols = symbolsOf(YARD);
  // 0 to 40 L of water are on board, 20 in the middle of the range, half of them on the coupling (13.1 kg without any).
  expect(detail(symbols, 'Delivery', 'back')).toMatch(
    /^2 480 kg \(2 460 – 2 500 kg in its ranges\), coupling 23.1 kg /,
  );
  expect(detail(symbols, 'Delivery', 'back')).toMatch(/ \(6\.2 %; 13\.1 – 33\.1 kg in its ranges\)$/);
  expect(detail(symbols, 'Delivery', 'out')).not.toContain('ranges');
});

test('the cases of a rig are shown in its units, those of its market', () => {
  const symbols = symbolsOf(YARD.replace('in AU', 'in US'));
  expect(detail(symbols, 'Delivery')).toMatch(/^[\d ]+ lb to /);
  expect(detail(symbols, 'Delivery', 'out')).toMatch(/^[\d ]+ lb, coupling [\d.]+ lb \(/);
  expect(detail(symbols, 'Delivery', 'back')).not.toContain('kg');
});

test('a load that is the same in all reachable states is shown once', () => {
  const symbols = symbolsOf(YARD.replace('fresh 100 L of water', 'fresh 0 L of water'));
  expect(detail(symbols, 'Cart')).toBe('305 kg, coupling 21.4 kg');
});

test('the block of reachable states is a symbol, and narrows what is shown of its rig', () => {
  const block = '  reachable { fresh 0 % to 20 %  fuel 10 % to\n    90 %  optional toolbox }\n  require';
  const symbols = symbolsOf(YARD.replace('  require', block));
  expect(find(symbols, 'Delivery', 'reachable')).toMatchObject({
    kind: 'reachable',
    detail: 'fresh 0 % to 20 %, fuel 10 % to 90 %, optional toolbox',
  });
  expect(detail(symbols, 'Delivery')).toMatch(/\(13\.1 – 23\.1 kg reachable\)$/);
  const many = '  reachable { fresh 0 % to 20 %  fuel 10 % to 90 %  optional toolbox  optional driver }\n  require';
  expect(detail(symbolsOf(YARD.replace('  require', many)), 'Delivery', 'reachable')).toMatch(/, 1 more$/);
});

test('of catalogue entries', () => {
  const symbols = symbolsOf(
    'let a = 2 * 3 m\nfluid f 1.1 kg/L\nmaterial m 6.4 kg/m²\nmaterial n 3 kg/m\ntyre t "195R14C 106/104Q"\n',
  );
  expect(symbols.map((symbol) => symbol.detail)).toEqual([
    '6 m',
    '1.1 kg/L',
    '6.4 kg/m²',
    '3 kg/m',
    '195R14C 106/104Q',
  ]);
});

test('of very many declarations the details are as written: nothing is computed for them', () => {
  const many = Array.from({ length: 1000 }, (_, index) => `item thing_${index} 1 lb\n`).join('');
  const { analysis } = analyseMarked(many + YARD);
  const entities = vi.spyOn(analysis, 'entities');
  const symbols = documentSymbols(analysis, URI);
  expect(entities).not.toHaveBeenCalled();
  expect(symbols).toHaveLength(1005);
  expect(detail(symbols, 'thing_7')).toBe('1 lb');
  expect(detail(symbols, 'Cart')).toBe('');
  expect(detail(symbols, 'Cart', 'fresh')).toBe('100 L');
  expect(detail(symbols, 'Cart', 'rack', 'bar')).toBe('4 kg');
});

test('ranges are absolute and nest', () => {
  const source = `# é 🚚\n${YARD}`;
  const check = (symbol: SymbolEntry, parent?: SymbolEntry): void => {
    expect(source.slice(symbol.nameStart, symbol.nameEnd)).toBe(symbol.name);
    expect(symbol.start).toBeLessThanOrEqual(symbol.nameStart);
    expect(symbol.end).toBeGreaterThanOrEqual(symbol.nameEnd);
    if (parent) {
      expect(symbol.start).toBeGreaterThanOrEqual(parent.start);
      expect(symbol.end).toBeLessThanOrEqual(parent.end);
    }
    for (const child of symbol.children) check(child, symbol);
  };
  for (const symbol of symbolsOf(source)) check(symbol);
});

test('broken text keeps its symbols', () => {
  const symbols = symbolsOf('trailer Cart {\n  tank fresh 95 L at\n  locker bed from\nitem box 3 bananas\n');
  expect(symbols.map(({ name }) => name)).toEqual(['Cart', 'box']);
  expect(find(symbols, 'Cart')?.children.map(({ name }) => name)).toEqual(['fresh', 'bed']);
  expect(detail(symbols, 'Cart', 'fresh')).toBe('95 L');
});

test('a declaration without a name is called by its keyword', () => {
  expect(symbolsOf('rig {\n  tow Truck\n}\n').map(({ name }) => name)).toEqual(['rig']);
});

test('an empty or unknown document has none', () => {
  expect(symbolsOf('')).toEqual([]);
  expect(documentSymbols(analyseMarked('').analysis, 'file:///yard/other.rig')).toEqual([]);
});

test('after an edit the symbols equal those of a fresh analysis', () => {
  const before = analyseMarked(YARD).analysis;
  documentSymbols(before, URI);
  const old = before.workspace.documents.get(URI);
  if (old?.kind !== 'text') throw new Error('no text');
  // A heavier item changes the rig's loads, a longer first line moves everything.
  let syntax = old.syntax;
  for (const [what, by] of [
    ['60 kg "Tool box"', '90 kg "Tool box"'],
    ["## The yard's old truck.", '## A truck.\n'],
  ] as const) {
    const start = syntax.text.indexOf(what);
    syntax = editDocument(syntax, { start, end: start + what.length, text: by });
  }
  const after = analyse({ documents: new Map([[URI, { kind: 'text', syntax }]]) }, before);
  const symbols = documentSymbols(after, URI);
  expect(symbols).toEqual(symbolsOf(syntax.text));
  expect(detail(symbols, 'Delivery')).not.toBe(detail(documentSymbols(before, URI), 'Delivery'));
});
