import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LOADS } from '../../../../language/diagnostics/loads.ts';
import { COUPLING_TEXTS } from '../../../../language/diagnostics/markets/couplings.ts';
import { limitsOf } from '../../../../language/rules/index.ts';
import type { LimitRow } from '../../../../language/rules/limits/table.ts';
import { read } from '../../semantics/support.ts';

const rowsOf = (text: string, code: string): LimitRow[] =>
  limitsOf(read(text).result('Delivery')).filter((row) => row.code === code);

/** Value, limit and margin of the row of a subject, or what is missing. */
function outcomeOf(rows: readonly LimitRow[], subject: string) {
  return rows.find((row) => row.subject === subject)?.outcome;
}

const { example: SMALL_D, mended: ENOUGH_D, code: D } = COUPLING_TEXTS['coupling-D-value'];
const HEAVY = COUPLING_TEXTS['coupling-V-value'];

describe('the D value', () => {
  test('is compared with the mark of each half; the weaker is reported', () => {
    const rows = rowsOf(SMALL_D, D);
    // T 3000 kg, R 1500 kg: 9.81·3000·1500/4500 = 9810 N.
    expect(outcomeOf(rows, 'Hitch of Truck')).toMatchObject({
      value: 9810,
      limit: 8000,
      verdict: 'broken',
      unit: 'kN',
    });
    expect(outcomeOf(rows, 'Coupling of Hauler')).toMatchObject({ limit: 12_000, verdict: 'holds', state: '' });
    const found = read(SMALL_D).diagnostics.filter(({ code }) => code === D);
    expect(found.map(({ message }) => message)).toEqual([
      // R = 8000·3000/(9.81·3000 − 8000) = 1120 kg.
      'Hitch of Truck: the D value needed of 9.81 kN is 1.81 kN over the D value marked on it, 8 kN. It suffices for an ATM of up to 1\u202f120 kg.',
    ]);
    expect(found[0]?.related.map(({ message }) => message)).toContain('Coupling of Hauler: D 12 kN.');
  });

  test('that is not marked is told with the least it has to be, which suffices when it is marked', () => {
    const [hitch] = rowsOf(SMALL_D.replace(', D 8 kN', ''), D);
    expect(hitch?.outcome).toEqual({
      verdict: 'open',
      missing: 'the D value marked on the hitch of Truck, 9.81 kN or more (D … kN on its hitch line)',
    });
    fc.assert(
      fc.property(fc.integer({ min: 2200, max: 3500 }), fc.integer({ min: 300, max: 3500 }), (vehicle, trailer) => {
        const limits = SMALL_D.replace('GVM 3000', `GVM ${vehicle}`).replace('ATM 1500', `ATM ${trailer}`);
        const [open] = rowsOf(limits.replace(', D 8 kN', ''), D);
        const least =
          open && 'missing' in open.outcome ? /Truck, (.*) or more/.exec(open.outcome.missing)?.[1] : undefined;
        expect(least).toBeDefined();
        const [marked] = rowsOf(limits.replace('D 8 kN', `D ${least}`), D);
        expect(marked?.outcome.verdict).toBe('holds');
      }),
      { numRuns: 25 },
    );
  });

  test('leaves less of a mark the heavier the trailer is', () => {
    const masses = fc.integer({ min: 300, max: 3400 });
    fc.assert(
      fc.property(masses, fc.integer({ min: 1, max: 100 }), (trailer, more) => {
        const margins = [trailer, trailer + more].map((mass) => {
          const [row] = rowsOf(ENOUGH_D.replace('ATM 1500', `ATM ${mass}`), D);
          return row && 'margin' in row.outcome ? row.outcome.margin : Number.NaN;
        });
        expect(margins[1]).toBeLessThan(margins[0] ?? Number.NaN);
      }),
      { numRuns: 25 },
    );
  });

  test('cannot be told without the permissible masses', () => {
    const missing = (text: string) => rowsOf(text, D).map(({ outcome }) => 'missing' in outcome && outcome.missing);
    expect(missing(ENOUGH_D.replace(/ {2}limits { GVM.*\n/, ''))).toEqual([
      'a GVM among the limits of Truck (GVM 3000 kg)',
    ]);
    expect(missing(ENOUGH_D.replace(/ {2}limits {.*\n/g, ''))).toEqual([
      'a GVM among the limits of Truck (GVM 3000 kg) and an ATM among the limits of Hauler (ATM 3000 kg)',
    ]);
  });

  test('of a rig that names none of its markets is not looked at', () => {
    expect(rowsOf(SMALL_D.replace('in EU ', ''), D)).toEqual([]);
    expect(rowsOf(SMALL_D.replace('in EU ', 'in AU '), D)).toEqual([]);
    expect(rowsOf(SMALL_D.replace('in EU ', 'in DE '), D)).toHaveLength(2);
    expect(rowsOf(SMALL_D.replace('in EU ', 'in UK '), D)).toHaveLength(2);
  });

  const semi = (limits: string) => `vehicle Truck {
  axles front single at 0 mm back, track 1900 mm, steered
  axles rear single at 3600 mm back, track 1820 mm
  kerb 5000 kg on front, 2500 kg on rear, 900 mm up
  hitch kingpin at 600 mm ahead of rear, 1150 mm up, U 11 t, D 87 kN, class "G50-X"
  limits { GVM 18000 kg }
}
trailer Hauler {
  coupling kingpin 1150 mm up, D 86 kN, class "H50-X"
  axles tri at 7700 mm back, spacing 1310 mm, track 2040 mm, equalised
  tare 6500 kg at 5500 mm back, 1200 mm up
  limits { ${limits} }
}
rig Delivery in EU {
  tow Truck
  haul Hauler
  case empty { }
}
`;

  test('of a fifth wheel counts the load on it', () => {
    // T 18 t, R 33 t, U 10.5 t: 86.328 kN, computed from the formula of UN R55 read second-hand.
    const rows = rowsOf(semi('ATM 33000 kg  GTM 22500 kg'), D);
    const hitch = outcomeOf(rows, 'Hitch of Truck');
    expect(hitch?.verdict).toBe('holds');
    expect(hitch && 'value' in hitch ? hitch.value : 0).toBeCloseTo(86_328, 0);
    expect(outcomeOf(rows, 'Coupling of Hauler')?.verdict).toBe('broken');
    expect(outcomeOf(rowsOf(semi('ATM 33000 kg'), D), 'Coupling of Hauler')).toMatchObject({
      missing: expect.stringContaining('GTM'),
    });
  });

  test('a fifth wheel’s U value is its rating', () => {
    const heavy = semi('ATM 33000 kg  GTM 22500 kg').replace('U 11 t', 'U 1 t');
    expect(read(heavy).keys).toContain('over-coupling-rating');
    expect(read(semi('ATM 33000 kg  GTM 22500 kg')).keys).not.toContain('over-coupling-rating');
  });

  test('of joints between trailers is told to be open', () => {
    const text = SMALL_D.replace(
      'rig Delivery',
      `trailer Second {
  coupling ball 50 mm, 430 mm up
  axles single at 2600 mm back, track 1500 mm
  tare 240 kg at 2400 mm back, 520 mm up
}
rig Delivery`,
    )
      .replace('haul Hauler', 'haul Hauler, Second')
      .replace('  tare 240', '  hitch ball at 900 mm behind axles, 430 mm up\n  tare 240');
    expect(outcomeOf(rowsOf(text, D), 'Coupling of Second')).toMatchObject({ verdict: 'open' });
  });
});

describe('the Dc and V values', () => {
  test('take the place of D over 3.5 t', () => {
    expect(rowsOf(HEAVY.mended, D)).toEqual([]);
    expect(rowsOf(HEAVY.mended, COUPLING_TEXTS['coupling-Dc-value'].code)).toHaveLength(2);
    expect(rowsOf(HEAVY.mended.replace('ATM 10500', 'ATM 3500'), D)).toHaveLength(2);
  });

  test('V counts the suspension of the tow vehicle, and says what it took', () => {
    // C 10 t, X 7 m, L 5.6 m: 1.5625·10·1.8 = 28.125 kN, with 2.4 m/s² 37.5 kN (formula from memory).
    const [air] = rowsOf(HEAVY.mended, HEAVY.code);
    expect(air?.outcome).toMatchObject({ value: expect.closeTo(28_125, 6) });
    expect(air?.quantity).toBe('the V value needed with 1.8 m/s² (air suspension at the rear of Truck)');
    const [other] = rowsOf(HEAVY.mended.replace(', air_suspension', ''), HEAVY.code);
    expect(other?.outcome).toMatchObject({ value: expect.closeTo(37_500, 6) });
    expect(other?.quantity).toBe('the V value needed with 2.4 m/s² (no air_suspension stated at the rear of Truck)');
  });

  test('V needs a body and a GTM', () => {
    const bare = HEAVY.mended.replace(/ {2}body .*\n/, '').replace('  GTM 10000 kg', '');
    const [row] = rowsOf(bare, HEAVY.code);
    expect(row?.outcome).toEqual({
      verdict: 'open',
      missing:
        'a GTM among the limits of Hauler (GTM 3000 kg) and a body of Hauler, whose length counts as its loading area',
    });
  });
});

describe('classes of SAE J684', () => {
  const { example, code } = COUPLING_TEXTS['hitch-class'];

  test('are compared with the trailer as it weighs', () => {
    const rows = rowsOf(example, code);
    expect(outcomeOf(rows, 'Hitch of Truck')).toMatchObject({ value: 1000, verdict: 'broken', state: 'case empty' });
    expect(outcomeOf(rows, 'Coupling of Hauler')?.verdict).toBe('holds');
  });

  test('have to be stated; a class of another text is none', () => {
    const rows = rowsOf(example.replace('class "I"', 'class "A50-X"'), code);
    expect(outcomeOf(rows, 'Hitch of Truck')).toEqual({
      verdict: 'open',
      missing: 'the class of SAE J684 marked on the hitch of Truck (class "III")',
    });
  });
});

describe('the test loads of ADR 62/02', () => {
  const { example, code } = COUPLING_TEXTS['coupling-test-loads'];

  test('are compared in both directions', () => {
    // 9.81·2000 and half of it.
    expect(rowsOf(example, code).map(({ outcome }) => 'limit' in outcome && [outcome.value, outcome.limit])).toEqual([
      [18_000, expect.closeTo(19_620, 6)],
      [10_000, expect.closeTo(9810, 6)],
    ]);
  });

  test('are told where the file does not state what the drawbar withstands', () => {
    const rows = rowsOf(example.replace(/, longitudinal.*/, ''), code);
    expect(rows.map(({ outcome }) => ('missing' in outcome ? outcome.missing : ''))).toEqual([
      'the longitudinal force marked on the coupling of Hauler, 19.62 kN or more (longitudinal … kN on its coupling line)',
      'the vertical force marked on the coupling of Hauler, 9.81 kN or more (vertical … kN on its coupling line)',
    ]);
  });
});

describe('front-axle load restoration', () => {
  const { example, code } = LOADS['restores-too-much'];
  const inMarket = (text: string, market: string) => text.replace('rig Delivery {', `rig Delivery in ${market} {`);

  test('has a row where the text is of the market, which agrees with the diagnostic', () => {
    for (const [share, verdict] of [
      ['120 %', 'broken'],
      ['80 %', 'holds'],
    ] as const) {
      const text = inMarket(example.replace('120 %', share), 'US');
      expect(rowsOf(text, code).map(({ outcome }) => outcome.verdict)).toEqual([verdict]);
      expect(read(text).keys.includes('restores-too-much')).toBe(verdict === 'broken');
    }
    expect(rowsOf(inMarket(example, 'AU'), code)).toEqual([]);
  });

  test('has none without a device', () => {
    expect(rowsOf(inMarket(example.replace(/ {2}weight_distribution.*\n/, ''), 'US'), code)).toEqual([]);
  });
});
