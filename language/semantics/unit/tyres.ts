import { isTyreMarking, parseTyreMarking } from '../../catalogue/tyres.ts';
import type { Text, Value } from '../../syntax/tree.ts';
import { loneReference } from '../expressions.ts';
import { type ReadingContext, readCount, readMeasured } from '../measured.ts';
import type { Tyres } from '../model.ts';
import { resolveEntity } from '../names.ts';
import { locate, report } from '../scope.ts';

/** What a line says of the pressure of its tyres. */
export interface StatedPressures {
  readonly inflation: Value | undefined;
  readonly reference: Value | undefined;
}

/** Pressures in Pa, those that are stated and can be read. */
export function readPressures(
  { inflation, reference }: StatedPressures,
  context: ReadingContext,
): Pick<Tyres, 'pressure' | 'referencePressure'> {
  const read = (value: Value | undefined, what: string) =>
    value && readMeasured(value, { what, kinds: ['pressure'], sign: 'positive' }, context);
  const pressure = read(inflation, 'the tyre pressure');
  const rated = read(reference, 'the reference pressure of the tyre');
  return { ...(pressure ? { pressure: pressure.value } : {}), ...(rated ? { referencePressure: rated.value } : {}) };
}

/** Reads `4 x "195R14C 106/104Q"` or `4 x name`; without a count there are `usual` tyres. */
export function readTyres(
  value: Value,
  pressures: StatedPressures,
  dual: boolean,
  usual: number,
  context: ReadingContext,
): Tyres | undefined {
  const { scope, line } = context;
  const last = value.factors[value.factors.length - 1];
  const first = value.factors.length > 1 ? value.factors[0] : undefined;
  const extra = value.factors.length > 2 ? value.factors[1] : (value.upTo ?? value.tolerance);
  if (extra !== undefined) {
    const accepted = 'a number and a marking';
    report(scope, 'unexpected-part', { part: 'further figure', head: 'tyres', accepted }, locate(line, extra));
    return undefined;
  }
  const count = first === undefined ? usual : readCount(first, 'The number of tyres', context);
  const stated = readPressures(pressures, context);
  if (last === undefined || count === undefined) return undefined;
  const location = locate(line, value);
  if (last.kind === 'text') {
    const tyre = readMarking(last.text, dual, context);
    return tyre && { ...tyre, count, dual, location, ...stated };
  }
  const reference = loneReference(last);
  if (reference === undefined) {
    report(
      scope,
      'wrong-kind',
      { name: 'This', found: 'a quantity', wanted: 'a tyre marking between quotes or the name of a tyre' },
      locate(line, last),
    );
    return undefined;
  }
  const named = resolveEntity(scope, line, reference, 'tyre', 'tyre');
  if (named === undefined) return undefined;
  const parsed = parseTyreMarking(named.tyre.marking);
  const capacity = isTyreMarking(parsed) && dual ? (parsed.loadDual ?? named.tyre.capacity) : named.tyre.capacity;
  return {
    ...named.tyre,
    count,
    dual,
    location,
    ...(capacity !== undefined ? { capacity } : {}),
    ...stated,
  };
}

/** Load capacity and speed of a marking; an unreadable one is reported. */
export function readMarking(
  text: Text,
  dual: boolean,
  { scope, line }: ReadingContext,
): Pick<Tyres, 'marking' | 'capacity' | 'speed'> | undefined {
  const marking = parseTyreMarking(text.value);
  if (!isTyreMarking(marking)) {
    report(
      scope,
      'unreadable-marking',
      {
        marking: text.value,
        problem: `expected ${marking.expected}${marking.found ? `, found '${marking.found}'` : ''}`,
      },
      locate(line, text),
    );
    return undefined;
  }
  const capacity = dual ? (marking.loadDual ?? marking.loadSingle) : marking.loadSingle;
  return { marking: text.value, capacity, speed: Math.round(marking.maximumSpeed * 3.6) };
}
