import { describe, expect, test } from 'vitest';
import { completeDiagnostics } from '../../../language/index.ts';
import { analyseMarked, URI } from '../services/markers.ts';

const TRUCK = `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  kerb 1000 kg on front, 1000 kg on rear, 600 mm up, inertia 3000 kg·m²
  limits { GVM 2350 kg }
  seat driver 80 kg at 1500 mm back, 700 mm up
  seat mate 70 kg at 1500 mm back, 700 mm up
  tank water 200 L of water at 1500 mm back, 900 mm up
  tank gas 40 L of LPG at 1500 mm back, 500 mm up
  locker bed from 1000 mm to 2000 mm back, floor 800 mm up
}
item crate 100 kg
item ladder 20 kg
`;

const rig = (lines: string): string => `${TRUCK}rig Errand {\n  tow Truck with driver\n${lines}\n}\n`;

interface Found {
  readonly code: string;
  readonly message: string;
  readonly text: string;
  readonly related: readonly string[];
}

function found(source: string, wanted: (code: string) => boolean): readonly Found[] {
  const { analysis } = analyseMarked(source);
  return completeDiagnostics(analysis, URI).flatMap(({ code, message, start, end, related }) =>
    wanted(code)
      ? [{ code, message, text: source.slice(start, end), related: related.map((each) => each.message) }]
      : [],
  );
}

const of = (source: string, code: string) => found(source, (each) => each === code);

describe('a case outside of what is reachable', () => {
  test('is reported at its level, with both', () => {
    const source = rig('  case out { water 100 %  gas 0 % }\n  reachable { water 0 % to 80 %  gas 0 % to 80 % }');
    const [only, ...others] = of(source, 'RW905');
    expect(others).toEqual([]);
    expect(only?.text).toBe('100 %');
    expect(only?.message).toMatch(
      /^Case out has Truck\.water 100 %, outside the 0 % to 80 % that are stated as reachable\./,
    );
    expect(only?.related).toEqual(['what is reachable of Truck.water']);
  });

  test('with a range of which a part is outside', () => {
    const source = rig('  case out { water 10 % to 60 %  gas 0 % }\n  reachable { water 20 % to 80 % }');
    expect(of(source, 'RW905')[0]).toMatchObject({ text: '10 % to 60 %' });
    expect(of(source, 'RW905')[0]?.message).toContain('Truck.water 10 % to 60 %, outside the 20 % to 80 % that are');
    expect(of(source.replace('water 10 %', 'water 20 %'), 'RW905')).toEqual([]);
  });

  test('with a tank that the case does not mention, at its name', () => {
    const source = rig('  case out { gas 0 % }\n  reachable { water 0 % to 80 % }');
    expect(of(source, 'RW905')).toMatchObject([{ text: 'out' }]);
    const one = rig('  case out { gas 0 % }\n  reachable { water 50 % to 50 % }');
    expect(of(one, 'RW905')[0]?.message).toContain('outside the 50 % that is stated as reachable');
  });

  test('is none at the ends of the range, without a block, and where no case is named', () => {
    expect(of(rig('  case out { water 80 %  gas 0 % }\n  reachable { water 0 % to 80 % }'), 'RW905')).toEqual([]);
    expect(of(rig('  case out { water 100 %  gas 0 % }'), 'RW905')).toEqual([]);
    expect(of(rig('  reachable { water 0 % to 80 % }'), 'RW905')).toEqual([]);
  });

  test('of a trailer alone', () => {
    const source = `trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2800 mm back, 500 mm up, inertia 400 kg·m²
  brakes overrun
  tank water 100 L of water at 2800 mm back, 400 mm up
  case wet { water 100 % }
  reachable { water 0 % to 40 % }
}
`;
    expect(of(source, 'RW905')).toMatchObject([{ text: '100 %' }]);
  });

  test('is found at once, before what takes longer, and can be turned off', () => {
    const source = rig('  case out { water 100 %  gas 0 % }\n  reachable { water 0 % to 80 % }');
    const { analysis } = analyseMarked(source);
    expect(analysis.diagnostics(URI).map(({ code }) => code)).toContain('RW905');
    expect(of(source.replace('  case', '  rule RW905 off "known"\n  case'), 'RW905')).toEqual([]);
  });
});

describe('slips in the block of reachable states', () => {
  test('a level in a line with an error is nobody’s: only those of the cases are looked at', () => {
    // 2120 kg in the case, 2280 kg with the tank full.
    const text = (line: string) =>
      rig(`  case out { water 20 %  gas 0 % }\n  reachable { gas 0 %  ${line} }`).replace('GVM 2350 kg', 'GVM 2200 kg');
    expect(of(text('water 0 % to 100 %'), 'RW902')).toHaveLength(1);
    expect(of(text('water 0 % to 100 kgs'), 'RW902')).toEqual([]);
    expect(found(text('water 0 % to 100 kgs'), (code) => code < 'RW400').map(({ code }) => code)).toEqual(['RW302']);
  });

  test('a level above what a tank holds', () => {
    const source = rig('  case out { water 0 %  gas 0 % }\n  reachable { water 0 % to 120 % }');
    expect(of(source, 'RW521')).toMatchObject([
      { text: '0 % to 120 %', message: expect.stringContaining('filled to 120 % in the reachable states') },
    ]);
  });

  test('a level above the limit of the fluid', () => {
    const source = rig('  case out { water 0 %  gas 0 % }\n  reachable { gas 0 % to 95 % }');
    expect(of(source, 'RW522')).toMatchObject([{ text: '0 % to 95 %' }]);
    expect(of(source.replace('95 %', '80 %'), 'RW522')).toEqual([]);
  });

  test.each([
    ['a tank twice', 'reachable { water 0 % to 10 %  water 0 % to 20 % }', 'water', /level of Truck\.water/],
    ['a tank that no unit has', 'reachable { wter 0 % to 10 % }', 'wter', /nearest is 'water'/],
    ['a range backwards', 'reachable { water 80 % to 10 % }', '80 % to 10 %', /The level of water/],
    ['a seat twice', 'reachable { optional mate, Truck.mate }', 'Truck.mate', /^'optional' says Truck\.mate twice/],
    ['an item twice', 'reachable { optional crate  optional mate, crate }', 'crate', /^'optional' says crate twice/],
    ['a seat or item that the rig does not have', 'reachable { optional maet }', 'maet', /nearest is 'mate'/],
    ['an item that is stowed nowhere', 'reachable { optional ladder }', 'ladder', /No seat or stowed item of this rig/],
  ])('%s', (_, block, text, message) => {
    const source = rig(`  stow crate in Truck.bed\n  case out { water 0 %  gas 0 % }\n  ${block}`);
    const slips = found(source, (code) => code < 'RW500');
    expect(slips).toMatchObject([{ text, message: expect.stringMatching(message) }]);
  });
});

describe('what is optional although no case has it on board', () => {
  const limit = (kilograms: number) =>
    of(
      rig(`  stow crate in Truck.bed
  case out { water 0 %  gas 0 %  absent crate }
  reachable { water 0 % to 0 %  gas 0 % to 0 %  optional mate, crate }`).replace('GVM 2350', `GVM ${kilograms}`),
      'RW902',
    );

  test('can be: a seat, and an item as the rig stows it', () => {
    // 2000 + 80 + 70 + 100 kg.
    expect(limit(2249)[0]?.message).toContain('with crate and mate, else as in case out');
    expect(limit(2250)).toEqual([]);
  });

  test('and what only a trailer’s own case stows is an item of it', () => {
    const source = `item crate 100 kg
trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2800 mm back, 500 mm up, inertia 400 kg·m²
  brakes overrun
  locker bed from 2000 mm to 4000 mm back, floor 500 mm up
  case laden { stow crate in bed }
  reachable { optional crate }
}
`;
    expect(found(source, (code) => code < 'RW500')).toEqual([]);
  });
});
