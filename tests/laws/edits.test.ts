import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Edit } from '../../language/syntax/document.ts';
import { appendEdit, coverEdits } from '../../server/edits.ts';

const TEXT = 'item crate 12 kg\nitem box 3 kg\n';

const apply = (text: string, { start, end, text: inserted }: Edit): string =>
  text.slice(0, start) + inserted + text.slice(end);

/** Edits of TEXT, each made to what the one before left, and all the texts on the way. */
const edits = fc
  .array(fc.record({ at: fc.nat(1000), length: fc.nat(8), text: fc.stringMatching(/^[a-z\n]{0,5}$/) }), {
    maxLength: 12,
  })
  .map((random) => {
    let text = TEXT;
    const made = random.map(({ at, length, text: inserted }): Edit => {
      const start = at % (text.length + 1);
      const edit = { start, end: Math.min(text.length, start + length), text: inserted };
      text = apply(text, edit);
      return edit;
    });
    return { made, text };
  });

describe('edits of a document', () => {
  it('joined where they touch, lead to the same text', () => {
    fc.assert(
      fc.property(edits, ({ made, text }) => {
        const joined = made.reduce<readonly Edit[]>(appendEdit, []);
        expect(joined.reduce(apply, TEXT)).toBe(text);
        expect(joined.length).toBeLessThanOrEqual(made.length);
      }),
    );
  });

  it('covered by one edit, lead to the same text', () => {
    fc.assert(
      fc.property(edits, ({ made, text }) => {
        const cover = coverEdits(made, text);
        expect(cover ? apply(TEXT, cover) : TEXT).toBe(text);
      }),
    );
  });

  it('typed letter by letter, or deleted so, are one edit', () => {
    const typed = [...'crate'].map((text, index): Edit => ({ start: 5 + index, end: 5 + index, text }));
    const back = [9, 8, 7].map((start): Edit => ({ start, end: start + 1, text: '' }));
    expect([...typed, ...back].reduce<readonly Edit[]>(appendEdit, [])).toEqual([{ start: 5, end: 5, text: 'cr' }]);
  });
});
