import { describe, expect, it } from 'vitest';
import { STABILITY } from '../../../language/diagnostics/stability.ts';
import { analyse, completeDiagnostics, openDocument, updateDocument } from '../../../language/index.ts';
import { hover } from '../../../language/services/index.ts';

const URI = 'file:///yard/rig.rig';
const [SWAYING] = Object.values(STABILITY);
const BAD = SWAYING?.example ?? '';
const GOOD = SWAYING?.mended ?? '';

const read = (text: string) => analyse({ documents: new Map([[URI, { kind: 'text', syntax: openDocument(text) }]]) });
const stabilityOf = (text: string) => {
  const entity = read(text)
    .entities(URI)
    .map((placed) => placed.entity)
    .find((each) => each?.kind === 'rig');
  return entity?.kind === 'rig' ? entity.stability : undefined;
};
const codes = (text: string) => completeDiagnostics(read(text), URI).map(({ code }) => code);

describe('stability in the analysis', () => {
  it('comes in parts of one declaration after the other, after the other diagnostics', () => {
    const analysis = read(BAD);
    const first = analysis.diagnostics(URI).map(({ code }) => code);
    expect(first.filter((code) => code.startsWith('RW7'))).toEqual([]);
    const settled = analysis.entities(URI).filter(({ entity }) => entity?.kind === 'rig' || entity?.kind === 'unit');
    let parts = 0;
    while (analysis.settleNext(URI)) parts++;
    expect(parts).toBeGreaterThan(settled.length);
    expect(analysis.diagnostics(URI).map(({ code }) => code)).toContain(SWAYING?.code);
    expect(analysis.settleNext(URI)).toBe(false);
  });

  it('is kept for a rig that an edit does not reach, and equals a full analysis', () => {
    const syntax = openDocument(BAD);
    const before = analyse({ documents: new Map([[URI, { kind: 'text', syntax }]]) });
    completeDiagnostics(before, URI);
    const edit = { start: 0, end: 0, text: 'item spare 4 kgg\n' };
    const next = updateDocument(syntax, edit, edit.text + BAD);
    const after = analyse({ documents: new Map([[URI, { kind: 'text', syntax: next }]]) }, before);
    expect(after.diagnostics(URI).map(({ code }) => code)).toContain(SWAYING?.code);
    expect(completeDiagnostics(after, URI)).toEqual(completeDiagnostics(read(edit.text + BAD), URI));
  });

  it('of the mended rig is better than that of the swaying one', () => {
    const worst = (text: string) => Math.min(...(stabilityOf(text)?.results ?? []).map(({ damping }) => damping));
    expect(worst(BAD)).toBeLessThan(worst(GOOD));
    expect(worst(GOOD)).toBeGreaterThan(0);
  });

  it('compares the vehicle with itself: a trailer that carries itself changes nothing of its steering', () => {
    const stability = stabilityOf(`vehicle Mule {
  wheelbase 2800 mm, track 1540 mm
  tare 800 kg on front, 700 kg on rear, 600 mm up, gyration 1300 mm
  hitch ball at 900 mm behind rear, 430 mm up
  tank fuel 300 L of water at 2900 mm back, 600 mm up
}
trailer Cart {
  coupling ball, 430 mm up
  axles single at 3000 mm back, track 1600 mm
  tare 600 kg at 3000 mm back, 700 mm up, gyration 900 mm
}
rig Pair {
  tow Mule
  haul Cart
  case light { fuel 0 % }
  case heavy { fuel 100 % }
}`);
    expect(stability?.results).toHaveLength(2);
    for (const { handling, alone } of stability?.results ?? []) {
      expect(handling?.understeer).toBeDefined();
      expect(handling?.understeer).toBeCloseTo(alone?.understeer ?? Number.NaN, 9);
    }
  });

  it('says nothing of the damping at walking pace, where it is the lag of the tyres', () => {
    const text = STABILITY['damping-low'].example;
    const { code } = STABILITY['damping-low'];
    expect(codes(text)).toContain(code);
    const slow = text.replace(/travel \S+ km\/h/, 'travel 4 km/h');
    expect(slow).not.toBe(text);
    const least = Math.min(...(stabilityOf(slow)?.results ?? []).map(({ damping }) => damping));
    expect(least).toBeLessThan(0.1);
    expect(codes(slow)).not.toContain(code);
  });

  it('can be required', () => {
    const withLimit = (text: string, limit: string) => text.replace(/\n(?=\s*case )/, `\n  require ${limit}\n`);
    expect(codes(withLimit(GOOD, 'rig.damping at least 99 %'))).toContain('RW581');
    expect(codes(withLimit(GOOD, 'rig.damping at least 1 %'))).not.toContain('RW581');
    expect(codes(withLimit(GOOD, 'rig.zero_damping_speed at least 20 km/h'))).not.toContain('RW581');
    expect(codes(withLimit(GOOD, 'rig.damping at least 3 kg'))).toContain('RW582');
  });

  it('that is required is told of with the roads it breaks the limit on', () => {
    const graded = BAD.replace('travel 120 km/h', 'travel 120 km/h, grades -8 % to 6 %');
    const text = graded.replace(/\n(?=\s*case )/, '\n  require rig.damping at least 99 %\n');
    const [message] = completeDiagnostics(read(text), URI).flatMap((each) =>
      each.code === 'RW581' ? [each.message] : [],
    );
    const also = /\(also in (.*?)\)/.exec(message ?? '')?.[1] ?? '';
    expect(also).toMatch(/^case \S+, (?:on the level|up |down |braking )/);
  });

  it('is told in the hover of the rig, with what it is not', () => {
    const at = BAD.search(/\brig /) + 'rig '.length;
    const text = hover(read(BAD), URI, at)?.markdown ?? '';
    expect(text).toContain('Stability at');
    expect(text).toContain('never take a speed from it as safe');
    expect(text).not.toMatch(/NaN|Infinity|undefined/);
  });
});
