import type { CountedReference } from '../syntax/tree.ts';
import type { ReadStatement } from './arguments.ts';
import { readStatement, resolveSpec } from './arguments.ts';
import { findSeat, readCases } from './cases.ts';
import { type ReadingContext, readMeasured } from './measured.ts';
import type { Assumption, CaseModel, RigModel, Stowed, Travel, UnitModel } from './model.ts';
import { nameOf, namesOf, resolveEntity } from './names.ts';
import { type RequirementLine, readRequirements } from './requirements.ts';
import { assume, type Line, locate, report, type Scope } from './scope.ts';
import { specOf } from './specs.ts';
import { readStow } from './stow.ts';
import { readWeightDistribution } from './unit/limits.ts';

/** Markets whose terms and rules the language knows by name. */
export const MARKETS: readonly string[] = ['US', 'CA', 'AU', 'NZ', 'EU', 'UK', 'DE'];

/** A rig as read, and whether all its units can be computed. */
export interface ReadRig {
  readonly rig: RigModel;
  readonly computable: boolean;
}

/** Reads a `rig` declaration. */
export function readRig(header: Line, scope: Scope): ReadRig | undefined {
  const { statement } = header;
  const spec = specOf('file', 'rig');
  if (statement.name === undefined || spec === undefined) return undefined;
  const name = statement.name.text;
  const read = readStatement(header, spec, scope);
  const lines = sortLines(header, name, scope);
  const namesFor = (line: Line) => namesOf(scope, line, lines.lets);
  const contextFor = (line: Line): ReadingContext => ({ scope, line, names: namesFor(line) });

  const { units, complete } = readUnits(lines.of, header, name, scope);
  const occupants = lines.of
    .get('tow')
    ?.flatMap(({ read: tow }) =>
      (tow.names.get('with') ?? []).flatMap(({ reference }) => findSeat(reference, units, tow.line, scope) ?? []),
    );
  const stowed = (lines.of.get('stow') ?? []).flatMap(({ read: stow }) => readStow(stow, units, contextFor(stow.line)));
  const device = single(lines.of.get('weight_distribution'), (entry) =>
    readWeightDistribution(entry.read, contextFor(entry.read.line)),
  );
  const travel = single(lines.of.get('travel'), (entry) => readTravel(entry.read, contextFor(entry.read.line)));
  const cases = readCases(
    (lines.of.get('case') ?? []).map(({ read: { line } }) => line),
    units,
    scope,
    namesFor,
    stowed,
  );
  const requirements = readRequirements(
    (lines.of.get('require') ?? []).map(({ read: { line } }): RequirementLine => ({ line, names: namesFor(line) })),
    scope,
  );
  assumeAboutCases(scope, header, units, stowed, cases);
  const location = locate(header, statement.name);
  const rig: RigModel = {
    name,
    standalone: false,
    markets: readMarkets(read.names.get('in') ?? [], header, scope),
    units,
    occupants: occupants ?? [],
    stowed,
    cases,
    requirements,
    assumptions: [...scope.assumptions],
    location,
    ...(read.text ? { title: read.text.value } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
    ...(device ? { weightDistribution: device } : {}),
    ...(travel ? { travel } : {}),
  };
  return { rig, computable: complete && units.length > 0 && units.every(({ computable }) => computable) };
}

interface RigEntry {
  readonly read: ReadStatement;
}

interface RigLines {
  readonly of: ReadonlyMap<string, readonly RigEntry[]>;
  readonly lets: ReadonlyMap<string, Line>;
}

const ONCE: ReadonlySet<string> = new Set(['tow', 'travel', 'weight_distribution']);

function sortLines(header: Line, name: string, scope: Scope): RigLines {
  const of = new Map<string, RigEntry[]>();
  const lets = new Map<string, Line>();
  for (const statement of header.statement.block?.statements ?? []) {
    const line: Line = { ...header, statement };
    const spec = resolveSpec(line, 'rig', 'a rig', scope);
    if (spec === undefined) continue;
    if (spec.keyword === 'let') {
      if (statement.name !== undefined) lets.set(statement.name.text, line);
      continue;
    }
    const entries = of.get(spec.keyword) ?? [];
    if (ONCE.has(spec.keyword) && entries.length > 0) {
      report(scope, 'repeated-part', { part: `'${spec.keyword}'`, head: name }, locate(line, statement.head));
      continue;
    }
    entries.push({ read: readStatement(line, spec, scope) });
    of.set(spec.keyword, entries);
  }
  return { of, lets };
}

function single<T>(entries: readonly RigEntry[] | undefined, read: (entry: RigEntry) => T | undefined): T | undefined {
  const entry = entries?.[0];
  return entry && read(entry);
}

/** The vehicle and the trailers, from the front. `complete` is false when one of them cannot be had. */
function readUnits(
  of: RigLines['of'],
  header: Line,
  name: string,
  scope: Scope,
): { units: UnitModel[]; complete: boolean } {
  const units: UnitModel[] = [];
  let complete = true;
  const add = (object: CountedReference, line: Line, kind: 'vehicle' | 'trailer') => {
    const entity = resolveEntity(scope, line, object.reference, 'unit', kind);
    if (entity === undefined) complete = false;
    else if (entity.unit.kind !== kind) {
      complete = false;
      report(
        scope,
        'wrong-kind',
        { name: nameOf(object.reference), found: `a ${entity.unit.kind}`, wanted: `a ${kind}` },
        locate(line, object.reference),
      );
    } else if (units.some((unit) => unit.name === entity.unit.name)) {
      complete = false;
      report(scope, 'repeated-part', { part: nameOf(object.reference), head: name }, locate(line, object.reference));
    } else {
      const ahead = units[units.length - 1];
      checkJoint(ahead, entity.unit, line, object, scope);
      if (ahead !== undefined && ahead.hitch === undefined) complete = false;
      units.push(entity.unit);
    }
  };
  const tow = of.get('tow')?.[0];
  if (tow !== undefined) {
    const [vehicle, second] = tow.read.line.statement.objects;
    if (vehicle !== undefined) add(vehicle, tow.read.line, 'vehicle');
    if (second !== undefined)
      report(
        scope,
        'unexpected-part',
        { part: 'second vehicle', head: 'tow', accepted: 'one vehicle' },
        locate(tow.read.line, second),
      );
  }
  for (const { read } of of.get('haul') ?? [])
    for (const object of read.line.statement.objects) add(object, read.line, 'trailer');
  if (units.length === 0 && complete && !header.statement.broken && scope.findings.length === 0) {
    report(scope, 'nothing-to-tow', { rig: name }, locate(header, header.statement.name ?? header.statement.head));
  }
  return { units, complete };
}

function checkJoint(
  ahead: UnitModel | undefined,
  unit: UnitModel,
  line: Line,
  object: CountedReference,
  scope: Scope,
): void {
  if (ahead === undefined) return;
  if (ahead.hitch === undefined) {
    if (ahead.computable)
      report(scope, 'no-hitch', { unit: ahead.name, trailer: unit.name }, locate(line, object), [
        { location: ahead.location, message: `${ahead.name} is declared here.` },
      ]);
    return;
  }
  const coupling = unit.coupling?.kind;
  const mounted = ahead.hitch.kind;
  const fits =
    coupling === undefined ||
    coupling === mounted ||
    coupling === 'drawbar' ||
    (coupling === 'eye' && mounted === 'pin') ||
    (coupling === 'pin' && mounted === 'eye');
  if (!fits && unit.coupling !== undefined) {
    report(
      scope,
      'coupling-mismatch',
      { hitch: mounted, coupling, unit: ahead.name, trailer: unit.name },
      locate(line, object),
      [
        { location: ahead.hitch.location, message: `The hitch of ${ahead.name}.` },
        { location: unit.coupling.location, message: `The coupling of ${unit.name}.` },
      ],
    );
  }
}

function readMarkets(references: readonly CountedReference[], header: Line, scope: Scope): string[] {
  return references.flatMap(({ reference }) => {
    const market = nameOf(reference);
    if (MARKETS.includes(market)) return [market];
    report(
      scope,
      'unknown-name',
      { name: market, wanted: `market (${MARKETS.join(', ')})` },
      locate(header, reference),
    );
    return [];
  });
}

/** Grades beyond this are no roads; speeds beyond it no rigs. */
const STEEPEST = 1;
const FASTEST = 1000 / 3.6;

function readTravel(read: ReadStatement, context: ReadingContext): Travel | undefined {
  const { scope, line } = context;
  const [value] = read.values;
  const speed = value && readMeasured(value, { what: 'the speed', kinds: ['speed'], sign: 'positive' }, context);
  if (value !== undefined && speed !== undefined && speed.value > FASTEST) {
    report(
      scope,
      'out-of-range',
      { what: 'The speed', wanted: 'at most 1 000 km/h', found: `${Math.round(speed.value * 3.6)} km/h` },
      locate(line, value),
    );
  }
  const gradesValue = read.keywords.get('grades')?.[0];
  const grades =
    gradesValue &&
    readMeasured(gradesValue, { what: 'the grades', kinds: ['ratio'], sign: 'any', range: true }, context);
  const ends = grades === undefined ? [0] : [grades.value, grades.upTo ?? grades.value];
  if (gradesValue !== undefined && ends.some((grade) => Math.abs(grade) > STEEPEST)) {
    report(
      scope,
      'out-of-range',
      {
        what: 'A grade',
        wanted: 'between -100 % and 100 %',
        found: ends.map((grade) => `${Math.round(grade * 100)} %`).join(' to '),
      },
      locate(line, gradesValue),
    );
    return undefined;
  }
  const brakingValue = read.keywords.get('braking')?.[0];
  const braking =
    brakingValue &&
    readMeasured(brakingValue, { what: 'the braking', kinds: ['acceleration'], sign: 'not negative' }, context);
  return {
    down: Math.min(0, ...ends),
    up: Math.max(0, ...ends),
    location: locate(line, line.statement.head),
    ...(speed ? { speed: speed.value } : {}),
    ...(braking ? { braking: braking.value } : {}),
  };
}

/** Lists what the cases leave open: levels that nobody states, ranges shown at their middle, items in mid-locker. */
function assumeAboutCases(
  scope: Scope,
  header: Line,
  units: readonly UnitModel[],
  stowed: readonly Stowed[],
  cases: readonly CaseModel[],
): void {
  const at = locate(header, header.statement.name ?? header.statement.head);
  const tanks = units.flatMap((unit) =>
    unit.tanks.map((tank) => ({ name: `${unit.name}.${tank.name}`, stated: tank.level !== undefined })),
  );
  const open = tanks.filter(({ stated }) => !stated).map(({ name }) => name);
  if (cases.length === 0) {
    if (open.length > 0)
      assume(scope, `no case states the levels of ${open.join(', ')}: full taken`, 'rule of the language', at);
  }
  for (const state of cases) {
    const left = open.filter((name) => !state.levels.has(name));
    if (left.length > 0)
      assume(
        scope,
        `level of ${left.join(', ')} not stated in case ${state.name}: full taken`,
        'rule of the language',
        state.location,
      );
    const ranges = [...state.levels].filter(([, { least, most }]) => least < most);
    if (ranges.length > 0) {
      const list = ranges.map(([name, { value }]) => `${name} at ${Math.round(value * 1000) / 10} %`).join(', ');
      assume(
        scope,
        `case ${state.name} states ranges: loads are shown at their middle, ${list}`,
        'rule of the language',
        state.location,
      );
    }
  }
  if (stowed.some(({ locker }) => locker !== undefined)) {
    assume(
      scope,
      'items lie in the middle of their locker, on its floor, where their line states no place',
      'rule of the language',
      at,
      true,
    );
  }
}

/** A unit looked at alone, as a rig of its own. */
export function standaloneRig(unit: UnitModel, assumptions: readonly Assumption[] = []): RigModel {
  return {
    name: unit.name,
    standalone: true,
    markets: [],
    units: [unit],
    occupants: [],
    stowed: [],
    cases: unit.cases,
    requirements: unit.requirements,
    assumptions,
    location: unit.location,
    ...(unit.title !== undefined ? { title: unit.title } : {}),
    ...(unit.documentation !== undefined ? { documentation: unit.documentation } : {}),
  };
}
