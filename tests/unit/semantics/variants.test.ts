import { describe, expect, it } from 'vitest';
import { MAIN, read as readAll, trailer, uriOf } from './support.ts';

/** As it is read; these rigs are for arithmetic and need no sound share of coupling load. */
const read: typeof readAll = (text, files) => {
  const reading = readAll(text, files);
  return { ...reading, keys: reading.keys.filter((key) => !key.startsWith('coupling-share')) };
};

describe('variants', () => {
  const base = trailer(
    'fitting box 26 kg at 1 m back, 1 m up\n  limits { ATM 700 kg  GTM 650 kg }\n  tank t 10 L of water at 1 m back, 1 m up',
  );
  it('replace, add and leave out lines', () => {
    const { value, unit, keys } = read(`${base}variant Long of Hauler "Long" {
  axle single at 3 m back, track 1500 mm
  fitting box 30 kg at 2 m back, 1 m up
  fitting rack 6 kg at 1 m back, 1 m up
  limits { ATM 800 kg }
  without t
}
`);
    expect(keys).toEqual([]);
    // (240·2.45 + 30·2 + 6·1) / 3
    expect(value('Long', 'Long.axles.load')).toBeCloseTo((588 + 60 + 6) / 3, 9);
    expect(unit('Long')).toMatchObject({
      kind: 'trailer',
      variantOf: 'Hauler',
      title: 'Long',
      tanks: [],
      limits: { ATM: { value: 800 }, GTM: { value: 650 } },
    });
    expect(unit('Hauler').limits.ATM?.value).toBe(700);
  });
  it('a variant of a variant, in other files, with names from where each line was written', () => {
    const { value, keys, analysis } = read(
      'use "b.rig"\nvariant Third of Second { fitting extra 4 kg at place back, 1 m up }\nlet place = 2 m',
      {
        'b.rig':
          'use "c.rig"\nlet place2 = 3 m\nvariant Second of Hauler { axles single at place2 back, track 1500 mm }',
        'c.rig': trailer(),
      },
    );
    expect(keys).toEqual([]);
    for (const name of ['b.rig', 'c.rig'])
      expect(analysis.diagnostics(uriOf(name)).filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(value('Third', 'Third.axles.load')).toBeCloseTo((588 + 8) / 3, 9);
  });
  it('synonyms replace and are left out like their keyword', () => {
    const { unit, keys } = read(
      `${base}variant V of Hauler {\n  kerb 250 kg at 2450 mm back, 520 mm up, inertia 210 kg·m²\n}`,
    );
    expect(keys).toEqual([]);
    expect(unit('V').parts[0]?.body.mass).toBe(250);
    expect(
      read(`${base}variant V of Hauler {\n  without kerb, limits, box\n  fitting f 100 kg at 2450 mm back, 1 m up }`)
        .unit('V')
        .parts.map(({ name }) => name),
    ).toEqual(['f']);
  });
  it('what is left out already is unknown, and is not offered for another name', () => {
    const text = `${trailer('fitting shelf 3 kg at 1 m back, 1 m up\n  group g { fitting sink 2 kg at 1 m back, 1 m up }')}
variant V of Hauler { without shelf, g.sink, shelf, shelg, g.sink }
`;
    const { messages, unit } = read(text);
    expect(unit('V').parts.map(({ name }) => name)).toEqual(
      unit('Hauler')
        .parts.slice(0, 1)
        .map(({ name }) => name),
    );
    const unknown = messages.filter((message) => message.startsWith('No line of the original'));
    expect(unknown).toHaveLength(3);
    for (const message of unknown) expect(message).not.toMatch(/nearest is '(shelf|g\.sink)'/);
  });
  it('circles, a missing original, and one of another kind', () => {
    expect(read('variant A of B { }\nvariant B of A { }').keys).toEqual(['name-cycle', 'name-cycle']);
    expect(read('variant A of A { }').keys).toEqual(['name-cycle']);
    expect(read(`variant A of Haler { }\n${trailer()}`).messages[0]).toContain("the nearest is 'Hauler'");
    expect(read('item x 3 kg\nvariant A of x { }').keys).toEqual(['wrong-kind']);
    expect(read('variant A { }').keys).toEqual(['missing-part']);
    expect(read(`${trailer()}variant A of Hauler { without bocks }`).keys).toEqual(['unknown-name']);
  });
  it('two lines of one name are told, not one of them lost', () => {
    const twice = 'fitting box 3 kg at 1 m back, 1 m up\n  fitting box 4 kg at 1 m back, 1 m up';
    expect(read(`${base}variant V of Hauler {\n  ${twice}\n}`).keys).toEqual(['duplicate-name']);
    expect(read(`${trailer()}variant V of Hauler {\n  ${twice}\n}`).keys).toEqual(['duplicate-name']);
  });
  it('errors in lines of the original are told there, once', () => {
    const { diagnostics } = read(`${trailer('fitting box 3 m at 1 m back, 1 m up')}variant V of Hauler { }\n`);
    expect(
      diagnostics.filter(({ severity }) => severity === 'error').map(({ key, start }) => [key, start < 250]),
    ).toEqual([['dimension-mismatch', true]]);
  });
});

describe('assumptions', () => {
  it('become diagnostics at what leaves them open, once', () => {
    const text = `${trailer().replace(', 520 mm up', '')}variant V of Hauler { }\n`;
    const { diagnostics } = read(text);
    const told = diagnostics.filter(({ key, message }) => key === 'assumption' && message.includes('height of tare'));
    expect(told.map(({ start, end }) => text.slice(start, end))).toEqual(['Hauler', 'V']);
    expect(diagnostics.every(({ start, end }) => start >= 0 && end <= text.length)).toBe(true);
    expect(read(text).analysis.diagnostics(MAIN)).toEqual(diagnostics);
  });
});
