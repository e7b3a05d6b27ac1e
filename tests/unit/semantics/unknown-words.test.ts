import { describe, expect, it } from 'vitest';
import { applied, fixTitled, messages, offeredAt } from '../services/fixes-support.ts';

const trailer = (line: string): string => `trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 500 kg at 2700 mm back, 500 mm up, gyration 900 mm
  ${line}
}
`;
const vehicle = (line: string): string => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up
  ${line}
}
`;

const rig = (market: string): string => `${trailer('brakes electric')}rig Trip in ${market} { haul Cart }\n`;
const unfit = (source: string) => messages(source, 'unexpected-part');
const names = (source: string) => messages(source, 'unknown-name');
const missing = (source: string) => messages(source, 'missing-part');

describe('a word that a line does not know', () => {
  it.each([
    [
      trailer('trailer_type caravan'),
      "'trailer_type' takes no 'caravan'. It takes: 'recreation_trailer', 'utility_trailer'.",
    ],
    [trailer('brakes magic'), "'brakes' takes no 'magic'. It takes: 'unbraked', 'overrun', 'electric', 'air'."],
    [
      vehicle('vehicle_type hearse'),
      /^'vehicle_type' takes no 'hearse'\. It takes: 'passenger_car', .*'motor_home'\.$/,
    ],
    [trailer('brakes magic x wonder'), /^'brakes' takes no bare value\./],
    [vehicle('vehicle_type 3 kg'), /^'vehicle_type' takes no bare value\./],
  ])('is one error, on the word: %#', (source, message) => {
    const [found, ...others] = unfit(source);
    expect(found).toMatch(message);
    expect(others).toEqual([]);
    expect(missing(source)).toEqual([]);
  });

  it('is replaced by the nearest that the line takes', () => {
    const source = trailer('trailer_type utilty_trailer');
    const fix = fixTitled(offeredAt(source, 'utilty'), "'utility_trailer'");
    expect(messages(applied(source, fix), 'unexpected-part')).toEqual([]);
    expect(offeredAt(trailer('trailer_type caravan'), 'caravan').fixes).toEqual([]);
  });

  it('is missed where the line has none', () => {
    expect(missing(trailer('trailer_type'))).toEqual([expect.stringContaining('what the trailer is certified as')]);
    expect(missing(vehicle('vehicle_type'))).toEqual([expect.stringContaining('what the vehicle is certified as')]);
    expect(missing(trailer('brakes'))).toEqual([expect.stringContaining('their kind')]);
  });
});

describe('a market that there is none of', () => {
  it.each([
    ['de', 'DE'],
    ['Germany', 'DE'],
    ['united_kingdom', 'UK'],
    ['Us', 'US'],
  ])('%s is replaced by %s', (written, market) => {
    const source = rig(written);
    expect(names(source)).toHaveLength(1);
    const fix = fixTitled(offeredAt(source, `${written} {`), `by '${market}'`);
    expect(applied(source, fix)).toBe(rig(market));
  });

  it('is told with those there are, and nothing is guessed', () => {
    const [found, ...others] = names(rig('XX'));
    expect(others).toEqual([]);
    expect(found).toContain("No market (US, CA, AU, NZ, EU, UK, DE) is called 'XX' here.");
    expect(offeredAt(rig('UA'), 'UA').fixes).toEqual([]);
  });
});
