import type { Reference, Value } from '../../syntax/tree.ts';
import { capital, readMeasured } from '../measured.ts';
import { locate, report } from '../scope.ts';
import { type Axis, stepOf } from './directions.ts';
import { contextOf, type UnitDraft, type UnitEntry } from './draft.ts';

/** An extent `from … to … back`, m along an axis of the unit's frame, counted from its datum. */
export interface Extent {
  readonly axis: Axis;
  readonly least: number;
  readonly most: number;
  /** The named thing it is counted from; the unit's datum, or the group's place, where there is none. */
  readonly datum?: Reference;
  readonly value: Value;
}

/** Extents of a statement; a reversed or incomplete one is reported and left out. */
export function readExtents(draft: UnitDraft, entry: UnitEntry): readonly Extent[] {
  return (entry.read.keywords.get('from') ?? []).flatMap((value) => readExtent(draft, entry, value) ?? []);
}

function readExtent(draft: UnitDraft, entry: UnitEntry, value: Value): Extent | undefined {
  const what = `the extent of ${entry.read.what}`;
  const { direction, startDirection } = value;
  const lacks = (part: string, example: string): undefined => {
    report(draft.scope, 'missing-part', { what: capital(what), part, example }, locate(entry.line, value));
  };
  const wanted = { what, kinds: ['length'], sign: 'any', range: true } as const;
  const read = readMeasured(value, wanted, contextOf(draft, entry));
  if (read === undefined) return undefined;
  if (read.upTo === undefined) return lacks("its end ('to')", 'from 1900 mm to 2700 mm back');
  const step = direction && stepOf(direction.word.text);
  if (step === undefined) return lacks('a direction', 'from 1900 mm to 2700 mm back');
  const { datum } = direction ?? {};
  // The body is the frame that other things are placed in.
  if (datum !== undefined && entry.spec.keyword === 'body')
    return lacks("a direction from the unit's datum", 'from 880 mm to 5680 mm back');
  const start = startDirection === undefined ? step : stepOf(startDirection.text);
  if (start?.axis !== step.axis) return lacks('two ends along one line', 'from 900 mm ahead to 4450 mm back');
  // Counted in the direction of the last end.
  const from = start.sign * step.sign * read.value;
  // Where each end says its direction, their order says nothing.
  if (startDirection === undefined ? read.upTo <= from : read.upTo === from) {
    report(
      draft.scope,
      'range-reversed',
      { what: capital(what), from: `${round(from)} m`, to: `${round(read.upTo)} m` },
      locate(entry.line, value),
    );
    return undefined;
  }
  const ends = [step.sign * from, step.sign * read.upTo];
  return { axis: step.axis, least: Math.min(...ends), most: Math.max(...ends), value, ...(datum ? { datum } : {}) };
}

const round = (metres: number): number => Math.round(metres * 1e4) / 1e4;
