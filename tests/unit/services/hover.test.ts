import { describe, expect, test } from 'vitest';
import { hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { caretAt, ITEMS, RIG, TRAILER, TRUCK, YARD } from './yard.ts';

/** Markdown of the hover at the caret, with ordinary spaces. */
function hoverOn(source: string, files: Readonly<Record<string, string>> = {}): string {
  const { analysis, offset } = analyseMarked(source, files);
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
}

/** The cells of the table line that starts with a label. */
function cells(markdown: string, label: string): readonly string[] {
  const line = markdown.split('\n').find((text) => text.startsWith(`| ${label} |`));
  return (
    line
      ?.split('|')
      .slice(2, -1)
      .map((cell) => cell.trim()) ?? []
  );
}

test('the range of a hover is the word', () => {
  const { analysis, offset, ranges } = analyseMarked('item ‹tool|box› 60 kg\n');
  expect(hover(analysis, URI, offset)).toMatchObject(ranges[0] ?? {});
});

describe('a rig', () => {
  const text = hoverOn(caretAt(YARD, 'Delivery'));

  test('names its units and markets', () => {
    expect(text).toMatch(/^\*\*Delivery\*\* — rig of Truck and Cart, for AU “Deliveries”/);
  });

  test('shows axle loads, coupling load and share per case, what is reachable, limit and margin', () => {
    expect(text).toContain('| on level road | out | back | reachable | limit | margin |');
    // Moments about the axle: tare 300·200/3000 = 20, bar 4·900/3000 = 1.2, hook 1·700/3000 = 0.23, water 100·1/2 = 50,
    // sacks -50·500/3000 = -8.3, tool box in the middle of the bed 0: 63.1 kg.
    expect(cells(text, 'Cart ball load')).toEqual([
      '63.1 kg',
      '23.1 kg',
      '13.1 – 63.1 kg',
      '100 kg coupling limit',
      '36.9 kg left',
    ]);
    // Without tool box and water 355 kg. The tool box is known to 2 kg.
    expect(cells(text, 'Cart mass')).toEqual([
      '515 kg',
      '375 kg',
      '355 – 515 kg ± 2 kg',
      '1 000 kg ATM',
      '485 kg left',
    ]);
    // 63.1 of 515 kg, 23.1 of 375 kg.
    expect(cells(text, 'Cart coupling share').slice(0, 2)).toEqual(['12.3 %', '6.2 %']);
    expect(cells(text, 'Cart axle')[3]).toBe('900 kg axle load rating');
    expect(cells(text, 'Truck all axles')[3]).toBe('2 400 kg GVM');
  });

  test('shows the states on grades in a second table', () => {
    expect(text).toContain('| over all cases | on the 6 % climb | on the 8 % descent |');
    expect(cells(text.slice(text.indexOf('over all cases')), 'Cart ball load')).toHaveLength(2);
  });

  test('lists what was assumed, and stays short', () => {
    expect(text).toContain('Assumed:\n- ');
    const tables = text.split('\n\n').filter((part) => part.startsWith('|'));
    for (const part of tables) expect(part.split('\n').length).toBeLessThanOrEqual(12);
  });

  test('with an overload says by how much', () => {
    const heavy = hoverOn(caretAt(YARD.replace('60 kg "Tool box"', '800 kg "Tool box"'), 'Delivery'));
    expect(cells(heavy, 'Cart mass')[4]).toBe('**255 kg over**');
  });

  test('with many cases shows the extremes and where they occur', () => {
    const cases = ['a', 'b', 'c', 'd', 'e'].map((name, index) => `  case ${name} { fresh ${index * 20} % }\n`).join('');
    const many = hoverOn(caretAt(YARD.replace('  require', `${cases}  require`), 'Delivery'));
    expect(many).toContain('| on level road | least | greatest | reachable | limit | margin |');
    expect(cells(many, 'Cart mass').slice(0, 2)).toEqual(['375 kg (back)', '515 kg (out)']);
  });

  test('that cannot be computed says so', () => {
    expect(hoverOn('rig Lost {\n  tow Nobody\n  haul Nothing\n}\n'.replace('Lost', 'L|ost'))).toContain(
      'cannot be computed',
    );
  });
});

test('a case shows its levels with their masses, what is absent and its loads', () => {
  const text = hoverOn(caretAt(YARD, 'back {'));
  expect(text).toContain('**back** — case of Delivery');
  expect(text).toContain('Cart.fresh 0 % to 40 % (20 % taken), 20 kg');
  expect(text).toContain('Absent: toolbox.');
  expect(cells(text, 'Cart ball load')[0]).toBe('23.1 kg');
});

describe('a unit', () => {
  test('alone: tare, payload, centre of gravity, inertia, limits, and the rigs that have it', () => {
    const text = hoverOn(caretAt(YARD, 'Cart "'));
    expect(text).toMatch(/^\*\*Cart\*\* — trailer “Flat cart”\n\nFlat bed\./);
    expect(cells(text, 'tare')[0]).toBe('305 kg');
    expect(cells(text, 'mass')).toEqual(['305 kg', '305 – 405 kg', '1 000 kg ATM', '695 kg left']);
    // (300·2800 + 4·2100 + 1·2300) / 305 = 2789.2
    expect(cells(text, 'CG along')[0]).toBe('2 789 mm back');
    expect(cells(text, 'CG across')[0]).toBe('0 mm');
    expect(cells(text, 'yaw inertia')[0]).toMatch(/kg·m²$/);
    expect(text).toContain(
      '- rig Delivery: 375 kg to 515 kg (355 – 515 kg reachable), coupling 23.1 kg to 63.1 kg (13.1 – 63.1 kg reachable)',
    );
  });

  test('in a rig: its figures there', () => {
    const text = hoverOn(caretAt(YARD, 'Cart\n'));
    expect(text).toContain('trailer in rig Delivery');
    // Water 100, tool box 60, two sacks 50; then 20 of water and the sacks.
    expect(cells(text, 'payload').slice(0, 2)).toEqual(['210 kg', '70 kg']);
  });

  test('a variant says what is different and what it became', () => {
    const source = `${TRAILER}variant CartLong of Cart {\n  tank fresh 150 L of water at 2 m back, 400 mm up\n  without bed\n}\n`;
    const text = hoverOn(caretAt(source, 'CartLong'));
    expect(text).toContain('A variant of `Cart`; what is different:');
    expect(text).toContain('- `tank fresh`: 100 L, 100 kg when full → 150 L, 150 kg when full');
    expect(text).toContain('- `without bed`');
  });

  test('in US units where the file is written in them', () => {
    const source = 'trailer Wagon {\n  axles single at 10 ft back\n  tare 1000 lb at 9 ft back\n}\n';
    expect(cells(hoverOn(caretAt(source, 'Wagon')), 'mass')[0]).toBe('1 000 lb');
  });
});

describe('supports', () => {
  test('axles: load, left and right, tyres and the biggest contributors', () => {
    const text = hoverOn(caretAt(YARD, 'axles single'));
    expect(text).toMatch(/^\*\*axles\*\* of Cart — single axle, 3 000 mm back/);
    expect(cells(text, 'axle').slice(1, 3)).toEqual(['284 – 334 kg', '900 kg rating']);
    // 305 kg less 21.4 kg on the coupling, on the middle line.
    expect(cells(text, 'axle, left wheels')[0]).toBe(cells(text, 'axle, right wheels')[0]);
    // Load index 106 = 950 kg, UN Regulation No. 54, Annex IV.
    expect(text).toContain('2 tyres 195R14C 106/104Q: 950 kg each, 1 900 kg together, up to 160 km/h, at 450 kPa.');
    expect(cells(text, 'Cart.tare')).toEqual(['300 kg', '+280 kg']);
  });

  test('the lines of an axle block show the group', () => {
    expect(hoverOn(caretAt(YARD, 'rating 900'))).toMatch(/^\*\*axles\*\* of Cart/);
  });

  test('a wheelbase shows both axles', () => {
    const text = hoverOn(caretAt(YARD, 'wheelbase'));
    expect(cells(text, 'front axle')[0]).toBe('1 200 kg');
    expect(cells(text, 'rear axle')[0]).toBe('800 kg');
  });

  test('a coupling: load, share, contributors with their sign', () => {
    const text = hoverOn(caretAt(YARD, 'Cart.coupling.share', 0).replace('C|art.c', 'Cart.c|'));
    expect(text).toMatch(/^\*\*coupling\*\* of Cart — ball, 430 mm up/);
    expect(cells(text, 'sack in Cart.bed')).toEqual(['50 kg', '-8.3 kg']);
  });

  test('a hitch: its load in the rigs that use it', () => {
    expect(hoverOn(caretAt(YARD, 'hitch'))).toContain('- rig Delivery: 23.1 kg to 63.1 kg, 36.9 kg left');
    expect(hoverOn(caretAt(TRUCK, 'hitch'))).toContain('Nothing hangs on it here');
  });

  test('a full trailer: no coupling load, each axle of a group', () => {
    const source = `trailer Dray {
  coupling drawbar, 800 mm up
  axles front single at 2 m back, track 1800 mm, steered
  axles rear tandem at 6 m back, spacing 1200 mm, track 1800 mm, equalised
  tare 1500 kg on front, 2500 kg on rear, 900 mm up
}
`;
    const unit = hoverOn(caretAt(source, 'Dray'));
    expect(cells(unit, 'front axle')[0]).toBe('1 500 kg');
    expect(cells(unit, 'all axles')[0]).toBe('4 000 kg');
    expect(unit).not.toContain('coupling share');
    expect(hoverOn(caretAt(source, 'coupling'))).toContain('carries no vertical load');
    expect(cells(hoverOn(caretAt(source, 'rear tandem')), 'axle 2 from the front')[0]).toBe('1 250 kg');
  });

  test('axles: what the loads of the wheels rest on', () => {
    expect(hoverOn(caretAt(YARD, 'axles single'))).toMatch(/Assumed:\n- Cart: .*side-to-side moment/);
  });

  test('the tare: its contribution and assumptions', () => {
    const text = hoverOn(caretAt(TRAILER.replace(', inertia 400 kg·m²', ''), 'tare'));
    expect(cells(text, 'coupling')[0]).toBe('+20 kg');
    expect(text).toMatch(/Assumed:\n- yaw inertia/);
  });

  test('a limit: what comes nearest to it, alone and in rigs', () => {
    const text = hoverOn(caretAt(YARD, 'ATM'));
    expect(text).toContain('Cart at most 305 kg, in the empty state: 695 kg left.');
    expect(text).toContain(
      '- rig Delivery: Cart at most 515 kg, in case out: 485 kg left; holds in every reachable state.',
    );
    expect(hoverOn(caretAt(TRUCK, 'towing'))).toContain('Nothing here is held against it.');
  });
});

describe('what is on board', () => {
  test('a tank in a case: level, mass, contribution, per kilogram, moved', () => {
    const text = hoverOn(caretAt(YARD, 'fresh 100 %'));
    expect(text).toContain('100 L of water, 100 kg when full; 1 kg/L (49 CFR 571.110');
    expect(text).toContain('Middle 1 500 mm back, 300 mm left, 400 mm up.');
    expect(cells(text, 'level')[0]).toBe('100 %');
    // Half way between coupling and axle. Hitch 1000 mm behind the rear axle of a 3000 mm wheelbase: front −1/3, rear +4/3.
    // 100 kg moved 100 mm: 100·100/3000 = 3.3 kg.
    expect(cells(text, 'Cart ball load')).toEqual(['+50 kg', '+0.5', '+3.3 kg']);
    expect(cells(text, 'Cart axle')).toEqual(['+50 kg', '+0.5', '-3.3 kg']);
    expect(cells(text, 'Truck front axle')).toEqual(['-16.7 kg', '-0.17', '-1.1 kg']);
    expect(cells(text, 'Truck rear axle')).toEqual(['+66.7 kg', '+0.67', '+4.4 kg']);
  });

  test('a tank of a unit alone shows what it does when full', () => {
    const text = hoverOn(caretAt(YARD, 'fresh 100 L'));
    expect(text).toContain('Drinking water.');
    expect(text).toContain('|   | empty | when full | per kg | full, 100 mm ahead |');
    expect(cells(text, 'coupling')).toEqual(['0 kg', '+50 kg', '+0.5', '+3.3 kg']);
  });

  test('a stowed item: place, contribution, per kilogram, moved', () => {
    const text = hoverOn(caretAt(YARD, 'sack in'));
    expect(text).toContain(
      '- 2 x in Cart.bed: 25 kg each, 50 kg together; middle 3 500 mm back, on the middle line, 600 mm up',
    );
    expect(cells(text, 'on board')[0]).toBe('50 kg');
    expect(cells(text, 'Cart ball load')).toEqual(['-8.3 kg', '-0.17', '+1.7 kg']);
    expect(cells(text, 'Cart axle')).toEqual(['+58.3 kg', '+1.17', '-1.7 kg']);
    expect(text).toContain('Moved back, not ahead, the last column turns its sign.');
  });

  test('an item that is absent in a case', () => {
    const text = hoverOn(caretAt(YARD, 'toolbox in'));
    expect(cells(text, 'on board').slice(0, 2)).toEqual(['60 kg', '0 kg']);
    expect(hoverOn(caretAt(YARD, 'toolbox }'))).toContain('Not on board in case back.');
  });

  test('an item where it is declared: mass, size, tags, documentation, where it is stowed', () => {
    const text = hoverOn(caretAt(YARD, 'toolbox 60'));
    expect(text).toMatch(/^\*\*toolbox\*\* — item “Tool box”\n\nSteel box with hand tools\./);
    expect(text).toContain('60 kg ± 2 kg, 800 mm x 400 mm x 400 mm; heavy, keep\\_low.');
    expect(text).toContain('- rig Delivery: `stow toolbox in Cart.bed`');
  });

  test('an item that is stowed in cases of rigs and of units: its lines there', () => {
    const inCases = YARD.replace(
      'absent toolbox }',
      'absent toolbox\n    stow 2 x rope,\n      sack in Truck at 2 m back }',
    )
      .replace('group rack', 'case loaded { stow rope in bed }\n  group rack')
      .replace('item sack', 'item rope 2 kg\nitem sack');
    const text = hoverOn(caretAt(inCases, 'rope 2'));
    expect(text).toContain('- trailer Cart, case loaded: `stow rope in bed`\n');
    expect(text).toContain('- rig Delivery, case back: `stow 2 x rope, sack in Truck at 2 m back`');
  });

  test('a datum in a stow line is of the unit that things are stowed in', () => {
    expect(hoverOn(caretAt(YARD, 'axles, 600'))).toMatch(/^\*\*axles\*\* of Cart/);
  });

  test('an item of another file, hovered where it is stowed', () => {
    const text = hoverOn(caretAt(`use "items.rig"\n${TRUCK}${TRAILER}${RIG}`, 'toolbox in'), { 'items.rig': ITEMS });
    expect(text).toContain('Steel box with hand tools.');
    expect(cells(text, 'Cart axle')[0]).toBe('+60 kg');
  });

  test('a locker in a rig: content and room left; in its unit: the rigs that use it', () => {
    const inRig = hoverOn(caretAt(YARD, 'bed\n'));
    expect(cells(inRig, 'stowed in it')).toEqual(['110 kg', '50 kg']);
    expect(cells(inRig, 'room left')).toEqual(['140 kg', '200 kg']);
    expect(cells(inRig, 'sack')).toEqual(['2', '50 kg']);
    const alone = hoverOn(caretAt(YARD, 'bed from'));
    expect(alone).toContain('- rig Delivery: 110 kg stowed, 140 kg left');
    // In the middle of the bed, straight above the axle.
    expect(cells(alone, 'axle')).toEqual(['+10 kg']);
  });

  test('a seat: who sits there and what that does', () => {
    expect(cells(hoverOn(caretAt(YARD, 'driver\n')), 'Truck front axle')[0]).toBe('+40 kg');
    const alone = hoverOn(caretAt(TRUCK, 'driver'));
    expect(alone).toContain('Not taken');
    expect(cells(alone, 'rear axle')).toEqual(['+40 kg']);
  });

  test('a fitting and its group', () => {
    const text = hoverOn(caretAt(YARD, 'bar 4'));
    expect(text).toContain('**rack.bar** — fitting of Cart');
    expect(text).toContain('4 kg, middle 2 100 mm back, on the middle line, 650 mm up.');
    expect(cells(text, 'coupling')[0]).toBe('+1.2 kg');
    expect(cells(hoverOn(caretAt(YARD, 'rack at')), 'mass')[0]).toBe('5 kg');
    expect(hoverOn(caretAt(YARD, 'bar, 50'))).toContain('**rack.bar**');
  });
});

test('a tag: the items that carry it', () => {
  const tagged = `${YARD}item crate 9 kg tags heavy\n`;
  expect(hoverOn(caretAt(tagged, 'heavy, keep'))).toBe('**heavy** — tag\n\nCarried by toolbox and crate.');
  expect(hoverOn(caretAt(tagged, 'keep_low'))).toContain('Carried by toolbox.');
  // A tag is no name of a thing.
  expect(hoverOn(caretAt('item heavy 3 kg tags heavy\n', 'heavy', 1))).toContain('tag');
});

describe('lines with errors that are left out of the figures', () => {
  const damaged = YARD.replace('tare 300 kg', 'fitting box 3 m at 2 m back, 1 m up\n  tare 300 kg');
  const LINE = 'lines with errors are left out of Cart: its loads are not complete';
  test('are named first, with all figures that lack them', () => {
    for (const word of ['Delivery', 'Cart "Flat', 'share between', 'require', 'out "Outward', 'axles single'])
      expect(hoverOn(caretAt(damaged, word)), word).toContain(`Assumed:\n- ${LINE}`);
    expect(hoverOn(caretAt(damaged, 'Truck "Yard'))).not.toContain(LINE);
    expect(hoverOn(caretAt(YARD, 'Delivery'))).not.toContain(LINE);
  });
});

test('a rig with a weight-distribution device says that loads include it', () => {
  const LINE = 'Coupling and axle loads include the effect of the weight-distribution device.';
  const withDevice = YARD.replace('  travel', '  weight_distribution moment 500 N·m\n  travel');
  const text = hoverOn(caretAt(withDevice, 'Delivery'));
  expect(text).toContain(LINE);
  // The device turns the trailer's nose up: its moment over the distance to the axle comes off the coupling,
  // 500/(9.80665·3) = 17 kg of the 63.1 kg (moments about the axle).
  expect(cells(text, 'Cart ball load')[0]).toBe('46.1 kg');
  expect(hoverOn(caretAt(YARD, 'Delivery'))).not.toContain(LINE);
  const inVehicle = YARD.replace('  seat driver', '  weight_distribution moment 500 N·m\n  seat driver');
  expect(hoverOn(caretAt(inVehicle, 'Delivery'))).toContain(LINE);
  expect(hoverOn(caretAt(inVehicle.replace('  haul Cart\n', ''), 'Delivery'))).not.toContain(LINE);
});

test('a requirement: value and margin in the cases it holds in', () => {
  const text = hoverOn(caretAt(YARD, 'require'));
  expect(text).toContain('**require** Cart.coupling.share between 4 % and 15 %');
  expect(text).toContain('house rule');
  expect(text).toContain('|   | out |');
  expect(cells(text, 'value')).toEqual(['12.3 %']);
  expect(cells(text, 'margin')).toEqual(['2.7 % inside']);
  const broken = hoverOn(caretAt(YARD.replace('15 % in out', '10 %'), 'require'));
  expect(cells(broken, 'margin')).toEqual(['**2.3 % beyond**', '2.2 % inside', '']);
});

test('a computed quantity where it is required', () => {
  expect(cells(hoverOn(caretAt(YARD, 'share between')), 'value')).toEqual(['12.3 %', '6.2 %', '3.2 – 13.9 %']);
});
