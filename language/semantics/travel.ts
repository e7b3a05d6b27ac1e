import { STANDARD_GRAVITY } from '../mechanics/combination.ts';
import { ACCELERATION } from '../units/dimension.ts';
import { formatQuantity } from '../units/display.ts';
import type { ReadStatement } from './arguments.ts';
import { type ReadingContext, readMeasured } from './measured.ts';
import type { Travel } from './model.ts';
import { locate, report } from './scope.ts';

/** Grades beyond this are no roads; speeds beyond it no rigs. */
const STEEPEST = 1;
const FASTEST = 1000 / 3.6;
/** m/s²; tyres on dry roads give no more than the first, nothing on roads more than the second. Common practice, no source. */
const HARDEST_USUAL = 0.8 * STANDARD_GRAVITY;
const HARDEST = 15;

/** Reads `travel 100 km/h, grades -8 % to 6 %, braking 3 m/s²`. */
export function readTravel(read: ReadStatement, context: ReadingContext): Travel | undefined {
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
  const braking = readBraking(read, context);
  return {
    down: Math.min(0, ...ends),
    up: Math.max(0, ...ends),
    location: locate(line, line.statement.head),
    ...(speed ? { speed: speed.value } : {}),
    ...(braking === undefined ? {} : { braking }),
  };
}

/** The braking, m/s²; undefined where there is none, or none that a rig can brake with. */
function readBraking(read: ReadStatement, context: ReadingContext): number | undefined {
  const { scope, line } = context;
  const value = read.keywords.get('braking')?.[0];
  const braking =
    value && readMeasured(value, { what: 'the braking', kinds: ['acceleration'], sign: 'not negative' }, context);
  if (value === undefined || braking === undefined) return undefined;
  const show = (size: number) =>
    formatQuantity({ value: size, dimension: ACCELERATION }, braking.unit, { significant: 3 });
  const found = show(braking.value);
  if (braking.value > HARDEST) {
    report(
      scope,
      'out-of-range',
      { what: 'The braking', wanted: `at most ${show(HARDEST)}`, found },
      locate(line, value),
    );
    return undefined;
  }
  if (braking.value > HARDEST_USUAL) {
    report(scope, 'braking-unusual', { found, usual: show(HARDEST_USUAL) }, locate(line, value));
  }
  return braking.value;
}
