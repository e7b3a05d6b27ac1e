import { describe, expect, test } from 'vitest';
import { raiseLoadIndex } from '../../../language/catalogue/tyres.ts';
import { applied, errors, fixTitled, messages, offeredAt, offeredFor } from './fixes-support.ts';
import { TRAILER, TRUCK, YARD } from './yard.ts';

describe('a name or unit that is nearly right', () => {
  test.each([
    ['a unit', 'item box 5 kgg\n', 'unknown-unit', 'item box 5 kg\n'],
    [
      'a quantity',
      'let a = bensh + 3 mm\nlet bench = 3 mm\n',
      'unknown-name',
      'let a = bench + 3 mm\nlet bench = 3 mm\n',
    ],
    ['a declaration', 'itme box 5 kg\n', 'no-declaration', 'item box 5 kg\n'],
    ['a line', YARD.replace('locker bed', 'lokcer bed'), 'unknown-statement', YARD],
    ['a locker', YARD.replace('toolbox in Cart.bed', 'toolbox in Cart.bedd'), 'unknown-name', YARD],
    ['an item', YARD.replace('stow toolbox', 'stow toolbx'), 'unknown-name', YARD],
  ])('%s is replaced by the nearest', (_, source, key, mended) => {
    const [fix] = offeredFor(source, key).fixes;
    if (fix === undefined) throw new Error('nothing offered');
    expect(fix.preferred).toBe(true);
    expect(applied(source, fix)).toBe(mended);
    expect(messages(mended, key)).toEqual([]);
  });

  test('nothing is offered where none is near, or where the unit is one of another dimension', () => {
    expect(offeredFor('item box 5 qqqqqqq\n', 'unknown-unit').fixes).toEqual([]);
    expect(offeredFor('item box 5 mm\n', 'dimension-mismatch').fixes).toEqual([]);
  });
});

describe('a rating that is missing', () => {
  const unrated = YARD.replace('    rating 900 kg\n', '').replace('ATM 1000 kg', 'ATM 550 kg');
  const open = unrated.replace(' {\n    tyres', ', tyres').replace('at 450 kPa\n  }', 'at 450 kPa');

  test('of an axle in one line is the greatest load of all rigs and cases, rounded up', () => {
    const fix = fixTitled(offeredAt(open, 'single at 3000'), 'Add rating of Cart.axles');
    const mended = applied(open, fix);
    expect(mended).toMatch(
      /at 450 kPa, rating \d+0 kg # not from a plate but the computed load: replace by the plate's figure\n/,
    );
    expect(errors(mended)).toEqual([]);
    expect(offeredAt(mended, 'single at 3000').fixes).toEqual([]);
    // The lever of the trailer alone with a full tank, no load: (300 · 2.8 + 100 · 1.5 + 4 · 2.1 + 1 · 2.3) / 3 = 333.6 kg; the
    // rig puts 110 kg at or behind the axle into it: 60 · 3.0/3.0 + 50 · 3.5/3.0 = 118.3 kg more. Levers: statics.
    expect(mended).toContain('rating 460 kg');
  });

  test('of an axle with a block goes into the block', () => {
    const mended = applied(unrated, fixTitled(offeredAt(unrated, 'single at 3000'), 'Add rating of Cart.axles'));
    expect(mended).toContain(
      "{\n    rating 460 kg # not from a plate but the computed load: replace by the plate's figure\n    tyres",
    );
    expect(errors(mended)).toEqual([]);
  });

  test('among the limits leaves those that are stated', () => {
    const source = YARD.replace('ATM 1000 kg  ', '');
    const mended = applied(source, fixTitled(offeredAt(source, 'limits { coupling'), 'Add ATM'));
    expect(mended).toContain(
      "limits {\n    ATM 520 kg # not from a plate but the computed load: replace by the plate's figure\n    coupling 100 kg }",
    );
    expect(errors(mended)).toEqual([]);
    expect(offeredAt(mended, 'limits {\n    ATM').fixes).toEqual([]);
  });

  test('makes the block of limits where there is none, at the first line of the unit', () => {
    const source = TRAILER.replace('  limits { ATM 1000 kg  coupling 100 kg }\n', '');
    const mended = applied(source, fixTitled(offeredAt(source, 'trailer Cart'), 'Add ATM'));
    expect(errors(mended)).toEqual([]);
    expect(mended).toMatch(/\n {2}limits \{\n {4}ATM \d+0 kg # [^\n]+\n {2}\}\n/);
    const coupling = applied(source, fixTitled(offeredAt(source, 'coupling ball'), 'Add rating of Cart.coupling'));
    expect(coupling).toMatch(/coupling ball 50 mm, 430 mm up, rating \d+0 kg # /);
    expect(errors(coupling)).toEqual([]);
  });

  test('is not offered where it would contradict what is stated', () => {
    const source = YARD.replace('    rating 900 kg\n', '');
    expect(offeredAt(source, 'single at 3000').fixes).toEqual([]);
  });

  test('is not offered while a line with errors leaves something out of the loads', () => {
    const source = open.replace('stow toolbox', 'stow toolbx');
    expect(offeredAt(source, 'single at 3000').fixes).toEqual([]);
  });

  test('is not offered where all is stated, nor where the rest of the line would become a remark', () => {
    expect(offeredAt(YARD, 'single at 3000').fixes).toEqual([]);
    const oneLine =
      'trailer T { coupling ball 430 mm up  axles single at 3 m back  tare 300 kg at 2.8 m back, 500 mm up }\n';
    for (const { title } of offeredAt(oneLine, 'single at').fixes) expect(title).not.toContain('rating of T.axles');
  });

  test('is in pounds in a file written in pounds', () => {
    const source =
      'trailer T {\n  coupling ball 17 in up\n  axles single at 10 ft back\n  tare 661 lb at 9 ft back, 20 in up\n}\n';
    // 661 lb · 9 / 10 = 594.9 lb: lever.
    expect(applied(source, fixTitled(offeredAt(source, 'axles'), 'Add rating of T.axles'))).toContain(
      'rating 600 lb #',
    );
  });
});

describe('an overloaded tyre', () => {
  const heavy = YARD.replace('195R14C 106/104Q', '145R10 68/66N')
    .replace('rating 900 kg', '')
    .replace('item toolbox 60 kg', 'item toolbox 460 kg')
    .replace('holds 250 kg', 'holds 900 kg');

  test('gets the next load index that carries the load', () => {
    const fix = fixTitled(offeredFor(heavy, 'tyre-overloaded'), '145R10');
    const mended = applied(heavy, fix);
    expect(messages(heavy, 'tyre-overloaded').length).toBeGreaterThan(0);
    expect(messages(mended, 'tyre-overloaded')).toEqual([]);
    expect(fix.title).toContain('a tyre of that load index has to exist in this size');
    const [, single] = /145R10 (\d+)/.exec(mended) ?? [];
    // One index less would not do.
    const less = mended.replace(/145R10 (\d+)\/(\d+)N/, (_, a, b) => `145R10 ${Number(a) - 1}/${Number(b) - 1}N`);
    expect(Number(single)).toBeGreaterThan(68);
    expect(messages(less, 'tyre-overloaded').length).toBeGreaterThan(0);
  });

  test('reaches the axle’s line from a rig in another place', () => {
    const { edits } = fixTitled(offeredFor(heavy, 'tyre-overloaded'), '145R10');
    expect(heavy.slice(edits[0]?.start, edits[0]?.end)).toBe('"145R10 68/66N"');
  });

  test.each([
    ['195R14C 106/104Q', 2, '195R14C 108/106Q'],
    ['185/65 R14 86T', 3, '185/65 R14 89T'],
    ['7.00R16LT 8PR 117/116L', 1, '7.00R16LT 8PR 118/117L'],
    ['LT235/85R16 120 / 116R', 1, 'LT235/85R16 121 / 117R'],
    ['215/75R16C 160/158R', 1, undefined],
    ['banana', 1, undefined],
  ])('load index of %s raised by %d: %s', (marking, steps, raised) => {
    expect(raiseLoadIndex(marking, steps)).toBe(raised);
  });
});

describe('a move that advice proposes', () => {
  const shelf = '  locker front_box from 600 mm to 1400 mm back, floor 500 mm up, holds 250 kg\n  group rack';
  const twoLockers = YARD.replace('  group rack', shelf);
  const noseHeavy = twoLockers
    .replace('stow toolbox in Cart.bed', 'stow toolbox in Cart.front_box')
    .replace('coupling 100 kg', 'coupling 70 kg');

  test('to another locker rewrites the line of one thing', () => {
    const offered = offeredFor(noseHeavy, 'over-coupling-rating');
    const fix = fixTitled(offered, 'Moving toolbox');
    expect(fix.title).toMatch(/^Moving toolbox \(60 kg\) to Cart\.bed takes off \d+(\.\d+)? kg$/);
    const mended = applied(noseHeavy, fix);
    expect(mended).toContain('  stow toolbox in Cart.bed\n');
    expect(excess(mended)).toBeLessThan(excess(noseHeavy));
  });

  test('takes one of several things out of their line', () => {
    const source = noseHeavy.replace('stow toolbox in', 'stow sack, toolbox in').replace(' in AU {', ' {');
    const offered = offeredFor(source, 'coupling-share-high');
    const mended = applied(source, fixTitled(offered, 'Moving toolbox'));
    expect(mended).toContain('  stow toolbox in Cart.bed\n  stow sack in Cart.front_box\n');
    expect(errors(mended).filter((error) => error.startsWith('RW1') || error.startsWith('RW2'))).toEqual([]);
    expect(messages(mended, 'coupling-share-high')).toEqual([]);
  });

  test('by 100 mm changes the one distance that says where it is', () => {
    const source = TRUCK.replace('kerb', 'fitting crane 400 kg at 2900 mm back, 700 mm up\n  kerb').replace(
      'limits {',
      'axle rear rating 1000 kg\n  limits {',
    );
    const fix = fixTitled(offeredFor(source, 'over-axle-rating'), 'Truck.crane 100 mm ahead');
    const mended = applied(source, fix);
    expect(mended).toContain('fitting crane 400 kg at 2800 mm back');
    expect(excess(mended, 'over-axle-rating')).toBeLessThan(excess(source, 'over-axle-rating'));
    // Another thing is placed from it: it would move too.
    const datum = source.replace('  kerb', '  fitting hook 2 kg at 100 mm behind crane, 700 mm up\n  kerb');
    expect(offeredFor(datum, 'over-axle-rating').fixes).toEqual([]);
    // What is computed has no single figure to change.
    expect(offeredFor(source.replace('2900 mm back', '2800 mm + 100 mm back'), 'over-axle-rating').fixes).toEqual([]);
  });

  function excess(source: string, key = 'over-coupling-rating'): number {
    const found = messages(source, key).map((message) =>
      Number(/is ([\d.]+) kg over/.exec(message)?.[1] ?? Number.NaN),
    );
    return Math.max(0, ...found);
  }
});
