import { describe, expect, test } from 'vitest';
import { STABILITY } from '../../../../language/diagnostics/stability.ts';
import { STANDARD_GRAVITY } from '../../../../language/mechanics/combination.ts';
import { ASSUMED_TYRES, assumedCurve } from '../../../../language/mechanics/stability/tyre-table.ts';
import { axleStiffness } from '../../../../language/mechanics/stability/tyres.ts';
import { checkStability, STABILITY_RULES } from '../../../../language/rules/stability/index.ts';
import { unitsOnAssumedTyres } from '../../../../language/semantics/stability/assumed-tyres.ts';
import { fail, read } from '../../semantics/support.ts';
import { findingsOf, keysOf, stabilityOf, weekend } from './rigs.ts';

const TAIL = (mass: number) => `fitting generator ${mass} kg at 6800 mm back, 600 mm up`;

describe('the entries of the rules', () => {
  test('every entry is reported by one rule', () => {
    const reported = STABILITY_RULES.flatMap(({ keys }) => keys);
    expect(reported.toSorted()).toEqual(Object.keys(STABILITY).toSorted());
  });

  test.each(Object.entries(STABILITY))('%s: the example brings it out, mended it does not', (key, entry) => {
    const rigOf = (text: string) => (text.includes('rig Weekend') ? 'Weekend' : 'Delivery');
    const found = (text: string) => checkStability(stabilityOf(text, rigOf(text)));
    const serious = (text: string) =>
      found(text).flatMap((each) => (each.severity === 'information' ? [] : [each.key]));
    expect(found(entry.example).map((each) => each.key)).toContain(key);
    expect(serious(entry.example).filter((each) => each !== key)).toEqual([]);
    expect(found(entry.mended).map((each) => each.key)).not.toContain(key);
    expect(serious(entry.mended)).toEqual([]);
  });

  test('findings lie inside the rig, at most one for each entry', () => {
    const text = weekend({
      tare: 3300,
      tourer: TAIL(100),
      rig: 'travel 120 km/h, grades -10 % to 10 %, braking 6 m/s²',
    });
    const stability = stabilityOf(text);
    const { rig } = stability;
    const findings = checkStability(stability);
    expect(findings.length).toBeGreaterThan(1);
    expect(new Set(findings.map(({ key }) => key)).size).toBe(findings.length);
    for (const { location } of findings) expect(location.declaration).toBe(rig.location.declaration);
  });
});

describe('instability at the intended speed or below', () => {
  const tailHeavy = (rig: string, brakes?: string) =>
    weekend({ tare: 3250, tourer: TAIL(110), rig, ...(brakes ? { brakes } : {}) });

  test('says from which speed, how far below the intended one, in which state and what helps', () => {
    const [sways] = findingsOf(tailHeavy('travel 130 km/h'));
    expect([sways?.code, sways?.severity]).toEqual(['RW701', 'error']);
    expect(sways?.message).toMatch(
      /^The swinging of Tourer grows from (\d+) km\/h on, (\d+) km\/h below the intended 130 km\/h, in case empty, on the level \(linear model, small angles; tyres of Runabout and Tourer assumed\)\. Moving Tourer\.generator \(110 kg\) 500 mm ahead adds [\d.]+ to the damping ratio\.$/,
    );
    const [from, below] = [...(sways?.message.matchAll(/(?:from|on,) (\d+) km/g) ?? [])].map(([, speed]) =>
      Number(speed),
    );
    expect(Math.abs((from ?? 0) + (below ?? 0) - 130)).toBeLessThanOrEqual(1);
  });

  test('is shown at the travel line, and points at the case', () => {
    const text = tailHeavy('travel 130 km/h');
    const [sways] = findingsOf(text);
    expect(sways?.location).toEqual(stabilityOf(text).rig.travel?.location);
    expect(sways?.related.map(({ message }) => message)).toEqual(['case empty']);
  });

  test('folding is a matter of the vehicle, and an error where the brakes work as fitted', () => {
    // V = √(-wheelbase/gradient), the textbooks' critical speed: read off the message and off the handling alike.
    const text = weekend({ kerb: [640, 760], ratings: [1000, 900], rig: 'travel 150 km/h' });
    const [folds] = findingsOf(text);
    expect(folds?.code).toBe('RW702');
    const critical = stabilityOf(text).results[0]?.handling?.criticalSpeed ?? 0;
    expect(folds?.message).toContain(`Weekend folds from ${Math.round(critical * 3.6)} km/h on`);
  });

  test('only while the vehicle brakes alone it is a warning; without trailer brakes that is how the rig is fitted', () => {
    const rig = 'travel 110 km/h, braking 6 m/s²';
    expect(findingsOf(weekend({ rig })).map(({ code }) => code)).toContain('RW704');
    expect(findingsOf(weekend({ rig, brakes: 'unbraked' })).map(({ code }) => code)).toContain('RW702');
    expect(findingsOf(weekend({ rig })).map(({ code }) => code)).not.toContain('RW702');
  });
});

describe('what stands behind a figure', () => {
  const message = (text: string, key: string) =>
    findingsOf(text).find((each) => each.key === key)?.message ?? fail(`no ${key}`);

  test('the units on assumed tyres are named', () => {
    const text = weekend({ tare: 3250, tourer: TAIL(110), rig: 'travel 100 km/h' });
    expect(message(text, 'damping-low')).toMatch(
      /^The swinging of Tourer has a damping ratio of 0\.\d+ at the intended 100 km\/h, below the recommended 0\.1, in case empty, on the level \(linear model, small angles; tyres of Runabout and Tourer assumed\)\./,
    );
    const tyre = 'tyre wide "195/70R14C 104/102N" at 450 kPa, cornering 1200 N/deg';
    const stated = `${tyre}\n${text}`.replace(
      'axles single at 3900 mm back, track 1860 mm, rating 1100 kg',
      'axles single at 3900 mm back, track 1860 mm, rating 1100 kg, tyres 2 x wide',
    );
    expect(unitsOnAssumedTyres(stabilityOf(stated).rig)).toEqual(['Runabout']);
  });

  test('speeds, masses and inertias are told in the units of the rig', () => {
    const text = weekend({ tare: 3250, tourer: TAIL(110), rig: 'travel 130 km/h' }).replace(
      'Weekend {',
      'Weekend in US {',
    );
    // 130/1.609344 = 80.8 mph, exact mile; 110/0.45359237 = 242.5 lb, exact pound.
    expect(message(text, 'sways-below-speed')).toMatch(
      /grows from \d+ mph on, \d+ mph below the intended 81 mph, .* Moving Tourer\.generator \(243 lb\) 20 in ahead/,
    );
  });

  test('and the braking too', () => {
    const text = weekend({ rig: 'travel 45 mph, braking 10 ft/s²' }).replace('Weekend {', 'Weekend in US {');
    const labels = stabilityOf(text).results.map(({ label }) => label);
    expect(labels).toContain('case empty, braking at 10 ft/s², the vehicle braking alone');
  });

  test('a rig without lengths and masses of its own takes the units of its vehicle', () => {
    const inches = weekend({ tare: 3250, tourer: TAIL(110), rig: 'travel 80 mph, braking 3 m/s²' })
      .replace('wheelbase 2500 mm, track 1500 mm', 'wheelbase 98.4 in, track 59 in')
      .replace('850 mm behind rear, 430 mm up', '33.5 in behind rear, 16.9 in up')
      .replace('560 mm up', '22 in up')
      .replace('kerb 780 kg on front, 620 kg', 'kerb 1720 lb on front, 1367 lb');
    const stability = stabilityOf(inches);
    expect(stability.results.at(-1)?.label).toContain('braking at 9.84 ft/s²'); // 3/0.3048, exact foot
    for (const each of checkStability(stability)) expect(each.message).not.toMatch(/km\/h| kg|m\/s²/);
  });

  test('of many states the next worst one is named', () => {
    const rig = 'travel 130 km/h, grades -8 % to 6 %\n  case light { }';
    const [sways] = findingsOf(weekend({ tare: 3250, tourer: TAIL(110), rig }));
    expect(sways?.message).toMatch(/ Also in case [^(]*\(from \d+ km\/h\) and \d+ other states\. /);
  });
});

describe('margins at the intended speed', () => {
  test('damping below 10 %: SAE J2807, from memory', () => {
    const at = (speed: number) => weekend({ tare: 3300, tourer: TAIL(80), rig: `travel ${speed} km/h` });
    for (const speed of [60, 70, 80, 90, 100, 110, 120]) {
      const stability = stabilityOf(at(speed));
      const damping = stability.results[0]?.mode?.damping ?? 1;
      const found = checkStability(stability).map(({ key }) => key);
      expect(found.includes('damping-low'), `${speed} km/h, ${damping}`).toBe(damping > 0 && damping < 0.1);
    }
  });

  test('a critical speed within 1.25 times the intended one', () => {
    const folding = { kerb: [640, 760], ratings: [1000, 900] } as const;
    const critical = (stabilityOf(weekend(folding)).results[0]?.handling?.criticalSpeed ?? 0) * 3.6;
    const at = (ratio: number) => keysOf(weekend({ ...folding, rig: `travel ${(critical / ratio).toFixed(3)} km/h` }));
    expect(at(1.24)).toContain('speed-margin-small');
    expect(at(1.26)).not.toContain('speed-margin-small');
    expect(at(0.99)).not.toContain('speed-margin-small');
  });

  test('what happens off the level names both speeds', () => {
    const [found] = findingsOf(weekend({ rig: 'travel 70 km/h, braking 5 m/s²' }));
    expect([found?.code, found?.severity]).toEqual(['RW721', 'information']);
    expect(found?.message).toMatch(
      /^Weekend folds from \d+ km\/h on in case empty, braking at 5 m\/s², the vehicle braking alone; on the level not up to 200 km\/h \(/,
    );
  });
});

describe('steering with the trailer on', () => {
  // The rear axle takes up what the trailer puts on the hitch and more, and the tyres' stiffness grows less than its load.
  test('a vehicle that understeers alone and oversteers towing', () => {
    const [found] = findingsOf(weekend({ kerb: [720, 680], ratings: [950, 900], rig: 'travel 80 km/h' }));
    expect(found?.code).toBe('RW731');
    expect(found?.message).toMatch(/its understeer gradient is -0\.\d+ deg\/g, alone 0\.\d+ deg\/g/);
  });

  test('one that oversteers alone already is not the trailer’s doing', () => {
    const text = weekend({ kerb: [640, 760], ratings: [1000, 900], rig: 'travel 80 km/h' });
    expect(stabilityOf(text).results[0]?.alone?.understeer).toBeLessThan(0);
    expect(keysOf(text)).not.toContain('vehicle-oversteers');
  });

  test('the vehicle alone: the textbooks’ rule for two axles', () => {
    // K = front load / front stiffness - rear load / rear stiffness, in every textbook on vehicle dynamics.
    const stiffness = (load: number, rating: number) => {
      const curve = assumedCurve(ASSUMED_TYRES.passenger.radial, (rating / 2) * STANDARD_GRAVITY);
      const side = (load / 2) * STANDARD_GRAVITY;
      return axleStiffness(curve, 1, side, side).value;
    };
    const alone = stabilityOf(weekend({})).results[0]?.alone;
    expect(alone?.understeer).toBeCloseTo(780 / stiffness(780, 900) - 620 / stiffness(620, 1000), 9);
    expect(alone?.wheelbase).toBeCloseTo(2.5, 9);
  });
});

describe('mass at both ends', () => {
  const CHEST = 110;
  const GENERATOR = 90;
  const loadedAt = (chest: number, generator: number) =>
    weekend({
      kerb: [1180, 940],
      ratings: [1300, 1300],
      tare: 3600,
      tourer: `fitting chest ${CHEST} kg at ${chest} mm back, 600 mm up
  fitting generator ${GENERATOR} kg at ${generator} mm back, 600 mm up`,
      rig: 'travel 90 km/h',
    });
  const share = (text: string) => read(text).value('Weekend', 'Tourer.coupling.share');

  test('is told of the same masses at the ends, not near the axle, although the coupling load is right in both', () => {
    const ends = loadedAt(500, 6300);
    const middle = loadedAt(3300, 3500);
    for (const text of [ends, middle]) expect(share(text)).toBeGreaterThan(0.04);
    for (const text of [ends, middle]) expect(share(text)).toBeLessThan(0.15);
    expect(keysOf(ends)).toContain('mass-at-both-ends');
    expect(keysOf(middle)).not.toContain('mass-at-both-ends');
    // Common practice, no source: mass at the ends lowers damping even when the coupling load looks right.
    const damping = (text: string) => stabilityOf(text).results[0]?.mode?.damping ?? 0;
    expect(damping(ends)).toBeLessThan(damping(middle));
  });

  test('inertia by hand, and who contributes', () => {
    const [found] = findingsOf(loadedAt(500, 6300));
    // About the axle at 3900 mm: 1700 + 800 · 0.3² + 110 · 3.4² + 90 · 2.4² = 3562 kg m²; √(3562/1000)/3.9 = 48.4 %.
    expect(found?.message).toContain('radius of gyration about its axles 48.4 % of the distance');
    expect(found?.message).toContain(
      'yaw inertia 3\u202f562 kg·m², most of it from Tourer.chest (110 kg) and Tourer.generator (90 kg)',
    );
    expect(found?.related[0]?.message).toBe('Tourer.chest (110 kg) makes 35.7 % of the yaw inertia');
  });

  test('a heavy nose alone is seen in the coupling load, and not called both ends', () => {
    expect(keysOf(loadedAt(300, 3900))).not.toContain('mass-at-both-ends');
  });
});

describe('what the lateral motion lacks', () => {
  test('a trailer that is all in one point', () => {
    const text = STABILITY['stability-not-computed'].example;
    const [found, ...others] = checkStability(stabilityOf(text, 'Delivery'));
    expect(others).toEqual([]);
    expect(found?.message).toBe(
      'The lateral stability of Delivery is not computed: the yaw inertia of Hauler comes to nothing: its masses are all in one point.',
    );
    expect(found?.related.map(({ message }) => message)).toEqual(['Hauler']);
  });

  test.each([
    ['no-axles', 'Tourer has no axle'],
    ['no-coupling', 'Tourer has no coupling'],
    ['stiffness-negative', 'the cornering stiffness of the tyres of axle 1 of Tourer is below zero'],
    ['zero-wheelbase', 'it has no wheelbase'],
    ['axle-at-coupling', 'right at its coupling'],
    ['overflow', 'so large or so small'],
    ['speed-out-of-range', 'at most 1 000 km/h'],
  ] as const)('%s is put in words', (problem, words) => {
    const stability = { ...stabilityOf(weekend({})), results: [], problem: { problem, unit: 1, axle: 0 } };
    expect(checkStability(stability).map(({ message }) => message)).toEqual([expect.stringContaining(words)]);
  });

  test('a speed that the travel line is told of already is not told twice', () => {
    const stability = {
      ...stabilityOf(weekend({})),
      results: [],
      speed: 400,
      problem: { problem: 'speed-out-of-range' } as const,
    };
    expect(checkStability(stability)).toEqual([]);
  });
});
