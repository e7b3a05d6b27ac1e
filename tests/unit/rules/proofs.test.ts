import { describe, expect, test } from 'vitest';
import { reachesOf, reachSurvey } from '../../../language/rules/reach/check-reach.ts';
import { reachMargins } from '../../../language/rules/reach/margins.ts';
import { read } from '../semantics/support.ts';

/** How the limits of a code stand over everything reachable. */
function standings(text: string, code: string) {
  const result = read(text).result('Errand');
  const [reaches, survey] = [reachesOf(result), reachSurvey(result)];
  if (reaches === undefined || survey === undefined) throw new Error('no loads');
  const margins = reachMargins(result, reaches, reaches.whole);
  return margins
    .filter(({ limit }) => limit.code === code)
    .map(({ limit, found, verdict, worst }) => ({
      subject: limit.limited.subject,
      found,
      verdict,
      isProvedToHold: survey.limits.some(
        (each) => each.code === code && each.limited.subject === limit.limited.subject && survey.isProvedToHold(each),
      ),
      value: worst.value,
      limit: worst.limit,
      state: worst.witness.state.label,
    }));
}

describe('what a trailer has to put on its coupling in Germany, 4 % of its mass and no more than 25 kg', () => {
  // Empty, 500 kg · 60 mm / 3000 mm = 10 kg of 20 kg. A full tank adds 400 kg · 50 mm / 3000 mm = 6.67 kg and asks for 16 kg more,
  // but for no more than 25 kg in all: 10 kg are missing when it is empty, 8.33 kg when it is full, and most where 4 % are 25 kg,
  // at 125 kg in the tank: 25 − 10 − 2.08 = 12.92 kg.
  const text = (litres = 400) => `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  tare 1100 kg on front, 1000 kg on rear, 600 mm up
  hitch ball at 1100 mm behind rear, 440 mm up
}
trailer Cart {
  coupling ball 50 mm, 440 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 500 kg at 2940 mm back, 500 mm up
  limits { ATM 1500 kg }
  tank water ${litres} L of water at 2950 mm back, 500 mm up
}
rig Errand in DE {
  tow Truck
  haul Cart
  case out { water 0 % }
}
`;

  test('is missed most at a level between the ends, which is found exactly', () => {
    const [least] = standings(text(), 'RW801');
    expect(least).toMatchObject({
      found: 'proved',
      isProvedToHold: false,
      verdict: 'broken',
      state: expect.stringContaining('water 31'),
    });
    expect(least?.value).toBeCloseTo(10 + (125 * 50) / 3000, 6);
    expect(least?.limit).toBeCloseTo(25, 6);
  });

  test('is missed most at an end where 4 % are never 25 kg', () => {
    const [least] = standings(text(100), 'RW801');
    expect(least).toMatchObject({ found: 'proved', state: 'with water 100 %, else as in case out' });
    expect(least?.value).toBeCloseTo(10 + 100 / 60, 9);
    expect(least?.limit).toBeCloseTo(24, 9);
  });

  test('is only tried for a trailer that may weigh what it weighs', () => {
    expect(standings(text().replace('  limits { ATM 1500 kg }\n', ''), 'RW801')).toMatchObject([
      { found: 'sampled', isProvedToHold: false },
    ]);
  });
});

test('the most that a coupling carries in Germany is the lesser of 15 % and 2.00 t', () => {
  // 14 t, 450 mm ahead of an axle 3000 mm behind the coupling: 2100 kg, which is 15 %. 1 t of water 300 mm ahead of it
  // adds 100 kg: more than 2.00 t permit, and less than 15 %.
  const text = (back: number) => `vehicle Tractor {
  wheelbase 4200 mm, track 2000 mm
  tare 5000 kg on front, 5000 kg on rear, 900 mm up
  hitch pin at 1500 mm behind rear, 800 mm up
}
trailer Low {
  coupling pin, 800 mm up
  axles single at 3000 mm back, track 2000 mm
  tare 14000 kg at ${back} mm back, 1200 mm up
  limits { ATM 18000 kg }
  tank water 1000 L of water at 2700 mm back, 1000 mm up
}
rig Errand in DE {
  tow Tractor
  haul Low
  case out { water 0 % }
}
`;
  const most = (back: number) =>
    standings(text(back), 'RW802').map(({ found, value, limit }) => ({ found, value, limit }));
  const closeTo = (value: number) => expect.closeTo(value, 6);
  expect(most(2550)).toEqual([{ found: 'proved', value: closeTo(2200), limit: closeTo(2000) }]);
  const light = text(2550).replace('14000 kg', '12000 kg');
  expect(standings(light, 'RW802')).toMatchObject([{ found: 'proved', value: closeTo(1800), limit: closeTo(1800) }]);
  // The least is that of 4 % and 500 kg above 3.5 t: 14 t, 50 mm ahead of the axle, put 233 kg on the coupling.
  expect(standings(text(2950), 'RW801')).toMatchObject([
    { found: 'proved', isProvedToHold: false, value: closeTo(14000 / 60), limit: closeTo(500) },
  ]);
});

describe('the sides of an axle that can be relieved of all its load', () => {
  // A tank 3 m behind the rear axle takes its content off the front axle, which carries 1100 kg.
  const text = (litres: number, side: string) => `vehicle Truck {
  wheelbase 3000 mm, track 1600 mm
  tare 1100 kg on front, 900 kg on rear, 600 mm up
  tank stern ${litres} L of water at 6000 mm back, ${side}500 mm up
}
rig Errand {
  tow Truck
  case out { stern 0 % }
}
`;
  const front = (...parts: Parameters<typeof text>) =>
    standings(text(...parts), 'RW515').find(({ subject }) => subject.startsWith('Front'));

  test('are proved to be even where it always carries something', () => {
    expect(front(1000, '')).toMatchObject({ found: 'proved', isProvedToHold: true, verdict: 'holds' });
  });

  test('are tried where it can carry nothing: there is nothing to share there', () => {
    expect(front(1200, '')).toMatchObject({ found: 'sampled', isProvedToHold: false, verdict: 'holds' });
  });

  test('are tried where the worst state known is not one of those', () => {
    // With the bow tank full the front axle carries something, whatever is in the stern; with both empty but a little it does not.
    const both = text(1105, '').replace(
      '}\nrig',
      '  tank bow 300 L of water at 0 mm back, 700 mm left, 500 mm up\n}\nrig',
    );
    const [uneven] = standings(both.replace('stern 0 %', 'stern 0 %  bow 0 %'), 'RW515');
    expect(uneven).toMatchObject({ found: 'sampled', isProvedToHold: false, verdict: 'broken' });
  });

  test('are tried where what is allowed of them moves', () => {
    const required = (most: string) =>
      standings(text(1000, '').replace('  case', `  require Truck.front.imbalance at most ${most}\n  case`), 'RW581');
    expect(required('5 %')).toMatchObject([{ found: 'proved', isProvedToHold: true }]);
    expect(required('Truck.mass / 40000 kg')).toMatchObject([{ found: 'sampled', isProvedToHold: false }]);
  });

  test('are found uneven at levels at which it carries a little, though neither end shows it', () => {
    const uneven = front(1200, '300 mm left, ');
    expect(uneven).toMatchObject({ found: 'sampled', isProvedToHold: false, verdict: 'broken' });
    expect(uneven?.value).toBeGreaterThan(0.1);
  });
});

/**
 * A truck, and a trailer whose tare puts 900 kg · 100 mm / 3000 mm = 30 kg on the coupling; more lines of the trailer may
 * follow.
 */
const CART = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  tare 1180 kg on front, 940 kg on rear, 680 mm up
  hitch ball 50 mm at 1150 mm behind rear, 430 mm up
}
trailer Cart {
  coupling ball 50 mm, 430 mm up
  axles single at 3000 mm back, track 1500 mm
  tare 900 kg at 2900 mm back, 700 mm up
`;

describe('a limit on what goes through a coupling load', () => {
  // 200 kg of water behind the axle take 200 kg · 1500 mm / 3000 mm = 100 kg off the coupling.
  const text = (requirement: string) => `${CART}  tank waste 200 L of water at 4500 mm back, 500 mm up
}
rig Errand {
  tow Truck
  haul Cart
  case out { waste 0 % }
  require ${requirement}
}
`;

  test('is broken where that pulls up, where no load tells it', () => {
    const result = read(text('Truck.front.load / Cart.coupling.load at least 1')).result('Errand');
    const survey = reachSurvey(result);
    const [limit] = survey?.limits.filter(({ code }) => code === 'RW581') ?? [];
    const breach = limit && survey?.breachOf(limit);
    // The front axle carries 1180 kg + 70 kg · 1150 mm / 3200 mm.
    expect(breach?.worst.value).toBeCloseTo((1180 + (70 * 1150) / 3200) / -70, 6);
    expect(breach?.worst.witness.state.label).toBe('with waste 100 %, else as in case out');
  });

  test('is told by what is other only: a thing that another case stows at the same place is not', () => {
    const stowed = 'stow crate in Cart at 3000 mm back, 700 mm up';
    const twice = text('Truck.front.load / Cart.coupling.load at least 1')
      .replace('rig Errand', 'item crate 20 kg\nrig Errand')
      .replace('case out { waste 0 % }', `case out { waste 0 %  ${stowed} }\n  case back { waste 5 %  ${stowed} }`);
    const survey = reachSurvey(read(twice).result('Errand'));
    const [limit] = survey?.limits.filter(({ code }) => code === 'RW581') ?? [];
    const breach = limit && survey?.breachOf(limit);
    expect(breach?.worst.witness.state.label).toMatch(/^with waste 100 %, else as in case (out|back)$/);
  });
});

test('the most on a coupling is no limit of a light trailer, so that nothing of it is left to be tried', () => {
  const light = `${CART}  limits { ATM 1200 kg }
  tank waste 20 L of water at 4500 mm back, 500 mm up
}
rig Errand in DE {
  tow Truck
  haul Cart
  case out { waste 0 % }
}
`;
  const survey = reachSurvey(read(light).result('Errand'));
  const [most] = survey?.limits.filter(({ code }) => code === 'RW802') ?? [];
  expect(most && [survey?.isProvedToHold(most), survey?.breachOf(most)]).toEqual([true, undefined]);
});
