import { describe, expect, test } from 'vitest';
import { completeDiagnostics, type Diagnostic } from '../../../language/index.ts';
import { type Fix, fixes } from '../../../language/services/index.ts';
import { applied } from './fixes-support.ts';
import { analyseMarked, URI } from './markers.ts';

/** A truck of 2000 kg; its tanks lie over the middle between its axles, so that all figures are sums. */
const TRUCK = `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  kerb 1000 kg on front, 1000 kg on rear, 600 mm up, inertia 3000 kg·m²
  limits { GVM 2350 kg }
  seat driver 80 kg at 1500 mm back, 700 mm up
  seat mate 70 kg at 1500 mm back, 700 mm up
  tank water 200 L of water at 1500 mm back, 900 mm up
  tank waste 200 L of water at 1500 mm back, 500 mm up
  locker bed from 1000 mm to 2000 mm back, floor 800 mm up
  locker box from 1000 mm to 2000 mm back, floor 800 mm up
}
item crate 100 kg
`;

const rig = (lines: string): string => `${TRUCK}rig Errand {\n  tow Truck with driver\n${lines}}\n`;

/** 2280 kg in each; with both tanks full 2480 kg, 130 kg over. */
const TWO_CASES = `  case out { water 100 %  waste 0 % }
  case back { water 0 %  waste 100 % }
`;

const diagnosticsOf = (source: string): readonly Diagnostic[] =>
  completeDiagnostics(analyseMarked(source).analysis, URI);

function offered(source: string, code: string): readonly Fix[] {
  const { analysis } = analyseMarked(source);
  const found = completeDiagnostics(analysis, URI).filter((diagnostic) => diagnostic.code === code);
  if (found.length === 0) throw new Error(`No ${code} in the source.`);
  return found.flatMap(({ start, message }) =>
    fixes(analysis, URI, { start, end: start }).filter(
      ({ diagnostic }) => diagnostic?.code === code && diagnostic.message === message,
    ),
  );
}

const titled = (all: readonly Fix[], title: string): readonly Fix[] => all.filter((fix) => fix.title.startsWith(title));

/** The source with the only case that is offered for a code. */
function named(source: string, code: string): string {
  const [fix, ...others] = titled(offered(source, code), 'Add this state as a case: ');
  if (fix === undefined || others.length > 0) throw new Error('not one case is offered');
  return applied(source, fix);
}

const codes = (source: string, least = 'RW200'): readonly string[] =>
  diagnosticsOf(source).flatMap(({ code }) => (code >= least ? [code] : []));

/** The codes of what is broken in the case of a name. */
const brokenIn = (source: string, name: string): readonly string[] =>
  diagnosticsOf(source).flatMap(({ code, message }) =>
    code < 'RW900' && message.includes(`in case ${name}`) ? [code] : [],
  );

describe('the state of a finding becomes a case', () => {
  test('behind the last one, in which the limit is then broken', () => {
    const source = rig(TWO_CASES);
    const after = named(source, 'RW902');
    expect(after).toBe(
      rig(`${TWO_CASES}  case reached {
    water 100 %  waste 100 %
  }
`),
    );
    expect(brokenIn(after, 'reached')).toEqual(['RW503']);
    expect(codes(after, 'RW900')).toEqual([]);
  });

  test('once, where it is the state of several findings', () => {
    // The GVM, and what is required, by the same 2480 kg.
    const source = rig(`${TWO_CASES}  require Truck.mass at most 2400 kg\n`);
    const { analysis } = analyseMarked(source);
    const found = completeDiagnostics(analysis, URI).filter(({ code }) => code === 'RW902');
    expect(found).toHaveLength(2);
    const start = Math.min(...found.map((each) => each.start));
    const end = Math.max(...found.map((each) => each.end));
    const cases = titled(fixes(analysis, URI, { start, end }), 'Add this state as a case: ');
    expect(cases).toHaveLength(1);
  });

  test('within the ranges of a case', () => {
    const source = rig('  case driving { water 0 % to 80 %  waste 0 % to 80 % } # as it goes\n');
    const after = named(source, 'RW901');
    expect(after).toBe(
      rig(`  case driving { water 0 % to 80 %  waste 0 % to 80 % } # as it goes
  case reached {
    water 80 %  waste 80 %
  }
`),
    );
    expect(brokenIn(after, 'reached')).toEqual(['RW503']);
  });

  test('of a common practice', () => {
    const left = TRUCK.replace(
      '200 L of water at 1500 mm back, 900',
      '400 L of water at 1500 mm back, 800 mm left, 900',
    );
    const source = `${left.replace('GVM 2350', 'GVM 2900')}rig Errand {\n  tow Truck with driver\n  case dry { water 0 %  waste 0 % }\n}\n`;
    const found = offered(source, 'RW903');
    const [fix] = titled(found, 'Add this state as a case: ');
    if (fix === undefined) throw new Error('nothing offered');
    expect(brokenIn(applied(source, fix), 'reached')).toContain('RW515');
  });

  test('with a name that no case has', () => {
    const source = rig(TWO_CASES.replace('case back', 'case reached').replace('case out', 'case reached_2'));
    expect(named(source, 'RW902')).toContain('\n  case reached_3 {\n');
  });

  test('with who and what is on board where the rig says otherwise', () => {
    const source = rig(`  stow crate in Truck.bed
  case out { water 100 %  waste 0 %  absent crate }
  case back { water 0 %  waste 0 %  occupants driver, mate  absent crate }
  case shop { water 0 %  waste 0 %  stow crate in Truck.box }
`).replace('GVM 2350', 'GVM 2640');
    // 2000 + 80 + 70 + 200 + 200 + 2 · 100 kg.
    const after = named(source, 'RW902');
    expect(after).toContain(`  case reached {
    water 100 %  waste 100 %
    occupants driver, mate
    stow crate in Truck.box
  }
`);
    expect(brokenIn(after, 'reached')).toEqual(['RW503']);
    const light = rig(`  stow crate in Truck.bed
  case out { water 100 %  waste 0 %  absent crate }
  case back { water 0 %  waste 100 % }
  require Truck.mass at least 2100 kg
`).replace('GVM 2350', 'GVM 9000');
    expect(named(light, 'RW902')).toContain(`  case reached {
    water 0 %  waste 0 %
    absent crate
  }
`);
  });

  test('with tanks by their units where two have the same name', () => {
    const trailer = `trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2800 mm back, 500 mm up, inertia 400 kg·m²
  brakes overrun
  tank water 100 L of water at 2800 mm back, 400 mm up
}
`;
    const hitched = TRUCK.replace('  seat driver', '  hitch ball at 1000 mm behind rear, 430 mm up\n  seat driver');
    const source = `${hitched}${trailer}rig Errand {
  tow Truck with driver
  haul Cart
  case out { Truck.water 100 %  waste 0 %  Cart.water 0 % }
}
`.replace('GVM 2350', 'GVM 2450');
    const after = named(source, 'RW902');
    expect(after).toContain('\n    Truck.water 100 %  waste 100 %  Cart.water ');
    expect(brokenIn(after, 'reached')).toContain('RW503');
  });

  test('with a tank by its unit whose name means something else in a case', () => {
    const source = rig('  case out { water 100 %  Truck.absent 0 % }\n').replace('tank waste', 'tank absent');
    const after = named(source, 'RW902');
    expect(after).toContain('\n    water 100 %  Truck.absent 100 %\n');
    expect(brokenIn(after, 'reached')).toEqual(['RW503']);
  });

  test('in a block on one line, and in a rig without cases', () => {
    const oneLine = `${TRUCK}rig Errand { tow Truck with driver  case out { water 100 %  waste 0 % } }\n`;
    const after = named(oneLine, 'RW902');
    expect(
      after.slice(after.indexOf('rig Errand')),
    ).toBe(`rig Errand { tow Truck with driver  case out { water 100 %  waste 0 % }
  case reached {
    water 100 %  waste 100 %
  }
}
`);
    expect(brokenIn(after, 'reached')).toEqual(['RW503']);
    const none = rig('  reachable { water 0 % to 100 % }\n  require Truck.mass at least 2200 kg\n').replace(
      'GVM 2350',
      'GVM 9000',
    );
    expect(named(none, 'RW902')).toContain(`at least 2200 kg
  case reached {
    water 0 %  waste 0 %
  }
}
`);
  });
});

describe('levels of the new case', () => {
  const within = (levels: string, most: string) =>
    rig(`  case out { water 50 %  waste 0 % }\n  reachable { waste 0 % to 0 %  water ${levels} }\n`).replace(
      'GVM 2350',
      `GVM ${most}`,
    );

  test('are as round as they can be while the limit is broken', () => {
    // 66.666 % are 133.332 kg, 66 % 132 kg.
    const after = named(within('0 % to 66.666 %', '2210 kg'), 'RW902');
    expect(after).toContain('water 66 %  waste 0 %');
    const finer = named(within('0 % to 66.666 %', '2213 kg'), 'RW902');
    expect(finer).toContain('water 66.6 %  waste 0 %');
    for (const text of [after, finer]) {
      expect(brokenIn(text, 'reached')).toEqual(['RW503']);
      // Still within reach.
      expect(codes(text, 'RW900')).toEqual([]);
    }
  });

  test('meet bounds that are no whole shares exactly', () => {
    const after = named(within('7 % to 55 %', '2180 kg'), 'RW902');
    expect(after).toContain('water 55 %  waste 0 %');
    expect(codes(after, 'RW900')).toEqual([]);
  });

  test('break lines that would be too long', () => {
    const names = Array.from({ length: 8 }, (_, index) => `tank_with_a_long_name_${index}`);
    const tanks = names.map((name) => `  tank ${name} 50 L of water at 1500 mm back, 500 mm up\n`).join('');
    const levels = names.map((name) => `${name} 0 %`).join('  ');
    const source = rig(`  case out { water 0 %  waste 0 %  ${levels} }\n`).replace(
      '  locker bed',
      `${tanks}  locker bed`,
    );
    const after = named(source, 'RW902');
    const lines = after.slice(after.indexOf('case reached')).split('\n');
    expect(lines.length).toBeGreaterThan(4);
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThan(102);
    expect(brokenIn(after, 'reached')).toEqual(['RW503']);
  });
});

test('a limit that is required in some cases is required in the new one too', () => {
  const source = rig(`  case driving { water 0 % to 100 %  waste 0 % }
  case parked { water 0 %  waste 0 % }
  require Truck.mass at most 2250 kg in driving "house rule"
`);
  const after = named(source, 'RW901');
  expect(after).toContain('require Truck.mass at most 2250 kg in driving, reached "house rule"');
  expect(brokenIn(after, 'reached')).toEqual(['RW581']);
});

test('nothing is offered where the language has no words for the state: nobody on board', () => {
  const source = rig(`  case out { water 0 %  waste 0 % }
  reachable { water 0 % to 0 %  waste 0 % to 0 %  optional driver }
  require Truck.mass at least 2050 kg
`);
  expect(offered(source, 'RW902')).toEqual([]);
});

test('nothing is offered for a tolerance', () => {
  const source = rig(
    '  stow crate in Truck.bed\n  case out { water 0 %  waste 0 % }\n  reachable { water 0 % to 0 %  waste 0 % to 0 % }\n',
  )
    .replace('item crate 100 kg', 'item crate 100 kg tolerance 30 kg')
    .replace('GVM 2350', 'GVM 2200');
  expect(offered(source, 'RW904')).toEqual([]);
});

describe('what is reachable is stated', () => {
  const offeredState = (source: string, code = 'RW902') => titled(offered(source, code), 'State what is reachable: ');

  test('of the only tank that does it, in whole per cent', () => {
    // 2000 + 80 + 200 kg with all the water: 70 kg of waste, 35 %.
    const source = rig('  case out { water 100 %  waste 0 % }\n');
    const [fix, ...others] = offeredState(source);
    if (fix === undefined) throw new Error('nothing offered');
    expect(others).toEqual([]);
    expect(fix.title).toBe(
      'State what is reachable: waste 0 % to 35 %; the limit then holds, if the rig is never driven otherwise',
    );
    const after = applied(source, fix);
    expect(after).toBe(
      rig(`  case out { water 100 %  waste 0 % }
  reachable {
    waste 0 % to 35 %
  }
`),
    );
    expect(codes(after, 'RW500').filter((code) => code < 'RW530' || code >= 'RW900')).toEqual([]);
    // One per cent more breaks it.
    expect(codes(after.replace('35 %', '36 %'), 'RW900')).toEqual(['RW902']);
  });

  test('at the lower end where that is what breaks it', () => {
    const source = rig(
      '  case out { water 100 %  waste 100 % }\n  reachable { waste 100 % to 100 % }\n  require Truck.mass at least 2400 kg\n',
    ).replace('GVM 2350', 'GVM 9000');
    const [fix] = offeredState(source);
    if (fix === undefined) throw new Error('nothing offered');
    // 2000 + 80 + 200 kg: 120 of 200 kg of water.
    const after = applied(source, fix);
    expect(after).toContain('reachable {\n    water 60 % to 100 %\n    waste 100 % to 100 % }');
    expect(codes(after, 'RW900')).toEqual([]);
  });

  test('in place of what the block says of the tank', () => {
    const source = rig('  case out { water 100 %  waste 0 % }\n  reachable {\n    waste 0 % to 80 %\n  }\n');
    const [fix] = offeredState(source);
    if (fix === undefined) throw new Error('nothing offered');
    expect(applied(source, fix)).toContain('  reachable {\n    waste 0 % to 35 %\n  }\n');
  });

  test('not for a variant whose original says what is reachable', () => {
    const source = `trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2800 mm back, 500 mm up, inertia 400 kg·m²
  brakes overrun
  tank water 100 L of water at 2800 mm back, 400 mm up
  case dry { water 0 % }
  reachable { water 0 % to 90 % }
}
variant Light of Cart {
  limits { ATM 350 kg }
}
`;
    expect(offeredState(source)).toEqual([]);
    const own = source.replace('limits { ATM 350 kg }', 'limits { ATM 350 kg }\n  reachable { water 0 % to 95 % }');
    expect(offeredState(own)).toHaveLength(1);
  });

  test('not where several tanks would do it, where none does, or within the ranges of a case', () => {
    expect(offeredState(rig('  case out { water 0 %  waste 0 % }\n'))).toEqual([]);
    expect(offeredState(rig(TWO_CASES))).toEqual([]);
    expect(offeredState(rig('  case driving { water 0 % to 80 %  waste 0 % to 80 % }\n'), 'RW901')).toEqual([]);
  });
});

describe('the range of a case is narrowed', () => {
  const narrowed = (source: string, code = 'RW901') => titled(offered(source, code), 'State the level of ');

  test('of the only tank that does it, in whole per cent, in its line', () => {
    // 2000 + 80 + 200 kg with all the waste: 70 kg of water, 35 %.
    const source = rig('  case driving { water 0 % to 60 %  waste 100 % } # as it goes\n');
    const [fix, ...others] = narrowed(source);
    if (fix === undefined) throw new Error('nothing offered');
    expect(others).toEqual([]);
    expect(fix.title).toBe('State the level of water as 0 % to 35 % in case driving; the limit then holds in it');
    const after = applied(source, fix);
    expect(after).toBe(rig('  case driving { water 0 % to 35 %  waste 100 % } # as it goes\n'));
    expect(codes(after, 'RW901')).not.toContain('RW901');
    expect(codes(after.replace('35 %', '36 %'), 'RW901')).toContain('RW901');
  });

  test('at the lower end where that is what breaks it', () => {
    const least = '  require Truck.mass at least 2150 kg in driving\n';
    const source = rig(`  case driving { water 20 % to 80 %  waste 0 % }\n${least}`);
    const [fix] = narrowed(source);
    if (fix === undefined) throw new Error('nothing offered');
    // 2000 + 80 + 70 kg.
    expect(applied(source, fix)).toContain('case driving { water 35 % to 80 %  waste 0 % }');
    expect(codes(applied(source, fix), 'RW901')).not.toContain('RW901');
  });

  test('so that everything holds in it that its ranges break', () => {
    const lines = '  require Truck.mass at most 2330 kg in driving\n';
    const source = rig(`  case driving { water 0 % to 40 %  waste 100 % }\n${lines}`);
    for (const fix of narrowed(source)) expect(applied(source, fix)).toContain('water 0 % to 25 %');
    expect(codes(source, 'RW901').filter((code) => code === 'RW901')).toHaveLength(2);
    expect(narrowed(source)).toHaveLength(1);
    const both = `${lines}  require Truck.mass at least 2290 kg in driving\n`;
    expect(narrowed(rig(`  case driving { water 0 % to 40 %  waste 100 % }\n${both}`))).toEqual([]);
  });

  test('not where several tanks would do it, or none does alone', () => {
    expect(narrowed(rig('  case driving { water 0 % to 50 %  waste 0 % to 50 % }\n').replace('2350', '2250'))).toEqual(
      [],
    );
    expect(narrowed(rig('  case driving { water 0 % to 90 %  waste 80 % to 100 % }\n'))).toHaveLength(1);
    const narrow =
      '  require Truck.mass at most 2230 kg in driving\n  require Truck.mass at least 2220 kg in driving\n';
    expect(narrowed(rig(`  case driving { water 30 % to 50 %  waste 30 % to 45 % }\n${narrow}`))).toEqual([]);
  });

  test('not of a level with a tolerance, or of the line of the tank itself', () => {
    expect(narrowed(rig('  case driving { water 30 % ± 30 %  waste 100 % }\n'))).toEqual([]);
    const own = rig('  case driving { waste 100 % }\n').replace('900 mm up\n', '900 mm up, level 0 % to 60 %\n');
    expect(narrowed(own)).toEqual([]);
  });
});

test('no level of a named case is lowered for a state that is not it', () => {
  const source = rig(TWO_CASES);
  expect(diagnosticsOf(source).find(({ code }) => code === 'RW902')?.message).toContain('Draining ');
  expect(titled(offered(source, 'RW902'), 'Draining')).toEqual([]);
});

test('what is added has the line ends and the indent of its declaration', () => {
  const windows = named(rig(TWO_CASES).replaceAll('\n', '\r\n'), 'RW902');
  expect(windows).toContain('\r\n  case reached {\r\n');
  expect(windows).not.toMatch(/[^\r]\n/);
  const tabbed = rig(TWO_CASES).replace(/^( {2})+/gm, (blanks) => '\t'.repeat(blanks.length / 2));
  expect(named(tabbed, 'RW902')).toMatch(/\n\tcase reached \{\n\t\twater 100 %.*\n\t\}/);
});
