import { type Choice, type Extreme, findExtremes } from '../../mechanics/envelope.ts';
import type { Dimension } from '../../units/dimension.ts';
import type { MotionLoads } from '../state.ts';
import { figureOf, figureOfSum, type QuantityFigure } from './figures.ts';
import type { Reach } from './reach.ts';

/** One end of what a quantity can be. */
export interface RangeEnd {
  /** SI. */
  readonly value: number;
  /** What every mass is where the quantity takes that value, by index of the masses of the reach; see `exact`. */
  readonly witness: readonly Choice[];
}

/** Between what a quantity lies in all states of a reach. */
export interface QuantityRange {
  readonly name: string;
  readonly dimension: Dimension;
  readonly least: RangeEnd;
  readonly most: RangeEnd;
  /**
   * True where both ends are taken by states of their own. False where the least is a bound only: a quantity without sign
   * that can tilt to either side is 0 in between, unless the states that are looked at leap over it.
   */
  readonly exact: boolean;
}

/** Which masses a range is looked for among. */
export type Among = 'free' | 'toleranced';

/** The exact range of a quantity over a reach, in one motion; undefined where it is no load or ratio of loads, or has no bounds. */
export function rangeOf(
  reach: Reach,
  loads: MotionLoads,
  name: string,
  among: Among = 'free',
): QuantityRange | undefined {
  const found = figureOf(reach.result.rig, loads, name);
  return found && rangeOfFigure(reach, found, name, among);
}

/** The exact range of a sum of loads or masses over a reach; undefined where one of the names is neither. */
export function rangeOfSum(reach: Reach, loads: MotionLoads, names: readonly string[]): QuantityRange | undefined {
  const found = figureOfSum(reach.result.rig, loads, names);
  return found && rangeOfFigure(reach, found, names.join(' + '), 'free');
}

function rangeOfFigure(reach: Reach, found: QuantityFigure, name: string, among: Among): QuantityRange | undefined {
  const extremes = findExtremes(found.figure, reach[among]);
  if (extremes === undefined) return undefined;
  const { scale, offset, absolute, dimension } = found;
  const end = ({ value, witness }: Extreme): RangeEnd => ({ value: offset + scale * value, witness });
  const [a, b] = [end(extremes.least), end(extremes.most)];
  const [least, most] = a.value <= b.value ? [a, b] : [b, a];
  if (!absolute) return { name, dimension, least, most, exact: true };
  const [near, far] = Math.abs(least.value) <= Math.abs(most.value) ? [least, most] : [most, least];
  const straddles = least.value < 0 && most.value > 0;
  return {
    name,
    dimension,
    least: { ...near, value: straddles ? 0 : Math.abs(near.value) },
    most: { ...far, value: Math.abs(far.value) },
    exact: !straddles,
  };
}
