import { isTyreMarking, parseTyreMarking } from '../../catalogue/tyres.ts';
import type { Span, Text, Value } from '../../syntax/tree.ts';
import { formatMass } from '../../units/display.ts';
import { systemOf } from '../display-system.ts';
import { loneReference } from '../expressions.ts';
import { type ReadingContext, readCount, readMeasured } from '../measured.ts';
import type { Tyres } from '../model.ts';
import { resolveEntity } from '../names.ts';
import { assume, locate, report } from '../scope.ts';

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

/** Where tyres stand. */
export interface Fitting {
  /** Stated as two at each end of an axle. */
  readonly isTwin: boolean;
  /** Axles that share the tyres. */
  readonly axles: number;
}

/** Reads `4 x "195R14C 106/104Q"` or `4 x name`; without a count there is one, or two, at each end of each axle. */
export function readTyres(
  value: Value,
  pressures: StatedPressures,
  { isTwin, axles }: Fitting,
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
  const ends = 2 * axles;
  const count = first === undefined ? ends * (isTwin ? 2 : 1) : readCount(first, 'The number of tyres', context);
  const stated = readPressures(pressures, context);
  if (last === undefined || count === undefined) return undefined;
  // More tyres than ends of axles stand two by two, whether the file says so or not.
  const dual = isTwin || count > ends;
  if (count !== (dual ? 2 * ends : ends)) {
    report(scope, 'tyres-uneven', { count, axles, isTwin }, locate(line, first ?? value));
    return undefined;
  }
  const location = locate(line, value);
  if (last.kind === 'text') {
    const tyre = readMarking(last.text, dual, context);
    if (tyre !== undefined && dual) assumeTwinCapacity(tyre, context, last.text);
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
  const { tyre } = named;
  if (dual) assumeTwinCapacity(tyre, context, last);
  return { ...tyre, count, dual, location, ...(dual ? twinCapacity(tyre) : {}), ...stated };
}

/** The lower of what a tyre is stated to carry and what its marking says of twin fitting. */
function twinCapacity({ marking, capacity }: Pick<Tyres, 'marking' | 'capacity'>): Pick<Tyres, 'capacity'> {
  const parsed = parseTyreMarking(marking);
  const known = [capacity, isTyreMarking(parsed) ? parsed.loadDual : undefined].flatMap((each) => each ?? []);
  return known.length === 0 ? {} : { capacity: Math.min(...known) };
}

/** Notes that one of two tyres counts as if it stood alone, where neither its marking nor its maker's figure says less. */
function assumeTwinCapacity(
  { marking, capacity }: Pick<Tyres, 'marking' | 'capacity'>,
  { scope, line }: ReadingContext,
  span: Span,
): void {
  const parsed = parseTyreMarking(marking);
  if (!isTyreMarking(parsed) || parsed.loadDual !== undefined || capacity !== parsed.loadSingle) return;
  assume(
    scope,
    `capacity of ${marking} in twin fitting not stated: that of a single tyre, ${formatMass(parsed.loadSingle, systemOf(scope.declaration))}, taken`,
    'rule of the language: the marking has one load index; a tyre as one of two mostly carries less, see the tables of its maker',
    locate(line, span),
  );
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
