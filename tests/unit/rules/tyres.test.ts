import { describe, expect, test } from 'vitest';
import { limitsOf } from '../../../language/rules/index.ts';
import { tyreOverloaded } from '../../../language/rules/tyre-overloaded.ts';
import { tyreTooSlow } from '../../../language/rules/tyre-too-slow.ts';
import { tyresBelowRating } from '../../../language/rules/tyres-below-rating.ts';
import type { Tyres } from '../../../language/semantics/model.ts';
import { read } from '../semantics/support.ts';
import { at, axle, HAULER, hauler, item, locker, RIG, rigResult, stow, tare, truck } from './fixture.ts';

// Load index 78 is 425 kg, 90 is 600 kg: UN R30 Annex 4, R54 Annex 4. Speed symbol J is 100 km/h: UN R54.
const tyres = (more: Partial<Tyres> = {}): Tyres => ({
  count: 2,
  marking: '155R13 78S',
  capacity: 425,
  dual: false,
  location: at(HAULER, 15),
  ...more,
});

/** A trailer of 1000 kg with 920 kg on its axle. */
const trailer = (fitted: Tyres, rating?: number) =>
  hauler({
    groups: [
      axle('axles', -2.6, at(HAULER, 10), {
        tyres: fitted,
        ...(rating === undefined ? {} : { rating: { value: rating, location: at(HAULER, 12) } }),
      }),
    ],
    parts: [tare(1000, -2.6 * 0.92, at(HAULER, 40))],
  });

describe('the load of a tyre', () => {
  const check = (fitted: Tyres) => [...tyreOverloaded.check(rigResult([truck(), trailer(fitted)]))];

  test('over its load index', () => {
    const [finding, ...others] = check(tyres());
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW611', 'error']);
    expect(finding?.message).toBe(
      'Each left tyre of the axle of Hauler: 460 kg is 35 kg over its capacity of 425 kg in case loaded.',
    );
    expect(finding?.related[0]).toEqual({ location: at(HAULER, 15), message: '155R13 78S carries 425 kg single' });
  });

  test('within its load index, and shared by dual tyres', () => {
    expect(check(tyres({ capacity: 600, marking: '165R13C 90/88R' }))).toEqual([]);
    expect(check(tyres({ count: 4, dual: true }))).toEqual([]);
  });

  test('of a group is that of one axle’s wheel, in the finding and in the table', () => {
    // 1000 kg, 250 mm ahead of the middle at 2500 mm: 900 kg on two axles, 450 kg each, 225 kg on each tyre.
    const text = (marking: string) => `trailer Hauler {
  coupling ball 50 mm, 430 mm up
  axles tandem at 2500 mm back, spacing 800 mm, track 1500 mm, equalised, tyres 4 x "${marking}"
  tare 1000 kg at 2250 mm back, 500 mm up, inertia 900 kg·m²
  brakes overrun
}
`;
    // Load indices 57 and 54 are 230 kg and 212 kg: UN R54 Annex IV.
    const { diagnostics, result } = read(text('145R10 57N'));
    expect(diagnostics.filter(({ code }) => code === 'RW611')).toEqual([]);
    const alone = result('Hauler');
    const row = limitsOf(alone).find(({ code }) => code === 'RW611');
    expect(row?.outcome).toMatchObject({ verdict: 'holds', value: expect.closeTo(225, 6), limit: 230 });
    const [over] = read(text('145R10 54N')).diagnostics.filter(({ code }) => code === 'RW611');
    expect(over?.message).toContain('225 kg is 13 kg over its capacity of 212 kg');
  });

  test('a tyre of unknown capacity is passed over', () => {
    expect(check(tyres({ capacity: undefined }))).toEqual([]);
  });

  test('the heaviest wheel counts, not the mean of the axle', () => {
    // The axle's 921 kg would be within 2 x 462 kg; 20 kg at 750 mm shift 20 · 0.75 / 1.5 = 10 kg to the left.
    const rack = locker('rack', -2.6, { centre: { x: -2.6, y: 0.75, z: 0.5 } });
    const unit = trailer(tyres({ capacity: 475, marking: '165R13 82S' }));
    const stowed = [stow(item('jack', 20), 1, rack)];
    const loaded = (y: number) =>
      rigResult([truck(), { ...unit, lockers: [rack] }], {
        stowed: stowed.map((each) => ({ ...each, centre: { ...each.centre, y } })),
      });
    expect([...tyreOverloaded.check(loaded(0))]).toEqual([]);
    expect([...tyreOverloaded.check(loaded(0.75))][0]?.message).toMatch(/^Each left tyre .* 480 kg is 5 kg over/);
    expect([...tyreOverloaded.check(loaded(-0.75))][0]?.message).toMatch(/^Each right tyre .* 480 kg is 5 kg over/);
  });
});

describe('tyres and the rating of their axle', () => {
  const alone = (rating: number, fitted = tyres()) => {
    const unit = trailer(fitted, rating);
    return rigResult([unit], { standalone: true, location: unit.location });
  };

  // The tyres of an axle together carry at least its rating: 49 CFR 571.110 S4.2.2.1.
  test('2 x 425 kg carry a rating of 850 kg and not of 900 kg', () => {
    expect([...tyresBelowRating.check(alone(850))]).toEqual([]);
    const [finding, ...others] = tyresBelowRating.check(alone(900));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity]).toEqual(['RW612', 'warning']);
    expect(finding?.message).toBe(
      'Axle of Hauler: 2 tyres of 425 kg carry 850 kg, 50 kg less than its rating of 900 kg.',
    );
    expect(finding?.location).toEqual(at(HAULER, 15));
  });

  test('it is for the unit to say, not for every rig with it', () => {
    expect([...tyresBelowRating.check(rigResult([truck(), trailer(tyres(), 900)]))]).toEqual([]);
    const variant = { ...alone(900), rig: { ...alone(900).rig, location: at(RIG, 3) } };
    expect([...tyresBelowRating.check(variant)]).toEqual([]);
  });
});

describe('the speed symbol', () => {
  const travelling = (kmh: number) =>
    rigResult([truck(), trailer(tyres({ speed: 100, capacity: 600, marking: '165R13C 90/88J' }))], {
      travel: { speed: kmh / 3.6, down: 0, up: 0, location: at(RIG, 65) },
    });

  test('J is good for 100 km/h', () => {
    expect([...tyreTooSlow.check(travelling(100))]).toEqual([]);
    const [finding, ...others] = tyreTooSlow.check(travelling(110));
    expect(others).toEqual([]);
    expect([finding?.code, finding?.severity, finding?.location]).toEqual(['RW613', 'warning', at(RIG, 65)]);
    expect(finding?.message).toBe(
      'Axle of Hauler: the tyres 165R13C 90/88J are made for at most 100 km/h; the rig travels at 110 km/h.',
    );
  });
});
