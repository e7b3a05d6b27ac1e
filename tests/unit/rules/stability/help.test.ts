import { describe, expect, test } from 'vitest';
import { checkStability } from '../../../../language/rules/stability/index.ts';
import { NEUTRAL } from '../../../../language/rules/stability/results.ts';
import { motionOf } from '../../../../language/rules/stability/trial.ts';
import type { RigStability } from '../../../../language/semantics/stability/evaluate-stability.ts';
import { fail } from '../../semantics/support.ts';
import { stabilityOf, weekend } from './rigs.ts';

/** An invented car whose rear axle carries much, with an unbraked trailer: it folds where the car brakes hard. */
const FOLDING = (crate: number, speed = 104) => `vehicle Runabout {
  wheelbase 2990 mm, track 1550 mm
  axle front rating 1200 kg
  axle rear rating 1137 kg
  kerb 796 kg on front, 837 kg on rear, 560 mm up, inertia 2626 kg·m²
  hitch ball 50 mm at 1230 mm behind rear, 420 mm up
}
trailer Tourer {
  coupling ball 50 mm, 420 mm up
  axles single at 3620 mm back, track 1900 mm, rating 1399 kg
  tare 889 kg at 3253 mm back, 750 mm up, inertia 1766 kg·m²
  brakes unbraked
  fitting crate 140 kg at ${crate} mm back, 620 mm up
}
rig Weekend {
  tow Runabout
  haul Tourer
  travel ${speed} km/h, braking 4 m/s²
  case empty { }
}
`;

/** Swings at the intended speed; while braking its car is neutral, so that any load on the hitch makes it oversteer a trifle. */
const NEUTRAL_BRAKING = (chest: number) => `vehicle Runabout {
  wheelbase 2530 mm, track 1550 mm
  axle front rating 1200 kg
  axle rear rating 1097 kg
  kerb 934 kg on front, 517 kg on rear, 560 mm up, inertia 2071 kg·m²
  hitch ball 50 mm at 980 mm behind rear, 420 mm up
  fitting rack 36 kg at 1600 mm back, 500 mm up
  fitting jack 17 kg at 2220 mm back, 590 mm up
}
trailer Tourer {
  coupling ball 50 mm, 420 mm up
  axles single at 4420 mm back, track 1900 mm, rating 1000 kg
  tare 1013 kg at 3995 mm back, 750 mm up, inertia 2314 kg·m²
  brakes unbraked
  fitting chest 105 kg at ${chest} mm back, 1090 mm up
  fitting cooker 79 kg at 4230 mm back, 1170 mm up
  fitting bench 65 kg at 2690 mm back, 640 mm up
  fitting spare 61 kg at 6770 mm back, 630 mm up
}
rig Weekend {
  tow Runabout
  haul Tourer
  travel 103 km/h, grades -4 % to 4 %, braking 2 m/s²
  case empty { }
}
`;

const messageOf = (stability: RigStability, code: string) =>
  checkStability(stability).find((each) => each.code === code)?.message ?? fail(`no ${code}`);

const braking = ({ results }: RigStability) =>
  results.find(({ scenario }) => scenario.kind === 'braking') ?? fail('no braking');

const kmh = (speed: number | undefined) => Math.round((speed ?? Number.NaN) * 3.6);

const foldSpeed = (text: string) => {
  const { divergence } = braking(stabilityOf(text));
  return divergence.kind === 'at' ? divergence.speed : fail('it does not fold');
};

const serious = (text: string) =>
  checkStability(stabilityOf(text)).flatMap(({ code, severity }) => (severity === 'information' ? [] : [code]));

describe('a rig that folds', () => {
  test('is helped by what raises the speed it folds from, as the file with that change says', () => {
    const message = messageOf(stabilityOf(FOLDING(2310)), 'RW702');
    const [, to] =
      /Moving Tourer\.crate \(140 kg\) 500 mm back adds 0\.\d+ deg\/g of understeer and raises the speed it folds from to (\d+) km\/h, which is not enough\.$/.exec(
        message,
      ) ?? [];
    expect(Number(to)).toBe(kmh(foldSpeed(FOLDING(2810))));
    expect(kmh(foldSpeed(FOLDING(2810)))).toBeGreaterThan(kmh(foldSpeed(FOLDING(2310))));
  });

  test('is not told that what helps is not enough where it is', () => {
    const above = (foldSpeed(FOLDING(2310)) + foldSpeed(FOLDING(2810))) / 2;
    const message = messageOf(stabilityOf(FOLDING(2310, above * 3.6)), 'RW702');
    expect(message).toMatch(/raises the speed it folds from to \d+ km\/h\.$/);
  });

  test('loses swing damping by it where it folds, and keeps the recommended damping elsewhere', () => {
    const [level] = stabilityOf(FOLDING(2810)).results;
    expect(level?.mode?.damping).toBeGreaterThan(0.1); // SAE J2807, from memory
    // On the level it costs damping: advice that may cost none would say nothing.
    expect(level?.mode?.damping).toBeLessThan(stabilityOf(FOLDING(2310)).results[0]?.mode?.damping ?? 0);
  });

  test('with nothing on board that can be moved is told so', () => {
    const bare = FOLDING(2310).replace(/ *fitting crate.*\n/, '');
    expect(messageOf(stabilityOf(bare), 'RW702')).toMatch(/Nothing that can be moved helps enough\.$/);
  });

  test('its motion folds, however well the swing that is left is damped', () => {
    const stability = stabilityOf(FOLDING(2310));
    const motion = motionOf(braking(stability).built.train, stability.speed);
    expect(motion?.folds).toBe(true);
    expect(motion?.damping).toBeGreaterThan(0);
  });
});

describe('a rig that swings', () => {
  test('is helped by a move that makes its car oversteer by no more than what is called neutral', () => {
    const before = braking(stabilityOf(NEUTRAL_BRAKING(6170)));
    const after = braking(stabilityOf(NEUTRAL_BRAKING(5670)));
    expect(before.handling?.understeer).toBeGreaterThan(0);
    expect(after.handling?.understeer).toBeLessThan(0);
    expect(after.handling?.understeer).toBeGreaterThan(NEUTRAL);
    const gain = after.damping - before.damping;
    const message = messageOf(stabilityOf(NEUTRAL_BRAKING(6170)), 'RW701');
    const [, told] =
      /Moving Tourer\.chest \(105 kg\) 500 mm ahead adds ([\d.]+) to the damping ratio, which is not enough\.$/.exec(
        message,
      ) ?? [];
    expect(Number(told)).toBeCloseTo(gain, 2);
    const codes = (chest: number) => serious(NEUTRAL_BRAKING(chest));
    expect(codes(5670).filter((code) => !codes(6170).includes(code))).toEqual([]);
  });
});

describe('a speed that nobody stated', () => {
  const swaying = (rig: string) =>
    weekend({ tare: 3300, tourer: 'fitting generator 200 kg at 6600 mm back, 600 mm up', rig });

  test('is not called intended, and gives no errors', () => {
    const unstated = checkStability(stabilityOf(swaying('')));
    const sways = unstated.find(({ code }) => code === 'RW701') ?? fail('it does not sway');
    expect(sways.severity).toBe('warning');
    expect(sways.message).toMatch(/ km\/h below 100 km\/h \(taken because no speed is intended\), in case empty/);
    for (const { message } of unstated) expect(message).not.toContain('the intended');
    const stated = checkStability(stabilityOf(swaying('travel 100 km/h'))).find(({ code }) => code === 'RW701');
    expect(stated?.severity).toBe('error');
    expect(stated?.message).toContain('below the intended 100 km/h');
  });
});
