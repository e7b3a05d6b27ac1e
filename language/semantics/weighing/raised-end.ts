import {
  pitchOfRise,
  type RaisedSupport,
  standingGroup,
  type Tilt,
  tiltSupports,
} from '../../mechanics/weighing/tilt.ts';
import type { Reference } from '../../syntax/tree.ts';
import { formatLength } from '../../units/display.ts';
import type { ReadStatement } from '../arguments.ts';
import { toUnit } from '../combination.ts';
import { systemOf } from '../display-system.ts';
import { readMeasured } from '../measured.ts';
import type { UnitModel } from '../model.ts';
import { reportUnknown } from '../names.ts';
import { locate, report } from '../scope.ts';
import type { WeighedRig } from './weighed-rig.ts';
import type { RaisedEnd } from './weighing-model.ts';

/** Steeper than this nobody raises a unit by an axle, rad: 45°. */
const STEEPEST = Math.PI / 4;

/** Wheel centres of vehicles and trailers lie no higher, m. */
const LARGEST_RADIUS = 1.5;

interface EndOfUnit {
  readonly unit: UnitModel;
  readonly support: string;
  readonly reference: Reference;
}

/** Reads a `raised` line; what is missing, or cannot be computed, is reported and gives undefined. */
export function readRaisedEnd(read: ReadStatement, end: EndOfUnit, rig: WeighedRig): RaisedEnd | undefined {
  const { line } = read;
  const { scope, namesFor } = rig;
  const { unit, support, reference } = end;
  const what = `${unit.name}.${support}`;
  if (standingSupport(unit, support) === undefined) {
    reportEnd(read, end, rig);
    return undefined;
  }
  const context = { scope, line, names: namesFor(line) };
  const [value] = read.values;
  const [radiusValue] = read.keywords.get('wheel_radius') ?? [];
  if (value === undefined || radiusValue === undefined) {
    if (!line.statement.broken) {
      const part =
        value === undefined ? 'how far it was raised: an angle or a height' : 'the height of its wheel centres';
      const example = `raised ${what} 12 deg, wheel_radius 340 mm { … }`;
      report(scope, 'missing-part', { what: `'raised ${what}'`, part, example }, locate(line, reference));
    }
    return undefined;
  }
  const raised = `how far ${what} was raised`;
  const measured = readMeasured(value, { what: raised, kinds: ['angle', 'length'], sign: 'positive' }, context);
  const radius = readMeasured(
    radiusValue,
    { what: `the wheel radius of ${unit.name}`, kinds: ['length'], sign: 'positive' },
    context,
  );
  if (measured === undefined || radius === undefined) return undefined;
  if (radius.value > LARGEST_RADIUS) {
    const found = line.declaration.text.slice(radiusValue.start, radiusValue.end);
    const wanted = `up to ${formatLength(LARGEST_RADIUS, systemOf(line.declaration))}`;
    report(
      scope,
      'out-of-range',
      { what: `The wheel radius of ${unit.name}`, wanted, found },
      locate(line, radiusValue),
    );
    return undefined;
  }
  const level = tiltOf(unit, { support, pitch: 0, wheelRadius: radius.value });
  const pitch =
    measured.kind === 'angle' ? measured.value : level && pitchOfRise(level.standing, level.raised, measured.value);
  if (pitch === undefined || pitch > STEEPEST) {
    const found = context.line.declaration.text.slice(value.start, value.end);
    const wanted = 'an angle up to 45 deg, or a height that gives one';
    report(scope, 'out-of-range', { what: `How far ${what} was raised`, wanted, found }, locate(line, value));
    return undefined;
  }
  return { support, pitch, wheelRadius: radius.value };
}

function reportEnd(read: ReadStatement, { unit, support, reference }: EndOfUnit, { scope }: WeighedRig): void {
  const { line } = read;
  const ends = [...(unit.coupling === undefined ? [] : ['coupling']), ...unit.groups.map(({ name }) => name)];
  if (!ends.includes(support)) {
    const names = ends.map((end) => `${unit.name}.${end}`);
    reportUnknown(scope, line, reference, `end of ${unit.name} (${names.join(', ')})`, names);
    return;
  }
  const can = ends.filter((end) => standingSupport(unit, end) !== undefined).map((end) => `${unit.name}.${end}`);
  report(scope, 'end-not-raised', { end: `${unit.name}.${support}`, can }, locate(line, reference));
}

/** The support that a name is; undefined for the name of none. */
function supportOf({ groups }: UnitModel, name: string): RaisedSupport | undefined {
  if (name === 'coupling') return name;
  const index = groups.findIndex((group) => group.name === name);
  return index < 0 ? undefined : index;
}

/** The geometry of a unit with an end raised; undefined where that end cannot be raised. */
export function tiltOf(unit: UnitModel, { support, pitch, wheelRadius }: RaisedEnd): Tilt | undefined {
  const raised = supportOf(unit, support);
  const supports = raised === undefined ? undefined : tiltSupports(toUnit(unit), raised, wheelRadius);
  return supports && { ...supports, pitch };
}

/** Name of the axles on which a unit stands while an end is raised; undefined where that end cannot be raised. */
export function standingSupport(unit: UnitModel, end: string): string | undefined {
  const raised = supportOf(unit, end);
  const standing = raised === undefined ? undefined : standingGroup(toUnit(unit), raised);
  return standing === undefined ? undefined : unit.groups[standing]?.name;
}
