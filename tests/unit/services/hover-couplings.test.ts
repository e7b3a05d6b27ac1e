import { describe, expect, test } from 'vitest';
import { COUPLING_TEXTS } from '../../../language/diagnostics/markets/couplings.ts';
import { hover } from '../../../language/services/index.ts';
import { analyseMarked, URI } from './markers.ts';
import { caretAt } from './yard.ts';

function hoverOn(source: string): string {
  const { analysis, offset } = analyseMarked(source);
  return (hover(analysis, URI, offset)?.markdown ?? '').replaceAll('\u202f', ' ');
}

const { example, mended } = COUPLING_TEXTS['coupling-D-value'];

describe('marked values of couplings', () => {
  test('the coupling shows them with what the rigs that have it need', () => {
    const text = hoverOn(caretAt(mended, 'coupling'));
    expect(text).toContain('Marked: D 12 kN.');
    expect(text).toContain('rig Delivery: the D value needed 9.81 kN, the D value marked on it 12 kN: 2.19 kN left');
  });

  test('the hitch says by how much it is too weak', () => {
    const text = hoverOn(caretAt(example, 'hitch'));
    expect(text).toContain('Marked: D 8 kN.');
    expect(text).toContain('the D value needed 9.81 kN, the D value marked on it 8 kN: 1.81 kN over');
  });

  test('what is not marked is said', () => {
    const text = hoverOn(caretAt(mended.replaceAll(', D 12 kN', ''), 'coupling'));
    expect(text).not.toContain('Marked');
    expect(text).toContain('the D value needed: not checked without the D value marked on the ');
  });

  test('without a market that asks for them the marks stand alone', () => {
    const text = hoverOn(caretAt(mended.replace('in EU ', ''), 'coupling'));
    expect(text).toContain('Marked: D 12 kN.');
    expect(text).not.toContain('needed');
  });

  test('the word says what it is', () => {
    expect(hoverOn(caretAt(mended, 'D 12'))).toMatch(/^\*\*D\*\* — The D value marked on/);
  });
});
