import { describe, expect, test } from 'vitest';
import { GERMANY } from '../../../../language/diagnostics/markets/germany.ts';
import { limitsOf } from '../../../../language/rules/index.ts';
import { read } from '../../semantics/support.ts';

const { example, mended, code } = GERMANY['coupling-load-minimum'];

describe('the table of limits', () => {
  test('has a row for what is compared and one for what cannot be', () => {
    const rows = limitsOf(read(mended).result('Delivery'));
    const germany = rows.find((row) => row.code === code);
    expect(germany).toMatchObject({ text: 'StVZO § 44(3)', authority: 'regulation', markets: ['DE'] });
    expect(germany?.outcome).toMatchObject({ verdict: 'holds', state: 'case loaded' });
    const open = rows.filter(({ outcome }) => outcome.verdict === 'open');
    expect(open.map(({ subject, outcome }) => `${subject}: ${'missing' in outcome ? outcome.missing : ''}`)).toContain(
      'Truck: a GVM among the limits of Truck (GVM 3000 kg)',
    );
  });

  test('agrees with the diagnostics', () => {
    const { result, diagnostics } = read(example);
    const row = limitsOf(result('Delivery')).find((each) => each.code === code);
    expect(row?.outcome.verdict).toBe('broken');
    expect(diagnostics.filter((each) => each.code === code)).toHaveLength(1);
  });

  test('a text binds in its market only', () => {
    const elsewhere = example.replace(' in DE', ' in AU');
    expect(read(elsewhere).diagnostics.map((each) => each.code)).not.toContain(code);
    expect(limitsOf(read(elsewhere).result('Delivery')).map((row) => row.code)).not.toContain(code);
  });

  // That tyres carry the rating of their axle: 49 CFR 571.110 S4.2.2.1; TSD 110 from memory; elsewhere common practice.
  test.each([
    ['', ['common practice, no source (common practice)']],
    [' in US', ['49 CFR 571.110 S4.2.2.1 (regulation)']],
    [' in CA', ['TSD 110 (from memory) (regulation)']],
    [' in US, CA', ['49 CFR 571.110 S4.2.2.1 (regulation)', 'TSD 110 (from memory) (regulation)']],
    [' in EU', ['common practice, no source (common practice)']],
    [' in DE', ['common practice, no source (common practice)']],
    [' in UK', ['common practice, no source (common practice)']],
    [' in AU', ['common practice, no source (common practice)']],
    [' in NZ', ['common practice, no source (common practice)']],
  ])('a rig%s has the tyres of its axles held against what asks for it there', (market, texts) => {
    const rows = limitsOf(read(mended.replace(' in DE', market)).result('Delivery')).filter(
      (row) => row.code === 'RW612',
    );
    expect([...new Set(rows.map(({ text, authority }) => `${text} (${authority})`))]).toEqual(texts);
  });
});
