import type { ReadStatement } from './arguments.ts';
import { type ReadingContext, readMeasured } from './measured.ts';
import type { Travel } from './model.ts';
import { locate, report } from './scope.ts';

/** Grades beyond this are no roads; speeds beyond it no rigs. */
const STEEPEST = 1;
const FASTEST = 1000 / 3.6;

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
