import type { RigModel } from '../model.ts';
import { createRecall } from '../recall.ts';
import { resultOf } from '../results.ts';
import type { MotionLoads, RigResult } from '../state.ts';
import { figureOf } from './figures.ts';
import { type Among, type QuantityRange, rangeOf, rangeOfSum } from './ranges.ts';
import { casesOf, type Reach, reachOfCase, wholeReach } from './reach.ts';

/** Everything that a rig can be, and between what its quantities then lie. */
export interface Envelope {
  readonly result: RigResult;
  readonly whole: Reach;
  /** By case, in their order. */
  readonly cases: readonly Reach[];
  /** The range of a quantity over one of these reaches, on level ground; each is computed once. See `rangeOf`. */
  readonly range: (reach: Reach, name: string, among?: Among) => QuantityRange | undefined;
  /** Whether a quantity is a ratio without bounds over one of these reaches: the load that divides can be nothing. */
  readonly isUnbounded: (reach: Reach, name: string) => boolean;
  /** The range of a sum of loads or masses, tolerances apart. See `rangeOfSum`. */
  readonly rangeOfSum: (reach: Reach, names: readonly string[]) => QuantityRange | undefined;
}

/** The envelope of a rig; undefined for one that has no loads. */
export const envelopeOf = createRecall((rig: RigModel): Envelope | undefined => {
  const result = resultOf(rig);
  const [loads] = 'problem' in result ? [] : result.motions;
  if ('problem' in result || loads === undefined) return undefined;
  const ranges = new Map<Reach, Map<string, QuantityRange | undefined>>();
  const range: Envelope['range'] = (reach, name, among = 'free') => remembered(ranges, reach, loads, name, among);
  return {
    result,
    whole: wholeReach(result),
    cases: casesOf(result).map((state) => reachOfCase(result, state)),
    rangeOfSum: (reach, names) => rangeOfSum(reach, loads, names),
    range,
    isUnbounded: (reach, name) => figureOf(rig, loads, name) !== undefined && range(reach, name) === undefined,
  };
});

function remembered(
  ranges: Map<Reach, Map<string, QuantityRange | undefined>>,
  reach: Reach,
  loads: MotionLoads,
  name: string,
  among: Among,
): QuantityRange | undefined {
  const own = ranges.get(reach) ?? new Map<string, QuantityRange | undefined>();
  ranges.set(reach, own);
  const key = `${among} ${name}`;
  if (!own.has(key)) own.set(key, rangeOf(reach, loads, name, among));
  return own.get(key);
}
