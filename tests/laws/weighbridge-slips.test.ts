import { readFileSync } from 'node:fs';
import path from 'node:path';
import { globSync } from 'tinyglobby';
import { describe, expect, test } from 'vitest';
import { type Analysis, analyse, openDocument, type WorkspaceDocument } from '../../language/index.ts';
import type { RigModel } from '../../language/semantics/model.ts';
import { jointWeighingOf, weighingsOf } from '../../language/semantics/results.ts';

/**
 * Slips made from the computed loads of every rig of the samples, written into its text: whatever the rig, they must
 * give the file back.
 */

const FOLDER = 'file:///fleet/';
const SAMPLES = new Map(
  globSync('*.rig', { cwd: 'samples' }).map((file) => [
    `${FOLDER}${file}`,
    readFileSync(path.join('samples', file), 'utf8'),
  ]),
);

function analysisOf(texts: ReadonlyMap<string, string>): Analysis {
  const documents = new Map<string, WorkspaceDocument>();
  for (const [uri, text] of texts) documents.set(uri, { kind: 'text', syntax: openDocument(text) });
  return analyse({ documents });
}

/** Every reading there can be of a rig coupled up and of its units alone, each exactly as `value` gives it. */
function slipOf(rig: RigModel, value: (pass: string, name: string) => number): string {
  const supports = (index: number): string[] => {
    const unit = rig.units[index];
    if (unit === undefined) return [];
    const carried = unit.coupling !== undefined && unit.coupling.kind !== 'drawbar';
    const sides = unit.groups.flatMap(({ name }) => [`${name}.left`, `${name}.right`]);
    return [...(carried ? ['coupling'] : []), ...sides].map((support) => `${unit.name}.${support}`);
  };
  const lines = (pass: string, names: readonly string[]) =>
    names.map((name) => `${name} ${value(pass, name)} kg`).join('\n');
  const alone = rig.units.map((unit, index) => `solo ${unit.name} {\n${lines(unit.name, supports(index))}\n}`);
  const coupled = rig.units.flatMap((_, index) => supports(index));
  const [first] = rig.cases;
  return `weighing law ${first === undefined ? '' : `in ${first.name}`} {\naccuracy 1 kg\n${lines('', coupled)}\n${alone.join('\n')}\n}\n`;
}

/** The samples with a slip at the end of a rig. */
function withSlip(uri: string, rig: RigModel, slip: string): ReadonlyMap<string, string> {
  const { declaration } = rig.location;
  const text = SAMPLES.get(uri) ?? '';
  const end = text.indexOf(declaration.text) + (declaration.statement?.block?.end ?? 0) - 1;
  return new Map([...SAMPLES, [uri, `${text.slice(0, end)}${slip}${text.slice(end)}`]]);
}

const rigs = [...SAMPLES.keys()].flatMap((uri) =>
  analysisOf(SAMPLES)
    .entities(uri)
    .flatMap(({ entity }) =>
      entity?.kind === 'rig' && entity.rig.units.length > 1 ? [[entity.rig.name, uri, entity.rig] as const] : [],
    ),
);

/** The result of the slip written into a rig, and what is found. */
function weigh(uri: string, name: string, texts: ReadonlyMap<string, string>) {
  const analysis = analysisOf(texts);
  const entity = analysis
    .entities(uri)
    .find(({ entity: each }) => each?.kind === 'rig' && each.rig.name === name)?.entity;
  if (entity?.kind !== 'rig') throw new Error(`no rig ${name}`);
  const slip = weighingsOf(entity.rig).find(({ weighing }) => weighing.name === 'law');
  if (slip === undefined) throw new Error('no slip');
  const { span } = slip.weighing.location;
  const diagnostics = analysis
    .diagnostics(uri)
    .filter(({ code, message }) => /^RW95/.test(code) && message.includes('law'));
  return { slip, diagnostics, span };
}

test('there are rigs to weigh', () => {
  expect(rigs.length).toBeGreaterThan(5);
});

describe.each(rigs)('a slip of %s', (name, uri, rig) => {
  /** What is computed for each reading, from a slip that reads anything. */
  const { slip: blank } = weigh(
    uri,
    name,
    withSlip(
      uri,
      rig,
      slipOf(rig, () => 1),
    ),
  );
  const computed = new Map(
    blank.readings.map(({ pass, reading, predicted }) => [
      `${pass.unit === undefined ? '' : rig.units[pass.unit]?.name} ${reading.name}`,
      predicted,
    ]),
  );
  const exact = (pass: string, reading: string) => computed.get(`${pass} ${reading}`) ?? Number.NaN;

  test('rounded to the division of its scale agrees', () => {
    const rounded = slipOf(rig, (pass, reading) => 10 * Math.round(exact(pass, reading) / 10)).replace(
      'accuracy 1 kg',
      'scale 10 kg',
    );
    const { slip, diagnostics } = weigh(uri, name, withSlip(uri, rig, rounded));
    expect(diagnostics.map(({ message }) => message)).toEqual([]);
    for (const { mass } of slip.tares)
      expect(Math.abs(mass.value - mass.filed)).toBeLessThan(4 * (mass.standardError ?? 0));
  });

  test('as computed finds nothing, and gives the tares back', () => {
    const { slip, diagnostics } = weigh(uri, name, withSlip(uri, rig, slipOf(rig, exact)));
    expect(diagnostics.map(({ message }) => message)).toEqual([]);
    expect(slip.readings.every(({ verdict }) => verdict === 'agrees')).toBe(true);
    for (const { of, mass, x, y } of slip.tares) {
      expect(mass.standardError, of.name).toBeGreaterThan(0);
      expect(mass.value).toBeCloseTo(mass.filed, 4);
      expect(x.value).toBeCloseTo(x.filed, 5);
      expect(y.value).toBeCloseTo(y.filed, 5);
    }
  });
});

describe.each(rigs)('slips of %s, one for each case and one of the units', (name, uri, rig) => {
  const cases = rig.cases.length === 0 ? [undefined] : rig.cases;
  const heads = cases.map((each) => (each === undefined ? '' : ` in ${each.name}`));
  const carried = (index: number) => {
    const { coupling, groups } = rig.units[index] ?? { groups: [] };
    const own = coupling !== undefined && coupling.kind !== 'drawbar' ? ['coupling'] : [];
    return [...own, ...groups.map((group) => group.name)];
  };
  const coupled = rig.units.flatMap((unit, index) => carried(index).map((support) => `${unit.name}.${support}`));
  /** The first slip has the other cases as further passes; the second one the units by themselves. */
  const slips = (value: (state: string, pass: string, reading: string) => number): string => {
    const lines = (state: string, pass: string, names: readonly string[]) =>
      names.map((each) => `${each} ${value(state, pass, each)} kg`).join('\n');
    const [first = '', ...others] = heads;
    const passes = others.map((head) => `coupled${head} {\n${lines(head, '', coupled)}\n}`).join('\n');
    const alone = rig.units.map((unit, index) => `solo ${unit.name} {\n${lines(first, unit.name, carried(index))}\n}`);
    return `weighing law${first} {\naccuracy 1 kg\n${lines(first, '', coupled)}\n${passes}\n}\nweighing law_alone${first} {\naccuracy 2 kg\n${alone.join('\n')}\n}\n`;
  };

  test('as computed agree, and give the tares back together', () => {
    const resultOf = (text: string) => {
      const found = analysisOf(withSlip(uri, rig, text))
        .entities(uri)
        .find(({ entity }) => entity?.kind === 'rig' && entity.rig.name === name)?.entity;
      if (found?.kind !== 'rig') throw new Error(`no rig ${name}`);
      return found.rig;
    };
    const computed = new Map(
      weighingsOf(resultOf(slips(() => 1))).flatMap(({ readings }) =>
        readings.map(({ pass, reading, predicted }) => {
          const state = pass.case === undefined || rig.cases.length === 0 ? '' : ` in ${pass.case}`;
          const unit = pass.unit === undefined ? '' : rig.units[pass.unit]?.name;
          return [
            `${state}|${unit}|${pass.unit === undefined ? reading.name : reading.name.replace(`${unit}.`, '')}`,
            predicted,
          ];
        }),
      ),
    );
    const exact = resultOf(slips((state, pass, reading) => computed.get(`${state}|${pass}|${reading}`) ?? Number.NaN));
    const joint = jointWeighingOf(exact);
    expect(joint?.slips.map(({ weighing }) => weighing.name)).toEqual(expect.arrayContaining(['law', 'law_alone']));
    expect(joint?.disagreement).toBeUndefined();
    const own = rig.weighings.length === 0;
    for (const { of, mass, x } of joint?.tares ?? []) {
      expect(mass.standardError, of.name).toBeGreaterThan(0);
      // A slip that the sample has itself is rounded to the division of its scale.
      expect(Math.abs(mass.value - mass.filed)).toBeLessThan(own ? 1e-6 : 3 * (mass.standardError ?? 0));
      expect(Math.abs(x.value - x.filed)).toBeLessThan(own ? 1e-6 : 3 * (x.standardError ?? 0));
    }
  });
});

/** Trailers alone stand as they do coupled only without a device between the units. */
const open = rigs.filter(
  ([, , rig]) => rig.weightDistribution === undefined && rig.units.at(-1)?.groups[0]?.name === 'axles',
);

describe.each(open)('what the last trailer of %s carries without being listed', (name, uri, rig) => {
  test('is found, with its place', () => {
    const last = rig.units.at(-1);
    const home = [...SAMPLES].find(([, text]) => last !== undefined && text.includes(last.location.declaration.text));
    if (last === undefined || home === undefined) throw new Error('no trailer');
    const [homeUri, text] = home;
    const { declaration } = last.location;
    const end = text.indexOf(declaration.text) + (declaration.statement?.block?.end ?? 0) - 1;
    const stowaway = 'fitting stowaway 50 kg at 300 mm ahead of axles, 500 mm left, 700 mm up\n';
    const loaded = analysisOf(new Map([...SAMPLES, [homeUri, `${text.slice(0, end)}${stowaway}${text.slice(end)}`]]));
    const entity = loaded
      .entities(uri)
      .find(({ entity: each }) => each?.kind === 'rig' && each.rig.name === name)?.entity;
    if (entity?.kind !== 'rig') throw new Error('no rig');
    const quantities = entity.result.states[0]?.quantities;
    const read = (reading: string) =>
      quantities?.get(reading.endsWith('.coupling') ? `${reading}.load` : reading)?.value ?? Number.NaN;
    const readings = ['coupling', 'axles.left', 'axles.right'].map((support) => `${last.name}.${support}`);
    const lines = readings.map((reading) => `${reading} ${read(reading)} kg`).join('\n');
    const [first] = rig.cases;
    const slip = `weighing law in ${first?.name} {\naccuracy 1 kg\nsolo ${last.name} {\n${lines}\n}\n}\n`;
    const { slip: result, diagnostics } = weigh(uri, name, withSlip(uri, rig, slip));
    const tare = (units: RigModel['units']) => units.at(-1)?.parts.reduce((sum, { body }) => sum + body.mass, 0) ?? 0;
    // A growth allowance adds to the stowaway too.
    const change = tare(entity.rig.units) - tare(rig.units);
    const found = result.tares.find(({ of }) => of.name === last.name)?.unlisted;
    expect(change).toBeGreaterThanOrEqual(50);
    expect(found?.mass.value).toBeCloseTo(change, 4);
    expect(found?.mass.standardError).toBeGreaterThanOrEqual(Math.sqrt(3));
    if (change === 50) {
      expect(found?.x?.value).toBeCloseTo((last.groups[0]?.x ?? 0) + 0.3, 4);
      expect(found?.y?.value).toBeCloseTo(0.5, 4);
    }
    // What was not there when the slips of the sample were written is a change since then.
    const others = rig.weighings.length > 0 ? ['slips-disagree'] : [];
    expect(diagnostics.map(({ key }) => key)).toEqual(['slip-disagrees', ...others]);
  });
});
