import { describe, expect, it } from 'vitest';
import { read as readAll, trailer, vehicle } from './support.ts';

/** As it is read; these rigs are for arithmetic and need no sound share of coupling load. */
const read: typeof readAll = (text, files) => {
  const reading = readAll(text, files);
  return { ...reading, keys: reading.keys.filter((key) => !key.startsWith('coupling-share')) };
};

const ITEMS = 'fluid gasoil 0.84 kg/L\nitem box 30 kg size 600 x 400 x 400 mm\nitem rope 2 kg\n';
const BED = 'locker bed from 500 mm to 2500 mm back, floor 600 mm up';
const SEATS = `seat driver 80 kg at 1200 mm back, 700 mm up
  seat mate 70 kg at 1200 mm back, 700 mm up
  tank fuel 70 L of gasoil at 2400 mm back, 500 mm up`;
const rig = (lines: string, inTrailer = BED, inVehicle = SEATS): string =>
  `${ITEMS}${vehicle(inVehicle)}${trailer(inTrailer)}rig R {\n  tow Truck with driver\n  haul Hauler\n  ${lines}\n}\n`;

describe('requirements', () => {
  const violations = (text: string) =>
    read(text).messages.filter((message) => /allowed here|cannot be checked/.test(message));
  it('hold or are told with the value, by how much and why', () => {
    // Coupling load of the empty trailer: 13.846 kg, 5.769 % of 240 kg.
    expect(violations(rig('case c { fuel 0 % }\n  require Hauler.coupling.load at most 14 kg'))).toEqual([]);
    expect(violations(rig('case c { fuel 0 % }\n  require Hauler.coupling.share between 4 % and 15 %'))).toEqual([]);
    const [message] = violations(rig('case c { fuel 0 % }\n  require Hauler.coupling.share at least 6 % "house rule"'));
    expect(message).toMatch(/5\.77 %.*0\.231 percentage points under.*6 %.*case c.*house rule/);
  });
  it('only in the cases named', () => {
    const lines = 'case light { fuel 0 % }\n  case full { fuel 100 % }';
    // 2120 + 80 kg, and 58.8 kg of fuel.
    expect(violations(rig(`${lines}\n  require Truck.mass at most 2210 kg in light`))).toEqual([]);
    expect(violations(rig(`${lines}\n  require Truck.mass at most 2210 kg in light, full`))).toHaveLength(1);
    expect(violations(rig(`${lines}\n  require Truck.mass at most 2210 kg`))[0]).toContain('case full');
    expect(violations(rig(`${lines}\n  require Truck.mass at most 2210 kg in fall`))[0]).toContain('no case fall');
    expect(violations(rig('require Truck.mass at most 2210 kg in fall'))[0]).toContain('no case fall');
  });
  it('exactly at a limit hold', () => {
    expect(violations(trailer('require mass at most 240 kg\n  require mass at least 240 kg'))).toEqual([]);
    expect(violations(trailer('require mass between 240 kg and 241 kg'))).toEqual([]);
  });
  it('name the worst case, the first few others and how many more there are', () => {
    const said = (levels: Readonly<Record<string, number>>) => {
      const cases = Object.entries(levels).map(([name, level]) => `case ${name} { fuel ${level} % }`);
      return violations(rig(`${cases.join('\n  ')}\n  require Truck.mass at most 2 t`));
    };
    const three = said({ a: 0, b: 100, c: 50 });
    expect(three).toHaveLength(1);
    expect(three[0]).toContain('case b');
    expect(three[0]).toContain('(also in case a and case c)');
    expect(said({ a: 0, b: 100, c: 50, d: 60 })[0]).toContain('(also in case a, case c and case d)');
    expect(said({ a: 0, b: 100, c: 50, d: 60, e: 70, f: 80 })[0]).toContain(
      '(also in case a, case c, case d and 2 more)',
    );
  });
  it('name the unit whose quantity is meant where there are several', () => {
    const alone = violations(trailer('require mass at most 1 kg'));
    expect(alone[0]).toMatch(/^mass is 240 kg/);
    const both = violations(
      `${vehicle()}${trailer('require mass + 2 * coupling.load at most 1 kg')}rig R { tow Truck\n haul Hauler\n case c { } }`,
    );
    expect(both.find((message) => message.includes('case c'))).toMatch(
      /^Hauler\.mass \+ 2 \* Hauler\.coupling\.load is /,
    );
  });
  it('in a case that there is not are told once, where they stand', () => {
    const both = violations(rig('case light { fuel 0 % }\n  require Truck.mass at most 1 kg in light, fall'));
    expect(both).toHaveLength(1);
    expect(both[0]).toMatch(/no case fall here/);
    expect(violations(trailer('case c { }\n  require mass at most 1 kg in fall'))[0]).toMatch(/no case fall here/);
    // A unit without cases speaks of those of the rigs it may be in; a rig that has no such case keeps it.
    const elsewhere = trailer('require mass at most 1 kg in fall');
    expect(violations(`${vehicle()}${elsewhere}rig R { tow Truck\n haul Hauler\n case c { } }`)).toEqual([]);
    expect(violations(`${vehicle()}${elsewhere}rig R { tow Truck\n haul Hauler\n case fall { } }`)).toHaveLength(1);
  });
  it('a case may have the name of a keyword', () => {
    const lines = 'case loaded { fuel 100 % }\n  case empty { fuel 0 % }';
    expect(read(rig(`${lines}\n  require Truck.mass at most 3 t in loaded, empty "why"`)).keys).toEqual([]);
  });
  it('compute with names of the file and of the block, and across files', () => {
    const text = `use "limits.rig"\nlet most = 14 kg\n${rig('let spare = 1 kg\n  case c { fuel 0 % }\n  require Hauler.coupling.load + spare at most most + extra')}`;
    expect(read(text, { 'limits.rig': 'let extra = 2 kg' }).keys).toEqual([]);
    expect(read(text, { 'limits.rig': 'let extra = 0.5 kg' }).keys).toEqual(['requirement-violated']);
  });
  it('in a unit go by its own short names', () => {
    expect(
      violations(trailer('require coupling.load at most 14 kg\n  require Hauler.axles.load at most 227 kg')),
    ).toEqual([]);
    expect(violations(trailer('require coupling.load at most 13 kg'))).toHaveLength(1);
    const { diagnostics } = read(
      `${vehicle()}${trailer('require mass at most 200 kg')}rig R { tow Truck\n haul Hauler\n case c { } }`,
    );
    const found = diagnostics.filter(({ key }) => key === 'requirement-violated');
    expect(found).toHaveLength(2);
    expect(found[1]?.related[0]?.message).toBe('Required here.');
  });
  it('in a variant hold for it by the names of its original, and of that one’s original', () => {
    const text = `${trailer('let most = 230 kg\n  require Hauler.axles.load at most most\n  require coupling.load at most 14 kg')}
variant Longer of Hauler { }
variant Longest of Longer { let most = 220 kg }
`;
    const { diagnostics } = read(text);
    const found = diagnostics.filter(({ key }) => key === 'requirement-violated');
    expect(found.map(({ start }) => text.slice(start, start + 7))).toEqual(['Longest']);
    expect(diagnostics.filter(({ key }) => key === 'requirement-open')).toEqual([]);
  });
  it('in a variant speak of the variant, and of what moves its load', () => {
    const text = `${trailer(`let spare = 1 kg
  ${BED}
  require Hauler.coupling.share at most 10 %
  require spare + Hauler.axles.load + Hauler.mass at most 480 kg`)}variant HaulerLong of Hauler {
  tare 240 kg at 2250 mm back, 520 mm up, inertia 210 kg·m²
  fitting box 30 kg at 500 mm back, 600 mm up
}
`;
    const found = violations(text);
    expect(found).toHaveLength(2);
    // (240·0.35 + 30·2.1)/2.6 over 270 kg: 56.538/270 = 20.9 %.
    expect(found[0]).toMatch(/^HaulerLong\.coupling\.share is 20\.9 %.*Moving HaulerLong\.box /);
    expect(found[1]).toMatch(/^spare \+ HaulerLong\.axles\.load \+ HaulerLong\.mass is /);
  });
  it('in a variant speak of the variant, also in a rig that has its original too', () => {
    const text = `${vehicle()}${trailer('hitch ball at 4 m back, 430 mm up\n  require Hauler.mass at most 250 kg')}
variant Heavy of Hauler { fitting box 30 kg at 2600 mm back, 600 mm up }
rig R { tow Truck\n haul Hauler, Heavy }
`;
    const found = read(text).diagnostics.filter(({ key }) => key === 'requirement-violated');
    expect(found.map(({ start }) => /^\S+/.exec(text.slice(start))?.[0])).toEqual(['Heavy', 'R']);
    for (const { message } of found) expect(message).toMatch(/^Heavy\.mass is 270 kg/);
  });
  it('what is not computed is told with the nearest', () => {
    expect(violations(trailer('require coupling.lode at most 13 kg'))[0]).toMatch(/coupling\.lode.*nearest/);
    expect(violations(trailer('require coupling.load at most 13 %'))[0]).toMatch(/mass.*plain number|ratio/);
    expect(violations(trailer('require coupling.load + 3 m at most 13 kg'))).toHaveLength(1);
    expect(violations(trailer('require coupling.load / 0 at most 13 kg'))).toHaveLength(1);
  });
});
