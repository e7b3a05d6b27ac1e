import { describe, expect, test } from 'vitest';
import {
  blendInfluences,
  constantInfluence,
  evaluateLoad,
  evaluateLoadValue,
  influenceAt,
  type MassSource,
  massInfluence,
  sumInfluences,
  unitInfluence,
} from '../../../language/mechanics/influence.ts';

const influence = blendInfluences(
  unitInfluence(2, 1, { one: 2, x: 3, y: 5, z: 7, xy: 11 }),
  1,
  constantInfluence(2, 13),
  1,
);
const at = { x: 2, y: -1, z: 0.5 };

describe('an influence', () => {
  test('is one + x·X + y·Y + z·Z + xy·X·Y per kilogram', () => {
    expect(influenceAt(influence, 1, at)).toBe(2 + 6 - 5 + 3.5 - 22);
    expect(influenceAt(influence, 0, at)).toBe(0);
    expect(influenceAt(influence, 5, at)).toBe(0);
  });

  test('evaluates to terms in the order of the sources, which it hands back', () => {
    const sources: MassSource<{ line: number }>[] = [
      { id: { line: 3 }, unit: 1, mass: 10, centre: at },
      { id: { line: 4 }, unit: 0, mass: 99, centre: at },
    ];
    const load = evaluateLoad(influence, sources);
    expect(load.constant).toBe(13);
    expect(load.value).toBe(13 - 155);
    expect(load.terms.map(({ source }) => source)).toEqual(sources);
    expect(load.terms[0]).toMatchObject({ influence: -15.5, load: -155, slope: { x: -80, y: 270, z: 70 } });
    expect(load.terms[1]?.load).toBe(0);
  });

  test('of the mass itself weighs the named units', () => {
    const sources = [0, 1, 2].map((unit) => ({ id: `${unit}`, unit, mass: 10 ** unit, centre: at }));
    expect(evaluateLoadValue(massInfluence(3, [0, 2]), sources)).toBe(101);
    expect(evaluateLoadValue(sumInfluences(3, []), sources)).toBe(0);
  });
});
