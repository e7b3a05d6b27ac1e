import { isTyreMarking, parseTyreMarking } from '../../catalogue/tyres.ts';
import type { Text, Value } from '../../syntax/tree.ts';
import { loneReference } from '../expressions.ts';
import { type ReadingContext, readCount, readMeasured } from '../measured.ts';
import type { Tyres } from '../model.ts';
import { resolveEntity } from '../names.ts';
import { locate, report } from '../scope.ts';

/** Reads `4 x "195R14C 106/104Q"` or `4 x name`; without a count there are `usual` tyres. */
export function readTyres(
  value: Value,
  pressure: Value | undefined,
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
  const stated =
    pressure && readMeasured(pressure, { what: 'the tyre pressure', kinds: ['pressure'], sign: 'positive' }, context);
  if (last === undefined || count === undefined) return undefined;
  const location = locate(line, value);
  if (last.kind === 'text') {
    const tyre = readMarking(last.text, dual, context);
    return tyre && { ...tyre, count, dual, location, ...(stated ? { pressure: stated.value } : {}) };
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
    ...(stated ? { pressure: stated.value } : {}),
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
