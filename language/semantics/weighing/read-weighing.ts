import type { Statement } from '../../syntax/tree.ts';
import { type ReadStatement, readStatement, resolveSpec } from '../arguments.ts';
import { type Line, locate, report } from '../scope.ts';
import { specOf } from '../specs.ts';
import { coupledPlace, type PassPlace, passPlace } from './pass-place.ts';
import { readReadings } from './read-readings.ts';
import { readScale } from './scale.ts';
import { reportImpossible } from './sums.ts';
import { type CaseOf, readCaseOf, type WeighedRig } from './weighed-rig.ts';
import {
  MOST_READINGS,
  type PassModel,
  type ReadingModel,
  type ScaleAccuracy,
  type WeighingModel,
} from './weighing-model.ts';

/**
 * Reads the `weighing` blocks of a rig or a unit. Of those with errors what is left is kept, if there are readings
 * left.
 */
export function readWeighings(lines: readonly Line[], rig: WeighedRig): WeighingModel[] {
  const weighings = new Map<string, WeighingModel>();
  const first = new Map<string, Line>();
  const spec = specOf('rig', 'weighing');
  for (const line of lines) {
    const { name } = line.statement;
    if (name === undefined || spec === undefined) continue;
    const before = first.get(name.text)?.statement.name;
    if (before !== undefined) {
      report(rig.scope, 'duplicate-name', { name: name.text, other: 'weighing' }, locate(line, name), [
        { location: locate(line, before), message: 'The first one.' },
      ]);
      continue;
    }
    first.set(name.text, line);
    const weighing = readWeighing(line, readStatement(line, spec, rig.scope), rig);
    if (weighing !== undefined) weighings.set(name.text, weighing);
  }
  return [...weighings.values()];
}

function readWeighing(line: Line, read: ReadStatement, rig: WeighedRig): WeighingModel | undefined {
  const { statement } = line;
  const { name } = statement;
  if (name === undefined) return undefined;
  const what = `weighing ${name.text}`;
  const found = rig.scope.findings.length;
  const lines = sortLines(line, what, rig);
  const scale = readScale(lines.scales, what, rig);
  const state = isCaseOpen(read, lines) ? undefined : readCaseOf(read, what, rig);
  const passesRead = [
    readPass({ line, place: { ...coupledPlace(rig), head: what }, lines: lines.readings, state, scale }, rig),
    ...lines.passes.map((pass) => readPassLine(pass, state, scale, rig)),
  ];
  const passes = withinReason(
    passesRead.flatMap(({ pass }) => pass ?? []),
    what,
    rig,
  );
  if (passes.length === 0) {
    const isEmpty = (statement.block?.statements.length ?? 0) === lines.scales.length;
    // A scale that took what is behind it for its own (`scale 20  total 2400 kg`) has been told already.
    if (isEmpty && !statement.broken && rig.scope.findings.length === found) {
      const example = `${rig.units.at(-1)?.name ?? 'Hauler'}.axles 1920 kg`;
      report(rig.scope, 'missing-part', { what: `The ${what}`, part: 'its readings', example }, locate(line, name));
    }
    return undefined;
  }
  return {
    name: name.text,
    scale,
    passes,
    complete: rig.scope.findings.length === found && !isBroken(statement),
    impossible: passesRead.flatMap(({ impossible }) => impossible),
    location: locate(line, name),
    ...(state?.name === undefined ? {} : { case: state.name }),
    ...(read.text ? { title: read.text.value } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
  };
}

/** The passes up to the most readings that are reconciled; that there are more is reported. */
function withinReason(passes: readonly PassModel[], what: string, { scope }: WeighedRig): readonly PassModel[] {
  let count = 0;
  const kept = passes.filter(({ readings }) => {
    count += readings.length;
    return count <= MOST_READINGS;
  });
  const beyond = passes[kept.length];
  if (beyond !== undefined) {
    const accepted = `up to ${MOST_READINGS} readings`;
    report(scope, 'unexpected-part', { part: 'further pass', head: what, accepted }, beyond.location);
  }
  return kept;
}

/** Whether the syntax of a statement, or of what is in its block, is damaged. */
function isBroken({ broken, block }: Statement): boolean {
  return broken === true || (block?.statements ?? []).some(isBroken);
}

interface WeighingLines {
  readonly readings: readonly Line[];
  readonly passes: readonly ReadStatement[];
  readonly scales: readonly ReadStatement[];
}

function sortLines(header: Line, what: string, { scope }: WeighedRig): WeighingLines {
  const readings: Line[] = [];
  const passes: ReadStatement[] = [];
  const scales: ReadStatement[] = [];
  for (const statement of header.statement.block?.statements ?? []) {
    const line: Line = { ...header, statement };
    const spec = statement.subject === undefined ? specOf('weighing', statement.head.text) : undefined;
    if (spec === undefined) {
      // What declares something else is no reading: `tank fresh 95 L`.
      if (statement.name !== undefined) resolveSpec(line, 'weighing', what, scope);
      else readings.push(line);
    } else if (spec.block === 'pass') passes.push(readStatement(line, spec, scope));
    else scales.push(readStatement(line, spec, scope));
  }
  return { readings, passes, scales };
}

/** Whether a slip leaves its case to its passes, each of which names one. */
function isCaseOpen(read: ReadStatement, { readings, passes }: WeighingLines): boolean {
  const isNamed = (pass: ReadStatement) => pass.names.has('in');
  return !isNamed(read) && readings.length === 0 && passes.length > 0 && passes.every(isNamed);
}

/** The pass of a `coupled`, `solo` or `raised` line. */
function readPassLine(read: ReadStatement, state: CaseOf | undefined, scale: ScaleAccuracy, rig: WeighedRig): ReadPass {
  const { line } = read;
  const place = passPlace(read, rig);
  if (place === undefined) return { impossible: [] };
  const own = read.names.has('in') ? readCaseOf(read, place.words, rig) : state;
  const statements = line.statement.block?.statements ?? [];
  if (statements.length === 0 && !line.statement.broken) {
    const example = `${line.statement.head.text} ${place.example}`;
    const what = `What was weighed ${place.words}`;
    report(rig.scope, 'missing-part', { what, part: 'its readings', example }, locate(line, line.statement.head));
  }
  const lines = statements.map((statement): Line => ({ ...line, statement }));
  return readPass({ line, place, lines, state: own, scale }, rig);
}

interface PassLines {
  /** The slip, or the head of the pass. */
  readonly line: Line;
  readonly place: PassPlace;
  readonly lines: readonly Line[];
  readonly state: CaseOf | undefined;
  readonly scale: ScaleAccuracy;
}

interface ReadPass {
  /** Absent where there is nothing in it that can be used. */
  readonly pass?: PassModel;
  readonly impossible: readonly ReadingModel[];
}

function readPass({ line, place, lines, state, scale }: PassLines, rig: WeighedRig): ReadPass {
  const readings = readReadings(lines, place, scale, rig);
  const impossible = reportImpossible(readings, place, rig.scope);
  if (readings.length === 0 || state === undefined) return { impossible };
  const { kind, unit, raised } = place;
  const { statement } = line;
  const pass: PassModel = {
    kind,
    readings,
    location: locate(line, statement.name ?? statement.head),
    ...(unit === undefined ? {} : { unit }),
    ...(raised === undefined ? {} : { raised }),
    ...(state.name === undefined ? {} : { case: state.name }),
  };
  return { pass, impossible };
}
