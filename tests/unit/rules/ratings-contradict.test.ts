import { describe, expect, test } from 'vitest';
import { read } from '../semantics/support.ts';

const trailer = (limits: string, axle = '', coupling = 'ball 50 mm, 430 mm up') => `trailer Hauler {
  coupling ${coupling}
  axles single at 2600 mm back, track 1500 mm${axle}
  tare 240 kg at 2400 mm back, 520 mm up, inertia 210 kg·m²
  brakes overrun
  limits { ${limits} }
}
`;
const vehicle = (limits: string, ratings = ['', '']) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  ${ratings[0] ? `axle front rating ${ratings[0]}` : ''}
  ${ratings[1] ? `axle rear rating ${ratings[1]}` : ''}
  limits { ${limits} }
}
`;
const contradictions = (text: string) => read(text).diagnostics.filter(({ key }) => key === 'ratings-contradict');

describe('ratings that cannot both be right', () => {
  test.each([
    [trailer('ATM 750 kg  GTM 800 kg'), '800 kg', 'its GTM of 800 kg is 50 kg above its ATM, 750 kg'],
    [trailer('ATM 750 kg  GTM 700 kg', ', rating 650 kg'), '700 kg', 'above the sum of its axle ratings, 650 kg'],
    [trailer('ATM 750 kg  coupling 60 kg', ', rating 650 kg'), '750 kg', 'and its coupling limit, 710 kg'],
    [
      trailer('ATM 750 kg  coupling 90 kg', ', rating 650 kg').replace('430 mm up', '430 mm up, rating 60 kg'),
      '750 kg',
      'and its coupling limit, 710 kg',
    ],
    [trailer('ATM 750 kg  UVW 760 kg'), '760 kg', 'its UVW of 760 kg is 10 kg above its ATM'],
    [trailer('ATM 750 kg  coupling_minimum 80 kg  coupling 75 kg'), '80 kg', 'above its coupling limit, 75 kg'],
    [
      trailer('ATM 1300 kg  coupling 100 kg', ', rating 650 kg', 'drawbar, 430 mm up').replace(
        'axles single at 2600 mm back',
        'axle front single at 600 mm back, track 1500 mm, steered, rating 600 kg\n  axle rear single at 2600 mm back',
      ),
      '1300 kg',
      'is 50 kg above the sum of its axle ratings, 1 250 kg. The axles carry all',
    ],
    [vehicle('GVM 3000 kg', ['1400 kg', '1500 kg']), '3000 kg', 'above the sum of its axle ratings, 2 900 kg'],
    [vehicle('GVM 3000 kg  GCM 2900 kg'), '3000 kg', 'its GVM of 3 000 kg is 100 kg above its GCM, 2 900 kg'],
    [vehicle('towing 700 kg  towing_unbraked 750 kg'), '750 kg', 'above its towing rating, 700 kg'],
  ])('%#', (text, place, words) => {
    const [found, ...others] = contradictions(text);
    expect(others).toEqual([]);
    expect([found?.code, found?.severity]).toEqual(['RW541', 'error']);
    expect(found?.message.replace(/\s/g, ' ')).toContain(words);
    expect(text.slice(found?.start, found?.end)).toBe(place);
  });

  test.each([
    trailer('ATM 750 kg  GTM 750 kg', ', rating 750 kg'),
    // The coupling may carry what the axle does not, as far as its limit is known.
    trailer('ATM 750 kg', ', rating 650 kg'),
    trailer('ATM 750 kg  coupling 100 kg', ', rating 650 kg'),
    vehicle('GVM 2900 kg  GCM 2900 kg  towing 750 kg  towing_unbraked 750 kg', ['1400 kg', '1500 kg']),
    // The sum is not known where an axle has no rating.
    vehicle('GVM 3000 kg', ['1400 kg', '']),
  ])('those that fit are not told (%#)', (text) => {
    expect(contradictions(text)).toEqual([]);
  });

  test('are told in the units that the unit is written in', () => {
    const text = `trailer Cart {
  coupling ball 2 in, 18 in up
  axles single at 10 ft back, track 5 ft
  tare 1000 lb at 9 ft back, 2 ft up
  limits { ATM 2000 lb  GTM 2100 lb }
}
`;
    const [found] = read(text).diagnostics.filter(({ key }) => key === 'ratings-contradict');
    expect(found?.message.replace(/\s/g, ' ')).toContain(
      'its GTM of 2 100 lb is 100 lb above its ATM, 2 000 lb. What the axles',
    );
    expect(found?.related.map(({ message }) => message.replace(/\s/g, ' '))).toEqual(['its ATM of 2 000 lb']);
  });

  test('a rig does not repeat what its unit says', () => {
    const rig = `${vehicle('GVM 3000 kg  GCM 2900 kg')}rig Trip { tow Truck }\n`;
    expect(contradictions(rig)).toHaveLength(1);
  });

  test('a variant says it of what it states itself', () => {
    const text = `${trailer('ATM 750 kg  GTM 700 kg')}variant Low of Hauler {\n  limits { ATM 650 kg }\n}\n`;
    const [found, ...others] = contradictions(text);
    expect(others).toEqual([]);
    expect(text.slice(found?.start, found?.end)).toBe('650 kg');
  });
});

test('a tare above its gross rating is told as a load over it, at the rating', () => {
  for (const [text, code] of [
    [trailer('ATM 230 kg'), 'RW504'],
    [vehicle('GVM 2100 kg'), 'RW503'],
  ] as const) {
    const found = read(text).diagnostics.find((each) => each.code === code);
    expect(found?.severity).toBe('error');
    expect(['230 kg', '2100 kg']).toContain(text.slice(found?.start, found?.end));
  }
});

test('a marking that cannot be read is an error at its place, on the axle and where the tyre is declared', () => {
  const onAxle = trailer('ATM 750 kg', ', tyres 2 x "195R14C 106"');
  expect(read(onAxle).marked('unreadable-marking')).toBe('"195R14C 106"');
  expect(read('tyre worn "195R14C 306Q"\n').marked('unreadable-marking')).toBe('"195R14C 306Q"');
});
