import { describe, expect, test } from 'vitest';
import { analyse, openDocument } from '../../../language/index.ts';
import { reachesOf } from '../../../language/rules/reach/check-reach.ts';
import { rangeOf } from '../../../language/semantics/envelope/ranges.ts';

const URI = 'file:///yard/one.rig';

/** A cart of 2000 kg on axles 3 m apart: a kilogram at x m behind the front axle puts x / 3 kg on the rear one. */
const cart = (unit: string, rig: string, before = '') => `${before}vehicle Cart {
  wheelbase 3000 mm, track 1600 mm
  kerb 1100 kg on front, 900 kg on rear, 600 mm up, inertia 3600 kg·m²
  locker box from 2500 mm to 2900 mm back, floor 500 mm up
${unit}}
rig Trip {
  tow Cart with driver
${rig}}
`;

const analysed = (text: string) =>
  analyse({ documents: new Map([[URI, { kind: 'text', syntax: openDocument(text) }]]) });

/** What tolerances add to and take off the rear axle's load at worst, kg. */
function around(text: string): readonly [number, number] {
  const result = analysed(text)
    .entities(URI)
    .flatMap(({ entity }) => (entity?.kind === 'rig' ? [entity.result] : []))[0];
  const reaches = result && reachesOf(result);
  if (reaches === undefined) throw new Error('no loads');
  const range = (among: 'free' | 'toleranced') => {
    const found = rangeOf(reaches.whole, reaches.loads, 'Cart.rear.load', among);
    if (found === undefined) throw new Error('no range');
    return [found.least.value, found.most.value] as const;
  };
  const [free, toleranced] = [range('free'), range('toleranced')];
  return [free[0] - toleranced[0], toleranced[1] - free[1]];
}

const DRIVER = '  seat driver 90 kg at 1200 mm back, 700 mm up\n';

describe('tolerances', () => {
  test('of who sits on a seat, and of where', () => {
    const seat = '  seat driver 90 kg ± 15 kg at 1200 mm ± 60 mm back, 700 mm up\n';
    // 105 kg at 1.26 m, 75 kg at 1.14 m, instead of 90 kg at 1.2 m.
    const [less, more] = around(cart(seat, ''));
    expect(more).toBeCloseTo((105 * 1.26 - 90 * 1.2) / 3, 9);
    expect(less).toBeCloseTo((90 * 1.2 - 75 * 1.14) / 3, 9);
  });

  test('of where a tank is, at every level', () => {
    const tank = `${DRIVER}  tank fresh 90 L of water at 2000 mm ± 30 mm back, 500 mm up, size 900 x 400 x 250 mm\n`;
    // Full at most: 90 kg, 0.03 m; empty at least: nothing to be off.
    const [less, more] = around(cart(tank, ''));
    expect(more).toBeCloseTo((90 * 0.03) / 3, 9);
    expect(less).toBeCloseTo(0, 9);
  });

  test('of where items lie, each place on its own and all as heavy as one another', () => {
    const crate = 'item crate 60 kg ± 6 kg\n';
    const stow =
      '  stow crate in Cart at 1500 mm ± 200 mm back, 600 mm up\n  stow crate in Cart at 3000 mm ± 100 mm back, 600 mm up\n';
    const [, more] = around(cart(DRIVER, stow, crate));
    expect(more).toBeCloseTo((66 * (1.7 + 3.1) - 60 * (1.5 + 3)) / 3, 9);
  });

  test('of more places than can be listed are exact too, in good time', () => {
    const crate = 'item crate 6 kg ± 0.5 kg\n';
    const places = Array.from({ length: 14 }, (_, index) => 1 + index / 10);
    const stow = places
      .map((x) => `  stow crate in Cart at ${x * 1000} mm ± 20 mm back, 100 mm ± 10 mm left, 600 mm ± 5 mm up\n`)
      .join('');
    const [less, more] = around(cart(DRIVER, stow, crate));
    const sum = (each: (x: number) => number) => places.reduce((total, x) => total + each(x), 0);
    expect(more).toBeCloseTo(sum((x) => 6.5 * (x + 0.02) - 6 * x) / 3, 9);
    expect(less).toBeCloseTo(sum((x) => 6 * x - 5.5 * (x - 0.02)) / 3, 9);
  });

  test('of a level are a range of it', () => {
    const text = cart(
      `${DRIVER}  tank fresh 90 L of water at 2000 mm back, 500 mm up\n`,
      '  case out { fresh 50 % ± 10 % }\n',
    );
    const state = analysed(text)
      .entities(URI)
      .flatMap(({ entity }) => (entity?.kind === 'rig' ? [...(entity.rig.cases[0]?.levels.values() ?? [])] : []))[0];
    expect([state?.least, state?.value, state?.most].map((level) => level && Number(level.toFixed(9)))).toEqual([
      0.4, 0.5, 0.6,
    ]);
  });
});

test.each([
  ['a rating', '  limits { GVM 2400 kg ± 50 kg }\n', '± 50 kg'],
  ['an axle', '  hitch ball at 900 mm ± 5 mm behind rear, 450 mm up\n', '5 mm'],
  ['a locker', '  locker shelf from 1500 mm to 1900 mm back, floor 700 mm ± 20 mm up\n', '20 mm'],
])('a tolerance of %s means nothing and is an error where it stands', (_, line, stands) => {
  const text = cart(DRIVER + line, '');
  const found = analysed(text).diagnostics(URI);
  expect(found.filter(({ severity }) => severity === 'error').map(({ code }) => code)).toEqual(['RW110']);
  const error = found.find(({ code }) => code === 'RW110');
  expect(stands).toContain(text.slice(error?.start, error?.end));
});
