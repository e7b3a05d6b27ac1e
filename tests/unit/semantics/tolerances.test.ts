import { describe, expect, test } from 'vitest';
import { derivedFigures } from '../../../language/semantics/envelope/figures.ts';
import { type QuantityTolerance, tolerancesIn } from '../../../language/semantics/envelope/tolerances.ts';
import type { RigResult } from '../../../language/semantics/state.ts';
import { deviated, drawn } from '../../laws/deviations.ts';
import { chances, sampleResults } from '../../laws/reachable-rigs.ts';
import { read } from './support.ts';

const TEXT = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
}
trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 600 kg at 2700 mm ± 20 mm back, 520 mm ± 15 mm up, inertia 900 kg·m², tolerance 12 kg
  fitting box 45 kg at 900 mm ± 10 mm back, 500 mm ± 5 mm left, 800 mm up, tolerance 2 kg
  brakes overrun
  tank fresh 80 L of water at 1500 mm back, 200 mm right, 700 mm up, size 900 x 600 x 300 mm, empty 5 kg, tolerance 5 %
}
item crate 30 kg tolerance 3 kg
rig Errand {
  tow Truck
  haul Hauler
  stow 2 x crate in Hauler at 2000 mm back, 100 mm left, 600 mm up
  case going { fresh 75 % }
  case wide { fresh 50 % to 100 % }
}
`;

function tolerancesOf(result: RigResult, name?: string) {
  const [loads] = result.motions;
  const state = result.states.find((each) => name === undefined || each.case.name === name)?.case;
  if (loads === undefined || state === undefined) throw new Error('no such case');
  const found = tolerancesIn(result, state, loads);
  const names = [...loads.influences.keys(), ...derivedFigures(result.rig)];
  return { state, loads, names, of: (wanted: string) => found?.of(wanted), found };
}

function sure(tolerance: QuantityTolerance | undefined): QuantityTolerance {
  if (tolerance === undefined) throw new Error('no tolerance');
  return tolerance;
}

const compared = (name: string) => !name.endsWith('.imbalance');

describe('tolerances of a trailer', () => {
  const result = read(TEXT).result('Errand');
  const { of, state, names } = tolerancesOf(result, 'going');
  const water = 0.75 * (result.rig.units[1]?.tanks[0]?.content ?? Number.NaN);

  test('add up at worst, by the lever rule on paper', () => {
    // Coupling load: Σ mass · (3000 − back) / 3000. Tare: 612 kg at 2680 mm, box: 47 kg at 890 mm, content: 60 + 3 kg,
    // crates: 66 kg.
    const load = (tare: number, tareAt: number, box: number, boxAt: number, content: number, crates: number) =>
      (tare * (3000 - tareAt) + box * (3000 - boxAt) + (content + 5) * 1500 + crates * 1000) / 3000;
    const found = sure(of('Hauler.coupling.load'));
    expect(found.value).toBeCloseTo(load(600, 2700, 45, 900, water, 60), 9);
    expect(found.most).toBeCloseTo(load(612, 2680, 47, 890, water * 1.05, 66), 9);
    expect(found.least).toBeCloseTo(load(588, 2720, 43, 910, water * 0.95, 54), 9);
  });

  test('combine to first order by the root of the sum of squares, by hand', () => {
    // Half widths times derivatives of the coupling load, kg.
    const effects = [
      (12 * 300) / 3000, // tare, heavier
      (600 * 20) / 3000, // tare, ahead
      (2 * 2100) / 3000, // box, heavier
      (45 * 10) / 3000, // box, ahead
      (0.05 * water * 1500) / 3000,
      (6 * 1000) / 3000, // two crates that are heavier together
    ];
    const found = sure(of('Hauler.coupling.load'));
    expect(found.standardDeviation).toBeCloseTo(Math.hypot(...effects) / Math.sqrt(3), 9);
    expect(found.effects.map(({ source, of: what }) => `${source.name} ${what}`)).toEqual([
      'Hauler.tare x',
      'crate mass',
      'Hauler.fresh mass',
      'Hauler.box mass',
      'Hauler.tare mass',
      'Hauler.box x',
    ]);
    expect(found.effects[0]).toMatchObject({ effect: expect.closeTo(4, 9), halfWidth: expect.closeTo(0.02, 12) });
    expect(found.effects.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  test('of a share are those of the exact derivative', () => {
    const found = sure(of('Hauler.coupling.share'));
    const crates = found.effects.find(({ source }) => source.name === 'crate');
    const { value: load } = sure(of('Hauler.coupling.load'));
    const { value: mass } = sure(of('Hauler.mass'));
    // d(load / mass) for 6 kg at 1000 mm ahead of the axle: (6 · 1/3 − load / mass · 6) / mass.
    expect(crates?.effect).toBeCloseTo((2 - (load / mass) * 6) / mass, 12);
  });

  test('that are independent of the tare count nothing for the payload', () => {
    const found = sure(of('Hauler.payload'));
    expect(found.effects.map(({ source }) => source.name)).toEqual(['crate', 'Hauler.fresh']);
    expect(found.most - found.value).toBeCloseTo(6 + 0.05 * water, 9);
  });

  test('of a case with a range are those in the middle of it', () => {
    const wide = tolerancesOf(result, 'wide').of('Hauler.coupling.load');
    expect(wide?.value).toBeCloseTo(sure(of('Hauler.coupling.load')).value, 9);
    expect(wide?.most).toBeCloseTo(sure(of('Hauler.coupling.load')).most, 9);
  });

  test('are none where none is stated', () => {
    const bare = read(TEXT.replace(/ ± \d+ mm|,? tolerance \d+ (kg|%)/g, '')).result('Errand');
    expect(tolerancesOf(bare).found).toBeUndefined();
  });

  test('of a difference of sides that can tilt to either reach down to nothing', () => {
    const level = TEXT.replace('200 mm right', '440 mm right');
    const found = sure(tolerancesOf(read(level).result('Errand'), 'going').of('Hauler.axles.imbalance'));
    expect(found.value).toBeGreaterThanOrEqual(0);
    expect(found.least).toBe(0);
    expect(found.standardDeviation).toBeGreaterThan(0);
  });

  test('agree with numerical derivatives', () => {
    const step = 1e-4;
    for (const name of names) {
      const found = of(name);
      if (found === undefined || !compared(name)) continue;
      for (const { source, of: what, effect } of found.effects) {
        const at = (by: number) =>
          deviated(result, state, (each, kind) => (each === source.name && kind === what ? by : 0)).get(name)?.value;
        const numerical = ((at(step) ?? Number.NaN) - (at(-step) ?? Number.NaN)) / (2 * step);
        expect(Math.abs(numerical - effect), `${name} by ${source.name} ${what}`).toBeLessThan(
          1e-5 * Math.max(1e-3, Math.abs(effect)),
        );
      }
    }
  });

  test('have the standard deviation of many rigs drawn at random', () => {
    const chance = chances(2026);
    const count = 5000;
    const sums = new Map<string, { readonly found: QuantityTolerance; sum: number; squares: number }>();
    for (const name of names.filter(compared)) {
      const found = of(name);
      if (found !== undefined && found.standardDeviation > 0) sums.set(name, { found, sum: 0, squares: 0 });
    }
    for (let i = 0; i < count; i++) {
      const quantities = deviated(
        result,
        state,
        drawn(() => 2 * chance() - 1),
      );
      for (const [name, each] of sums) {
        const by = (quantities.get(name)?.value ?? Number.NaN) - each.found.value;
        each.sum += by;
        each.squares += by * by;
      }
    }
    for (const [name, { found, sum, squares }] of sums) {
      const deviation = Math.sqrt(squares / count - (sum / count) ** 2);
      // That of a deviation estimated from so many draws is below 1 %.
      expect(Math.abs(deviation / found.standardDeviation - 1), name).toBeLessThan(0.03);
    }
    expect(sums.size).toBeGreaterThan(8);
  });

  test('at worst are what trying all corners gives', () => {
    // The tare has three tolerances, the box four, the tank one and the crates one.
    const corners = Array.from({ length: 2 ** 9 }, (_, corner) => {
      let bit = 0;
      return deviated(
        result,
        state,
        drawn(() => ((corner >> bit++) & 1) * 2 - 1),
      );
    });
    for (const name of names.filter(compared)) {
      const found = of(name);
      if (found === undefined) continue;
      const values = corners.map((quantities) => quantities.get(name)?.value ?? Number.NaN);
      expect(Math.max(...values), name).toBeCloseTo(found.most, 9);
      expect(Math.min(...values), name).toBeCloseTo(found.least, 9);
    }
  });
});

describe('tolerances of the samples', () => {
  const results = sampleResults().filter((result) => tolerancesOf(result).found !== undefined);

  test('there are some', () => {
    expect(results.length).toBeGreaterThan(5);
  });

  test.each(results.map((result) => [result.rig.name, result] as const))(
    'of %s at worst hold every corner drawn and are more than the standard deviation',
    (_, result) => {
      const { names, of, state } = tolerancesOf(result);
      const chance = chances(7);
      const corners = Array.from({ length: 100 }, () =>
        deviated(
          result,
          state,
          drawn(() => (chance() < 0.5 ? -1 : 1)),
        ),
      );
      for (const name of names) {
        const found = of(name);
        if (found === undefined) continue;
        const worst = Math.max(found.most - found.value, found.value - found.least);
        expect(found.standardDeviation, name).toBeLessThanOrEqual(worst + 1e-12);
        if (!compared(name)) continue;
        for (const corner of corners) {
          const value = corner.get(name)?.value ?? found.value;
          expect(value, name).toBeLessThanOrEqual(found.most + 1e-9);
          expect(value, name).toBeGreaterThanOrEqual(found.least - 1e-9);
        }
      }
    },
  );
});
