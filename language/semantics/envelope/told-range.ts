import { type Choice, type Figure, valueAt } from '../../mechanics/envelope.ts';
import { figureAt } from '../../mechanics/uncertainty.ts';
import type { MotionLoads, StateResult } from '../state.ts';
import { figureOf } from './figures.ts';
import type { QuantityRange, RangeEnd } from './ranges.ts';
import type { Reach } from './reach.ts';
import { type Witness, witnessOf } from './witness.ts';

/** A range with the states that take its ends, and what the named cases take of it. */
export interface ToldRange {
  readonly range: QuantityRange;
  /** Undefined where no state is known that takes the end: it is a bound then. */
  readonly least: Witness | undefined;
  readonly most: Witness | undefined;
  /** The least and greatest value of the named cases; undefined where none of them has the quantity. */
  readonly named: { readonly least: number; readonly most: number } | undefined;
}

/** Tells a range over a reach (among what is free, tolerances apart); each end by the named state that it differs least from. */
export function tellRange(
  reach: Reach,
  range: QuantityRange,
  bases: readonly StateResult[],
  loads: MotionLoads,
): ToldRange {
  const named = bases.flatMap((state) => state.quantities.get(range.name)?.value ?? []);
  return {
    range,
    least: range.exact ? tellEnd(reach, range, range.least, bases, loads) : undefined,
    most: tellEnd(reach, range, range.most, bases, loads),
    named: named.length === 0 ? undefined : { least: Math.min(...named), most: Math.max(...named) },
  };
}

function tellEnd(
  reach: Reach,
  { name }: QuantityRange,
  { value, witness }: RangeEnd,
  bases: readonly StateResult[],
  loads: MotionLoads,
): Witness | undefined {
  const found = figureOf(reach.result.rig, loads, name);
  if (found === undefined) return undefined;
  const effect = effectIn(found.figure, witness);
  let nearest: Witness | undefined;
  for (const { case: base } of byDistance(value, name, bases)) {
    const told = witnessOf(reach, reach.free, witness, base, loads, effect);
    if (nearest === undefined || told.differences.length < nearest.differences.length) nearest = told;
  }
  return nearest;
}

/** What a choice in place of another does to a figure about a state: in kg of the load, or of the upper load of a ratio. */
function effectIn(figure: Figure, witness: readonly Choice[]): (chosen: Choice, instead: Choice) => number {
  const { numerator, denominator } = figure;
  const { above, below } = figureAt(figure, witness);
  const change = (load: Figure['numerator'], chosen: Choice, instead: Choice) =>
    valueAt(load, [chosen]) - valueAt(load, [instead]);
  return (chosen, instead) => {
    const upper = change(numerator, chosen, instead);
    return denominator === undefined ? upper : upper - (above / below) * change(denominator, chosen, instead);
  };
}

/** The named states in which the quantity is nearest to a value first. */
function byDistance(value: number, name: string, bases: readonly StateResult[]): readonly StateResult[] {
  const distance = (state: StateResult) => Math.abs((state.quantities.get(name)?.value ?? Number.MAX_VALUE) - value);
  return [...bases].sort((a, b) => distance(a) - distance(b));
}
