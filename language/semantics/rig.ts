import { classesDiffer } from '../catalogue/coupling-classes.ts';
import { MARKETS, type MarketName, marketNamed, nearestMarket } from '../catalogue/markets.ts';
import type { Location } from '../diagnostics/finding.ts';
import type { CountedReference } from '../syntax/tree.ts';
import { formatLength } from '../units/display.ts';
import type { ReadStatement } from './arguments.ts';
import { readStatement, resolveSpec } from './arguments.ts';
import { assumeAboutCases } from './case-assumptions.ts';
import { findSeat, readCases } from './cases.ts';
import { assumeLeftOut } from './left-out.ts';
import type { ReadingContext } from './measured.ts';
import type { Coupling, RigModel, UnitModel } from './model.ts';
import { addLet, nameOf, namesOf, resolveEntity, settleLets } from './names.ts';
import { readReachable } from './reachable.ts';
import { type RequirementLine, readRequirements } from './requirements.ts';
import { readRuleLines } from './rule-lines.ts';
import { type Line, locate, report, type Scope } from './scope.ts';
import { specOf } from './specs.ts';
import { readStow } from './stow.ts';
import { readTravel } from './travel.ts';
import { readWeightDistribution } from './unit/limits.ts';
import { readWeighings } from './weighing/read-weighing.ts';

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

  settleLets(scope, lines.lets);
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
  const reachable = single(lines.of.get('reachable'), ({ read: { line } }) =>
    readReachable(line, units, scope, namesFor, [...stowed, ...cases.flatMap((each) => each.stowed)]),
  );
  const requirements = readRequirements(
    (lines.of.get('require') ?? []).map(({ read: { line } }): RequirementLine => ({ line, lets: lines.lets })),
    scope,
  );
  assumeAboutCases(scope, header, units, stowed, cases);
  const slips = (lines.of.get('weighing') ?? []).map(({ read: { line } }) => line);
  const weighings = complete ? readWeighings(slips, { units, cases, scope, namesFor }) : [];
  const computable = complete && units.length > 0 && units.every((unit) => unit.computable);
  if (computable) assumeLeftOut(scope, header, lines.all);
  const location = locate(header, statement.name);
  const rig: RigModel = {
    name,
    standalone: false,
    markets: readMarkets(read.names.get('in') ?? [], header, scope),
    units,
    occupants: occupants ?? [],
    stowed,
    cases,
    weighings,
    requirements,
    assumptions: [...scope.assumptions],
    location,
    levels: readRuleLines(lines.rules, scope),
    ...(read.text ? { title: read.text.value } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
    ...(device ? { weightDistribution: device } : {}),
    ...(travel ? { travel } : {}),
    ...(reachable ? { reachable } : {}),
  };
  return { rig, computable };
}

interface RigEntry {
  readonly read: ReadStatement;
}

interface RigLines {
  readonly all: readonly Line[];
  readonly of: ReadonlyMap<string, readonly RigEntry[]>;
  readonly lets: ReadonlyMap<string, Line>;
  readonly rules: readonly Line[];
}

const ONCE: ReadonlySet<string> = new Set(['tow', 'travel', 'weight_distribution', 'reachable']);

function sortLines(header: Line, name: string, scope: Scope): RigLines {
  const of = new Map<string, RigEntry[]>();
  const lets = new Map<string, Line>();
  const rules: Line[] = [];
  const all = (header.statement.block?.statements ?? []).map((statement): Line => ({ ...header, statement }));
  for (const line of all) {
    const { statement } = line;
    const spec = resolveSpec(line, 'rig', 'a rig', scope);
    if (spec === undefined) continue;
    if (spec.keyword === 'let') {
      addLet(lets, line, scope);
      continue;
    }
    if (spec.keyword === 'rule') {
      rules.push(line);
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
  return { all, of, lets, rules };
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
    if (object.count !== undefined) {
      const { head } = line.statement;
      const accepted = 'each unit once; units of the same make are variants of each other';
      report(scope, 'unexpected-part', { part: 'count', head: head.text, accepted }, locate(line, object.count));
    }
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
  if (unit.coupling === undefined) return;
  checkClasses(ahead, unit, locate(line, object), scope);
  if (fitsTogether(ahead.hitch, unit.coupling)) return;
  report(
    scope,
    'coupling-mismatch',
    {
      hitch: describeCoupling(ahead.hitch),
      coupling: describeCoupling(unit.coupling),
      unit: ahead.name,
      trailer: unit.name,
    },
    locate(line, object),
    [
      { location: ahead.hitch.location, message: `The hitch of ${ahead.name}.` },
      { location: unit.coupling.location, message: `The coupling of ${unit.name}.` },
    ],
  );
}

/** Classes of UN R55 count where both halves are marked with one. */
function checkClasses(ahead: UnitModel, unit: UnitModel, location: Location, scope: Scope): void {
  const hitch = ahead.hitch?.marks?.class;
  const coupling = unit.coupling?.marks?.class;
  if (hitch?.text !== 'UN R55' || coupling?.text !== 'UN R55') return;
  const problem = classesDiffer(hitch, coupling);
  if (problem === undefined) return;
  const parameters = {
    unit: ahead.name,
    trailer: unit.name,
    hitch: hitch.marking,
    coupling: coupling.marking,
    problem,
  };
  report(scope, 'coupling-classes-differ', parameters, location, [
    { location: hitch.location, message: `Class of the hitch of ${ahead.name}.` },
    { location: coupling.location, message: `Class of the coupling of ${unit.name}.` },
  ]);
}

/** Pins take eyes; a drawbar does not say what ends it; sizes count where both halves state one. */
function fitsTogether(hitch: Coupling, coupling: Coupling): boolean {
  const kinds = [hitch.kind, coupling.kind].sort().join(' ');
  const sameKind = hitch.kind === coupling.kind || coupling.kind === 'drawbar' || kinds === 'eye pin';
  const sized = hitch.size !== undefined && coupling.size !== undefined;
  return sameKind && (!sized || Math.abs((hitch.size ?? 0) - (coupling.size ?? 0)) < SAME_SIZE);
}

/** m; less than the step between sizes in use, more than a rounded inch. */
const SAME_SIZE = 1e-3;

function describeCoupling({ kind, size }: Coupling): string {
  return size === undefined ? kind : `${kind} ${formatLength(size)}`;
}

function readMarkets(references: readonly CountedReference[], header: Line, scope: Scope): MarketName[] {
  return references.flatMap(({ reference }) => {
    const name = nameOf(reference);
    const market = marketNamed(name);
    if (market !== undefined) return [market.name];
    const nearest = nearestMarket(name)?.name;
    report(
      scope,
      'unknown-name',
      { name, wanted: `market (${MARKETS.map((each) => each.name).join(', ')})`, ...(nearest ? { nearest } : {}) },
      locate(header, reference),
    );
    return [];
  });
}
