import { describe, expect, test } from 'vitest';
import { type CompletionEntry, completions } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { ITEMS, TRAILER, TRUCK } from './yard.ts';

const BASE = `let gap = 200 mm
fluid brine 1.15 kg/L
material sheet 6.4 kg/m²
tyre wide "195R14C 106/104Q" at 450 kPa
${TRUCK}${TRAILER}${ITEMS}`;

function entriesAt(source: string, files: Readonly<Record<string, string>> = {}): readonly CompletionEntry[] {
  const { analysis, offset } = analyseMarked(BASE + source, files);
  return completions(analysis, URI, offset);
}

const labelsAt = (source: string, files?: Readonly<Record<string, string>>): readonly string[] =>
  entriesAt(source, files).map(({ label }) => label);

const inTrailer = (lines: string): string => `trailer New {\n  ${lines}\n}\n`;
const inRig = (lines: string): string => `rig New {\n  tow Truck with driver\n  haul Cart\n  ${lines}\n}\n`;
const inCase = (lines: string): string => inRig(`case one {\n    ${lines}\n  }`);

describe('statements', () => {
  test('at the top of a file, also in an empty one', () => {
    const top = ['use', 'let', 'item', 'fluid', 'material', 'tyre', 'vehicle', 'trailer', 'variant', 'rig', 'rule'];
    expect(labelsAt('|')).toEqual(top);
    expect(labelsAt('tra|')).toEqual(top);
    const { analysis } = analyseMarked('');
    expect(completions(analysis, URI, 0).map(({ label }) => label)).toEqual(top);
  });

  test('of the block the caret is in', () => {
    expect(labelsAt(inTrailer('|'))).toContain('coupling');
    expect(labelsAt(inTrailer('|'))).not.toContain('seat');
    expect(labelsAt('vehicle New {\n  se|\n}\n')).toContain('seat');
    expect(labelsAt(inTrailer('axles tandem {\n    |\n  }'))).toEqual(['rating', 'tyres']);
    expect(labelsAt(inRig('|'))).toContain('stow');
  });

  test('of a variant: its own and those of the unit it varies', () => {
    const labels = labelsAt('variant Long of Cart {\n  |\n}\n');
    expect(labels).toContain('without');
    expect(labels).toContain('coupling');
    expect(labels).not.toContain('wheelbase');
  });

  test('of limits: those of the kind of unit around them', () => {
    const ofCoupling = ['coupling', 'tongue_load', 'ball_load', 'nose_load', 'pin_load'];
    const both = [
      'towing',
      'towing_unbraked',
      ...ofCoupling,
      'payload',
      'UVW',
      'unloaded_vehicle_weight',
      'CCC',
      'cargo_carrying_capacity',
    ];
    const ofTrailer = ['ATM', 'MTPLM', 'GTM', 'coupling_minimum', ...both];
    expect(labelsAt(inTrailer('limits { | }')).toSorted()).toEqual(ofTrailer.toSorted());
    expect(labelsAt('variant Long of Cart {\n  limits { | }\n}\n').toSorted()).toEqual(ofTrailer.toSorted());
    const ofVehicle = [
      'GVM',
      'GVWR',
      'MAM',
      'GCM',
      'GCWR',
      'GTW',
      'OCCC',
      'occupant_and_cargo_carrying_capacity',
      ...both,
    ];
    expect(labelsAt('vehicle New {\n  limits { | }\n}\n').toSorted()).toEqual(ofVehicle.toSorted());
    // Of which kind the unit is cannot be told: everything.
    const all = labelsAt('variant Long of Nothing {\n  limits { | }\n}\n');
    expect(all).toEqual(expect.arrayContaining([...ofTrailer, ...ofVehicle]));
  });

  test('where braces are still open', () => {
    expect(labelsAt('trailer New {\n  limits { ATM 2000 kg  |')).toContain('GTM');
    expect(labelsAt('trailer New {\n  limits { |')).not.toContain('GVM');
    expect(labelsAt('trailer New {\n  axles {\n    |')).toEqual(['rating', 'tyres']);
  });

  test('synonyms are offered and say what they are read as', () => {
    const kerb = entriesAt('vehicle New {\n  ke|\n}\n').find(({ label }) => label === 'kerb');
    expect(kerb?.detail).toBe('read as tare');
    expect(kerb?.documentation).toContain('```rig');
  });
});

describe('arguments and flags', () => {
  test('of an extent: directions, also of the body, and from named things', () => {
    expect(labelsAt(inTrailer('body from 900 mm to 5 m |'))).toContain('back');
    expect(labelsAt(inTrailer('locker boot from 300 mm to 900 mm |'))).toContain('behind');
    expect(
      labelsAt(`${inTrailer('axles single at 3 m back\n  locker boot from 300 mm to 900 mm behind |')}`),
    ).toContain('axles');
  });

  test('of the drag on a body: its words, then the units of an area', () => {
    const labels = labelsAt(inTrailer('body from 1 m to 5 m back, frontal_area 4.6 m², |'));
    expect(labels).toContain('drag_coefficient');
    expect(labels).not.toContain('frontal_area');
    const units = labelsAt(inTrailer('body from 1 m to 5 m back, frontal_area 4.6 |'));
    expect(units).toEqual(expect.arrayContaining(['m²', 'ft²']));
    expect(units).not.toContain('m');
  });

  test('of a tank: how it may lie, which is not flat', () => {
    const labels = labelsAt(inTrailer('tank fresh 95 L of water lying |'));
    expect(labels).toEqual(expect.arrayContaining(['lengthwise', 'crosswise']));
    expect(labels).not.toContain('flat');
    expect(labelsAt(inTrailer('panel roof 3 x 2 m of sheet |'))).toContain('flat');
  });

  test('those that fit the head and are not used yet', () => {
    const labels = labelsAt(inTrailer('axles tandem at 3 m back, spacing 800 mm, |'));
    expect(labels).toEqual(expect.arrayContaining(['track', 'rating', 'equalised', 'independent']));
    for (const used of ['spacing', 'at', 'single', 'tri']) expect(labels).not.toContain(used);
  });

  test('flags of the statement', () => {
    expect(labelsAt(inTrailer('brakes |'))).toEqual(['unbraked', 'overrun', 'electric', 'air']);
    expect(labelsAt(inTrailer('coupling |'))).toContain('kingpin');
  });

  test('directions behind a length that is a place, unused axes first', () => {
    const labels = labelsAt(inTrailer('fitting a 3 kg at 3 m back, 200 mm |'));
    expect(labels.slice(0, 4)).toEqual(['left', 'right', 'up', 'down']);
    expect(labels).toContain('behind');
    expect(labelsAt(inTrailer('body width 2 m |'))).not.toContain('back');
  });

  test('the upper end of a range', () => {
    expect(labelsAt(inTrailer('locker a from 3 m |'))).toContain('to');
    expect(labelsAt(inRig('travel 90 km/h, grades -8 % |'))).toContain('to');
    expect(labelsAt(inRig('travel 90 km/h, grades -8 % to 6 % |'))).not.toContain('to');
  });

  test('not where the author chooses a name', () => {
    expect(labelsAt(inTrailer('tank |'))).toEqual([]);
    expect(labelsAt('item |')).toEqual([]);
    expect(labelsAt('variant Long of Cart { }\nrig |')).toEqual([]);
  });
});

describe('units', () => {
  test.each([
    ['item a 24 |', 'kg', ['lb', 't']],
    ['fluid a 1.2 |', 'kg/L', ['kg/m³']],
    ['tyre a "195R14C 106/104Q" at 45 |', 'kPa', ['psi', 'bar']],
    [inTrailer('tank a 95 |'), 'L', ['gal', 'kg']],
    [inTrailer('fitting a 3 kg at 2 |'), 'mm', ['in', 'ft']],
    [inTrailer('fitting a 3 kg at 11 ft 3 |'), 'mm', ['in']],
    [inTrailer('fitting a 3 kg size 3 x 4 x 5 |'), 'mm', ['in']],
    [inTrailer('axles single rate 40 |'), 'N/mm', ['lbf/in']],
    [inTrailer('tare 300 kg on axles, 20 |'), 'kg', ['lb']],
    [inRig('travel 90 |'), 'km/h', ['mph']],
    [inRig('require Cart.coupling.load at most 8 |'), 'kg', ['lb']],
    [inRig('require Cart.coupling.share between 8 |'), '%', []],
    [inCase('fresh 40 |'), '%', []],
  ])('%s', (source, first, others) => {
    const units = entriesAt(source).filter(({ kind }) => kind === 'measure-unit');
    expect(units[0]?.label).toBe(first);
    expect(units.map(({ label }) => label)).toEqual(expect.arrayContaining(others));
    if (first === 'kg') expect(units.map(({ label }) => label)).not.toContain('km/h');
  });

  test('the word at the caret is replaced', () => {
    const { analysis, offset, ranges } = analyseMarked('item a 24 ‹k|›\n');
    const [kg] = completions(analysis, URI, offset);
    expect(kg).toMatchObject({ label: 'kg', ...ranges[0] });
  });

  test('a blank is put between a number and its unit', () => {
    expect(entriesAt('item a 24|')[0]).toMatchObject({ label: 'kg', insertText: ' kg' });
    expect(entriesAt('item a 24|').every(({ kind }) => kind === 'measure-unit')).toBe(true);
  });

  test('US units first where the declaration is written in them', () => {
    expect(labelsAt('item a 24 lb size 30 in x 3 in x 4 |')[0]).toBe('in');
  });

  test('a count has no unit', () => {
    expect(labelsAt(inRig('stow 2 |'))).not.toContain('kg');
  });
});

describe('names', () => {
  test.each([
    ['vehicles', 'rig R {\n  tow |\n}\n', ['Truck'], ['Cart', 'toolbox']],
    ['trailers', 'rig R {\n  haul C|\n}\n', ['Cart'], ['Truck']],
    ['items', inRig('stow |'), ['toolbox', 'sack'], ['Cart']],
    ['items behind a count', inRig('stow 2 x |'), ['toolbox', 'sack'], ['in']],
    ['further items', inRig('stow toolbox, |'), ['sack'], ['toolbox']],
    ['lockers and units', inRig('stow sack in |'), ['Cart.bed', 'Cart', 'Truck'], ['sack']],
    ['seats', 'rig R {\n  tow Truck with |\n}\n', ['driver'], ['fuel']],
    ['seats in a case', inCase('occupants |'), ['driver'], []],
    ['absent items', inCase('absent |'), ['toolbox'], []],
    ['markets', 'rig R in |', ['AU', 'US', 'EU'], ['Cart']],
    ['fluids', inTrailer('tank a 9 L of |'), ['brine', 'water', 'LPG'], ['sheet']],
    ['materials', inTrailer('panel a 3 x 2 m of |'), ['sheet'], ['brine', 'water']],
    ['units to vary', 'variant Long of |', ['Cart', 'Truck'], ['toolbox']],
    ['lines to leave out', 'variant Long of Cart {\n  without |\n}\n', ['fresh', 'bed', 'rack.bar'], ['Truck']],
    ['tyres', inTrailer('axles single { tyres 2 x | }'), ['wide'], ['toolbox']],
    ['tags', 'item a 3 kg tags |', ['heavy', 'keep_low'], []],
    ['named quantities', 'let a = 3 * |', ['gap'], ['a', 'Cart']],
    ['cases', inRig('case one { }\n  require Cart.mass at most 3 kg in |'), ['one'], ['Cart']],
    ['least and most', inRig('require Cart.mass at |'), ['least', 'most'], ['kg']],
    ['comparisons', inRig('require Cart.mass |'), ['between', 'at least', 'at most'], ['kg']],
  ])('%s', (_, source, expected, others) => {
    const labels = labelsAt(source);
    expect(labels).toEqual(expect.arrayContaining(expected));
    for (const other of others) expect(labels).not.toContain(other);
  });

  test('a datum: things of the unit', () => {
    const labels = labelsAt(inTrailer('axles single at 3 m back\n  tank t 9 L\n  fitting a 3 kg at 200 mm behind |'));
    expect(labels).toEqual(['axles', 't']);
    expect(labelsAt(inTrailer('tank t 9 L\n  fitting a 3 kg at 200 mm left of |'))).toEqual(['t']);
    expect(labelsAt(inTrailer('coupling ball\n  axles single at 3 m back\n  tank t 9 L\n  tare 3 kg on |'))).toEqual([
      'coupling',
      'axles',
    ]);
  });

  test('a datum inside a group: things of the group without its name', () => {
    const labels = labelsAt(
      inTrailer('group g at 3 m back {\n    fitting f 3 kg\n    fitting h 3 kg at 9 mm behind |\n  }'),
    );
    expect(labels).toEqual(['g', 'f']);
  });

  test('tanks in a case, short and with the unit', () => {
    expect(labelsAt(inCase('|')).slice(0, 4)).toEqual(['fuel', 'fresh', 'Truck.fuel', 'Cart.fresh']);
    expect(labelsAt(inCase('Cart.|'))).toEqual(['fresh']);
  });

  test("a trailer's own case speaks of its own tanks and lockers", () => {
    const own = (line: string): string => inTrailer(`tank t 9 L\n  locker l at 3 m back\n  case c {\n    ${line}\n  }`);
    expect(labelsAt(own('|'))[0]).toBe('t');
    expect(labelsAt(own('stow sack in |'))).toEqual(['l']);
  });

  test('computed quantities, with their value', () => {
    const entries = entriesAt(inRig('require Cart.coupling.|'));
    expect(entries.map(({ label }) => label)).toEqual(['load', 'drawbar', 'share']);
    expect(labelsAt(inRig('require |'))).toContain('rig.mass');
    expect(entries[0]?.detail).toMatch(/^[\d.]+ kg, /);
  });

  test('part of a dotted name: only what may follow, and only that is replaced', () => {
    const { analysis, offset, ranges } = analyseMarked(BASE + inRig('stow sack in Cart.‹b|e›'));
    expect(completions(analysis, URI, offset)).toMatchObject([{ label: 'bed', ...ranges[0] }]);
  });

  test('names of used files, with what they are', () => {
    const { analysis, offset } = analyseMarked('use "items.rig"\nrig R {\n  stow to|\n}\n', { 'items.rig': ITEMS });
    expect(completions(analysis, URI, offset)).toMatchObject([
      { label: 'toolbox', kind: 'item', detail: '60 kg, Tool box', documentation: 'Steel box with hand tools.' },
      { label: 'sack', detail: '25 kg' },
    ]);
  });

  test('files to use', () => {
    expect(labelsAt('use "|', { 'items.rig': '', 'sub/more.rig': '' })).toEqual(['items.rig', 'sub/more.rig']);
  });
});

test.each(['# tra|', '## tra|', 'item a 3 kg "ti|tle"'])('nothing fits at %s', (source) => {
  expect(entriesAt(source)).toEqual([]);
});

test('entries are offered once', () => {
  for (const source of [inCase('|'), inRig('stow |'), 'let a = 3 |']) {
    const labels = labelsAt(source);
    expect(new Set(labels).size).toBe(labels.length);
  }
});

describe('in a block of reachable states', () => {
  const inReachable = (lines: string): string =>
    inRig(
      `stow toolbox in Cart.bed\n  case one { fresh 0 %  stow sack in Cart.bed }\n  reachable {\n    ${lines}\n  }`,
    );

  test('the tanks of the rig and `optional`, also behind a level', () => {
    for (const labels of [labelsAt(inReachable('|')), labelsAt(inRig('reachable { fresh 0 % to 40 %  | }'))]) {
      expect(labels).toEqual(expect.arrayContaining(['fresh', 'Cart.fresh', 'fuel', 'optional']));
      expect(labels).not.toContain('absent');
    }
  });

  test('seats, and only items that the rig or one of its cases stows', () => {
    const more = `item ladder 12 kg\n${inReachable('optional |')}`;
    expect(labelsAt(more)).toEqual(['driver', 'toolbox', 'sack']);
    expect(labelsAt(inReachable('optional driver, |'))).toEqual(expect.arrayContaining(['toolbox', 'sack']));
    expect(labelsAt(inReachable('optional driver, |'))).not.toContain('driver');
  });

  test('of a trailer its own tanks', () => {
    const trailer = inTrailer('tank grey 10 L of water at 1 m back, 1 m up\n  reachable {\n    |\n  }');
    expect(labelsAt(trailer)).toContain('grey');
    expect(labelsAt(trailer)).not.toContain('fresh');
  });
});
