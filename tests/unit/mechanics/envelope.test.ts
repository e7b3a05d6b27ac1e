import { expect, test } from 'vitest';
import { isAlwaysPositive } from '../../../language/mechanics/envelope.ts';
import { massInfluence } from '../../../language/mechanics/influence.ts';

test('a load that can be nothing is not positive in every state', () => {
  const mass = massInfluence(1, [0]);
  const of = (...masses: number[]) => masses.map((each) => [{ unit: 0, mass: each, centre: { x: 0, y: 0, z: 0 } }]);
  expect(isAlwaysPositive(mass, [{ choices: of(1, 2) }])).toBe(true);
  expect(isAlwaysPositive(mass, [{ choices: of(0, 2) }])).toBe(false);
});
