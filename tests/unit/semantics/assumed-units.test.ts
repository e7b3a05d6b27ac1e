import { expect, test } from 'vitest';
import { read } from './support.ts';

/** A trailer written in feet and pounds that leaves out what can be left out. */
const CUSTOMARY = `trailer Hauler {
  body from 3 ft to 13 ft back, width 5 ft, from 1 ft to 4 ft up
  coupling ball 2 in
  axles single at 8 ft back
  tare 530 lb at 7 ft 6 in back
  fitting rack 20 lb at 6 ft back
  tank fresh 20 gal at 5 ft back
}
`;

test('what is assumed of a unit is told in the units that it is written in', () => {
  const texts = read(CUSTOMARY)
    .assumptions('Hauler')
    .filter((text) => text.includes('not stated'));
  expect(texts.join('\n')).not.toMatch(/\d (?:mm|kg|kg·m²|L|kg\/L)\b/);
  // 1500 mm and 430 mm; a third of 3 ft above 1 ft; water of 1 kg/L (1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 gal = 231 in³).
  expect(texts).toEqual(
    expect.arrayContaining([
      'track of axles not stated: 59.1 in taken',
      expect.stringMatching(/^height of the coupling of Hauler not stated: [\d.]+ in taken$/),
      expect.stringMatching(/^height of .* in Hauler not stated: 24 in up taken$/),
      expect.stringMatching(
        /^yaw inertia of the tare of Hauler not stated: .* [\d.]+ in taken \([\d\u202f]+ lb·ft²\)$/,
      ),
      'fluid of tank fresh of Hauler not stated: water, 8.35 lb/gal, taken',
    ]),
  );
});
