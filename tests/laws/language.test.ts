import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Reading, read } from '../unit/semantics/support.ts';

/** A mass somewhere in a unit: kg, and m back, left and up from its datum. */
interface Thing {
  readonly mass: number;
  readonly back: number;
  readonly left: number;
  readonly up: number;
}

/** A small rig by its numbers, SI; written out as a text by `write`. */
interface Plan {
  readonly tare: Thing;
  readonly fittings: readonly Thing[];
  readonly tank: Thing & { readonly level: number };
  readonly stowed: readonly Thing[];
  readonly axle: number;
  readonly arrangement: 'single' | 'tandem' | 'tri';
  readonly suspension: 'equalised' | 'independent';
  readonly wheelbase: number;
  readonly overhang: number;
  readonly kerb: readonly [number, number];
}

/** Whole millimetres and grams, so that texts hold the numbers as they are. */
const millis = (min: number, max: number) =>
  fc.integer({ min: min * 1000, max: max * 1000 }).map((value) => value / 1000);
const thing = (most: number): fc.Arbitrary<Thing> =>
  fc.record({ mass: millis(1, most), back: millis(-1, 8), left: millis(-1, 1), up: millis(0, 2) });

const plan: fc.Arbitrary<Plan> = fc.record({
  tare: thing(2000),
  fittings: fc.array(thing(200), { maxLength: 4 }),
  tank: fc.tuple(thing(100), fc.integer({ min: 0, max: 100 })).map(([at, level]) => ({ ...at, level })),
  stowed: fc.array(thing(100), { maxLength: 4 }),
  axle: millis(2, 6),
  arrangement: fc.constantFrom('single', 'tandem', 'tri'),
  suspension: fc.constantFrom('equalised', 'independent'),
  wheelbase: millis(2, 4),
  overhang: millis(0.5, 2),
  kerb: fc.tuple(millis(500, 1500), millis(500, 1500)),
});

/** How numbers are written: SI through a factor, in a unit. */
interface Style {
  readonly length: (metres: number) => string;
  readonly mass: (kilograms: number) => string;
  readonly inertia: string;
}
const METRIC: Style = {
  length: (metres) => `${Math.round(metres * 1000)} mm`,
  mass: (kilograms) => `${kilograms} kg`,
  inertia: '900 kg·m²',
};
/** Exact factors of the inch (25.4 mm) and the pound (0.45359237 kg), 1959 agreement; numbers to full precision. */
const CUSTOMARY: Style = {
  length: (metres) => `${metres / 0.0254} in`,
  mass: (kilograms) => `${kilograms / 0.45359237} lb`,
  inertia: `${900 / 0.45359237} lb*m^2`,
};

function write(rig: Plan, { length, mass, inertia }: Style = METRIC): string {
  const side = (metres: number) => (metres < 0 ? `${length(-metres)} right` : `${length(metres)} left`);
  const along = (metres: number) => (metres < 0 ? `${length(-metres)} ahead` : `${length(metres)} back`);
  const place = ({ back, left, up }: Thing) => `at ${along(back)}, ${side(left)}, ${length(up)} up`;
  const spacing = rig.arrangement === 'single' ? '' : `spacing ${length(0.8)}, `;
  return `${rig.stowed.map((each, index) => `item item_${index} ${mass(each.mass)}\n`).join('')}fluid content 1 kg/L

vehicle Truck {
  wheelbase ${length(rig.wheelbase)}, track ${length(1.6)}
  kerb ${mass(rig.kerb[0])} on front, ${mass(rig.kerb[1])} on rear, ${length(0.7)} up, inertia ${inertia}
  hitch ball at ${length(rig.overhang)} behind rear, ${length(0.43)} up
}

trailer Hauler {
  coupling ball, ${length(0.43)} up
  axles ${rig.arrangement} at ${length(rig.axle)} back, ${spacing}track ${length(1.8)}, ${rig.suspension}
  brakes electric
  tare ${mass(rig.tare.mass)} ${place(rig.tare)}, inertia ${inertia}
  tank fresh ${mass(rig.tank.mass)} of content ${place(rig.tank)}
${rig.fittings.map((each, index) => `  fitting fitting_${index} ${mass(each.mass)} ${place(each)}\n`).join('')}}

rig Weekend {
  tow Truck
  haul Hauler
${rig.stowed.map((each, index) => `  stow item_${index} in Hauler ${place(each)}\n`).join('')}  case one { fresh ${rig.tank.level} % }
}
`;
}

const loadsOf = (reading: Reading, rig = 'Weekend'): Readonly<Record<string, number>> =>
  Object.fromEntries([...reading.state(rig).quantities].map(([name, { value }]) => [name, value]));

function expectSame(
  found: Readonly<Record<string, number>>,
  wanted: Readonly<Record<string, number>>,
  scale: number,
): void {
  expect(Object.keys(found)).toEqual(Object.keys(wanted));
  for (const [name, value] of Object.entries(wanted))
    expect([name, Math.abs((found[name] ?? Number.NaN) - value) <= 1e-9 * Math.max(scale, Math.abs(value))]).toEqual([
      name,
      true,
    ]);
}

const check = (seed: number, predicate: (rig: Plan) => void): void => {
  fc.assert(fc.property(plan, predicate), { numRuns: 40, seed });
};
const massOf = (rig: Plan): number =>
  rig.tare.mass +
  (rig.tank.mass * rig.tank.level) / 100 +
  [...rig.fittings, ...rig.stowed].reduce((sum, { mass }) => sum + mass, 0);

describe('written rigs', { timeout: 30_000 }, () => {
  it('carry their weight: axles and coupling add up to the mass', () => {
    check(1, (rig) => {
      const loads = loadsOf(read(write(rig)));
      const trailer = massOf(rig);
      const vehicle = rig.kerb[0] + rig.kerb[1];
      const all = trailer + vehicle;
      const close = (value: number, wanted: number) => expect(Math.abs(value - wanted)).toBeLessThanOrEqual(1e-9 * all);
      const at = (name: string) => loads[name] ?? Number.NaN;
      close(at('Hauler.mass'), trailer);
      close(at('Hauler.axles.load') + at('Hauler.coupling.load'), trailer);
      close(at('Truck.front.load') + at('Truck.rear.load') - at('Truck.hitch.load'), vehicle);
      close(at('Truck.front.load') + at('Truck.rear.load') + at('Hauler.axles.load'), all);
      close(at('Hauler.axles.left') + at('Hauler.axles.right'), at('Hauler.axles.load'));
      close(at('rig.mass'), all);
    });
  });

  it('of a trailer alone: the axles and the coupling carry its empty mass', () => {
    check(2, (rig) => {
      const loads = loadsOf(read(write(rig)), 'Hauler');
      const empty = rig.tare.mass + rig.fittings.reduce((sum, { mass }) => sum + mass, 0);
      const carried = (loads['Hauler.axles.load'] ?? 0) + (loads['Hauler.coupling.load'] ?? 0);
      expect(Math.abs(carried - empty)).toBeLessThanOrEqual(1e-9 * empty);
    });
  });

  it('moved back by dx in the trailer: the axle group takes mass · dx over its lever', () => {
    fc.assert(
      fc.property(plan, millis(-1, 1), (rig, dx) => {
        const plain = { ...rig, suspension: 'equalised' as const };
        const back = <T extends Thing>(each: T): T => ({ ...each, back: each.back + dx });
        const moved = {
          ...plain,
          tare: back(rig.tare),
          tank: back(rig.tank),
          fittings: rig.fittings.map(back),
          stowed: rig.stowed.map(back),
        };
        const before = loadsOf(read(write(plain)));
        const after = loadsOf(read(write(moved)));
        const change = (name: string) => (after[name] ?? 0) - (before[name] ?? 0);
        const shifted = (massOf(rig) * dx) / rig.axle;
        const scale = 1e-9 * (massOf(rig) + 3000);
        expect(Math.abs(change('Hauler.axles.load') - shifted)).toBeLessThanOrEqual(scale);
        expect(Math.abs(change('Hauler.coupling.load') + shifted)).toBeLessThanOrEqual(scale);
        const front = (shifted * rig.overhang) / rig.wheelbase;
        expect(Math.abs(change('Truck.front.load') - front)).toBeLessThanOrEqual(scale);
        expect(Math.abs(change('Hauler.cg.back') - dx)).toBeLessThanOrEqual(1e-9);
      }),
      { numRuns: 40, seed: 3 },
    );
  });

  it('mirrored: left and right change places, the rest stays', () => {
    check(4, (rig) => {
      const mirror = <T extends Thing>(each: T): T => ({ ...each, left: -each.left });
      const mirrored = {
        ...rig,
        tare: mirror(rig.tare),
        tank: mirror(rig.tank),
        fittings: rig.fittings.map(mirror),
        stowed: rig.stowed.map(mirror),
      };
      const swap = (name: string) =>
        name.endsWith('.left')
          ? name.replace(/left$/, 'right')
          : name.endsWith('.right')
            ? name.replace(/right$/, 'left')
            : name;
      const before = loadsOf(read(write(rig)));
      const wanted = Object.fromEntries(
        Object.entries(before).map(([name, value]) =>
          name.endsWith('.cg.left') ? [name, -value] : [name, before[swap(name)] ?? Number.NaN],
        ),
      );
      expectSame(loadsOf(read(write(mirrored))), wanted, massOf(rig) + 3000);
    });
  });

  it('in inches and pounds: the same loads', () => {
    check(5, (rig) => {
      const text = write(rig, CUSTOMARY);
      expect(text).toMatch(/ in\b.* lb\b/s);
      expectSame(loadsOf(read(text)), loadsOf(read(write(rig))), massOf(rig) + 3000);
    });
  });

  it('an item split in two changes nothing', () => {
    check(6, (rig) => {
      const halves = (things: readonly Thing[]) =>
        things.flatMap((each) => [
          { ...each, mass: each.mass / 4 },
          { ...each, mass: (each.mass * 3) / 4 },
        ]);
      const split = { ...rig, fittings: halves(rig.fittings), stowed: halves(rig.stowed) };
      expectSame(loadsOf(read(write(split))), loadsOf(read(write(rig))), massOf(rig) + 3000);
    });
  });

  it('a count is as many single things', () => {
    fc.assert(
      fc.property(plan, fc.integer({ min: 1, max: 9 }), (rig, count) => {
        const stowed = rig.stowed.slice(0, 1);
        const one = { ...rig, stowed };
        const text = write(one).replace('stow item_0', `stow ${count} x item_0`);
        const many = { ...rig, stowed: stowed.map((each) => ({ ...each, mass: each.mass * count })) };
        expectSame(loadsOf(read(text)), loadsOf(read(write(many))), massOf(many) + 3000);
      }),
      { numRuns: 30, seed: 7 },
    );
  });
});

/** Ways to write the same text otherwise; each keeps what it says. */
const REWRITES: readonly ((text: string) => string)[] = [
  (text) => text.replaceAll('\n', '\n\n'),
  (text) => text.replaceAll('\n', ' # a comment with } and " in it\n'),
  (text) => text.replaceAll(', ', '  '),
  (text) => text.replaceAll(', ', ',\n      '),
  (text) => text.replaceAll(', ', '; '),
  (text) => text.replaceAll(/(\d) (mm|kg|%)/g, '$1$2'),
  (text) => text.replaceAll(/ {2,}/g, '\t'),
  (text) => `# Head\n\n${text}\n# Foot`,
  (text) => `\uFEFF${text}`,
  (text) => text.replaceAll(/^ {2}(?!case|[sS]tow)/gm, '\n    # above\n    '),
  (text) => text.replaceAll('\n', '\r\n'),
];

describe('the same said otherwise', { timeout: 30_000 }, () => {
  it('has the same loads and messages', () => {
    fc.assert(
      fc.property(plan, fc.subarray([...REWRITES], { minLength: 1 }), fc.boolean(), (rig, rewrites, broken) => {
        const plain = broken ? write(rig).replace('brakes electric', 'brakes eletric') : write(rig);
        const text = rewrites.reduce((written, rewrite) => rewrite(written), plain);
        const before = read(plain);
        const after = read(text);
        expect(after.diagnostics.map(({ message }) => message)).toEqual(
          before.diagnostics.map(({ message }) => message),
        );
        if (!broken) expect(loadsOf(after)).toEqual(loadsOf(before));
      }),
      { numRuns: 60, seed: 8 },
    );
  });
});
