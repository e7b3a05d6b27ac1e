import { describe, expect, test } from 'vitest';
import { completions, hover } from '../../../language/services/index.ts';
import { MAIN, read } from '../semantics/support.ts';
import { analyseMarked } from './markers.ts';

const YARD = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up, rating 40 kg
  limits { GVM 3200 kg }
}
trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm, rating 900 kg
  tare 240 kg at 2050 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
}
`;
const rig = (line = '') => `${YARD}rig Delivery {\n  tow Truck\n  haul Hauler\n  ${line}\n}\n`;

function hoverOn(text: string, word: string): string {
  const { analysis } = read(text);
  return hover(analysis, MAIN, text.indexOf(word) + 1)?.markdown ?? '';
}

describe('the hover of a rig', () => {
  test('says how its limits stand', () => {
    // By hand: the axle of Hauler, the coupling (50.8 kg over 40 kg) and Truck with its coupling load are rated; the two
    // axles of Truck, ATM, GCM, towing, tyres of three axles and their intended speeds are not.
    const text = hoverOn(rig(), 'Delivery');
    expect(text).toMatch(/^Limits: 3 checked, 2 hold, 1 broken, \d+ could not be checked\.$/m);
    expect(text).not.toContain('turned off');
  });

  test('counts what the author requires apart', () => {
    expect(hoverOn(rig(), 'Delivery')).not.toContain('Required');
    // The coupling carries 50.8 kg.
    const lines = [
      'require Hauler.coupling.load at most 60 kg',
      'require Hauler.coupling.load at least 10 kg in out',
      'require Hauler.coupling.load at most 50 kg',
      'require Hauler.coupling.load at most 50 kg in elsewhere',
      'require Hauler.coupling.load at most 50 m',
      'require Hauler.no_such_load at most 50 kg',
      'require rig.damping at least -5',
      'case out { }',
    ];
    expect(hoverOn(rig(lines.join('\n  ')), 'Delivery')).toMatch(
      /^Limits: .* Required in the file: 4 checked, 3 hold, 1 broken, 3 could not be checked\.$/m,
    );
  });

  test('counts what is turned off, with the reason as plain text', () => {
    const text = hoverOn(rig('rule RW603 off "by *design*"'), 'Delivery');
    expect(text).toContain('1 finding turned off: RW603 (by \\*design\\*).');
  });

  test('and that of a trailer alone counts its own', () => {
    const text = rig().replace('  brakes overrun', '  brakes overrun\n  rule RW603 off "by design"');
    expect(hoverOn(text, 'Hauler {')).toContain('1 finding turned off: RW603 (by design).');
    expect(hoverOn(text, 'Delivery')).not.toContain('turned off');
  });
});

describe('a rule line', () => {
  const labelsAt = (text: string): readonly string[] => {
    const { analysis, offset } = analyseMarked(text);
    return completions(analysis, MAIN, offset).map(({ label }) => label);
  };

  test('is completed with the codes of rules, then with the levels', () => {
    expect(labelsAt('rule |')).toEqual(expect.arrayContaining(['RW501', 'RW603', 'RW701', 'RW801', 'RW581']));
    expect(labelsAt('rule |')).not.toContain('RW101');
    expect(labelsAt('rule RW603, |')).not.toContain('RW603');
    expect(labelsAt('rule RW603 |')).toEqual(['off', 'information', 'warning', 'error']);
    expect(labelsAt('rule RW603 off |')).not.toContain('error');
    expect(labelsAt('trailer Hauler {\n  rule |\n}')).toContain('RW603');
  });

  test('says on hovering what its code stands for, its level and itself', () => {
    const text = 'rule RW801 off "x"\n';
    expect(hoverOn(text, 'RW801')).toMatch(
      /^\*\*RW801\*\* — error: The coupling carries less.*Source: StVZO § 44\(3\) \(regulation\)\.$/s,
    );
    expect(hoverOn(text, 'off')).toContain('it is counted, with the reason given');
    expect(hoverOn(text, 'rule')).toContain('how much one or more rules weigh');
    expect(hoverOn('rule RW8 off "x"\n', 'RW8')).toBe('');
  });
});
