import { expect, test } from 'vitest';
import { read } from '../semantics/support.ts';

/*
 * A trailer of 1000 lb on one axle 10 ft behind its coupling, its centre of gravity 9 ft behind: 900 lb on the axle and
 * 100 lb on the coupling, by the lever.
 */
const yard = (market: string, place = '9 ft back') => `vehicle Truck {
  wheelbase 10 ft, track 5 ft
  kerb 3000 lb on front, 2000 lb on rear, 2 ft up, gyration 5 ft
  hitch ball at 4 ft behind rear, 18 in up, rating 90 lb
}
trailer Cart {
  coupling ball 2 in, 18 in up
  axles single at 10 ft back, track 5 ft, rating 800 lb
  tare 1000 lb at ${place}, 2 ft up, gyration 4 ft
  brakes electric
}
rig Haul in ${market} {
  tow Truck
  haul Cart
  case only { }
}
`;

const messages = (text: string, ...keys: readonly string[]) =>
  read(text).diagnostics.flatMap(({ key, message }) => (keys.includes(key) ? [message.replaceAll('\u202f', ' ')] : []));

test('loads over their limits are told in the units of the market', () => {
  expect(messages(yard('US'), 'over-axle-rating', 'over-coupling-rating')).toEqual(
    expect.arrayContaining([
      'Axle of Cart: 900 lb is 100 lb over its rating of 800 lb in case only.',
      'Coupling of Cart: 100 lb is 10 lb over the hitch rating of Truck of 90 lb in case only.',
    ]),
  );
  // 1 lb = 0.45359237 kg, exact: 900 lb are 408 kg, 800 lb 363 kg.
  expect(messages(yard('CA'), 'over-axle-rating')).toContain(
    'Axle of Cart: 408 kg is 45.4 kg over its rating of 363 kg in case only.',
  );
});

test('a rear-heavy trailer tips by pounds and feet', () => {
  // 1000 lb, 6 in behind the axle: 500 lb·ft.
  expect(messages(yard('US', '10 ft 6 in back'), 'rear-heavy')[0]).toContain(
    'its centre of gravity is 6 in behind the middle of its axles; uncoupled, it tips back with 500 lb·ft',
  );
});

test('a move that helps is told in them too', () => {
  const stowed = yard('US')
    .replace(
      '  brakes electric',
      '  brakes electric\n  locker nose from 1 ft to 3 ft back, floor 2 ft up\n  locker tail from 11 ft to 13 ft back, floor 2 ft up',
    )
    .replace('rating 800 lb', 'rating 940 lb')
    .replace('rating 90 lb', 'rating 300 lb')
    .replace('  haul Cart', '  haul Cart\n  stow chest in Cart.tail');
  // 900 + 50 · 12/10 = 960 lb; from 12 ft to 2 ft behind the coupling it takes off 50 · 10/10 = 50 lb.
  expect(messages(`item chest 50 lb\n${stowed}`, 'over-axle-rating')).toContain(
    'Axle of Cart: 960 lb is 20 lb over its rating of 940 lb in case only. Moving chest (50 lb) to Cart.nose takes off 50 lb.',
  );
});

test('what contributes is told in the same units', () => {
  const over = read(yard('US')).diagnostics.find(({ key }) => key === 'over-axle-rating');
  expect(over?.related.map(({ message }) => message.replaceAll('\u202f', ' '))).toContain(
    'Cart.tare (1 000 lb) contributes 900 lb',
  );
});
