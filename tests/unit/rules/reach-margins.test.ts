import { describe, expect, test } from 'vitest';
import { completeDiagnostics } from '../../../language/index.ts';
import { reachesOf } from '../../../language/rules/reach/check-reach.ts';
import { reachMargins } from '../../../language/rules/reach/margins.ts';
import { MAIN, read } from '../semantics/support.ts';

/** 2120 kg and two tanks of 400 kg each: at most 800 kg, 600 kg of it in the ranges of case driving. */
const TEXT = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
  limits { GVM 2800 kg }
  tank water 400 L of water at 2100 mm back, 900 mm up
  tank waste 400 L of grey_water at 2100 mm back, 500 mm up
}
rig Errand {
  tow Truck
  case driving { water 0 % to 100 %  waste 0 % to 50 % }
  case still { water 10 %  waste 20 % }
  case half { water 50 %  waste 0 % }
  require Truck.mass at most 2500 kg in still
  require Truck.mass at most 2300 kg in still, half
}
`;

/** Limits by their text and figure, in everything reachable or in a case. */
function marginsOf(text: string, rig: string, name?: string) {
  const { result } = read(text);
  const reaches = reachesOf(result(rig));
  const reach =
    name === undefined ? reaches?.whole : reaches?.cases.find(({ state }) => state.case.name === name)?.reach;
  if (reaches === undefined || reach === undefined) throw new Error('no such reach');
  return reachMargins(result(rig), reaches, reach).map(({ limit, worst, margin, verdict, found }) => ({
    code: limit.code,
    subject: limit.limited.subject,
    limit: worst.limit,
    value: worst.value,
    margin,
    verdict,
    found,
    state: worst.witness.state.label,
  }));
}

describe('a limit over everything reachable', () => {
  test('is told with its worst state, whether it holds or not', () => {
    const found = marginsOf(TEXT, 'Errand').find(({ code }) => code === 'RW503');
    expect(found).toMatchObject({ verdict: 'broken', found: 'proved', limit: 2800 });
    expect(found?.value).toBeCloseTo(2920, 9);
    expect(found?.margin).toBeCloseTo(-120, 9);
    const held = marginsOf(TEXT, 'Errand', 'driving').find(({ code }) => code === 'RW503');
    expect(held).toMatchObject({ verdict: 'holds', found: 'proved' });
    expect(held?.value).toBeCloseTo(2720, 9);
    expect(held?.state).toContain('waste 50 %');
  });

  test('that binds in some cases is looked at in these', () => {
    const asked = (name?: string) =>
      marginsOf(TEXT, 'Errand', name)
        .filter(({ code }) => code === 'RW581')
        .map(({ limit, value, state }) => [limit, Math.round(value), state]);
    expect(asked()).toEqual([
      [2500, 2240, 'in case still'],
      [2300, 2320, 'in case half'],
    ]);
    expect(asked('still')).toEqual([
      [2500, 2240, 'in case still'],
      [2300, 2240, 'in case still'],
    ]);
    expect(asked('half')).toEqual([[2300, 2320, 'in case half']]);
    expect(asked('driving')).toEqual([]);
  });

  test('of a share is worst where the share is, not where most kg are over', () => {
    // Empty, the cart puts 30 kg of 300 kg on its coupling; the small tank adds 30 kg of 60 kg, the large one 60.27 kg of 400 kg.
    // The share is most with the small one alone: 60 / 360 = 16.7 %. With both it is 120.27 / 760 = 15.8 %: less, though that
    // is 6.27 kg over 15 %, and the other 6 kg.
    const cart = `vehicle Tug {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²
  hitch ball at 1150 mm behind rear, 430 mm up
}
trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2700 mm back, 500 mm up, inertia 300 kg·m²
  brakes overrun
  tank small 60 L of water at 1500 mm back, 600 mm up
  tank large 400 L of water at 2548 mm back, 600 mm up
}
rig Errand {
  tow Tug
  haul Cart
  case empty { small 0 %  large 0 % }
}
`;
    const [most] = marginsOf(cart, 'Errand').filter(({ code }) => code === 'RW603');
    expect(most?.value).toBeCloseTo(60 / 360, 9);
    expect(most?.state).toBe('with small 100 %, else as in case empty');
    expect(60 + (400 * 452) / 3000 - 0.15 * 760).toBeGreaterThan(60 - 0.15 * 360);
  });
});

describe('tolerances beside a limit of the payload', () => {
  const truck = (tare: string, tank: string) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m²${tare}
  limits { payload 420 kg }
  tank water 400 L of water at 2100 mm back, 900 mm up${tank}
}
rig Errand {
  tow Truck
  case driving { water 100 % }
  require Truck.payload at most 415 kg
}
`;
  const found = (text: string) => completeDiagnostics(read(text).analysis, MAIN).filter(({ code }) => code === 'RW904');

  test('of the tare break none: a heavier tare is no more payload', () => {
    expect(found(truck(', tolerance 50 kg', ''))).toEqual([]);
  });

  test('of the tare of the vehicle break none on what its payload and coupling load are together', () => {
    const towing = truck(', tolerance 50 kg', '')
      .replace('  limits', '  hitch ball at 1150 mm behind rear, 430 mm up\n  limits')
      .replace(
        'rig Errand {',
        `trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 300 kg at 2900 mm back, 500 mm up, inertia 300 kg·m²
  brakes overrun
}
rig Errand {
  haul Cart`,
      )
      .replace('Truck.payload at most 415 kg', 'Truck.payload + Cart.coupling.load at most 415 kg');
    expect(found(towing)).toEqual([]);
    // A trailer that is 20 % heavier puts 2 kg more on its ball: 400 kg of water and 12 kg.
    const heavier = towing.replace('inertia 300', 'tolerance 20 %, inertia 300').replace('415 kg', '411 kg');
    expect(found(heavier).map(({ message }) => message)).toEqual([expect.stringContaining('it can be 412 kg')]);
  });

  test('of what is on board do, and are named, without those of the tare', () => {
    const messages = found(truck(', tolerance 50 kg', ', tolerance 40 kg')).map(({ message }) => message);
    expect(messages).toHaveLength(2);
    for (const message of messages) {
      expect(message).toContain('it can be 440 kg');
      expect(message).toContain('Truck.water');
      expect(message).not.toContain('Truck.tare');
    }
  });
});
