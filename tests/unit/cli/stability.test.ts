import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { REACH } from '../../../language/diagnostics/reach.ts';
import { sensitivitiesOf } from '../../../language/semantics/stability/evaluate-stability.ts';
import { leastDampedResult, motionAt } from '../../../language/semantics/stability/motion-at.ts';
import { findInputs } from '../../../server/cli/inputs.ts';
import schema from '../../../server/cli/output.schema.json' with { type: 'json' };
import { findRigs } from '../../../server/cli/rigs.ts';
import { readSpeed, speedsAround } from '../../../server/cli/speed.ts';
import { renderStability } from '../../../server/cli/stability.ts';
import { stabilityJson } from '../../../server/cli/stability-json.ts';
import { plain } from '../../../server/cli/terminal.ts';
import { displayWidth } from '../../../server/cli/text.ts';
import { loadWorkspace } from '../../../server/cli/workspace.ts';
import { defined, SWAY, stabilityOf } from '../drawing/rigs.ts';
import { FLEET, ITEMS, SPARE } from './fleet.ts';
import { type Files, folderWith, rigwright } from './support.ts';

/** In every named case the tank at the tail is balanced by the one ahead. */
const TANKS = REACH['reach-stability'].example;
const FILES = { 'sway.rig': SWAY };

async function stability(files: Files, ...args: string[]) {
  const { out, ...rest } = await rigwright(await folderWith(files), ['stability', ...args]);
  return { ...rest, out: out.replaceAll('\u202f', ' ') };
}

interface ResultJson {
  readonly case: string;
  readonly road: { readonly kind: string; readonly brakes: string };
  readonly dampingRatio?: number;
  readonly folds: boolean;
  readonly zeroDampingSpeed: { readonly kind: string; readonly speed?: number };
}

interface OutputJson {
  readonly plots?: readonly string[];
  readonly caution: string;
  readonly stability: readonly {
    readonly name: string;
    readonly intendedSpeed?: number;
    readonly results: readonly ResultJson[];
    readonly leastDamped?: number;
    readonly leastDampedReachable?: {
      readonly sampled: boolean;
      readonly statesTried: number;
      readonly settled: boolean;
      readonly differences?: readonly string[];
      readonly result?: ResultJson;
    };
    readonly sensitivities: readonly {
      readonly name: string;
      readonly mass: number;
      readonly dampingRatio: Readonly<Record<string, number>>;
      readonly loads?: Readonly<Record<string, Readonly<Record<string, number>>>>;
    }[];
    readonly assumptions: readonly { readonly text: string }[];
  }[];
}

const ajv = new Ajv2020({ strict: true, allErrors: true });
const validate = ajv.compile<OutputJson>(schema);

async function json(files: Files, ...args: string[]): Promise<OutputJson> {
  const { out } = await rigwright(await folderWith(files), ['stability', ...args, '--format', 'json']);
  expect(out).not.toMatch(/null|NaN|Infinity/);
  const output: unknown = JSON.parse(out);
  if (!validate(output)) throw new Error(ajv.errorsText(validate.errors));
  return output;
}

describe('the table', () => {
  test('has the damping ratio of the model over speed and road, the intended speed marked', async () => {
    const { code, out, error } = await stability(FILES);
    expect({ code, error }).toMatchObject({ error: '' });
    expect(out).toMatch(
      /^rig Sway "Badly & <loaded>" {2}sway\.rig:16:5\n {2}intended speed 70 km\/h; at it the rig folds/,
    );
    const block = out.slice(out.indexOf('  case centred'));
    expect(block).toMatch(/damping ratio, Hz +braking +40 km\/h +60 km\/h +70 km\/h +80 km\/h\n +intended\n/);
    const result = defined(stabilityOf(SWAY).results.find((each) => each.label === 'case centred, on the level'));
    const [, row] = / {4}on the level +(.*)/.exec(block) ?? [];
    const cells = [40, 60, 70, 80].flatMap((speed) => {
      const { damping, frequency } = defined(motionAt(result, speed / 3.6)?.mode);
      return [damping.toFixed(3), frequency.toFixed(2)];
    });
    expect(row?.split(/ +/)).toEqual(cells);
  });

  test('has the roads as rows, the trailer braking and the vehicle alone', async () => {
    const { out } = await stability(FILES, '--case', 'centred');
    expect(out).not.toContain('case rear_heavy');
    expect(
      out.match(/^ {4}(on the level|up the 6 %|down the 8 %|braking at 6).*/gm)?.map((row) => row.slice(4, 32).trim()),
    ).toEqual(
      Array.from({ length: 2 }, () => [
        'on the level',
        'up the 6 % grade',
        'down the 8 % grade  all',
        'down the 8 % grade  vehicle',
        'braking at 6 m/s²   all',
        'braking at 6 m/s²   vehicle',
      ])
        .flat()
        .map((row) => expect.stringContaining(row)),
    );
  });

  test('says from which speed it sways or folds, and how it steers in deg/g', async () => {
    const { out } = await stability(FILES, '--case', 'centred');
    const result = defined(stabilityOf(SWAY).results.find((each) => each.label === 'case centred, on the level'));
    if (result.zeroDamping.kind !== 'at') throw new Error('it does not sway');
    const row = defined(out.match(/^ {4}on the level.*/gm)?.[1]);
    expect(row).toContain(`  ${Number((result.zeroDamping.speed * 3.6).toPrecision(3))} km/h  above 200 km/h`);
    // rad per m/s² to degrees per standard gravity (9.80665 m/s², exact).
    const gradient = (defined(result.handling).understeer * 9.80665 * 180) / Math.PI;
    expect(row).toContain(Math.abs(gradient) < 0.005 ? '0.00' : gradient.toFixed(2));
    expect(row).toMatch(/trailer swing$/);
  });

  test('fits into 100 columns, and in US units too', async () => {
    for (const units of ['metric', 'US']) {
      const { out } = await stability(FILES, '--units', units);
      expect(Math.max(...out.split('\n').map(displayWidth))).toBeLessThanOrEqual(100);
    }
    const { out } = await stability(FILES, '--units', 'US');
    expect(out).toMatch(/intended speed 43\.5 mph/); // 70/1.609344, exact mile
    expect(out).toMatch(/move 4 in +damping .*20 lb less/);
    expect(out).not.toMatch(/\d km\/h/);
  });

  test('looks at another speed where one is given', async () => {
    expect((await stability(FILES, '--speed', '50km/h')).out).toMatch(
      /intended speed 50 km\/h; at it|intended speed 50 km\/h; least damped at it in case rear_heavy/,
    );
    expect((await stability(FILES, '--speed', '31 mph')).out).toContain('intended speed 49.9 km/h');
  });

  test('tells the least damped of the reachable states that were tried, and that they are a sample', async () => {
    const { out } = await stability({ 'tanks.rig': TANKS });
    const told = out.replaceAll(/\s+/g, ' ');
    expect(told).toMatch(
      /of the reachable states \(sampled: \d+ states tried, others can be worse\) least damped with fresh 0 %, else as in case back, on the level: damping ratio 0\.09\d*, swing grows from [\d.]+ km\/h on/,
    );
    expect((await stability({ 'tanks.rig': TANKS }, '--case', 'back')).out).not.toContain('reachable states');
  });

  test('searches the reachable states at the speed asked for', async () => {
    const dampingAt = async (...args: string[]) => {
      const { out } = await stability({ 'tanks.rig': TANKS }, ...args);
      return Number(/reachable states .*?damping\s+ratio\s+(-?[\d.]+)/s.exec(out)?.[1]);
    };
    expect(await dampingAt('--speed', '60km/h')).toBeGreaterThan((await dampingAt()) + 0.02);
  });

  test('ranks what to move first by what it gains', async () => {
    const { out } = await stability(FILES, '--speed', '60km/h');
    const found = stabilityOf(SWAY.replace('70 km/h', '60 km/h'));
    const swinging = found.results.filter((result) => motionAt(result, found.speed)?.folds === false);
    const worst = defined(leastDampedResult({ ...found, results: swinging }));
    const { damping } = defined(
      sensitivitiesOf(worst, found.speed).find(({ source }) => source.name === 'lead in Box.tail'),
    );
    const block = out.slice(out.indexOf('what to move first'));
    expect(block).toContain(`in ${worst.label.slice(0, 40)}`);
    const [, moved, lighter] = /lead in Box\.tail +150 kg +ahead +(\S+) .*?(\S+)\n/.exec(block) ?? [];
    expect(Number(moved)).toBeCloseTo(damping.x * 0.1, 4);
    expect(Number(lighter)).toBeCloseTo(-damping.mass * 10, 4);
    expect(Number(moved)).toBeGreaterThan(0);
  });

  test('moves items and tanks rather than what is built in', async () => {
    const lines =
      'tank fresh 60 L of water at 4500 mm back, 500 mm up\n  fitting beam 60 kg at 5500 mm back, 400 mm up';
    const fitted = { 'sway.rig': SWAY.replace('brakes overrun', `${lines}\n  brakes overrun`) };
    const { out } = await stability(fitted, '--speed', '45km/h', '--case', 'rear_heavy');
    const block = out.slice(out.indexOf('what to move first'), out.indexOf('assumptions'));
    const names = [...block.matchAll(/^ {4}(\S+(?: in \S+)?) {2,}\d/gm)].map(([, name]) => name);
    expect(names.slice(0, 2).toSorted()).toEqual(['lead in Box.tail', 'tin in Box.middle']);
    expect(names[2]).toBe('Box.fresh');
    expect(block).not.toContain('Box.beam');
  });

  test('of a rig that folds helps against that before the damping', async () => {
    const { out } = await stability(FILES);
    const block = out.slice(out.indexOf('what to move first'), out.indexOf('assumptions')).replace(/\s+/g, ' ');
    expect(block).toMatch(
      / in case [^:]*: Moving .* raises the speed it folds from to \d+ km\/h.* \(for its damping alone:/,
    );
    const us = (await stability(FILES, '--units', 'US')).out.replace(/\s+/g, ' ');
    expect(us).toMatch(/raises the speed it folds from to \d+ mph/);
  });

  test('says how far the first instability of a case is from the intended speed', async () => {
    const { results, speed } = stabilityOf(SWAY);
    const { out } = await stability(FILES, '--case', 'centred');
    const lowest = Math.min(
      ...results
        .filter(({ state }) => state.case.name === 'centred')
        .flatMap(({ zeroDamping, divergence }) =>
          [zeroDamping, divergence].map((each) => (each.kind === 'at' ? each.speed : Number.POSITIVE_INFINITY)),
        ),
    );
    const [, does, by, side] =
      /margin: (folds|swing grows) from (\d+) km\/h (below|above) the intended speed on/.exec(out) ?? [];
    expect(does).toBe('folds');
    expect((side === 'below' ? -1 : 1) * Number(by)).toBe(Math.round((lowest - speed) * 3.6));
    expect((await stability(FILES, '--case', 'centred', '--speed', '20km/h')).out).toContain(
      'above the intended speed on',
    );
  });

  test('explains grades and braking where there are any', async () => {
    const note = 'the load shift can outweigh. Braking takes none';
    expect((await stability(FILES)).out.replace(/\s+/g, ' ')).toContain(note);
    expect((await json(FILES)).caution).toContain(note);
    const level = { 'sway.rig': SWAY.replace(', grades -8 % to 6 %, braking 6 m/s²', '') };
    expect((await stability(level)).out.replace(/\s+/g, ' ')).not.toContain(note);
    expect((await json(level)).caution).not.toContain(note);
  });

  test('lists what is assumed, and the cautions', async () => {
    const { out } = await stability(FILES);
    expect(out).toMatch(/- cornering stiffness of the tyres of Van\.front not stated/);
    const text = out.replace(/\s+/g, ' ');
    expect(text).toContain('Compare layouts with it, never take a speed from it as safe.');
    expect(text).toContain('grows with the square of speed');
    expect(text).toContain('prevail over these figures.');
  });

  test('of what tows nothing, or has no loads, says so', async () => {
    const solo = { ...FILES, 'solo.rig': 'use "sway.rig"\nrig Solo {\n  tow Van\n}\n' };
    expect((await stability(solo, '--rig', 'Solo')).out).toMatch(
      /^rig Solo .*\n\n {2}It tows nothing, so nothing can sway\.\n/,
    );
    expect((await stability({ 'spare.rig': SPARE })).out).toMatch(/^no rig in these files\n/);
    expect((await stability({ 'spare.rig': SPARE }, '--rig', 'Spare')).out).toMatch(/It tows nothing/);
    expect((await stability({ 'items.rig': ITEMS })).out).toMatch(/^no rig in these files\n/);
    const broken = { 'sway.rig': SWAY.replace('3600 mm back', 'sideways') };
    expect((await stability(broken)).out).toMatch(/No stability: `rigwright check` says what is missing/);
  });

  test('says why nothing could be computed, and of which unit', async () => {
    const folder = await folderWith(FILES);
    const workspace = await loadWorkspace(await findInputs(['sway.rig'], folder), folder);
    const found = defined(findRigs(workspace)[0]);
    const { problem: _, ...computed } = stabilityOf(SWAY);
    const failed = { ...computed, results: [], problem: { problem: 'axle-at-coupling', unit: 1 } } as const;
    const lines = renderStability([{ found, stability: failed, sensitivities: [], moves: [] }], {
      units: 'metric',
      paint: plain,
      width: 100,
    });
    expect(lines.join('\n')).toContain('No stability, axle at coupling (Box): `rigwright check` tells more.');
    expect(stabilityJson({ found, stability: failed, sensitivities: [], moves: [] })).toMatchObject({
      problem: 'axle-at-coupling',
      results: [],
    });
  });

  test('ends as the other commands do', async () => {
    expect((await stability(FLEET)).code).toBe(0);
    expect((await stability({ ...FLEET, 'bad.rig': 'item awning 38 kgg\n' })).code).toBe(1);
    expect((await stability({ ...FLEET, 'bad.rig': Buffer.from([0xff]) })).code).toBe(2);
    expect(await stability(FLEET, '--rig', 'Erand')).toMatchObject({ code: 2, out: '' });
    expect(await stability(FLEET, '--case', 'holiday')).toMatchObject({ code: 2, out: '' });
  });
});

describe('a speed', () => {
  test.each([
    ['100km/h', 100 / 3.6],
    ['100 km/h', 100 / 3.6],
    ['62mph', 62 * 0.44704], // exact; NIST SP 811
    ['27.5 m/s', 27.5],
  ])('%s', (text, speed) => {
    expect(readSpeed(text)).toBeCloseTo(speed, 12);
  });

  test.each(['', '100', 'fast', '100 kg', '0 km/h', '1001 km/h', '-5 km/h', '100 km/hh', '1/0 km/h'])(
    'not "%s"',
    async (text) => {
      expect(readSpeed(text)).toEqual({ problem: expect.stringMatching(/^a speed /) });
      const { code, out, error } = await stability(FILES, `--speed=${text}`);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(error).toMatch(/^rigwright: --speed .*: a speed /);
    },
  );

  test('stands among round ones', () => {
    const around = (speed: number) => speedsAround(speed / 3.6, 20 / 3.6).map((each) => Math.round(each * 36) / 10);
    expect(around(100)).toEqual([60, 80, 100, 120]);
    expect(around(90)).toEqual([60, 80, 90, 100]);
    expect(around(104.6)).toEqual([60, 80, 104.6, 120]);
    expect(around(15)).toEqual([15, 40]);
    expect(around(1000)).toEqual([960, 980, 1000]);
  });
});

describe('JSON', () => {
  test('has every case on every road with the figures of the model, as the schema says', async () => {
    const { stability: rigs, caution, plots } = await json(FILES);
    const expected = stabilityOf(SWAY);
    const rig = defined(rigs[0]);
    expect(rig).toMatchObject({ name: 'Sway', intendedSpeed: expect.closeTo(70 / 3.6, 12) });
    expect(rig.results).toHaveLength(expected.results.length);
    for (const [i, result] of rig.results.entries()) {
      const own = defined(expected.results[i]);
      expect(result).toMatchObject({
        case: own.state.case.name,
        road: { kind: own.scenario.kind, brakes: own.scenario.brakes },
      });
      expect(result.dampingRatio).toBe(own.mode?.damping);
      expect(result.zeroDampingSpeed).toEqual(own.zeroDamping);
    }
    expect(defined(rig.results[defined(rig.leastDamped)]).folds).toBe(true);
    expect(rig.sensitivities.map(({ name }) => name)).toContain('lead in Box.tail');
    expect(rig.assumptions.some(({ text }) => text.startsWith('cornering stiffness of the tyres of Box.axles'))).toBe(
      true,
    );
    expect(caution).toContain('never take a speed from it as safe');
    expect(plots).toBeUndefined();
  });

  test('has the least-damped reachable state that was found, as the schema says', async () => {
    const [rig] = (await json({ 'tanks.rig': TANKS })).stability;
    const reached = defined(rig?.leastDampedReachable);
    expect(reached).toMatchObject({ sampled: true, settled: true, differences: ['fresh 0 %'] });
    expect(reached.statesTried).toBeGreaterThan(1);
    const named = defined(rig).results.map(({ dampingRatio }) => defined(dampingRatio));
    expect(reached.result?.case).toBe('back');
    expect(defined(reached.result?.dampingRatio)).toBeLessThan(Math.min(...named));
    const [some] = (await json({ 'tanks.rig': TANKS }, '--case', 'back')).stability;
    expect(some?.leastDampedReachable).toBeUndefined();
  });

  test('has what each mass does to the loads of coupling and axles', async () => {
    const [rig] = (await json(FILES, '--speed', '45km/h')).stability;
    const lead = defined(rig?.sensitivities.find(({ name }) => name === 'lead in Box.tail'));
    const loads = defined(lead.loads);
    // Levers by hand: 5750 mm behind the coupling, axle at 3600 mm; hitch 900 mm behind a wheelbase of 2600 mm.
    const coupling = 1 - 5750 / 3600;
    expect(loads['Box.coupling.load']?.perKilogram).toBeCloseTo(coupling, 12);
    expect(loads['Box.coupling.load']?.perMetreForward).toBeCloseTo(lead.mass / 3.6, 9);
    expect(loads['Box.axles.load']?.perKilogram).toBeCloseTo(5750 / 3600, 12);
    expect(loads['Van.rear.load']?.perKilogram).toBeCloseTo((coupling * 3500) / 2600, 12);
    expect(loads['Van.front.load']?.perKilogram).toBeCloseTo((-coupling * 900) / 2600, 12);
  });

  test('of a rig that tows nothing, or at an absurd speed, is as the schema says', async () => {
    const solo = { 'solo.rig': `${SWAY}rig Solo {\n  tow Van\n}\n` };
    expect((await json(solo, '--rig', 'Solo')).stability[0]).toMatchObject({ name: 'Solo', results: [] });
    expect((await json(FILES, '--speed', '999km/h')).stability).toHaveLength(1);
    const extreme = { 'sway.rig': SWAY.replace('900 kg at 3500', '1e300 kg at 3500') };
    expect((await json(extreme)).stability).toHaveLength(1);
  });
});
