import { describe, expect, test } from 'vitest';
import {
  isTyreMarking,
  loadIndexCapacity,
  parseTyreMarking,
  SPEED_SYMBOLS,
  speedSymbol,
  speedSymbolKmh,
} from '../../../language/catalogue/tyres.ts';

describe('parseTyreMarking', () => {
  test('a commercial tyre with a load index for twin fitting', () => {
    expect(parseTyreMarking('195R14C 106/104Q')).toEqual({
      service: 'commercial',
      commercial: true,
      sectionWidth: 0.195,
      construction: 'radial',
      rim: 14 * 0.0254,
      loadIndexSingle: 106,
      loadSingle: 950,
      loadIndexDual: 104,
      loadDual: 900,
      speedSymbol: 'Q',
      maximumSpeed: 160 / 3.6,
    });
  });

  test('a passenger tyre', () => {
    expect(parseTyreMarking('205/60R15 91V')).toEqual({
      service: 'passenger',
      commercial: false,
      sectionWidth: 0.205,
      aspect: 0.6,
      construction: 'radial',
      rim: 15 * 0.0254,
      loadIndexSingle: 91,
      loadSingle: 615,
      speedSymbol: 'V',
      maximumSpeed: 240 / 3.6,
    });
  });

  test.each([
    ['185/65 R14 86T', { service: 'passenger', loadSingle: 530, rim: 14 * 0.0254, aspect: 0.65 }],
    ['LT235/85R16 120/116R', { service: 'light truck', loadSingle: 1400, loadDual: 1250, commercial: true }],
    ['225/70R15C 112/110R', { service: 'commercial', loadSingle: 1120, loadDual: 1060 }],
    ['ST205/75R14 100/96M', { service: 'trailer', commercial: true, loadSingle: 800 }],
    ['P205/75R15 97S', { service: 'passenger', loadSingle: 730 }],
    ['195R14C 8PR 106/104Q', { loadSingle: 950 }],
    ['245/45 ZR18 100Y XL', { construction: 'radial', loadSingle: 800, maximumSpeed: 300 / 3.6 }],
    ['7.00R16LT 117/116L', { sectionWidth: 7 * 0.0254, service: 'light truck' }],
    ['8.25-20 130/128K', { construction: 'diagonal', service: 'commercial' }],
    ['  205/60r15 91v m+s ', { loadSingle: 615, speedSymbol: 'V' }],
    ['225/70R19.5 128/126N', { rim: 19.5 * 0.0254, service: 'commercial' }],
  ])('%s', (marking, expected) => {
    expect(parseTyreMarking(marking)).toMatchObject(expected);
  });

  test.each([
    ['', 0, 'the end of the marking', 'a section width'],
    ['tyre', 0, '"tyre"', 'a section width'],
    ['19R14 55T', 0, '"19R14"', 'a section width'],
    ['205/60 15 91V', 7, '"15"', 'the construction'],
    ['205/60R 91V', 8, '"91V"', 'a rim diameter'],
    ['195R14C', 7, 'the end of the marking', 'a load index'],
    ['205/60R15 91', 12, 'the end of the marking', 'a speed symbol'],
    ['205/60R15 91I', 12, '"I"', 'a speed symbol, one of'],
    ['205/60R15 300V', 10, '"300V"', 'a load index from 52 to 160'],
    ['205/60R15 51V', 10, '"51V"', 'a load index from 52 to 160'],
    ['195R14C 104/106Q', 12, '"106Q"', 'at most 104'],
    ['195R14C 104/51Q', 12, '"51Q"', 'a load index from 52 to 160'],
    ['205/60R15 91V extra', 14, '"extra"', 'the end of the marking'],
    ['205/60R15 91V 12345678901234567890', 14, '"123456789012"', 'the end of the marking'],
  ])('%j is unreadable at %d', (marking, offset, found, expected) => {
    const result = parseTyreMarking(marking);
    if (isTyreMarking(result)) throw new Error('was read');
    expect(result).toMatchObject({ kind: 'tyre marking', offset, found });
    expect(result.expected).toContain(expected);
  });
});

describe('load index and speed symbol', () => {
  test('nothing outside the table', () => {
    for (const li of [51, 161, -1, 91.5, Number.NaN, 1e9]) expect(loadIndexCapacity(li), String(li)).toBeUndefined();
  });

  // UN Regulations No. 30 and No. 54; J to Y read in stored copies of the table, A1 to G from memory.
  test('published speeds', () => {
    const published = 'J100 K110 L120 M130 N140 P150 Q160 R170 S180 T190 U200 H210 V240 W270 Y300'.split(' ');
    for (const entry of published) expect(speedSymbolKmh(entry.charAt(0)), entry).toBe(Number(entry.slice(1)));
    expect(speedSymbol('q')).toBe(160 / 3.6);
    for (const unknown of ['I', 'O', 'X', 'Z', '', 'QQ']) expect(speedSymbol(unknown), unknown).toBeUndefined();
  });

  test('each symbol once, in rising order of speed', () => {
    const speeds = SPEED_SYMBOLS.map(({ kmh }) => kmh);
    expect(speeds).toEqual([...new Set(speeds)].sort((a, b) => a - b));
    expect(new Set(SPEED_SYMBOLS.map(({ symbol }) => symbol)).size).toBe(SPEED_SYMBOLS.length);
  });
});
