import { describe, expect, test } from 'vitest';
import { FLUIDS, findFluid, nearestFluid } from '../../../language/catalogue/fluids.ts';

describe('the catalogue of fluids', () => {
  test('each entry has a source, a density inside its band, and names of its own', () => {
    const names = FLUIDS.flatMap(({ name, synonyms }) => [name, ...synonyms]).map((name) => name.toLowerCase());
    expect(new Set(names).size).toBe(names.length);
    for (const { name, density, range, maximumFill, source } of FLUIDS) {
      expect(source, name).not.toBe('');
      expect(name).toMatch(/^[A-Za-z]\w*$/);
      if (range) expect(density, name).toBe((range[0] + range[1]) / 2);
      if (maximumFill !== undefined) expect(maximumFill, name).toBeLessThan(1);
    }
  });

  test('found by name or synonym in any case, suggested when misspelt', () => {
    expect(findFluid('propane')?.name).toBe('LPG');
    expect(findFluid('lpg')?.name).toBe('LPG');
    expect(findFluid('Gasoline')?.name).toBe('petrol');
    expect(findFluid('lava')).toBeUndefined();
    expect(nearestFluid('deisel')).toBe('diesel');
    expect(nearestFluid('watter')).toBe('water');
    expect(nearestFluid('molasses')).toBeUndefined();
  });

  test('published densities: 49 CFR 571.110 S9.3.4, EN 590, EN 228 and ISO 22241-1 (the last two from memory)', () => {
    expect(findFluid('water')?.density).toBe(1000);
    expect(findFluid('diesel')?.range).toEqual([820, 845]);
    expect(findFluid('petrol')?.range).toEqual([720, 775]);
    expect(findFluid('AUS32')?.range).toEqual([1087, 1093]);
    expect(findFluid('LPG')?.maximumFill).toBe(0.8);
  });

  test('liquid propane agrees with the 4.2 lb/gal of US secondary literature to its two digits', () => {
    const poundsPerGallon = ((findFluid('LPG')?.density ?? 0) * 3.785411784e-3) / 0.45359237;
    expect(poundsPerGallon.toFixed(1)).toBe('4.2');
  });
});
