import { describe, expect, test } from 'vitest';
import { stabilityOf } from '../../../language/semantics/results.ts';
import { hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { caretAt, YARD } from './yard.ts';

/** Markdown of the hover at the caret, with ordinary spaces. */
function hoverOn(source: string): string {
  const { analysis, offset } = analyseMarked(source);
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
}

/** The cell of the table line that starts with a label, under a head. */
function cell(markdown: string, label: string, head: string): string | undefined {
  const lines = markdown.split('\n').map((line) => line.split(' | ').map((text) => text.replace(/^\| | \|$/g, '')));
  const heads = lines.find((line) => line.includes(head)) ?? [];
  return lines.find(([first]) => first === label)?.[heads.indexOf(head)];
}

/*
 * The cart is 305 kg empty, 21.4 kg of it on its coupling. A litre of its 100 L of water weighs a kilogram, half of it on the
 * coupling; the tool box (60 kg) stands over the axle, the sacks (50 kg) put -8.3 kg on the coupling.
 */
const HALF_FULL = YARD.replace('fresh 100 %  fuel 100 %', 'fresh 60 %  fuel 100 %');
const PLATED = HALF_FULL.replace('ATM 1000 kg', 'ATM 500 kg');
const with_ = (source: string, lines: string) => source.replace('  require Cart', `  ${lines}\n  require Cart`);

describe('what is reachable stands beside the values', () => {
  test('or that there are no bounds, and why', () => {
    // 1500 kg of water 3 m behind the rear axle lift the front axle (1100 kg).
    const lifted = (litres: number) =>
      hoverOn(
        caretAt(
          `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1100 kg on front, 900 kg on rear, 600 mm up
  tank stern ${litres} L of water at 6000 mm back, 200 mm left, 500 mm up
}
rig Errand {
  tow Truck
  case out { stern 0 % }
  require Truck.front.imbalance at most 30 %
}
`,
          'require Truck.front',
        ),
      );
    const text = lifted(1500);
    expect(cell(text, 'value', 'reachable')).toBe('no bounds');
    expect(text).toContain('No bounds: the load that divides can be nothing.');
    const light = lifted(500);
    expect(cell(light, 'value', 'reachable')).toMatch(/%$/);
    expect(light).not.toContain('No bounds');
  });

  test('of a rig, a unit in it, its coupling and its axles', () => {
    const rig = hoverOn(caretAt(HALF_FULL, 'Delivery'));
    expect(cell(rig, 'Cart mass', 'out')).toBe('475 kg');
    expect(cell(rig, 'Cart mass', 'reachable')).toBe('355 – 515 kg ± 2 kg');
    expect(cell(rig, 'Cart ball load', 'reachable')).toBe('13.1 – 63.1 kg');
    // 13.1 of 415 kg, and 63.1 of 455 kg.
    expect(cell(rig, 'Cart coupling share', 'reachable')).toBe('3.2 – 13.9 %');
    const unit = hoverOn(caretAt(HALF_FULL, 'Cart\n  stow'));
    expect(cell(unit, 'mass', 'reachable')).toBe('355 – 515 kg ± 2 kg');
    // What is on board: the sacks, and the water and the tool box or not.
    expect(cell(unit, 'payload', 'reachable')).toBe('50 – 210 kg ± 2 kg');
    expect(cell(unit, 'yaw inertia', 'reachable')).toBe('');
    const coupling = hoverOn(caretAt(HALF_FULL, 'coupling ball'));
    expect(cell(coupling, 'coupling load', 'reachable')).toBe('21.4 – 71.4 kg');
    expect(cell(hoverOn(caretAt(HALF_FULL, 'axles single')), 'axle', 'reachable')).toBe('284 – 334 kg');
  });

  test('of a sum of loads: the payload of a vehicle with what its trailer puts on it', () => {
    const source = HALF_FULL.replace('GVM 2400 kg', 'GVM 2400 kg  payload 600 kg');
    const unit = hoverOn(caretAt(source, 'Truck with'));
    // The driver (80 kg), 0 to 60 L of diesel at 0.84 kg/L, and 13.1 to 63.1 kg on the hitch.
    expect(cell(unit, 'payload with coupling load', 'reachable')).toBe('93.1 – 193 kg');
  });

  test('with the sides of a coordinate in words', () => {
    // All water 300 mm to the left of a trailer that is on its middle line: 100·300/405.
    const unit = hoverOn(caretAt(HALF_FULL, 'Cart "'));
    expect(cell(unit, 'CG across', 'reachable')).toBe('0 mm – 74.1 mm left');
  });

  test('and the hitch, whose load is that of the coupling', () => {
    const hitch = hoverOn(caretAt(HALF_FULL, 'hitch ball'));
    expect(hitch).toContain('rig Delivery: 23.1 kg to 43.1 kg');
  });

  test('in a case the ranges that it states, and none where it states none', () => {
    const back = hoverOn(caretAt(HALF_FULL, 'back {'));
    expect(cell(back, 'Cart mass', 'in its ranges')).toBe('355 – 395 kg');
    expect(cell(back, 'Cart ball load', 'in its ranges')).toBe('13.1 – 33.1 kg');
    expect(hoverOn(caretAt(HALF_FULL, 'out "'))).not.toMatch(/ranges|reachable \|/);
  });

  test('narrowed by the block of reachable states', () => {
    const rig = hoverOn(caretAt(with_(HALF_FULL, 'reachable { fresh 0 % to 60 % }'), 'Delivery'));
    expect(cell(rig, 'Cart mass', 'reachable')).toBe('355 – 475 kg ± 2 kg');
  });

  test('with what tolerances add at worst, and a note what that is', () => {
    const rig = hoverOn(caretAt(HALF_FULL, 'Delivery'));
    expect(rig).toContain('±: what the tolerances add where all of them are at their worst.');
    const exact = hoverOn(caretAt(HALF_FULL.replace(' tolerance 2 kg', ''), 'Delivery'));
    expect(exact).not.toContain('±');
    expect(cell(exact, 'Cart mass', 'reachable')).toBe('355 – 515 kg');
  });

  test('of a figure that is the same in all of them once', () => {
    const source = YARD.replace('fresh 100 L of water', 'fresh 0 L of water').replace(
      'tank fuel 60 L',
      'tank fuel 0 L',
    );
    const rig = hoverOn(caretAt(source.replace('  absent toolbox', ''), 'Delivery'));
    // Only the tool box is not known exactly.
    expect(cell(rig, 'Cart mass', 'reachable')).toBe('415 kg ± 2 kg');
    expect(cell(rig, 'Truck all axles', 'reachable')).toMatch(/^\S+ \S+ kg$/);
    const exact = source.replace('  absent toolbox', '').replace(' tolerance 2 kg', '');
    expect(hoverOn(caretAt(exact, 'Delivery'))).not.toContain('reachable |');
  });
});

describe('limits in the states that no case names', () => {
  test('within the ranges of a case at that case', () => {
    // 375 kg in the middle of the range, 395 kg at its end.
    const source = with_(HALF_FULL, 'require Cart.mass at most 390 kg in back');
    expect(hoverOn(caretAt(source, 'back {'))).toMatch(/Broken within its ranges:\n\n- .*395 kg, \*\*5 kg over\*\*/);
    expect(hoverOn(caretAt(source, 'out "'))).not.toContain('Broken within');
    expect(hoverOn(caretAt(HALF_FULL, 'back {'))).not.toContain('Broken within');
  });

  test('that one of them breaks: in which, and by how much', () => {
    const broken = 'Cart: the load 515 kg, **15 kg over** the ATM, with fresh 100 %, else as in case out';
    const text = hoverOn(caretAt(PLATED, 'Delivery'));
    expect(text).toContain('Broken in states that no case names:');
    expect(text).toContain(broken);
    expect(text).toContain('Every other limit that no named case breaks holds in every reachable state');
    expect(hoverOn(caretAt(PLATED, 'Cart\n  stow'))).toContain(broken);
  });

  test('at the line of the limit, alone and in the rigs', () => {
    const text = hoverOn(caretAt(PLATED, 'ATM'));
    expect(text).toContain(
      'Cart at most 475 kg, in case out: 25 kg left; broken with fresh 100 %, else as in case out: 515 kg, **15 kg over** the ATM.',
    );
    // Alone it names no state, so that nothing is said of others.
    expect(text).toContain('Cart at most 305 kg, in the empty state: 195 kg left.');
    expect(hoverOn(caretAt(HALF_FULL, 'ATM'))).toContain('525 kg left; holds in every reachable state.');
    // What a named case breaks is told there.
    expect(hoverOn(caretAt(HALF_FULL.replace('ATM 1000 kg', 'ATM 470 kg'), 'ATM'))).toContain(
      'in case out: **5 kg over**.',
    );
  });

  test('with a tolerance only', () => {
    // 515 kg, and 2 kg more of the tool box.
    const text = hoverOn(caretAt(HALF_FULL.replace('ATM 1000 kg', 'ATM 516 kg'), 'ATM'));
    expect(text).toMatch(/broken .*with the tolerances stated: 517 kg, \*\*1 kg over\*\*/);
  });

  test('with a tolerance only in a case that states no ranges: nothing is said of any', () => {
    // 475 kg in case out, and 2 kg more of the tool box, which is on board in no other case.
    const text = hoverOn(caretAt(with_(HALF_FULL, 'require Cart.mass at most 476 kg in out'), 'Delivery'));
    expect(text).toMatch(
      /Cart\.mass: the value 477 kg, \*\*1 kg over\*\* .*else as in case out with the tolerances stated/,
    );
    expect(text).not.toContain('ranges of case out');
  });

  test('of a coupling and of an axle with what is required of their figures', () => {
    // The share is 13.1 of 415 kg at least; the axle carries 515 less 63.1 kg at most.
    const source = HALF_FULL.replace(/ {2}require Cart.*/, '').replace(
      '  case out',
      '  require Cart.coupling.share at least 3.5 %\n  require Cart.axles.load + 5 kg at most 450 kg\n  case out',
    );
    const coupling = hoverOn(caretAt(source, 'coupling.share at'));
    expect(coupling).toMatch(/Cart\.coupling\.share: the value 3\.16 %, \*\*0\.34\d? percentage points under\*\*/);
    expect(coupling).not.toContain('Cart.axles');
    const axle = hoverOn(caretAt(source, 'axles.load +'));
    expect(axle).toMatch(/Cart\.axles\.load \+ 5 kg: the value 457 kg, \*\*6\.9\d? kg over\*\*/);
    expect(axle).not.toContain('Cart.coupling.share');
  });

  test('leave aside what is required of stability, and say so', () => {
    const required = hoverOn(caretAt(with_(HALF_FULL, 'require rig.damping at least 0.9'), 'Delivery'));
    expect(required).toMatch(/holds in every reachable state \(what is required of stability apart\)\./);
    expect(hoverOn(caretAt(HALF_FULL, 'Delivery'))).not.toContain('stability apart');
  });

  test('of an axle and of a coupling only their own', () => {
    const source = HALF_FULL.replace('rating 900 kg', 'rating 440 kg').replace('ATM 1000 kg', 'ATM 500 kg');
    // 475 kg less 43.1 kg on the coupling in case out, 515 less 63.1 with all the water.
    const axle = hoverOn(caretAt(source, 'Cart\n  stow'));
    expect(axle).toMatch(/Axle of Cart: the load 452 kg, \*\*11\.9 kg over\*\*/);
    const alone = source.replace('  ## Drinking', '  case dry { fresh 0 % }\n  ## Drinking');
    const own = hoverOn(
      caretAt(alone.replace('rating 440', 'rating 300').replace('ATM 500', 'ATM 400'), 'axles single'),
    );
    expect(own).toMatch(/Axle of Cart: the load 334 kg, \*\*33\.6 kg over\*\* .*with fresh 100 %, else as in case dry/);
    expect(own).not.toContain('ATM');
  });

  test('that a named case breaks are told there, and do not hold', () => {
    // 432 kg on the axle in case out.
    const source = HALF_FULL.replace('rating 900 kg', 'rating 400 kg');
    const text = hoverOn(caretAt(source, 'Cart\n  stow'));
    expect(text).toMatch(/\*\*31\.9 kg over\*\*/);
    expect(text).toContain('Every other limit that no named case breaks holds in every reachable state');
    expect(hoverOn(caretAt(HALF_FULL, 'Cart\n  stow'))).not.toContain('Every limit holds');
    const dry = HALF_FULL.replace('  ## Drinking', '  case dry { fresh 0 % }\n  ## Drinking').replace(
      '1500 mm back, 300 mm left,',
      '1500 mm back,',
    );
    expect(hoverOn(caretAt(dry, 'axles single'))).toContain('\n\nEvery limit holds in every reachable state.\n\n');
    const broken = hoverOn(caretAt(dry.replace('rating 900 kg', 'rating 200 kg'), 'axles single'));
    expect(broken).toContain('\n\nEvery limit that no named case breaks holds in every reachable state.\n\n');
  });

  test('that were tried, not proved, say so', () => {
    const mixed = with_(HALF_FULL, 'require Cart.mass / Truck.mass + Cart.coupling.share at most 5');
    expect(hoverOn(caretAt(mixed, 'require Cart.mass'))).toContain('Holds in every reachable state that was tried.');
    expect(hoverOn(caretAt(mixed, 'Delivery'))).toMatch(/tried in some of them, not proved/);
    expect(hoverOn(caretAt(with_(HALF_FULL, 'require Cart.mass at most 600 kg'), 'require Cart.mass'))).toContain(
      'Holds in every reachable state.',
    );
  });
});

describe('a requirement', () => {
  test('on stability shows each case on its worst road, and the least-damped state that was found beside them', () => {
    const source = HALF_FULL.replace(/\n(?=\s*case )/, '\n  require rig.damping at least 5 %\n');
    const text = hoverOn(caretAt(source, 'require rig.damping'));
    expect(text).toMatch(
      /It holds in the least-damped reachable state found, (with|in case) .*: [\d.]+ % \(sampled: \d+ states tried, others can be worse\)\./,
    );
    expect(text).not.toContain('cannot be checked');
    expect(text).not.toMatch(/Holds|Broken/);
    const few = hoverOn(caretAt(source.replace('5 %', '5 % in out'), 'require rig.damping'));
    expect(few).toContain('No other states are looked at.');
    const plain = hoverOn(caretAt(source.replace('5 %', '0.05'), 'require rig.damping'));
    expect(Number(cell(plain, 'value', 'out'))).toBeCloseTo(
      Number(cell(text, 'value', 'out')?.replace(' %', '')) / 100,
      3,
    );
    const damping = Number(cell(text, 'value', 'out')?.replace(' %', ''));
    const { analysis } = analyseMarked(caretAt(source, 'require rig.damping'));
    const results = analysis.entities(URI).flatMap(({ entity }) => {
      return entity?.kind === 'rig' ? (stabilityOf(entity.result.rig)?.results ?? []) : [];
    });
    const own = results.filter(({ state }) => state.case.name === 'out').map((each) => each.damping);
    expect(own.length).toBeGreaterThan(1);
    expect(damping).toBeCloseTo(100 * Math.min(...own), 1);
    expect(hoverOn(caretAt(source.replace('5 %', '3 kg'), 'require rig.damping'))).toContain('It cannot be checked: ');
  });

  test('in every state: the range of its value and how it stands', () => {
    const text = hoverOn(caretAt(with_(HALF_FULL, 'require Cart.mass at most 500 kg'), 'require Cart.mass'));
    expect(cell(text, 'value', 'reachable')).toBe('355 – 515 kg ± 2 kg');
    expect(text).toContain(
      'Broken with fresh 100 %, else as in case out: 515 kg, **15 kg over** the most allowed here.',
    );
  });

  test('in some cases: the levels that these state', () => {
    const inBack = with_(HALF_FULL, 'require Cart.mass at most 400 kg in back');
    expect(hoverOn(caretAt(inBack, 'require Cart.mass'))).toContain('Holds at all levels that its cases state.');
    const narrow = with_(HALF_FULL, 'require Cart.mass at most 390 kg in back');
    expect(hoverOn(caretAt(narrow, 'require Cart.mass'))).toContain(
      'within the ranges of case back: 395 kg, **5 kg over**',
    );
    const inOut = hoverOn(caretAt(with_(HALF_FULL, 'require Cart.mass at most 500 kg in out'), 'require Cart.mass'));
    expect(inOut).not.toMatch(/Holds|Broken/);
  });
});

describe('the block of reachable states', () => {
  const SOURCE = with_(
    YARD.replace('fuel 60 L of diesel', 'fuel 60 L of diesel, level 40 % to 90 %').replace(
      '  seat driver',
      '  seat mate 75 kg at 1500 mm back, 400 mm right, 700 mm up\n  tank gas 20 L of LPG at 500 mm back, 300 mm up\n  seat driver',
    ),
    'reachable {\n    fresh 0 % to 55 %\n    optional mate, toolbox\n  }',
  );

  test('tells the levels of each tank and who says so', () => {
    const text = hoverOn(caretAt(SOURCE, 'reachable {'));
    expect(text).toContain('- Cart.fresh: 0 % to 55 %, as the `reachable` block says');
    expect(text).toContain('as the `reachable` block says; in no case aboard');
    expect(text).toContain('- toolbox: as the `reachable` block says; aboard in case out, not in case back');
    expect(text).toContain('`reachable`: The states that are driven');
  });

  test('tells of tanks that it does not mention what their line says, or that nobody says anything', () => {
    const text = hoverOn(caretAt(SOURCE, 'reachable {'));
    // Case out has 100 % of fuel, and no case says anything of the gas, so that it is full.
    expect(text).toContain('- Truck.fuel: 40 % to 100 %, as the line of the tank says, and as case out has it');
    expect(text).toContain(
      '- Truck.gas: 0 % to 100 %, from empty to full, as nothing is said of it (LPG at most 80 %), and as case out has it',
    );
  });

  test('at a line of it the tank, at `optional` who and what', () => {
    expect(hoverOn(caretAt(SOURCE, 'fresh 0 % to 55'))).toContain(
      'Reachable: 0 % to 55 %, as the `reachable` block says.',
    );
    expect(hoverOn(caretAt(SOURCE, 'optional'))).toMatch(/^Taken or left behind, in any combination:\n- Truck\.mate:/);
    expect(hoverOn(caretAt(SOURCE, 'mate, toolbox'))).toContain('**mate** — seat of Truck');
  });

  test('at the tank of a unit that rigs haul says that it is of the unit alone', () => {
    expect(hoverOn(caretAt(SOURCE, 'fresh 100 L'))).toContain(
      'Reachable of Cart alone: 0 % to 100 %, from empty to full, as nothing is said of it.',
    );
  });

  test('without seats or items that change says so', () => {
    const text = hoverOn(
      caretAt(with_(YARD.replace('  absent toolbox', ''), 'reachable { fresh 0 % to 100 % }'), 'reachable {'),
    );
    expect(text).toContain('Seats and items are the same in all of them.');
  });
});
