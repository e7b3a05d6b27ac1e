import { deviationOfResolution } from '../../mechanics/weighing/observation.ts';
import { formatMass } from '../../units/display.ts';
import { type ReadStatement, readStatement, resolveSpec } from '../arguments.ts';
import { readMeasured } from '../measured.ts';
import { assume, type Line, locate, report } from '../scope.ts';
import { specOf } from '../specs.ts';
import { coupledPlace, type PassPlace, passPlace } from './pass-place.ts';
import { readReadings } from './read-readings.ts';
import { reportImpossible } from './sums.ts';
import { type CaseOf, readCaseOf, type WeighedRig } from './weighed-rig.ts';
import type { PassModel, ScaleAccuracy, WeighingModel } from './weighing-model.ts';

/**
 * Division taken where a slip says nothing of its scale, kg: usual of public weighbridges (common practice, no source).
 */
const USUAL_DIVISION = 20;

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
  const lines = sortLines(line, what, rig);
  const scale = readScale(lines, what, line, rig);
  const state = readCaseOf(read, what, rig);
  const passes = [
    ...readPass(line, coupledPlace(rig), lines.readings, state, scale, rig),
    ...lines.passes.flatMap((pass) => readPassLine(pass, state, scale, rig)),
  ];
  if (passes.length === 0) {
    const isEmpty = (statement.block?.statements.length ?? 0) === lines.scales.length;
    if (isEmpty && !statement.broken) {
      const example = `${rig.units.at(-1)?.name ?? 'Hauler'}.axles 1920 kg`;
      report(rig.scope, 'missing-part', { what: `The ${what}`, part: 'its readings', example }, locate(line, name));
    }
    return undefined;
  }
  return {
    name: name.text,
    scale,
    passes,
    location: locate(line, name),
    ...(state?.name === undefined ? {} : { case: state.name }),
    ...(read.text ? { title: read.text.value } : {}),
    ...(statement.documentation ? { documentation: statement.documentation } : {}),
  };
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

/** What the slip says of its scale; the usual division, listed as assumed, where it says nothing. */
function readScale({ scales }: WeighingLines, what: string, header: Line, rig: WeighedRig): ScaleAccuracy {
  const { scope, namesFor } = rig;
  const [read, second] = scales;
  if (second !== undefined) {
    const part = `what its scale shows ('${second.spec.keyword}')`;
    report(scope, 'repeated-part', { part, head: what }, locate(second.line, second.line.statement.head));
  }
  if (read !== undefined) {
    const { line, spec } = read;
    const [value] = read.values;
    if (value === undefined && !line.statement.broken) {
      const example = `${spec.keyword} ${spec.keyword === 'scale' ? '20' : '10'} kg`;
      report(
        scope,
        'missing-part',
        { what: `'${spec.keyword}'`, part: 'its mass', example },
        locate(line, line.statement.head),
      );
    }
    const wanted = {
      what: spec.keyword === 'scale' ? 'the division of the scale' : 'the accuracy of the scale',
      kinds: ['mass'],
      sign: 'positive',
    } as const;
    const measured = value && readMeasured(value, wanted, { scope, line, names: namesFor(line) });
    if (measured !== undefined && spec.keyword === 'accuracy')
      return { kind: 'accuracy', value: measured.value, deviation: measured.value };
    if (measured !== undefined)
      return { kind: 'division', value: measured.value, deviation: deviationOfResolution(measured.value) };
  } else {
    assume(
      scope,
      `${what} does not say what its scale shows: a division of ${formatMass(USUAL_DIVISION)} taken`,
      'usual of public weighbridges (common practice, no source)',
      locate(header, header.statement.name ?? header.statement.head),
    );
  }
  return { kind: 'assumed', value: USUAL_DIVISION, deviation: deviationOfResolution(USUAL_DIVISION) };
}

/** The pass of a `solo` or `raised` line. */
function readPassLine(
  read: ReadStatement,
  state: CaseOf | undefined,
  scale: ScaleAccuracy,
  rig: WeighedRig,
): readonly PassModel[] {
  const { line } = read;
  const place = passPlace(read, rig);
  if (place === undefined) return [];
  const own = read.names.has('in') ? readCaseOf(read, place.words, rig) : state;
  const statements = line.statement.block?.statements ?? [];
  if (statements.length === 0 && !line.statement.broken) {
    const example = `${line.statement.head.text} ${place.example}`;
    const what = `What was weighed ${place.words}`;
    report(rig.scope, 'missing-part', { what, part: 'its readings', example }, locate(line, line.statement.head));
  }
  const lines = statements.map((statement): Line => ({ ...line, statement }));
  return readPass(line, place, lines, own, scale, rig);
}

function readPass(
  line: Line,
  place: PassPlace,
  lines: readonly Line[],
  state: CaseOf | undefined,
  scale: ScaleAccuracy,
  rig: WeighedRig,
): readonly PassModel[] {
  const readings = readReadings(lines, place, scale, rig);
  reportImpossible(readings, place, rig.scope);
  if (readings.length === 0 || state === undefined) return [];
  const { kind, unit, raised } = place;
  const { statement } = line;
  return [
    {
      kind,
      readings,
      location: locate(line, kind === 'coupled' ? (statement.name ?? statement.head) : statement.head),
      ...(unit === undefined ? {} : { unit }),
      ...(raised === undefined ? {} : { raised }),
      ...(state.name === undefined ? {} : { case: state.name }),
    },
  ];
}
