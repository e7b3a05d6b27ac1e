import { type Envelope, envelopeOf } from '../semantics/envelope/envelope.ts';
import type { QuantityRange } from '../semantics/envelope/ranges.ts';
import type { Reach } from '../semantics/envelope/reach.ts';
import type { RigResult, StateResult } from '../semantics/state.ts';
import { MASS, sameDimension } from '../units/dimension.ts';
import { type DisplaySystem, formatMass } from '../units/display.ts';
import { caseTable, type Row } from './tables.ts';

/** What figures are shown over: everything that is reachable, or the ranges that a case states. */
export interface ShownReach {
  readonly envelope: Envelope;
  readonly reach: Reach;
}

/** Everything reachable; with the name of a case that case, undefined where its levels are no ranges. */
export function shownReach({ rig }: RigResult, caseName?: string): ShownReach | undefined {
  const envelope = envelopeOf(rig);
  if (envelope === undefined) return undefined;
  if (caseName === undefined) return { envelope, reach: envelope.whole };
  const reach = envelope.cases.find((each) => each.case?.name === caseName);
  return reach?.varies ? { envelope, reach } : undefined;
}

/** `145 – 237 kg`, with the unit once where both ends have the same; one figure where they read alike. */
export function rangeText(least: string, most: string): string {
  if (least === most) return least;
  const [a, b] = [least, most].map(splitUnit);
  return a === undefined || b === undefined || a.unit !== b.unit ? `${least} – ${most}` : `${a.number} – ${most}`;
}

/** A number as it is shown, with what stands behind it. */
function splitUnit(text: string): { readonly number: string; readonly unit: string } | undefined {
  const [, number, unit] = /^(-?[\d.,\s]*\d)(.*)$/s.exec(text) ?? [];
  return number === undefined || unit === undefined ? undefined : { number, unit };
}

/** Between what a load or ratio lies; undefined for what is neither. */
export function reachRange({ envelope, reach }: ShownReach, quantities: readonly string[]): QuantityRange | undefined {
  const [name, ...others] = quantities;
  if (name === undefined) return undefined;
  return others.length === 0 ? envelope.range(reach, name) : envelope.rangeOfSum(reach, quantities);
}

/** kg; a tolerance that does less is not shown. */
const LEAST_TOLERANCE = 0.05;

/** What all tolerances at their worst add to a range of masses at its ends, kg; 0 where that is nothing to speak of. */
function worstTolerance({ envelope, reach }: ShownReach, quantities: readonly string[], free: QuantityRange): number {
  const [name, ...others] = quantities;
  if (name === undefined || others.length > 0 || !reach.hasTolerances) return 0;
  if (!sameDimension(free.dimension, MASS)) return 0;
  const all = envelope.range(reach, name, 'toleranced');
  if (all === undefined) return 0;
  const adds = Math.max(all.most.value - free.most.value, free.least.value - all.least.value);
  return adds >= LEAST_TOLERANCE ? adds : 0;
}

interface ReachCell {
  readonly text: string;
  readonly varies: boolean;
  readonly hasTolerance: boolean;
  readonly isUnbounded: boolean;
}

const UNBOUNDED: ReachCell = { text: 'no bounds', varies: true, hasTolerance: false, isUnbounded: true };

function cellOf(shown: ShownReach, row: Row, state: StateResult, system: DisplaySystem): ReachCell | undefined {
  const range = row.quantities && reachRange(shown, row.quantities);
  if (row.quantities === undefined) return undefined;
  if (range === undefined) return isUnbounded(shown, row.quantities) ? UNBOUNDED : undefined;
  const [least, most] = [range.least.value, range.most.value].map((value) => row.format(value, state));
  if (least === undefined || most === undefined) return undefined;
  const tolerance = worstTolerance(shown, row.quantities, range);
  const text = range.exact ? rangeText(least, most) : `at most ${most}`;
  return {
    text: tolerance > 0 ? `${text} ± ${formatMass(tolerance, system)}` : text,
    varies: least !== most,
    hasTolerance: tolerance > 0,
    isUnbounded: false,
  };
}

function isUnbounded({ envelope, reach }: ShownReach, [name, ...others]: readonly string[]): boolean {
  return name !== undefined && others.length === 0 && envelope.isUnbounded(reach, name);
}

/** What a figure with tolerances is marked with below a table. */
const TOLERANCE_NOTE = '±: what the tolerances add where all of them are at their worst.';

/** What a ratio without bounds is marked with below a table. */
const UNBOUNDED_NOTE = 'No bounds: the load that divides can be nothing.';

/**
 * A table of cases with a column for what is reachable, where that is more than the cases show; the column comes before
 * those that the rows have behind their cases.
 */
export function reachTable(
  shown: ShownReach | undefined,
  states: readonly StateResult[],
  rows: readonly Row[],
  tailHeads: readonly string[],
  system: DisplaySystem,
  head?: string,
): string {
  const [state] = states;
  const cells = shown && state && rows.map((row) => cellOf(shown, row, state, system));
  if (!cells?.some((cell) => cell !== undefined && (cell.varies || cell.hasTolerance))) {
    return caseTable(states, rows, tailHeads, head);
  }
  const withReach = rows.map((row, index) => ({ ...row, tail: [cells[index]?.text ?? '', ...(row.tail ?? [])] }));
  const column = shown?.reach.case === undefined ? 'reachable' : 'in its ranges';
  const text = caseTable(states, withReach, [column, ...tailHeads], head);
  const notes = [
    ...(cells.some((cell) => cell?.hasTolerance) ? [TOLERANCE_NOTE] : []),
    ...(cells.some((cell) => cell?.isUnbounded) ? [UNBOUNDED_NOTE] : []),
  ];
  return [text, ...notes].join('\n\n');
}
