import { describe, expect, it } from 'vitest';
import { applied, errors, fixTitled, messages, offeredAt } from './fixes-support.ts';

/** The line with what is offered to write a quantity otherwise, and the title of that. */
function rewritten(source: string, text: string): { readonly text: string; readonly title: string } {
  const fix = fixTitled(offeredAt(source, text), 'Write as');
  expect(fix.kind).toBe('rewrite');
  expect(fix.diagnostic).toBeUndefined();
  return { text: applied(source, fix), title: fix.title };
}

const none = (source: string, text: string): boolean =>
  offeredAt(source, text).fixes.every(({ kind }) => kind !== 'rewrite');

/** A trailer with a line of its own. */
const trailer = (line: string): string => `trailer Cart {\n  ${line}\n}\n`;

describe('a quantity in the other system’s unit', () => {
  it.each([
    ['1850 kg', '4078.6 lb', '4078.6 lb (reads back as 1 850.02 kg)'],
    ['38 kg', '83.8 lb', '83.8 lb (reads back as 38.01 kg)'],
    ['5 kg', '11.02 lb', '11.02 lb (reads back as 5 kg)'],
    ['3_500 lb', '1587.57 kg', '1587.57 kg (reads back as 3 499.99 lb)'],
    ['0.25 t', '551 lb', '551 lb (reads back as 0.2499 t)'],
    ['250 g', '8.82 oz', '8.82 oz (reads back as 250.04 g)'],
    ['1e3 kg', '2205 lb', '2205 lb (reads back as 1 000.17 kg)'],
  ])('is %s as %s, and the title says what it reads back as', (written, expected, title) => {
    const source = `item chest ${written}\n`;
    const result = rewritten(source, written);
    expect(result.text).toBe(`item chest ${expected}\n`);
    expect(result.title.replaceAll('\u202f', ' ')).toBe(`Write as ${title}`);
  });

  // Exact factors: NIST SP 811, Appendix B (exact by definition; from memory).
  it.each([
    ['2 in', '50.8 mm'],
    ['50.8 mm', '2 in'],
    ['3 3/4 in', '95.25 mm'],
    ['1 1/16 in', '26.9875 mm'],
    ['11 ft 3 in', '3.429 m'],
    ['3.048 m', '10 ft'],
    ['0 mm', '0 in'],
  ])('is %s as exactly %s', (written, expected) => {
    const source = `let depth = ${written}\n`;
    const result = rewritten(source, written);
    expect(result.text).toBe(`let depth = ${expected}\n`);
    expect(result.title).toBe(
      `Write as ${expected} (exactly ${written === '11 ft 3 in' ? '11.25 ft' : inWords(written)})`,
    );
  });

  const inWords = (text: string): string => text.replace('3 3/4', '3.75').replace('1 1/16', '1.0625');

  it.each([
    ['450 kPa', '65.27 psi'],
    ['4.5 bar', '65.27 psi'],
    ['65 psi', '448 kPa'],
    ['100 km/h', '62.14 mph'],
    ['62 mph', '99.8 km/h'],
    ['95 L', '25.1 gal'],
    ['25 gal', '94.6 L'],
    ['12 impgal', '54.55 L'],
    ['8.4 kN', '1888 lbf'],
    ['20 N·m', '14.75 lbf·ft'],
    ['1.6 m', '5.25 ft'],
    ['820 kg/m³', '51.19 lb/ft³'],
  ])('is %s as %s', (written, expected) => {
    expect(rewritten(`let figure = ${written}\n`, written).text).toBe(`let figure = ${expected}\n`);
  });

  it('is one edit for the numbers that one unit serves, wherever the caret is', () => {
    const line = 'tank fresh 95 L of water at 2600 mm back, size 900 x 450 x 240 mm';
    for (const place of ['900', '450 x', '240', 'mm\n']) {
      const { text, title } = rewritten(trailer(line), place);
      expect(text).toBe(trailer(line.replace('900 x 450 x 240 mm', '35.433 x 17.717 x 9.45 in')));
      expect(title).toContain('35.433 x 17.717 x 9.45 in');
    }
    const range = 'locker boot from 5000 to 5600 mm back, floor 450 mm up';
    expect(rewritten(trailer(range), '5000').text).toContain('from 196.85 to 220.472 in back, floor 450 mm up');
    expect(rewritten(trailer(range), '5600').text).toContain('from 196.85 to 220.472 in back, floor 450 mm up');
  });

  it('has the digits of the finest part of a sum', () => {
    // (5.12345 + 3/16) lb are 2.40900640 kg.
    expect(rewritten('item chest 5.12345 lb 3 oz\n', '5.12345').text).toBe('item chest 2.4090064 kg\n');
  });

  it('leaves alone what has a unit of its own', () => {
    const line = 'body from 880 mm to 5680 mm back, width 2040 mm';
    expect(rewritten(trailer(line), '880').text).toContain('from 34.646 in to 5680 mm back, width 2040 mm');
    expect(rewritten(trailer(line), '5680').text).toContain('from 880 mm to 223.622 in back, width 2040 mm');
    const tare = 'tare 900 kg ± 20 kg at 2500 mm back';
    expect(rewritten(trailer(tare), '20 kg').text).toContain('tare 900 kg ± 44.1 lb at');
    expect(rewritten(trailer(tare), '900').text).toContain('tare 1984.2 lb ± 20 kg at');
    const terms = 'let depth = 2 * 600 mm + 1 ft\n';
    expect(rewritten(terms, '600').text).toBe('let depth = 2 * 23.622 in + 1 ft\n');
  });

  it('is offered in requirements, on the number and on its unit', () => {
    const rig = 'require Cart.coupling.load between 60 kg and 110 kg\n';
    expect(rewritten(rig, '60').text).toContain('between 132.3 lb and 110 kg');
    expect(rewritten(rig, 'kg\n').text).toContain('between 60 kg and 242.5 lb');
  });

  it('is offered for the quantity alone that holds the whole range', () => {
    expect(none('item chest 38 kg\n', 'chest')).toBe(true);
    expect(none(trailer('axles tandem at 3420 mm back'), 'tandem')).toBe(true);
  });

  it.each([
    ['let share = 12 %\n', '12'],
    ['let angle = 4 deg\n', '4'],
    ['let count = 3\n', '3'],
    ['let odd = 3 kg/m^4\n', '3'],
    ['item chest 38 kgs2\n', '38'],
    ['item chest 3/0 kg\n', '3/0'],
    ['item chest 1e300 kg\n', '1e300'],
    [trailer('coupling ball 3 ft 400 mm up'), '3 ft'],
    [trailer('coupling ball 3 ft 400 mm up'), '400'],
    [trailer('tank fresh 95 L of water at 2600 mm back, size (2 * 450) x 450 x 240 mm'), '240'],
    [trailer('axles tandem at 3420 mm back, tyres 4 x "195R14C 106/104Q"'), '4 x'],
    ['', ''],
  ])('is not offered where there is none, in %j', (source, place) => {
    expect(none(source, place)).toBe(true);
  });

  it('makes no error and no finding of its own', () => {
    const source = trailer('tank fresh 95 L of water at 2600 mm back, 410 mm up, size 900 x 450 x 240 mm');
    expect(messages(rewritten(source, '900').text)).toEqual(messages(source));
    expect(errors(rewritten(source, '95').text)).toEqual(errors(source));
  });
});

describe('a unit used loosely for another dimension', () => {
  it('is replaced by the one that is meant', () => {
    const source = trailer('coupling ball 50 mm, 430 mm up, D 1800 lb');
    expect(messages(source, 'dimension-mismatch')).toEqual([expect.stringContaining("Probably '1800 lbf' is meant.")]);
    const fix = fixTitled(offeredAt(source, '1800'), "'1800 lbf'");
    expect(fix.preferred).toBe(true);
    expect(messages(applied(source, fix), 'dimension-mismatch')).toEqual([]);
  });

  it('is left alone where nothing else can be told', () => {
    for (const force of ['18 mm', '800 lb 8 oz', '2 * 800 lb']) {
      const source = trailer(`coupling ball 50 mm, 430 mm up, D ${force}`);
      expect(messages(source, 'dimension-mismatch')).toEqual([expect.not.stringContaining('Probably')]);
    }
  });
});
