import { describe, expect, test } from 'vitest';
import { ASSUMED_TYRES } from '../../../language/mechanics/stability/tyre-table.ts';

// A change of a default changes the figures of every rig whose tyres are not stated. Middle values of passenger tyres: T. D.
// Gillespie, Fundamentals of Vehicle Dynamics, pp. 347–355, second hand. Lower ones of the other kinds: common practice, no
// source. Peak: 8520 N over the 615 kg (6031 N) that load index 91 stands for; H. B. Pacejka, Tyre and Vehicle Dynamics,
// table A3.1. Relaxation lengths: from memory.
const DEFAULTS = [
  {
    kind: 'passenger',
    construction: 'radial',
    coefficient: 0.15,
    relaxation: 0.4,
    basis: /^radial tyres: T. D. Gillespie/,
  },
  {
    kind: 'passenger',
    construction: 'bias',
    coefficient: 0.12,
    relaxation: 0.5,
    basis: /^bias tyres: T. D. Gillespie/,
  },
  {
    kind: 'light-truck',
    construction: 'radial',
    coefficient: 0.13,
    relaxation: 0.5,
    basis: /common practice, no source$/,
  },
  {
    kind: 'light-truck',
    construction: 'bias',
    coefficient: 0.11,
    relaxation: 0.5,
    basis: /common practice, no source$/,
  },
  {
    kind: 'commercial',
    construction: 'radial',
    coefficient: 0.12,
    relaxation: 0.6,
    basis: /common practice, no source$/,
  },
  { kind: 'commercial', construction: 'bias', coefficient: 0.1, relaxation: 0.6, basis: /common practice, no source$/ },
  { kind: 'trailer', construction: 'radial', coefficient: 0.13, relaxation: 0.4, basis: /common practice, no source$/ },
  { kind: 'trailer', construction: 'bias', coefficient: 0.11, relaxation: 0.5, basis: /common practice, no source$/ },
] as const;

describe('what is taken where a tyre is not stated', () => {
  test('is listed here for every kind', () => {
    expect(Object.keys(ASSUMED_TYRES)).toEqual([...new Set(DEFAULTS.map(({ kind }) => kind))]);
  });

  test.each(DEFAULTS)('$kind, $construction', ({ kind, construction, coefficient, relaxation, basis }) => {
    const taken = ASSUMED_TYRES[kind][construction];
    expect(taken.coefficient.value).toBe(coefficient);
    expect(taken.coefficient.source).toMatch(basis);
    expect(taken.relaxation).toMatchObject({ value: relaxation, least: 0.2, most: 0.7 });
    expect(taken.relaxation.source).toMatch(/from memory/);
    expect(taken.peakRatio).toMatchObject({ value: 1.41, least: 1.1, most: 2.5 });
    expect(taken.peakRatio.value).toBeCloseTo(8520 / (615 * 9.80665), 2);
    expect(taken.peakRatio.source).toMatch(/Pacejka/);
  });
});
