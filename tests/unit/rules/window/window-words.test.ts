import { describe, expect, test } from 'vitest';
import { windowPlot } from '../../../../language/drawing/window-plot.ts';
import type { WindowOptions } from '../../../../language/rules/window/question.ts';
import { windowWords } from '../../../../language/rules/window/words.ts';
import { openWindow, PLAIN } from '../../../laws/window-rigs.ts';
import { marksOf } from '../../drawing/shapes.ts';

/**
 * A trailer on one axle 3000 mm behind its ball: what lies x mm back puts m·x/3000 on the axle, the rest on the ball (lever
 * rule). Its 300 kg at 2700 mm put 270 kg on the axle. A full bow tank (100 kg at 1500 mm) adds 50 kg there and 50 kg on the
 * ball; a full stern tank (100 kg at 3600 mm) adds 120 kg to the axle and takes 20 kg off the ball.
 */
const cart = (limits: string, more = '') => `item crate 30 kg
vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1200 kg on front, 800 kg on rear, 600 mm up
  hitch ball at 1000 mm behind rear, 440 mm up
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm ${limits}
  tare 300 kg at 2700 mm back, 500 mm up
  tank bow 100 L of water at 1500 mm back, 500 mm up
  tank stern 100 L of water at 3600 mm back, 500 mm up
  locker bed from 1400 mm to 1600 mm back, floor 500 mm up
}
rig Errand { tow Truck
  haul Cart
  ${more}
  case out {  bow 100 %  stern 0 % }
}
`;

const wordsOf = (
  text: string,
  names: readonly [string, string] = ['bow', 'stern'],
  more: Partial<WindowOptions> = {},
) => {
  const words = windowWords(openWindow(text, names, { ...PLAIN, ...more }).window, 'metric');
  const plain = (each: string) => each.replaceAll('\u202f', ' ');
  return {
    ...words,
    rules: words.rules.map((each) => ({ ...each, rule: plain(each.rule), limit: plain(each.limit) })),
    conflicts: words.conflicts.map(plain),
  };
};

describe('a window in words', () => {
  // 270 + 50·bow + 120·stern ≤ 345: stern ≤ 62.5 % with bow empty, ≤ 20.8 % with bow full.
  test('tells each side as a rule that is rounded to the safe side, with limit and code', () => {
    const { heading, verdict, rules } = wordsOf(cart(', rating 345 kg'));
    expect(heading).toBe('bow and stern of Errand, whatever else is on board');
    expect(verdict).toBe(
      'Every limit holds, whatever else is on board, with bow from 0 % to 100 % (100 L, 100 kg) and stern from 0 % to 62 % (62 L, 62 kg), where these rules are kept too:',
    );
    expect(rules).toEqual([
      {
        rule: 'Keep stern at or under 62 % (62 L, 62 kg) when bow is empty, 20 % (20 L, 20 kg) when it is full',
        limit: 'RW501 Axle of Cart, the load: at most 345 kg (its rating)',
        worst: 'with the rest as in case out',
      },
    ]);
  });

  // Above: 270 + 50·bow + 120·stern ≤ 400 binds from stern = 100 % − …: stern ≤ 108 % with bow empty; it bites from bow = 20 % on.
  test('says where a limit begins to bind', () => {
    expect(wordsOf(cart(', rating 400 kg')).rules.map(({ rule }) => rule)).toEqual([
      'Keep stern at or under 100 % (100 L, 100 kg) when bow is at 20 % or less, 66 % (66 L, 66 kg) when it is full',
    ]);
  });

  // Lower: 270 + 50·bow + 120·stern ≥ 300 asks nothing of bow from stern = 25 % on.
  test('says from where on a limit binds nothing', () => {
    const text = cart('\n  require axles.load at least 300 kg');
    expect(wordsOf(text).rules.map(({ rule }) => rule)).toEqual([
      'Keep stern at or over 25 % (25 L, 25 kg) when bow is empty, 0 % (empty) when it is at 60 % or more',
    ]);
  });

  test('says which levels of a tank were not looked at, and never any level of it', () => {
    const text = cart(', rating 600 kg', 'reachable { stern 10 % to 80 % }').replace('stern 0 %', 'stern 10 %');
    const { verdict, notes } = wordsOf(text);
    expect(verdict).toMatch(/^Any reachable level of bow and stern will do/);
    expect(notes).toContain(
      'Levels of stern outside 10 % to 80 % are not reachable as the files state it, and were not looked at.',
    );
    const whole = wordsOf(cart(', rating 600 kg'));
    expect(whole.verdict).toMatch(/^Any level/);
    expect(whole.notes.join(' ')).not.toContain('not looked at');
    expect(wordsOf(text.replace('600 kg', '250 kg')).verdict).toMatch(/^No reachable level/);
  });

  test('says how rules and corners are rounded, where there are rules', () => {
    const note = 'Rules are rounded to the safe side, corners to the nearest figure.';
    expect(wordsOf(cart(', rating 345 kg')).notes).toContain(note);
    expect(wordsOf(cart(', rating 600 kg')).notes).not.toContain(note);
  });

  // Its stern tank is at the ball and puts nothing on the axle: 270 + 50·bow ≤ 285.
  test('of a bound that is the same at all levels says it once', () => {
    const text = cart(', rating 285 kg').replace('3600 mm back', '0 mm back');
    expect(wordsOf(text).rules.map(({ rule }) => rule)).toEqual(['Keep bow at or under 30 % (30 L, 30 kg)']);
  });

  test('says that any level will do, or which limit fails whatever the levels and by how much', () => {
    const any = wordsOf(cart(', rating 600 kg'));
    expect(any.rules).toEqual([]);
    expect(any.verdict).toBe(
      'Any level of bow and stern will do, whatever else is on board: every limit holds with bow from 0 % to 100 % (100 L, 100 kg) and stern from 0 % to 100 % (100 L, 100 kg).',
    );
    const none = wordsOf(cart(', rating 250 kg'));
    expect(none.verdict).toBe('No level of bow and stern holds every limit, whatever else is on board.');
    expect(none.conflicts).toEqual([
      'RW501 Axle of Cart, the load: at most 250 kg (its rating); even when bow is empty and stern is empty it is 270 kg, 20 kg over, with the rest as in case out.',
    ]);
    expect(none.notes.join(' ')).toContain('`reachable`');
  });

  test('names limits that do not go together', () => {
    // The ball carries 30 + 50·bow − 20·stern, at least 70: bow ≥ 80 %. Then the axle carries at least 310, and may 300.
    const text = cart(', rating 300 kg\n  require coupling.load at least 70 kg');
    const { verdict, conflicts } = wordsOf(text);
    expect(verdict).toMatch(/^No level of bow and stern/);
    expect(conflicts).toHaveLength(1);
    expect(conflicts[0]).toContain('These do not hold at once: ');
    expect(conflicts[0]).toContain('RW501 Axle of Cart, the load: at most 300 kg (its rating)');
    expect(conflicts[0]).toContain('RW581 Cart.coupling.load: at least 70 kg (required in the file)');
    // Where the axle holds (bow ≤ 60 % with stern empty), the ball carries 60 kg at most.
    expect(conflicts[0]).toContain('even when bow is at 60 % and stern is empty it is 60 kg, 10 kg under');
  });

  // Each two of them go together. With all of 1.3 tanks (mass) and the ball at 60 kg at most (50·bow − 20·stern ≤ 30) the axle
  // carries 270 + 50·0.8 + 120·0.5 = 370 kg at least, and may 363.
  test('names three limits of which only each two go together', () => {
    const text = cart(', rating 363 kg\n  require coupling.load at most 60 kg\n  require mass at least 430 kg');
    const [conflict] = wordsOf(text).conflicts;
    for (const each of ['RW501 Axle', 'RW581 Cart.coupling.load', 'RW581 Cart.mass']) expect(conflict).toContain(each);
    expect(wordsOf(text.replace('363', '372')).conflicts).toEqual([]);
    expect(wordsOf(text.replace('at most 60 kg', 'at most 75 kg')).conflicts).toEqual([]);
    expect(wordsOf(text.replace('at least 430 kg', 'at least 420 kg')).conflicts).toEqual([]);
  });

  // 270 + 120·stern ≤ 274 with bow empty: 3.33 %; 270 + 50·bow ≤ 274: 8 %.
  test('prints narrow spans of levels in finer steps', () => {
    const { verdict, rules } = wordsOf(cart(', rating 274 kg'));
    expect(verdict).toContain('stern from 0 % to 3.3 % (3.3 L, 3.3 kg)');
    expect(rules[0]?.rule).toContain('Keep stern at or under 3.3 %');
  });

  // With bow at 10 % at least, 270 + 5 + 120 ≤ 395 kg: the axle begins to bind at the least level itself.
  test('says nothing of levels beyond those looked at', () => {
    const text = cart(', rating 395 kg', 'reachable { bow 10 % to 100 % }');
    expect(wordsOf(text).rules[0]?.rule).toMatch(/100 % \(100 L, 100 kg\) when bow is at 10 %, /);
  });

  test('tells items by their pieces', () => {
    // Four crates of 30 kg at 1500 mm put 15 kg each on the axle: 270 + 50 + 15·n ≤ 345 with bow full: one crate.
    const text = cart(', rating 345 kg', 'stow 4 x crate in Cart.bed').replace(
      'tank stern 100 L of water at 3600 mm',
      'tank stern 1 L of water at 0 mm',
    );
    const { rules, notes, verdict } = wordsOf(text, ['crate', 'bow']);
    expect(verdict).toContain('crate from 0 to 4 (120 kg)');
    expect(rules.map(({ rule }) => rule)).toEqual([
      'Keep bow at or under 100 % (100 L, 100 kg) when 1 or fewer of 4 crate are on board, 30 % (30 L, 30 kg) when all of 4 are on board',
    ]);
    expect(notes.join(' ')).toContain('Fewer pieces of an item lie in proportion');
    const alone = wordsOf(text.replace('4 x crate', 'crate').replace('345', '310'), ['crate', 'bow']);
    expect(alone.verdict).toContain('crate on board or left behind');
    expect(alone.rules.map(({ rule }) => rule)).toEqual([
      'Keep bow at or under 80 % (80 L, 80 kg) when crate is left behind, 50 % (50 L, 50 kg) when it is on board',
    ]);
  });

  test('takes the rest from a case, and says so', () => {
    const text = cart(', rating 345 kg', 'stow 4 x crate in Cart.bed').replace(
      'case out {',
      'case bare { absent crate }\n  case out {',
    );
    const { heading, rules } = wordsOf(text, ['bow', 'stern'], { case: 'bare' });
    expect(heading).toBe('bow and stern of Errand, the rest as in case bare');
    expect(rules[0]?.rule).toContain('62 % (62 L, 62 kg) when bow is empty');
    expect(rules[0]?.worst).toBe('with the rest as in case bare');
    const { window } = openWindow(text, ['bow', 'stern'], { ...PLAIN, case: 'bare' });
    expect(window.points.map(({ name }) => name)).toEqual(['bare']);
    // With the crates, 330 + 50·bow + 120·stern ≤ 345.
    expect(wordsOf(text).rules[0]?.rule).toBe(
      'Keep stern at or under 12 % (12 L, 12 kg) when bow is empty, 0 % (empty) when it is at 30 %',
    );
  });

  test('says what is not stated in phrases that stand on their own, in the units of the rig', () => {
    const notes = (text: string) => wordsOf(text).notes.find((note) => note.startsWith('Not checked')) ?? '';
    const australian = cart(', rating 345 kg').replace('rig Errand', 'rig Errand in AU');
    expect(notes(cart(', rating 345 kg'))).toMatch(/: a rating of the front axle of Truck \(rating 1550 kg\); /);
    expect(notes(cart(', rating 345 kg').replace('rig Errand', 'rig Errand in US'))).toContain('(rating 3400 lb)');
    expect(notes(australian)).not.toMatch(/\b(its|it|that) /);
  });

  test('says what it leaves out', () => {
    const notes = wordsOf(cart(', rating 345 kg\n  require Cart.mass at most 2000 kg in elsewhere')).notes.join(' ');
    expect(notes).toContain('On level ground. The files state no tolerances.');
    expect(notes).toMatch(/Not counted: \d+ limits? of common practice or recommendation/);
    expect(notes).toContain(
      'Not checked, since the files do not state it: a rating of the front axle of Truck (rating 1550 kg); ',
    );
    const elsewhere = cart('', 'require Cart.mass at most 350 kg in out\n  case bare { }\n');
    expect(wordsOf(elsewhere, ['bow', 'stern'], { case: 'bare' }).verdict).toMatch(/^Any level/);
    expect(wordsOf(elsewhere, ['bow', 'stern'], { case: 'bare' }).notes.join(' ')).toContain(
      '1 limit stated for another case',
    );
    expect(wordsOf(elsewhere, ['bow', 'stern'], { case: 'out' }).rules).toHaveLength(1);
    const off = wordsOf(cart(', rating 250 kg'), ['bow', 'stern'], { isOff: (code) => code === 'RW501' });
    expect(off.verdict).toMatch(/^Any level/);
    expect(off.notes.join(' ')).toContain('Turned off: RW501.');
    const tolerance = cart(', rating 345 kg').replace(
      '500 mm up\n  tank bow',
      '500 mm up, tolerance 10 kg\n  tank bow',
    );
    // 10 kg more at 2700 mm put 9 kg on the axle.
    const worst = wordsOf(tolerance, ['bow', 'stern'], { tolerances: 'worst' });
    expect(worst.rules[0]?.rule).toContain('55 % (55 L, 55 kg) when bow is empty');
    expect(worst.notes[0]).toContain('Stated tolerances of masses and places count at their worst.');
    expect(wordsOf(tolerance).rules[0]?.rule).toContain('62 % (62 L, 62 kg)');
    expect(wordsOf(tolerance).notes[0]).toContain('without their tolerances');
  });

  test('counts heights on the safe side, and says so', () => {
    // A tall tank: its content stands at 0.4835 m + 0.4165 m · level. With bow empty, at 68 % the whole is at
    // (150 + 68·0.7667) / 368 = 0.5493 m, at 69 % at (150 + 69·0.7709) / 369 = 0.5506 m.
    const text = cart('\n  require cg.up at most 550 mm').replace(
      '3600 mm back, 500 mm up',
      '3600 mm back, 900 mm up, size 400 x 300 x 833 mm',
    );
    const { notes, rules } = wordsOf(text);
    expect(notes.join(' ')).toContain('on the safe side');
    expect(rules[0]?.rule).toContain('Keep stern at or under 68 % (68 L, 68 kg) when bow is empty');
    expect(rules[0]?.limit).toBe('RW581 Cart.cg.up: at most 550 mm (required in the file)');
  });

  test('tries what goes through a load that can be nothing, and proves what goes through one that cannot', () => {
    // On the coupling 30 kg of the tare, 50 kg of a full bow tank, and −50 kg of a full stern tank 4500 mm back.
    const text = (what: string) =>
      cart(`\n  require ${what} at least 1`).replace('3600 mm back, 500 mm up', '4500 mm back, 500 mm up');
    const triedIn = (what: string) => {
      const { notes } = wordsOf(text(what), ['bow', 'stern'], { isOff: (code) => code === 'RW604' });
      return notes.filter((each) => each.startsWith('Tried'));
    };
    expect(triedIn('axles.load / coupling.load')).toEqual([
      expect.stringContaining('Cart.axles.load / Cart.coupling.load'),
    ]);
    expect(triedIn('axles.load / (coupling.load + 21 kg)')).toEqual([]);
    expect(triedIn('axles.load / (coupling.load + 19 kg)')).toHaveLength(1);
  });

  test('holds a load through another as the share that it is', () => {
    const [ruleOf, share] = ['coupling.load / mass', 'coupling.share'].map((what) => {
      const { rules, notes } = wordsOf(cart(`\n  require ${what} at most 15 %`));
      expect(notes.filter((each) => each.startsWith('Tried'))).toEqual([]);
      return rules.map(({ rule }) => rule);
    });
    expect(ruleOf).toHaveLength(1);
    expect(ruleOf).toEqual(share);
  });

  // 100·bow + 100·stern ≤ 150 kg on board, whatever the empty trailer weighs.
  test('holds a payload however exact the tare is', () => {
    const limited = cart('').replace('  tank bow', '  limits { payload 150 kg }\n  tank bow');
    const loose = limited.replace('2700 mm back, 500 mm up', '2700 mm back, 500 mm up, tolerance 40 kg');
    const { rules } = wordsOf(loose, ['bow', 'stern'], { tolerances: 'worst' });
    expect(rules.map(({ rule }) => rule)).toEqual([
      'Keep stern at or under 100 % (100 L, 100 kg) when bow is at 50 % or less, 50 % (50 L, 50 kg) when it is full',
    ]);
    expect(rules).toEqual(wordsOf(limited).rules);
  });

  // The ball carries 30 + 50·bow − 20·stern of 300 + 100·bow + 100·stern kg: 80 of 400 with bow full and stern empty.
  test('tries what is no load, and says so', () => {
    const limit = (most: string) => cart(`\n  require coupling.load / mass * mass / mass at most ${most}`);
    const told = wordsOf(limit('15 %'));
    expect(told.rules).toEqual([]);
    expect(told.verdict).toMatch(
      /^No limit that is a load bounds bow from 0 % .* others are broken at some of them\.$/,
    );
    const note = told.notes.find((each) => each.startsWith('Tried'));
    expect(note).toMatch(
      /^Tried at 81 pairs of amounts, not proved: RW581 Cart\.coupling\.load \/ Cart\.mass \* Cart\.mass \/ Cart\.mass: at most 15 % \(required in the file\)\. It is broken at \d+ of them, most when bow is full and stern is empty, /,
    );
    expect(wordsOf(limit('21 %')).verdict).toMatch(/^Any level .*: every limit that is a load holds with/);
    expect(wordsOf(limit('21 %')).notes.join(' ')).toContain('It holds at all of them.');
    // At the limit itself nothing is broken.
    expect(wordsOf(limit('20 %')).notes.join(' ')).toContain('It holds at all of them.');
    const { window } = openWindow(limit('15 %'), ['bow', 'stern']);
    const broken = window.tried.flatMap((each) => each.broken);
    const expected = Array.from(
      { length: 81 },
      (_, index) => [Math.floor(index / 9) / 8, (index % 9) / 8] as const,
    ).filter(([u, v]) => (30 + 50 * u - 20 * v) / (300 + 100 * u + 100 * v) > 0.15 + 1e-6);
    expect(broken.map(({ u, v }) => [u, v])).toEqual(expected);
    // Beside the cross of the key.
    expect(marksOf(windowPlot(window), 'cross')).toHaveLength(expected.length + 1);
  });
});

test('a limit that explains itself in brackets gets no brackets around it', () => {
  // Common practice holds the load on the ball to a share of the mass: a full bow tank, at 1500 of 3000 mm, goes over it.
  const { rules } = wordsOf(cart('').replace('rig Errand {', 'rig Errand in AU {'), ['bow', 'stern'], {
    practice: true,
  });
  const limits = rules.map(({ limit }) => limit).filter((limit) => limit.includes('('));
  expect(limits.join()).toMatch(/: at (?:most|least) [\d.]+ kg, \d+ % of .* \([^()]*\)/);
  for (const limit of limits) expect(limit).not.toMatch(/\([^)]*\(/);
});
