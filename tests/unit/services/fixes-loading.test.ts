import { describe, expect, test } from 'vitest';
import { applied, errors, fixTitled, messages, offeredFor } from './fixes-support.ts';
import { YARD } from './yard.ts';

/*
 * Cart weighs 300 + 5 + 60 + 50 kg and its water in case out: 515 kg with 100 L, 1 kg/L; in case back 405 kg at most.
 */
const OVER = 'over-ATM';
const limited = (atm: number, source = YARD): string => source.replace('ATM 1000 kg', `ATM ${atm} kg`);

const excess = (source: string): number =>
  Math.max(0, ...messages(source, OVER).map((message) => Number(/is ([\d.]+) kg over/.exec(message)?.[1])));

describe('draining a tank that advice proposes', () => {
  test('changes the level in the worst case', () => {
    const source = limited(460);
    const fix = fixTitled(offeredFor(source, OVER), 'Draining');
    // 55 kg over: 45 L are left.
    expect(fix.title).toBe('Draining Cart.fresh from 100 % to 45 % takes off 55 kg in case out');
    expect(fix.preferred).toBeUndefined();
    const mended = applied(source, fix);
    expect(mended).toBe(source.replace('fresh 100 %', 'fresh 45 %'));
    expect(messages(mended, OVER)).toEqual([]);
  });

  test('adds the level where the case does not state it', () => {
    const source = limited(460, YARD.replace('fresh 100 %  fuel', 'fuel'));
    const mended = applied(source, fixTitled(offeredFor(source, OVER), 'Draining'));
    expect(mended).toContain('case out "Outward" {\n    Cart.fresh 45 %\n    fuel 100 % }');
    expect(errors(mended).filter((error) => error.startsWith('RW1'))).toEqual([]);
    expect(messages(mended, OVER)).toEqual([]);
  });

  test('tells cases apart whose names begin alike', () => {
    const cases = 'case out { fresh 50 % }\n  case out_again { fresh 100 % }';
    const source = limited(430, YARD.replace('case out "Outward" { fresh 100 %  fuel 100 % }', cases));
    const [message = ''] = messages(source, OVER);
    expect(message).toMatch(/in case out_again\. Also in case out /);
    const mended = applied(source, fixTitled(offeredFor(source, OVER), 'Draining'));
    expect(mended).toContain('case out { fresh 50 % }');
    expect(mended).toContain('case out_again { fresh 15 % }');
    expect(excess(mended)).toBeLessThan(excess(source));
  });

  test('is not offered where the level is a range', () => {
    const source = limited(440, YARD.replace('fresh 100 %  fuel', 'fresh 80 % to 100 %  fuel'));
    expect(messages(source, OVER)[0]).toContain('Draining Cart.fresh');
    expect(offeredFor(source, OVER).fixes.filter(({ title }) => title.includes('Draining'))).toEqual([]);
  });
});

describe('leaving behind what advice proposes', () => {
  const dry = YARD.replace('tank fresh', 'tank waste')
    .replaceAll(/ fresh \S+ %(?: to 40 %)? /g, ' ')
    .replace('waste 100 L of water', 'waste 1 L of water');

  test('takes the line out that stows it', () => {
    const source = limited(360, dry);
    const [message = ''] = messages(source, OVER);
    expect(message).toContain('Leaving toolbox (60 kg) behind takes off 60 kg.');
    const fix = fixTitled(offeredFor(source, OVER), 'Leaving');
    expect(fix.title).toBe('Leaving toolbox (60 kg) behind takes off 60 kg');
    const mended = applied(source, fix);
    expect(mended).toBe(source.replace('  stow toolbox in Cart.bed\n', ''));
    expect(messages(mended, OVER)).toEqual([]);
  });

  test('takes one of several things out of their line, and leaves a remark', () => {
    const together = limited(360, dry).replace('stow toolbox in Cart.bed\n', 'stow sack, toolbox in Cart.bed # both\n');
    const one = applied(together, fixTitled(offeredFor(together, OVER), 'Leaving'));
    expect(one).toBe(together.replace('stow sack, toolbox', 'stow sack'));
    const remarked = limited(360, dry).replace('stow toolbox in Cart.bed\n', 'stow toolbox in Cart.bed # today\n');
    const left = applied(remarked, fixTitled(offeredFor(remarked, OVER), 'Leaving'));
    expect(left).toBe(remarked.replace('stow toolbox in Cart.bed #', ' #'));
  });
});
