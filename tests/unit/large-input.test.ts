import { describe, expect, it } from 'vitest';
import { type Analysis, analyse, LONGEST_DOCUMENT, MOST_DIAGNOSTICS, openDocument } from '../../language/index.ts';
import { MAIN, read, trailer } from './semantics/support.ts';
import { expectSound } from './sound.ts';

/** Milliseconds; each of these takes a second or less, and what is quadratic or worse in its length far more. */
const HANGING = 10_000;

describe('large and deep input', { timeout: 3 * HANGING }, () => {
  /** Milliseconds that reading a text and its diagnostics take. */
  function timed(text: string): { ms: number; analysis: Analysis } {
    const start = performance.now();
    const analysis = analyse({ documents: new Map([[MAIN, { kind: 'text', syntax: openDocument(text) }]]) });
    analysis.diagnostics(MAIN);
    return { ms: performance.now() - start, analysis };
  }
  const keysOf = (analysis: Analysis) => analysis.diagnostics(MAIN).map(({ key }) => key);

  it('a file beyond the longest has one diagnostic, at once', () => {
    const { ms, analysis } = timed('item crate 3 kg\n'.repeat((5 * 1024 * 1024) / 16));
    expect(keysOf(analysis)).toEqual(['file-too-long']);
    expect(analysis.diagnostics(MAIN)[0]?.message).toMatch(/5 242 880|5.242.880/);
    expect(ms).toBeLessThan(2000);
    expectSound(analysis);
  });

  it('a file just short enough is read', () => {
    const line =
      'item crate_with_a_rather_long_name_0000 3 kg "And a rather long title" size 400 x 300 x 300 mm # comment\n';
    const { analysis } = timed('# filler\n'.repeat(Math.floor((LONGEST_DOCUMENT - line.length) / 9)) + line);
    expect(keysOf(analysis)).toEqual([]);
    expect(analysis.entities(MAIN).at(-1)?.entity?.kind).toBe('item');
  });

  it('a thousand errors are capped, with the count of the rest', () => {
    for (const text of [
      Array.from({ length: 1000 }, (_, index) => `item crate_${index} 10 bananas\n`).join(''),
      trailer(
        Array.from({ length: 1000 }, (_, index) => `fitting f_${index} 10 bananas at 1 m back, 1 m up`).join('\n  '),
      ),
    ]) {
      const diagnostics = read(text).diagnostics;
      expect(diagnostics).toHaveLength(MOST_DIAGNOSTICS + 1);
      expect(diagnostics.at(-1)?.key).toBe('more-diagnostics');
      expect(diagnostics.at(-1)?.message).toContain('800');
    }
  });

  it.each([
    [
      '15 000 unknown lines in one block',
      trailer(Array.from({ length: 15_000 }, (_, index) => `zzz_${index} 1`).join('\n')),
    ],
    ['20 000 declarations', Array.from({ length: 20_000 }, (_, index) => `item crate_${index} 3 kg\n`).join('')],
    ['20 000 of one name', 'item crate 3 kg\n'.repeat(20_000)],
    [
      '3 000 unknown names',
      Array.from({ length: 3000 }, (_, index) => `let mass_${index} = other_${index}\n`).join(''),
    ],
    ['parentheses', `let a = ${'('.repeat(200_000)}`],
    ['open blocks', 'trailer T {\n'.repeat(5000)],
    ['blocks in blocks', 'rig R { case c { '.repeat(20_000)],
    ['minus signs', `let a = ${'-'.repeat(200_000)}3`],
    ['a long sum', `let a = 1${' + 1'.repeat(50_000)}`],
    ['a long name', `let a = ${'a.'.repeat(50_000)}a`],
    ['quotes', '"'.repeat(100_000)],
    ['conflict markers', '<<<<<<< a\n=======\n'.repeat(5000)],
    ['NUL bytes', '\0'.repeat(50_000)],
    ['digits', `let a = ${'1'.repeat(100_000)}`],
    ['carriage returns', `item a 3 kg${'\r'.repeat(100_000)}item b 3 kg\n`],
    ['carriage returns in a comment', `# ${'\r'.repeat(100_000)}\nitem b 3 kg\n`],
    [
      'quantities of twenty others each',
      Array.from({ length: 500 }, (_, index) => {
        const next = (Math.floor(index / 20) + 1) * 20;
        return `let a${index} = 1${Array.from({ length: 20 }, (_, other) => ` + a${next + other}`).join('')}\n`;
      }).join(''),
    ],
    [
      'an unknown line left out for each line of the original',
      trailer(Array.from({ length: 2500 }, (_, index) => `fitting f_${index} 1 g at 1 m back, 1 m up`).join('\n')) +
        `variant V of Hauler { without ${Array.from({ length: 2500 }, (_, index) => `g_${index}`).join(', ')} }\n`,
    ],
    [
      'places at things of a unit of thousands',
      `item box 1 kg\n${trailer(
        Array.from({ length: 3000 }, (_, index) => `fitting f_${index} 1 g at 1 m back, 1 m up`).join('\n'),
      )}rig R { haul Hauler\n${'stow box in Hauler at 1 m behind f_7\n'.repeat(3000)} }\n`,
    ],
    ['a factor for each', `item a ${'2 x '.repeat(20_000)}3 kg`],
  ])('%s', (_, text) => {
    const { ms, analysis } = timed(text);
    expectSound(analysis);
    expect(analysis.diagnostics(MAIN).length).toBeLessThanOrEqual(MOST_DIAGNOSTICS + 1);
    expect(ms).toBeLessThan(HANGING);
  });

  it.each([
    ['let', Array.from({ length: 1500 }, (_, index) => `let a${index} = a${index + 1}\n`).join('')],
    ['let in a block', trailer(Array.from({ length: 3000 }, (_, index) => `let a${index} = a${index + 1}`).join('\n'))],
    [
      'places',
      trailer(
        Array.from({ length: 2000 }, (_, index) => `fitting f${index} 1 g at 1 mm behind f${index + 1}, 1 m up`).join(
          '\n',
        ),
      ),
    ],
    ['variants', Array.from({ length: 500 }, (_, index) => `variant V${index} of V${index + 1} { }\n`).join('')],
  ])('a chain of thousands that ends nowhere, and one that bites its tail: %s', (_, open) => {
    const closed = open.replace(/(behind f|of V|= a)(\d+)(?=[^\d][\s\S]{0,40}$)/, '$10');
    expect(closed).not.toBe(open);
    for (const text of [open, closed]) {
      const { ms, analysis } = timed(text);
      expectSound(analysis);
      expect(analysis.diagnostics(MAIN).some(({ severity }) => severity === 'error')).toBe(true);
      expect(ms).toBeLessThan(HANGING);
    }
  });

  it('quantities of a block that double at each step are computed once each', () => {
    const steps = Array.from({ length: 60 }, (_, index) => `let a${index} = a${index + 1} / 2 + a${index + 1} / 2`);
    const { ms, analysis } = timed(
      trailer([...steps, 'let a60 = 1 m', 'fitting f 3 kg at a0 back, 1 m up'].join('\n  ')),
    );
    expect(ms).toBeLessThan(HANGING);
    const unit = analysis.entities(MAIN)[0]?.entity;
    expect(unit?.kind === 'unit' && unit.unit.parts.at(-1)?.body.centre.x).toBe(-1);
  });
});
