import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { globSync } from 'tinyglobby';
import { analyse, openDocument, type WorkspaceDocument } from '../../language/index.ts';
import type { FreeSource } from '../../language/semantics/envelope/free-source.ts';
import type { Reach } from '../../language/semantics/envelope/reach.ts';
import { stateWith, unitsWith } from '../../language/semantics/evaluate.ts';
import type { CaseModel, LevelRange, RigModel } from '../../language/semantics/model.ts';
import { sourcesOf, stowedIn } from '../../language/semantics/sources.ts';
import type { RigResult, StateResult } from '../../language/semantics/state.ts';
import { whole } from './draws.ts';

/** Even numbers from 0 to 1, the same for the same seed (mulberry32). */
export function chances(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The rigs of texts and their units alone, as far as they have loads. */
export function resultsOf(texts: Readonly<Record<string, string>>): RigResult[] {
  const documents = new Map<string, WorkspaceDocument>(
    Object.entries(texts).map(([name, text]) => [`file:///${name}`, { kind: 'text', syntax: openDocument(text) }]),
  );
  const analysis = analyse({ documents });
  return [...documents.keys()]
    .flatMap((uri) => analysis.entities(uri))
    .flatMap(({ entity }) => (entity?.kind === 'rig' || entity?.kind === 'unit' ? [entity.result] : []))
    .filter(({ motions }) => motions.length > 0);
}

/** All rigs of the samples and all their units alone. */
export function sampleResults(): RigResult[] {
  return resultsOf(Object.fromEntries(globSync('samples/*.rig').map((file) => [file, readFileSync(file, 'utf8')])));
}

const pickOf = <T>(chance: () => number, all: readonly T[]): T | undefined => all[Math.floor(chance() * all.length)];

/** Half of the levels at an end, where extremes mostly are. */
function levelIn(chance: () => number, least: number, most: number): number {
  const end = chance();
  return end < 0.25 ? least : end < 0.5 ? most : least + (most - least) * chance();
}

/** A case as the language would have it for levels, seats and items drawn from a reach, by the ends that its tanks have. */
export function randomCase({ result, free, case: only }: Reach, chance: () => number): CaseModel {
  const { rig } = result;
  const cases = only === undefined ? [...new Set(result.states.map((state) => state.case))] : [only];
  const [base] = cases;
  if (base === undefined) throw new Error(`${rig.name} has no case`);
  const levels = new Map<string, LevelRange>();
  const occupants: string[] = [];
  for (const source of free) {
    const ends = endsOfTank(source);
    if (ends !== undefined) {
      const value = levelIn(chance, ...ends);
      levels.set(source.name, { value, least: value, most: value, location: base.location });
    }
    if (source.kind === 'seat' && (pickOf(chance, source.choices) ?? []).length > 0) occupants.push(source.name);
  }
  const names = new Set(cases.flatMap((state) => stowedIn(rig, state).map(({ item }) => item.name)));
  const stowed = [...names].flatMap((name) => {
    const isLeft = only === undefined && rig.reachable?.items.has(name) === true && chance() < 0.5;
    const from = pickOf(chance, cases);
    return isLeft || from === undefined ? [] : stowedIn(rig, from).filter(({ item }) => item.name === name);
  });
  const absent = new Set(rig.stowed.map(({ item }) => item.name));
  return { name: 'drawn', levels, occupants, absent, stowed, location: base.location };
}

function endsOfTank({ choices, levelIn: level }: FreeSource): [number, number] | undefined {
  if (level === undefined) return undefined;
  const levels = choices.map(level);
  return [Math.min(...levels), Math.max(...levels)];
}

/** A case evaluated on level ground as the named cases are: from the model, past everything that the envelope knows. */
export function evaluateCase({ rig, motions: [loads] }: RigResult, state: CaseModel): StateResult {
  if (loads === undefined) throw new Error(`${rig.name} has no loads`);
  return stateOf(rig, loads, state);
}

function stateOf(rig: RigModel, loads: RigResult['motions'][number], state: CaseModel): StateResult {
  const sources = sourcesOf(rig, state);
  return stateWith(rig, loads, state, sources, unitsWith(rig, sources), `case ${state.name}`);
}

/** A rig as a text, with what is reachable in it stated apart so that it can be narrowed. */
export interface ReachableText {
  readonly text: (reachable: string) => string;
  /** Ranges of its tanks within those of the tanks themselves, wide and narrow: shares of 1. */
  readonly ranges: readonly { readonly tank: string; readonly wide: readonly [number, number] }[];
}

const SHAPES = [
  '',
  ', size 900 x 600 x 300 mm',
  ', size 300 x 400 x 1400 mm',
  ', lying diameter 400 mm, length 900 mm',
  ', diameter 500 mm, height 600 mm',
];

const tank = fc.record({
  litres: whole(20, 110),
  fluid: fc.constantFrom('water', 'diesel', 'grey_water'),
  back: whole(200, 4500),
  side: whole(-600, 600),
  shape: fc.constantFrom(...SHAPES),
  empty: whole(0, 12),
  tolerance: whole(0, 8),
  wide: fc.tuple(whole(0, 60), whole(0, 40)).map(([least, more]): [number, number] => [least, least + more]),
});

const sideWords = (side: number) => (side === 0 ? '' : `, ${Math.abs(side)} mm ${side > 0 ? 'left' : 'right'}`);

/** A truck with a trailer, both with tanks, seats and things to stow that differ between its cases; everything with tolerances. */
export const reachableText: fc.Arbitrary<ReachableText> = fc
  .record({
    tanks: fc.array(tank, { minLength: 1, maxLength: 4 }),
    tandem: fc.boolean(),
    tare: whole(600, 1500),
    tareBack: whole(2300, 2950),
    seat: whole(50, 120),
    items: fc.array(
      fc.record({ mass: whole(10, 150), back: whole(300, 4400), side: whole(-700, 700), absentIn: whole(0, 2) }),
      { minLength: 1, maxLength: 3 },
    ),
    levels: fc.array(whole(0, 100), { minLength: 4, maxLength: 4 }),
  })
  .map(({ tanks, tandem, tare, tareBack, seat, items, levels }) => {
    const ofTrailer = tanks.filter((_, index) => index % 2 === 0);
    const lines = (own: typeof tanks) =>
      own.map((each) => {
        const { litres, fluid, back, side, shape, empty, tolerance } = each;
        const size = shape === '' && empty === 0 ? '' : shape;
        return `  tank t${tanks.indexOf(each)} ${litres} L of ${fluid} at ${back} mm back${sideWords(side)}, 700 mm up${size}${empty > 0 ? `, empty ${empty} kg` : ''}${tolerance > 0 ? `, tolerance ${tolerance} %` : ''}`;
      });
    const units = `vehicle Truck {
  wheelbase 3200 mm, track 1680 mm
  kerb 1180 kg on front, 940 kg on rear, 680 mm up, inertia 4200 kg·m², tolerance 2 %
  hitch ball at 1150 mm behind rear, 430 mm up
  seat driver 80 kg at 1350 mm back, 400 mm right, 700 mm up
  seat mate ${seat} kg at 1350 mm back, 400 mm left, 700 mm up
  limits { GVM 2700 kg  GCM 4300 kg }
${lines(tanks.filter((each) => !ofTrailer.includes(each))).join('\n')}
}
trailer Hauler {
  coupling ball 50 mm, 430 mm up, rating 150 kg
  axles ${tandem ? 'tandem' : 'single'} at 3000 mm back, track 1500 mm${tandem ? ', spacing 800 mm, independent' : ''}, rating 1500 kg
  tare ${tare} kg at ${tareBack} mm ± 20 mm back, 520 mm ± 15 mm up, inertia 900 kg·m², tolerance 3 %
  fitting box 45 kg at 900 mm ± 10 mm back, 500 mm ± 5 mm left, 800 mm up, tolerance 2 kg
  brakes overrun
  limits { ATM 1800 kg }
${lines(ofTrailer).join('\n')}
}
${items.map(({ mass }, index) => `item thing${index} ${mass} kg tolerance ${Math.ceil(mass / 20)} kg`).join('\n')}
`;
    const unitOf = (each: (typeof tanks)[number]) => (ofTrailer.includes(each) ? 'Hauler' : 'Truck');
    const level = (share: (each: (typeof tanks)[number], index: number) => number) =>
      tanks.map((each, index) => `${unitOf(each)}.t${index} ${share(each, index)} %`).join('  ');
    const without = (which: number) =>
      items.flatMap(({ absentIn }, index) => (absentIn === which ? [`thing${index}`] : []));
    const absent = (which: number) => (without(which).length > 0 ? `  absent ${without(which).join(', ')}` : '');
    const inRange = ({ wide: [least, most] }: (typeof tanks)[number], at: number) =>
      Math.round(least + ((most - least) * at) / 100);
    return {
      ranges: tanks.map((each, index) => ({ tank: `${unitOf(each)}.t${index}`, wide: each.wide })),
      text: (reachable) => `${units}
rig Draw {
  tow Truck with driver
  haul Hauler
${items.map(({ back, side }, index) => `  stow thing${index} in Hauler at ${back} mm back${sideWords(side)}, 700 mm up`).join('\n')}
  case first { ${level((each, index) => inRange(each, levels[index] ?? 0))}${absent(1)} }
  case second { ${level((each, index) => inRange(each, levels[3 - index] ?? 100))}${absent(2)}
    occupants driver, mate }
  ${reachable}
  require Hauler.coupling.share between 2 % and 16 %
  require rig.mass_ratio at most 0.7
  require Hauler.axles.imbalance at most 8 %
  require Hauler.coupling.load at most 12 % * Hauler.mass
  require Truck.cg.up at most 900 mm
  require Truck.cg.left - Truck.cg.up between -705 mm and -695 mm
}
`,
    };
  });
