import { describe, expect, it } from 'vitest';
import { MAIN, read, trailer, uriOf } from './support.ts';

describe('let', () => {
  const quantity = (text: string, name = 'a', files = {}) => {
    const { analysis } = read(text, files);
    const found = analysis.entities(MAIN).find(({ entity }) => entity?.kind === 'let' && entity.name === name)?.entity;
    return found?.kind === 'let' ? found.quantity.value : undefined;
  };
  it('computes with units and other names, in any order', () => {
    expect(quantity('let a = 2 * b + 18 mm\nlet b = 300 mm')).toBeCloseTo(0.618, 12);
    expect(quantity('let a = (b - 1 m) / 2 * 3\nlet b = 3 m')).toBeCloseTo(3, 12);
    // 3 ft − (1 ft 6 in) = 18 in = 0.4572 m
    expect(quantity('let a = 3 ft - 1 ft 6 in')).toBeCloseTo(0.4572, 12);
    expect(quantity('let a = 12 kg / (3 m * 2 m)')).toBeCloseTo(2, 12);
    expect(quantity('let a = -b\nlet b = 3 m')).toBe(-3);
  });
  it('across files, through files that use others', () => {
    const files = { 'b.rig': 'use "c.rig"\nlet b = c', 'c.rig': 'let c = 4 m' };
    expect(quantity('use "b.rig"\nlet a = b + c', 'a', files)).toBeCloseTo(8, 12);
  });
  it('mixed dimensions name both', () => {
    const { messages, keys } = read('let a = 600 mm + 3 kg');
    expect(keys).toEqual(['mixed-dimensions']);
    expect(messages[0]).toMatch(/length.*mass/);
    expect(read('let a = 3 kg\nitem b a size a x a x a').keys).toEqual(['dimension-mismatch']);
  });
  it('circles are told at each member, in the file and in a block', () => {
    expect(read('let a = b\nlet b = c + 1\nlet c = a').keys).toEqual(['name-cycle', 'name-cycle', 'name-cycle']);
    expect(read('let a = a').keys).toEqual(['name-cycle']);
    expect(read('let a = b\nlet b = a\nlet c = a').keys).toEqual(['name-cycle', 'name-cycle']);
    const block = read(trailer('let a = b\n  let b = a\n  let c = b'));
    expect(block.keys).toEqual(['name-cycle', 'name-cycle']);
    expect(block.messages[0]).toContain('→');
  });
  it('across files in a circle', () => {
    const { keys, analysis } = read('use "b.rig"\nlet a = b', { 'b.rig': 'use "main.rig"\nlet b = a' });
    expect(keys).toEqual(['use-cycle', 'name-cycle']);
    expect(analysis.diagnostics(uriOf('b.rig')).map(({ key }) => key)).toEqual(['use-cycle', 'name-cycle']);
  });
  it('in a block goes before the file, and serves its groups', () => {
    const text = `let place = 9 m\n${trailer('let place = 1 m\n  group g { fitting f 3 kg at place back, 1 m up }')}`;
    expect(read(text).unit('Hauler').parts.at(-1)?.body.centre.x).toBe(-1);
  });
  it('what no line uses is computed all the same', () => {
    expect(read(trailer('let a = 1 m + 1 kg')).keys).toEqual(['mixed-dimensions']);
    expect(read('rig R { haul T\n let a = 1 m + 1 kg }\n').keys).toContain('mixed-dimensions');
  });
  it('a name of another kind is told, without following it', () => {
    const { keys, messages } = read(`let a = Hauler\n${trailer('fitting f 1 kg at a back, 1 m up')}`);
    expect(keys).toEqual(['wrong-kind']);
    expect(messages[0]).toContain('a trailer');
  });
});

describe('duplicates', () => {
  it('point at both places', () => {
    const { diagnostics } = read('item a 3 kg\nitem b 4 kg\nlet a = 3 m\n');
    expect(diagnostics.map(({ key, start }) => [key, start])).toEqual([['duplicate-name', 28]]);
    expect(diagnostics[0]?.related.map(({ uri, start, end }) => [uri, start, end])).toEqual([[MAIN, 5, 6]]);
  });
  it('inside a unit, across its groups', () => {
    const { keys } = read(
      trailer(
        'tank a 3 L of water at 1 m back, 1 m up\n  fitting a 3 kg at 1 m back, 1 m up\n  group g { fitting a 1 kg at 1 m back, 1 m up }',
      ),
    );
    expect(keys).toEqual(['duplicate-name']);
  });
  it('across files: the own one counts, both are shown', () => {
    const { diagnostics, item } = read('use "b.rig"\nitem a 3 kg\n', { 'b.rig': 'item a 4 kg\n' });
    expect(diagnostics.map(({ key }) => key)).toEqual(['duplicate-name']);
    expect(diagnostics[0]?.related.map(({ uri, start }) => [uri, start])).toEqual([[uriOf('b.rig'), 5]]);
    expect(item('a').mass).toBe(3);
  });
  it('two used files that bring one name are told at the second use', () => {
    const { diagnostics } = read('use "b.rig"\nuse "c.rig"\n', { 'b.rig': 'item a 4 kg\n', 'c.rig': 'item a 5 kg\n' });
    expect(diagnostics.map(({ key, start }) => [key, start])).toEqual([['duplicate-name', 12]]);
    expect(diagnostics[0]?.related.map(({ uri }) => uri)).toEqual([uriOf('b.rig'), uriOf('c.rig')]);
  });
  it('one file used by two ways is one', () => {
    const files = { 'b.rig': 'use "d.rig"', 'c.rig': 'use "d.rig"', 'd.rig': 'item a 3 kg' };
    expect(read('use "b.rig"\nuse "c.rig"\n', files).keys).toEqual([]);
  });
  it('names of a block', () => {
    expect(read('rig R { haul T\n let a = 1 m\n let a = 2 m }').keys).toContain('duplicate-name');
    expect(read(trailer('let a = 1 m\n  let a = 2 m')).keys).toEqual(['duplicate-name']);
    expect(read(trailer('case a { }\n  case a { }')).keys).toEqual(['duplicate-name']);
  });
});

describe('use', () => {
  it('paths are relative to the file, `..` and `/` too', () => {
    const { keys } = read('use "parts/b.rig"\nlet a = c', {
      'parts/b.rig': 'use "../c.rig"',
      'c.rig': 'let c = 3 m',
    });
    expect(keys).toEqual([]);
    expect(read('use "my items.rig"\nlet a = c', { 'my%20items.rig': 'let c = 3 m' }).keys).toEqual([]);
  });
  it('an unknown name gets the nearest of those in reach', () => {
    const { messages, keys } = read('use "b.rig"\nlet a = axle_lime', { 'b.rig': 'let axle_line = 3 m' });
    expect(keys).toEqual(['unknown-name']);
    expect(messages[0]).toContain("the nearest is 'axle_line'");
  });
});

describe('what stands where it does not belong', () => {
  it('a statement of another block says where it belongs', () => {
    const { messages } = read(trailer('stow awning in bed'));
    expect(messages[0]).toContain('block of rig or case');
  });
  it('a misspelt statement gets the nearest', () => {
    expect(read(trailer('lokcer bed from 1 m to 2 m back')).messages[0]).toContain("the nearest is 'locker'");
    expect(read('itme awning 38 kg').messages[0]).toContain("the nearest is 'item'");
  });
  it('parts of a header that no unit has', () => {
    expect(read(trailer().replace('trailer Hauler {', 'trailer Hauler tags long {')).keys).toEqual(['unexpected-part']);
  });
  it('one broken declaration leaves the others', () => {
    const { keys, item, value } = read(`item a = 3 kg\nitem b 4 kg\n${trailer()}`);
    expect(keys).toEqual(['syntax-error']);
    expect(item('b').mass).toBe(4);
    expect(value('Hauler', 'Hauler.mass')).toBe(240);
  });
  it('one missing brace leaves the others', () => {
    const { keys, item } = read(`${trailer().replace('\n}\n', '\n')}item b 4 kg\n`);
    expect(keys).toEqual(['unclosed-block']);
    expect(item('b').mass).toBe(4);
  });
  it('a merge conflict is told at its markers and the first side is computed', () => {
    const { keys, marked, item } = read('<<<<<<< ours\nitem a 3 kg\n=======\nitem a 4 kg\n>>>>>>> theirs\n');
    expect(new Set(keys)).toEqual(new Set(['merge-conflict']));
    expect(marked('merge-conflict')).toBe('<<<<<<< ours');
    expect(item('a').mass).toBe(3);
  });
});
